package bakes

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"twinloaf/app/outline"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/photo/phototest"
)

// picture is a file of that name with these bytes.
func picture(name string, data []byte) journal.Picture {
	return journal.Picture{Name: name, Open: func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(data)), nil }}
}

func photosOf(t *testing.T, b *pagestest.Bench, id journal.ID) []*journal.Photo {
	t.Helper()
	if err := b.Journal.Flush(); err != nil {
		t.Fatal(err)
	}
	photos, err := journal.Photos(b.Journal, id)
	if err != nil {
		t.Fatal(err)
	}
	return photos
}

func TestPhotosAddedAndRefused(t *testing.T) {
	b := bench(t)
	p := open(b, "")
	jpeg := phototest.JPEG(phototest.Scene(120, 90), phototest.EXIF{Orientation: 6, Taken: "2026:03:03 07:30:00"})
	p.TakePictures([]journal.Picture{
		picture("loaf.jpg", jpeg),
		picture("notes.txt", []byte("not a picture at all")),
		picture("cut.jpg", jpeg[:len(jpeg)/2]),
		picture("late.png", phototest.PNG(phototest.Scene(40, 30))),
	})
	b.Env.Wait()
	photos := photosOf(t, b, p.rec.id)
	if len(photos) != 2 || photos[0].Name != "loaf.jpg" || photos[1].Name != "late.png" {
		t.Fatalf("in went %d photos, want the two that are whole, by the time they were taken", len(photos))
	}
	if photos[0].Width != 90 || photos[0].Height != 120 || photos[0].Role != journal.RoleOther {
		t.Errorf("the first is %d x %d, %q", photos[0].Width, photos[0].Height, photos[0].Role)
	}
	if len(p.photos.tiles) != 2 || p.photos.busy.Visible() {
		t.Errorf("%d tiles are shown; the progress is %v", len(p.photos.tiles), p.photos.busy.Visible())
	}
	words := strings.Join(outline.Texts(outline.Of(b.Window)), " ")
	for _, want := range []string{"2 files were not added", "notes.txt", "cut.jpg"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not told in\n%s", want, words)
		}
	}
	if len(b.Said) != 1 || b.Said[0] != "2 photos added." {
		t.Errorf("it says %q", b.Said)
	}
}

func TestRoleCaptionAndBinOfAPhoto(t *testing.T) {
	b := bench(t)
	bake := &journal.Bake{Name: "Deck rye", At: b.Clock}
	put(b, bake)
	p := open(b, bake.ID)
	var pictures []journal.Picture
	for i := range 3 {
		pictures = append(pictures, picture(fmt.Sprint(i, ".png"), phototest.PNG(phototest.Scene(40+i, 30))))
	}
	p.TakePictures(pictures)
	b.Env.Wait()
	c := p.photos.tiles[1]
	c.role.TypedRune('c') // crust
	c.role.TypedRune('c') // crumb
	b.Window.Canvas().Focus(c.caption.Entry())
	write(b, "second day")
	got, err := journal.Get[journal.Photo](b.Journal, c.id)
	if err != nil || got.Role != journal.RoleCrumb || got.Caption != "second day" {
		t.Fatalf("the photo is %+v, %v", got, err)
	}
	if !c.crumb.Visible() || p.photos.tiles[0].crumb.Visible() {
		t.Error("the crumb alone can be measured")
	}
	if p.photos.tiles[1] != c {
		t.Error("the card was rebuilt under the caret")
	}
	test.Tap(c.tile)
	if n := len(b.Went); n == 0 || b.Went[n-1] != pages.At(pages.Photo, c.id) {
		t.Errorf("a tap goes to %+v", b.Went)
	}
	c.remove()
	if len(p.photos.tiles) != 2 {
		t.Fatalf("%d tiles are left", len(p.photos.tiles))
	}
	if _, err := b.Journal.Undo(); err != nil || len(p.photos.tiles) != 3 {
		t.Errorf("undo brings back %d tiles, %v", len(p.photos.tiles), err)
	}
}
