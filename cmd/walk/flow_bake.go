package main

import (
	"crypto/sha256"
	"encoding/hex"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/photo/phototest"
)

// recordABake writes a bake down on an empty journal, adds two photos as a phone
// makes them and drops two more on the window, pulls the plug, and finds it all again.
func recordABake(w *walk) {
	home := filepath.Join(w.dir, "home")
	pictures := filepath.Join(home, "Pictures")
	check(os.MkdirAll(pictures, 0o755))
	jpeg := phototest.JPEG(phototest.Scene(4032, 3024), phototest.EXIF{Orientation: 6})
	heic := must(os.ReadFile(filepath.Join(w.data, "photo", "phone.heic")))
	webp := must(os.ReadFile(filepath.Join(w.data, "photo", "lossy.webp")))
	png := phototest.PNG(phototest.Scene(640, 480))
	noPicture := []byte("this is no picture")
	for name, b := range map[string][]byte{
		"loaf.jpg": jpeg, "crumb.heic": heic, "notes.jpg": noPicture,
		"dropped/the jar.webp": webp, "dropped/croûte.png": png, "dropped/shopping list.png": noPicture,
	} {
		path := filepath.Join(pictures, filepath.FromSlash(name))
		check(os.MkdirAll(filepath.Dir(path), 0o755))
		check(os.WriteFile(path, b, 0o644))
	}
	dropped := filepath.Join(pictures, "dropped")
	p, folder := w.program()
	p.home = home

	p.steps(
		p.startingAt(time.Date(2026, 3, 4, 8, 54, 0, 0, time.Local)),
		p.seeing("Your journal is empty"),
		p.picture("empty"),
		p.pressing("Write down a bake"),
		p.seeing("What went in"),
		p.typing("Walk loaf"),
		p.pressing("flour, water, salt, culture"),
		p.typing("Strong white"), p.keys("Tab"), p.typing("500"), p.keys("Return"),
		p.typing("Water"), p.keys("Tab"), p.typing("350"), p.keys("Return"),
		p.typing("Salt"), p.keys("Tab"), p.typing("10"), p.keys("Tab"),
		p.picture("what-went-in"),
		p.seeing("70"), // per cent of hydration, with the lines live
		p.keys("Escape"),
		p.pressing("Add photos"),
		p.seeing("loaf.jpg"),
		p.picture("picker"),
		p.pressing("loaf.jpg"), p.pressing("notes.jpg"), // the second is refused by name
		p.pressing("Add"),
		p.missing("chosen"),
		p.seeing("notes.jpg"),
		p.picture("refused"),
		p.keys("Escape"),
		func() { w.clip("file://" + filepath.Join(pictures, "crumb.heic")) },
		p.keys("ctrl+v"),
		p.counting("a caption", 2), // both pictures are in
		p.seeing("1 photo added"),
		func() {
			p.drop(760, 420, filepath.Join(dropped, "the jar.webp"),
				filepath.Join(dropped, "shopping list.png"), filepath.Join(dropped, "croûte.png"))
		},
		p.seeing("shopping list.png"), // refused by its name, like any other way in
		p.counting("a caption", 4),
		p.picture("dropped"),
		p.keys("Escape"),
		p.fillingIn("Dough weight, before baking"), p.typing("860"), p.keys("Tab"),
		p.typing("760"), p.keys("Tab"),
		p.seeing("11.6"), // per cent of bake loss
		p.picture("how-it-came-out"),
	)
	time.Sleep(time.Second) // what was typed is kept within a second
	p.kill()
	checkBake(folder, [][]byte{jpeg, heic}, [][]byte{webp, png})
	p.start()
	p.steps(
		p.keys("ctrl+3"),
		p.seeing("Walk loaf"),
		p.picture("found-again"),
		p.pressing("Walk loaf"),
		p.seeing("350"),
		p.showingPictures(4),
	)
	p.quit()
}

// showingPictures waits until so many thumbnails are drawn: a photo has hundreds of
// colours, an empty place one or two.
func (p *program) showingPictures(want int) gesture {
	return func() {
		for deadline := time.Now().Add(patience); ; pause() {
			things, img := p.things(), p.shot("all-there")
			drawn := 0
			for _, t := range things {
				if t.Kind == "kit.PhotoTile" && coloursIn(img, boxOf(t)) > 200 {
					drawn++
				}
			}
			if drawn == want {
				return
			}
			failIf(time.Now().After(deadline), "%d of %d pictures are drawn", drawn, want)
		}
	}
}

// coloursIn counts the colours of a part of a picture.
func coloursIn(img image.Image, r image.Rectangle) int {
	seen := map[color.Color]bool{}
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			seen[img.At(x, y)] = true
		}
	}
	return len(seen)
}

// checkBake looks into the journal that the killed program left: for the bake, and for
// its pictures, of which some were taken upright and came on their side.
func checkBake(folder string, onTheirSide, pictures [][]byte) {
	b := only[journal.Bake](folder)
	failIf(b.Name != "Walk loaf" || len(b.Ingredients) != 3, "the bake is kept as %+v", b)
	failIf(b.Outcome.BakeLoss() == nil, "the weights were not kept")
	photos := records[journal.Photo](folder)
	kept := map[string]*journal.Photo{}
	for _, ph := range photos {
		kept[ph.Hash] = ph
	}
	failIf(len(kept) != len(onTheirSide)+len(pictures), "%d pictures are kept", len(kept))
	for _, b := range slices.Concat(onTheirSide, pictures) {
		failIf(kept[hashOf(b)] == nil, "a picture of %d bytes was not kept byte for byte", len(b))
	}
	for _, b := range onTheirSide {
		ph := kept[hashOf(b)]
		failIf(ph.Height < ph.Width, "%s lies on its side: %d x %d", ph.Name, ph.Width, ph.Height)
	}
}

func hashOf(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

// clip puts text on the clipboard, as a file manager does.
func (w *walk) clip(text string) {
	c := w.command("xclip", "-selection", "clipboard", "-in")
	c.Stdin = strings.NewReader(text)
	check(c.Run())
}
