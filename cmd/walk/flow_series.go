package main

import (
	"errors"
	"fmt"
	"image"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"twinloaf/app/outline"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	curve "twinloaf/journal/jar"
	"twinloaf/journal/jar/jartest"
	"twinloaf/journal/plan"
)

// raced are the two jars of this walk, side by side in each picture: one rises fast, the
// other slowly.
func raced(start time.Time) []*jartest.Scene {
	const frames = 48
	fast := &jartest.Scene{Seed: 5, Frames: frames, Every: 5 * time.Minute, Start: start, Peak: 2.2, ToPeak: 150 * time.Minute, Noise: 2, Hand: true, Label: true}
	slow := &jartest.Scene{Seed: 6, Frames: frames, Every: 5 * time.Minute, Start: start, Peak: 1.7, ToPeak: 210 * time.Minute, Noise: 2, Reflections: true}
	return []*jartest.Scene{fast.Begin(), slow.Begin()}
}

// followARow drops a folder of pictures on a feeding, kills the program while it reads them,
// has it go on, draws the lines of both jars, corrects the surface on two pictures, and looks
// in the journal for what came of it.
func followARow(w *walk) {
	p, folder := w.program()
	home := filepath.Join(w.dir, "home")
	p.home = home
	check(os.Mkdir(home, 0o755))
	fed := time.Date(2026, 3, 2, 8, 0, 0, 0, time.Local)
	scenes := raced(fed.Add(2 * time.Minute))
	pictures := filepath.Join(w.dir, "stack of books")
	must((jartest.Folder{Dir: pictures, Scale: 4}).Write(scenes...))
	p.steps(
		p.startingAt(fed.AddDate(0, 0, -1)),
		p.keys("ctrl+2"), p.seeing("A culture is flour and water kept alive"), p.pressing("New culture"), p.pressing("what you call it"), p.typing("Harbour"), p.keys("ctrl+Return"), p.seeing("Harbour, day 1"),
		p.keys("ctrl+2"), p.seeing("New culture"), p.pressing("New culture"), p.pressing("what you call it"), p.typing("Gorse"), p.keys("ctrl+Return"), p.seeing("Gorse, day 1"),
		func() { p.setClock(fed) },
		p.keys("ctrl+2"), p.pressing("Harbour"), p.seeing("Harbour, day"), p.keys("g"), p.seeing("Fed Harbour"),
		p.keys("ctrl+2"), p.pressing("Gorse"), p.seeing("Gorse, day"), p.keys("g"), p.seeing("Fed Gorse"),
		func() { p.setClock(fed.Add(5 * time.Hour)) },
		p.keys("c"), p.seeing("Back to Gorse"), p.scrolling(20), p.seeing("must not be sealed"), p.picture("feeding"),
		func() { p.drop(760, 420, pictures) },
		p.seeing("48 pictures from"), p.picture("what-it-would-be"), p.keys("Return"),
		p.reading, p.picture("being-read"),
	)
	box := filepath.Join(w.dir, "box")
	must((jartest.Folder{Dir: box, Scale: 2}).Write(boxed(fed)))
	p.kill()
	halfRead(folder)
	putDough(folder, fed)
	p.start()
	p.steps(
		p.keys("ctrl+2"), p.pressing("Gorse"), p.seeing("Gorse, day"), p.keys("c"), p.seeing("Not all was read yet"), p.picture("half-read"),
		p.pressing("stack of books"), p.seeing("Do the lines lie right?"), p.seeing("48 pictures from"), p.missing("Stop"), p.settled("all-read"),
		p.dragLines(scenes[0].MarksBeside(0, 2)), p.keys("l"), p.seeing("Lines of the jar"), p.missing("Stop"), p.saying("Originals kept"), p.settled("lines-drawn"),
		p.keys("j"), p.seeing("What is in the other jar?"), p.picture("which-other"), p.pressing("Harbour, fed"),
		p.seeing("Do the lines lie right?"), p.dragLines(scenes[1].MarksBeside(1, 2)), p.keys("l"), p.seeing("Lines of the jar"), p.missing("Stop"), p.settled("two-jars"),
		p.keys("j"), p.seeing("Gorse:"),
		p.seeing("Picture 1 of"), p.keys("Down", "Down"), p.settled("before-correcting"), p.dragSurface(-12), p.seeing("as you drew it"), p.settled("corrected-once"),
		p.pressingFilm(0.8), p.settled("later"), p.dragSurface(9), p.seeing("as you drew it"), p.settled("corrected-twice"),
		p.keys("n"), p.settled("a-gap"),
		p.keys("x"), p.seeing("The heights, as a table (CSV)"), p.picture("what-to-save"),
		p.keys("2"), p.seeing("stack of books-film-1.png"), p.picture("save-film"), p.keys("Return"), p.seeing("Saved as"), p.missing("Saved as"),
		p.fillingIn("A known height"), p.typing("12"), p.keys("Return"), p.seeing("The lines are drawn"), p.settled("known-height"),
		p.dragKnown(knownAt), p.settled("known-height-dragged"),
		p.keys("l"), p.seeing("cm, give or take"), p.settled("as-lengths"),
		p.keys("Down"), p.seeing("Picture 11 of 48"), p.pressing("Keep the original of this picture ("), p.seeing("Keep all 44 others"), p.settled("original-kept"),
		p.keys("b"), p.seeing("Back to Gorse"), p.settled("feeding-after"),
		p.keys("ctrl+3"), p.pressing("Box loaf"), p.seeing("What went in"), p.settled("bake-before"),
		func() { p.drop(760, 420, box) }, p.seeing("What are these 24 pictures?"), p.picture("row-or-photos"), p.keys("Return"),
		p.seeing("24 pictures from"), p.keys("Return"), p.seeing("Do the lines lie right?"), p.missing("Stop"), p.settled("box-read"),
		p.keys("l"), p.seeing("at the end of the bulk"), p.saying("Originals kept"), p.settled("box-followed"),
		p.keys("b"), p.seeing("What went in"), p.settled("bake-after"),
		p.reaching("“box”, from"), p.picture("bulk-reached"), p.settled("bulk-after"),
	)
	p.quit()
	checkFilm(home)
	checkSeries(folder, scenes)
}

// boxed is a dough in its box, which has not risen as far as it would when its bulk ends.
func boxed(start time.Time) *jartest.Scene {
	return (&jartest.Scene{Seed: 12, Frames: 24, Every: 8 * time.Minute, Start: start, Peak: 2.0, ToPeak: 4 * time.Hour, Noise: 2}).Begin()
}

// putDough puts a bake into the journal whose bulk lasted as long as the pictures of its box.
func putDough(folder string, fed time.Time) {
	b := &journal.Bake{Name: "Box loaf", At: fed, Ingredients: []journal.Ingredient{{ID: "a", Role: formula.Flour, Name: "Strong white", Grams: 500}, {ID: "b", Role: formula.Water, Name: "Water", Grams: 350}, {ID: "c", Role: formula.Culture, Name: "Gorse", Grams: 100}},
		Steps: []journal.Step{{ID: "d", Kind: string(plan.Mix), At: fed.Add(-20 * time.Minute)}, {ID: "e", Kind: string(plan.Bulk), At: fed, End: fed.Add(190 * time.Minute)}}}
	changeJournal(folder, func(tx *journal.Tx) error { return journal.Put(tx, b) })
}

// checkFilm looks at the film that was saved: a picture of the whole row.
func checkFilm(home string) {
	all := must(filepath.Glob(filepath.Join(home, "*film-1.png")))
	failIf(len(all) != 1, "saved films: %q", all)
	img := readPNG(all[0])
	size := img.Bounds().Size()
	colours := coloursIn(img, image.Rect(0, size.Y/2, size.X, size.Y/2+1))
	failIf(size.X%48 != 0 || size.X < 48*4 || size.Y < 200 || colours < 20, "the film is %v with %d colours half-way up", size, colours)
	fmt.Printf("  the film is %v\n", size)
}

// someRead matches what the page says when some pictures are read.
var someRead = regexp.MustCompile(`\b[1-9]\d* of 48 pictures are read`)

// reading waits until some pictures of the row are read.
func (p *program) reading() {
	p.wait("some pictures to be read", func(things []outline.Thing) bool {
		return someRead.MatchString(strings.Join(outline.Texts(things), "\n"))
	})
}

// dragLines drags the five lines of a jar to where it is: the bottom, the level, the top, the
// left side and the right.
func (p *program) dragLines(m curve.Marks) gesture {
	return func() {
		at := p.photo(2 * jartest.Width / float32(jartest.Height)) // two scenes stand side by side
		y := at.Y + float32((m.Level+m.Top)/2)*at.H
		mid := at.X + float32((m.Left+m.Right)/2)*at.W
		for i, to := range []struct{ x, y float32 }{
			{mid, at.Y + float32(m.Bottom)*at.H}, {mid, at.Y + float32(m.Level)*at.H}, {mid, at.Y + float32(m.Top)*at.H},
			{at.X + float32(m.Left)*at.W, y}, {at.X + float32(m.Right)*at.W, y},
		} {
			p.dragHandle(i, to.x, to.y)
		}
	}
}

// knownAt is where the walk puts the line of the known height, in parts of the picture's height.
const knownAt = 0.22

// dragKnown drags the line of the known height, which comes after the five of the jar.
func (p *program) dragKnown(y float64) gesture {
	return func() {
		at := p.photo(2 * jartest.Width / float32(jartest.Height))
		const known = 5
		h := p.handle(known)
		p.dragHandle(known, h.X+h.W/2, at.Y+float32(y)*at.H)
	}
}

// dragSurface drags the surface on the picture shown down by so many points.
func (p *program) dragSurface(by float32) gesture {
	return func() {
		h := p.handle(0)
		p.dragHandle(0, h.X+h.W/2, h.Y+h.H/2+by)
	}
}

// handle is the nth handle on a picture.
func (p *program) handle(n int) outline.Thing {
	return p.nth(n, "handle", func(t outline.Thing) bool { return t.Kind == "kit.dragHandle" })
}

// dragHandle drags the nth handle to a place. On a computer that is busy a drag was once lost:
// it is tried again then, and told.
func (p *program) dragHandle(n int, x, y float32) {
	for try := 1; ; try++ {
		h := p.handle(n)
		fx, fy := h.X+h.W/2, h.Y+h.H/2
		off := math.Abs(float64(y - fy))
		if n == 3 || n == 4 { // the sides go across, all others up and down
			off = math.Abs(float64(x - fx))
		}
		switch {
		case off < 1 || try > 1 && off < 6:
			return
		case try > 3:
			panic(fmt.Errorf("handle %d is at %.0f,%.0f and cannot be dragged to %.0f,%.0f", n, fx, fy, x, y))
		case try > 1:
			fmt.Printf("  handle %d is at %.0f,%.0f, not at %.0f,%.0f: dragged again\n", n, fx, fy, x, y)
		}
		var path [][2]int
		const steps = 6
		for k := range steps + 1 {
			part := float32(k) / steps
			path = append(path, [2]int{int(fx + (x-fx)*part + 0.5), int(fy + (y-fy)*part + 0.5)})
		}
		p.drag(path)
		p.caughtUp()
	}
}

// halfRead looks into the journal that the killed program left: some pictures of the row are
// in it, and not all.
func halfRead(folder string) {
	inSeries(folder, func(j *journal.Journal, s *journal.Series, frames []*journal.Photo) {
		n := len(frames)
		failIf(n == 0 || n >= 48 || !s.Reading(), "%d pictures were kept of a row that was cut off", n)
	})
}

// inSeries opens the journal and looks at its one row of pictures.
func inSeries(folder string, look func(*journal.Journal, *journal.Series, []*journal.Photo)) {
	all := records[journal.Series](folder)
	all = slices.DeleteFunc(all, func(s *journal.Series) bool { return s.Jars[0].Feeding == "" })
	failIf(len(all) != 1, "%d rows of pictures of a feeding", len(all))
	inJournal(folder, func(j *journal.Journal) {
		look(j, all[0], must(journal.Frames(j, all[0])))
	})
}

// checkSeries looks for the curves of both jars, and how far they are off.
func checkSeries(folder string, scenes []*jartest.Scene) {
	inSeries(folder, func(j *journal.Journal, s *journal.Series, frames []*journal.Photo) {
		failIf(len(frames) != 48 || s.Reading(), "%d pictures, still reading: %v", len(frames), s.Reading())
		curves, ok, err := journal.SeriesCurves(j, s)
		if err != nil || !ok || len(curves) != 2 {
			panic(errors.Join(err, fmt.Errorf("%d curves are kept", len(curves))))
		}
		one := s.Jars[0]
		failIf(len(one.Drawn) != 2, "%d heights were drawn", len(one.Drawn))
		failIf(one.KnownMM == nil || math.Abs(one.Known-knownAt) > 0.01, "the line of the known height was dragged to %.3f, of a height of %v", knownAt, one)
		for k, c := range curves {
			sum, n := 0.0, 0
			for i, point := range c.Points {
				if point.Lost == curve.Kept && !point.Drawn {
					sum += math.Abs(point.Rise - scenes[k].Rise(i))
					n++
				}
			}
			failIf(n < 40 || sum/float64(n) > 0.03, "jar %d: %d heights, off by %.3f in the mean", k+1, n, sum/float64(n))
			fmt.Printf("  jar %d: %d heights, off by %.3f in the mean\n", k+1, n, sum/float64(n))
		}
		isSound(j)
	})
}

// pressingFilm clicks on the film, so far along it.
func (p *program) pressingFilm(part float32) gesture {
	return func() {
		t := p.nth(0, "film", func(t outline.Thing) bool { return t.Kind == "series.filmstrip" })
		p.click(t.X+part*t.W, t.Y+t.H/2)
	}
}

// droppingRow drops a folder of pictures of a jar on the window.
func (t *tour) droppingRow() gesture {
	return func() {
		folder := filepath.Join(t.home, "stack of books")
		must((jartest.Folder{Dir: folder, Scale: 2}).Write(boxed(time.Date(2026, 3, 2, 8, 0, 0, 0, time.Local))))
		t.drop(760, 420, folder)
	}
}
