package photos

import (
	"bytes"
	"io"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/photo/phototest"
)

// setUp puts two bakes with photos into a journal: three of the first, one of the
// second.
func setUp(t *testing.T) (b *pagestest.Bench, first, second *journal.Bake, ids []journal.ID) {
	t.Helper()
	b = pagestest.New(t)
	first, second = &journal.Bake{Name: "Deck rye", At: b.Clock}, &journal.Bake{Name: "Ferry loaf", At: b.Clock.Add(-48 * time.Hour)}
	b.Put(func(tx *journal.Tx) error {
		if err := journal.Put(tx, first); err != nil {
			return err
		}
		return journal.Put(tx, second)
	})
	add := func(owner *journal.Bake, w int) {
		data := phototest.PNG(phototest.Scene(w, 60))
		added, refused, err := b.Journal.AddPictures(t.Context(), "adding photos", journal.RefOf(owner), journal.RoleOther,
			[]journal.Picture{{Name: "loaf.png", Open: func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(data)), nil }}}, nil)
		if err != nil || len(refused) > 0 {
			t.Fatal(err, refused)
		}
		ids = append(ids, added...)
		b.Clock = b.Clock.Add(time.Minute)
	}
	add(first, 90)
	add(first, 91)
	add(first, 92)
	add(second, 93)
	return b, first, second, ids
}

func open(b *pagestest.Bench, p pages.Route) pages.Page {
	page := b.Show(Routes()[pages.Photo], p)
	b.Env.Wait()
	return page
}

func TestPhotoPage(t *testing.T) {
	b, bake, _, ids := setUp(t)
	p := open(b, pages.At(pages.Photo, ids[0])).(*photoPage)
	p.view.Wait()
	if got := p.view.PictureSize(); got.X != 90 || got.Y != 60 {
		t.Errorf("the picture is %v", got)
	}
	if words := b.Texts(); !strings.Contains(words, "1 of 3") || !strings.Contains(words, "90 × 60 pixels") || !strings.Contains(words, "Deck rye") {
		t.Errorf("it shows\n%s", words)
	}
	b.Press("Right")
	b.Env.Wait()
	if p.id != ids[1] {
		t.Error("Right does not go to the photo after")
	}
	b.Press("Left")
	b.Press("Left")
	b.Env.Wait()
	if p.id != ids[2] {
		t.Error("before the first comes the last")
	}
	before := p.view.View()
	b.Press("+")
	if p.view.View().Zoom <= before.Zoom {
		t.Error("+ does not zoom")
	}
	b.Press("O")
	if got := b.Went[len(b.Went)-1]; got != pages.At(pages.Bake, bake.ID) {
		t.Errorf("O goes to %+v", got)
	}
	b.Press("E")
	test.Type(b.Window.Canvas().Focused(), "out of the oven")
	p.role.OnChanged(3)
	got, err := journal.Get[journal.Photo](b.Journal, p.id)
	if err != nil || got.Caption != "out of the oven" || got.Role != journal.RoleCrumb {
		t.Errorf("the photo is %+v, %v", got, err)
	}
	b.Window.Canvas().Unfocus()
	b.Press("M")
	if got := b.Went[len(b.Went)-1]; got != pages.At(pages.Crumb, p.id) {
		t.Errorf("M goes to %+v", got)
	}
	b.Press("B")
	if words := b.Texts(); !strings.Contains(words, "This photo is in the bin") {
		t.Errorf("binned it shows\n%s", words)
	}
	p.Left()
	if p.view.PictureSize().X != 0 {
		t.Error("the picture is kept after the page was left")
	}
	if len(b.Failed) > 0 {
		t.Errorf("it failed: %v", b.Failed)
	}
}

// A photo has nearly two thirds of the height below its heading, however much is written under
// it and however low the window is: at 853 by 533, which is 1280 by 800 with text at 150 %, too.
func TestAPhotoHasItsShareOfThePage(t *testing.T) {
	b, _, _, ids := setUp(t)
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, ids[0], func(p *journal.Photo) {
			p.Role, p.Caption = journal.RoleCrumb, strings.Repeat("It sprang more at the left. ", 20)
		})
	})
	p := open(b, pages.At(pages.Photo, ids[0])).(*photoPage)
	for _, size := range []fyne.Size{{Width: 705, Height: 533}, {Width: 752, Height: 700}, {Width: 1772, Height: 1200}} {
		b.Window.Resize(size.AddWidthHeight(0, 1))
		b.Window.Resize(size)
		if share := p.view.Size().Height / p.page.Room(); share < 0.63 {
			t.Errorf("in %v the photo has %v of the page", size, share)
		}
	}
}

func TestWholePictureLeavesArrowsToThePage(t *testing.T) {
	b, _, _, ids := setUp(t)
	p := open(b, pages.At(pages.Photo, ids[0])).(*photoPage)
	p.view.Wait()
	b.Window.Canvas().Focus(p.view)
	p.view.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	b.Env.Wait()
	if p.id != ids[1] {
		t.Error("with the picture focused and whole, Right does not go to the photo after")
	}
}

func TestSideBySide(t *testing.T) {
	b, _, _, ids := setUp(t)
	p := open(b, pages.Route{Name: pages.Photo, ID: ids[0], More: string(ids[3])}).(*pairPage)
	p.pair.Left.Wait()
	p.pair.Right.Wait()
	if words := b.Texts(); !strings.Contains(words, "Deck rye") || !strings.Contains(words, "Ferry loaf") {
		t.Errorf("it shows\n%s", words)
	}
	b.Press("+")
	if l, r := p.pair.Left.View(), p.pair.Right.View(); l.Zoom <= 1 || l.Zoom != r.Zoom {
		t.Errorf("tied, they zoom to %v and %v", l.Zoom, r.Zoom)
	}
	b.Press("T")
	b.Press("+")
	if l, r := p.pair.Left.View(), p.pair.Right.View(); l.Zoom == r.Zoom {
		t.Error("let go, they still zoom together")
	}
	b.Press("X")
	if p.ids[0] != ids[3] {
		t.Error("X does not change sides")
	}
	b.Env.Wait()
	p.Left()
	if p.pair.Left.PictureSize().X != 0 || p.pair.Right.PictureSize().X != 0 {
		t.Error("the pictures are kept after the page was left")
	}
}

func TestCandidates(t *testing.T) {
	b, _, _, ids := setUp(t)
	ph, err := journal.Get[journal.Photo](b.Journal, ids[0])
	if err != nil {
		t.Fatal(err)
	}
	got, err := candidates(b.Journal, ph, measure.Units{}, b.Clock)
	if err != nil {
		t.Fatal(err)
	}
	want := []journal.ID{ids[1], ids[2], ids[3]} // its own bake's first, then what stands for others
	if len(got) != len(want) {
		t.Fatalf("%d candidates, want %d", len(got), len(want))
	}
	for i := range want {
		if got[i].id != want[i] {
			t.Errorf("candidate %d is %s, want %s", i, got[i].id, want[i])
		}
	}
	if got[2].item.Title != "Ferry loaf" {
		t.Errorf("the other bake is called %q", got[2].item.Title)
	}
}
