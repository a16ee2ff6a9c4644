package kit_test

import (
	"context"
	"fmt"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/maintest"
)

// What needs a window to look as it does: what has the keyboard, what is drawn or loaded
// elsewhere, what lies over the page. A panel gives what the page holds, and what is done
// once it is shown.
func TestLooksInAWindow(t *testing.T) {
	for name, panel := range map[string]struct {
		content func(t *testing.T) (page fyne.CanvasObject, shown func(fyne.Window))
		size    fyne.Size
	}{
		"chart":   {aChart, fyne.NewSize(560, 340)},
		"lists":   {longLists, fyne.NewSize(640, 560)},
		"grid":    {aGrid, fyne.NewSize(640, 460)},
		"strip":   {aStrip, fyne.NewSize(640, 360)},
		"suggest": {whatIsOffered, fyne.NewSize(420, 260)},
		"dialog":  {aDialog, fyne.NewSize(640, 420)},
		"confirm": {aQuestion, fyne.NewSize(560, 300)},
		"picker":  {aPicker, fyne.NewSize(900, 560)},
		"file":    {aFileName, fyne.NewSize(640, 240)},
	} {
		for mode, in := range map[string]look.Mode{"light": look.AlwaysLight, "dark": look.AlwaysDark} {
			test.ApplyTheme(t, look.New(in))
			page, shown := panel.content(t)
			win := test.NewTempWindow(t, kit.NewFrame(maintest.New().Do, container.New(layout.NewCustomPaddedLayout(24, 24, 24, 24), page)))
			win.SetPadded(false)
			win.Resize(panel.size)
			shown(win)
			win.Canvas().Capture() // what is drawn elsewhere is asked for
			settle(page)
			test.AssertImageMatches(t, "window-"+name+"-"+mode+".png", win.Canvas().Capture())
			for o := win.Canvas().Overlays().Top(); o != nil; o = win.Canvas().Overlays().Top() {
				win.Canvas().Overlays().Remove(o)
			}
		}
	}
	test.ApplyTheme(t, look.New(look.AlwaysLight))
}

// settle waits for what is drawn elsewhere.
func settle(o fyne.CanvasObject) {
	switch o := o.(type) {
	case *kit.ChartFrame:
		o.Wait()
	case *kit.PhotoPair:
		o.Left.Wait()
		o.Right.Wait()
	case *fyne.Container:
		for _, child := range o.Objects {
			settle(child)
		}
	}
}

func aChart(*testing.T) (fyne.CanvasObject, func(fyne.Window)) {
	f := kit.NewChartFrame(maintest.New().Do, fyne.NewSize(300, 200))
	f.SetSpec(rises())
	return f, func(w fyne.Window) {
		w.Canvas().Capture()
		f.Wait()
		w.Canvas().Focus(f)
		f.TypedKey(key(fyne.KeyRight)) // reads the first value
	}
}

func longLists(*testing.T) (fyne.CanvasObject, func(fyne.Window)) {
	names := []string{"Ferry loaf", "Deck rye", "Spelt and oats", "Seeded loaf"}
	list := kit.NewRowList(func() int { return len(names) }, func() fyne.CanvasObject { return kit.Stack(0, kit.Body("x"), kit.Small("x")) },
		func(i int, row fyne.CanvasObject) {
			if row, ok := row.(*fyne.Container); ok {
				set(row.Objects[0], names[i])
				set(row.Objects[1], fmt.Sprintf("%d days ago", i+1))
			}
		})
	keys := kit.KeyList(
		kit.KeyGroup{Name: "Everywhere", Keys: []kit.Key{{Name: "Ctrl+K", Doc: "Find anything"}, {Name: "Ctrl+Z", Doc: "Undo"}, {Name: "F1", Doc: "Every key"}}},
		kit.KeyGroup{Name: "On this page", Keys: []kit.Key{{Name: "F", Doc: "Feed"}, {Name: "Esc", Doc: "Back"}}},
	)
	doors := kit.Doors(
		kit.Door{Title: "Begin a culture", Leads: "From flour and water, or from a jar that somebody gave you.", Button: kit.NewButton("Begin", nil).WithKey("C")},
		kit.Door{Title: "Look at the demo", Leads: "A year of bread that nobody ate.", Button: kit.NewButton("Open", nil).WithKey("D")},
	)
	return kit.Stack(4, doors, keys, container.New(tall(230), list)), func(fyne.Window) {}
}

// tall gives a thing a height.
type tall float32

func (h tall) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(0, float32(h)) }
func (h tall) Layout(things []fyne.CanvasObject, size fyne.Size) {
	things[0].Resize(fyne.NewSize(size.Width, float32(h)))
	things[0].Move(fyne.NewPos(0, 0))
}

func set(o fyne.CanvasObject, words string) {
	if text, ok := o.(*kit.Text); ok {
		text.SetText(words)
	}
}

// dyed gives thumbnails of one colour each, and none for a key that it does not know.
type dyed map[string]color.NRGBA

func (d dyed) Thumb(_ context.Context, key string, size int) (image.Image, error) {
	c, ok := d[key]
	if !ok {
		return nil, os.ErrNotExist
	}
	return plainPicture(size, size*3/4, c), nil
}

var crumbs = dyed{"ferry": {R: 0xc9, G: 0xa4, B: 0x6c, A: 255}, "rye": {R: 0x6a, G: 0x47, B: 0x2c, A: 255}, "oats": {R: 0xa8, G: 0x7d, B: 0x4e, A: 255}}

func someLoaves() []kit.PhotoItem {
	return []kit.PhotoItem{
		{Key: "ferry", Title: "Ferry loaf", Right: "7", Sub: "Tue 3 March"}, {Key: "rye", Title: "Deck rye", Right: "6", Sub: "Mon 2 March", Chosen: true},
		{Key: "oats", Title: "Spelt and oats", Sub: "Sun 1 March"}, {Key: "gone", Title: "A photo that is gone", Sub: "Sat 28 February"}, {Title: "Never photographed", Loaf: kit.PaleLoaf},
	}
}

// loaded is a loader of the crumbs, and waits for it.
func loaded(t *testing.T) *kit.Loader {
	l := kit.NewLoader(maintest.New().Do, crumbs, 1, 1<<20)
	t.Cleanup(l.Close)
	return l
}

func aGrid(t *testing.T) (fyne.CanvasObject, func(fyne.Window)) {
	l, items := loaded(t), someLoaves()
	g := kit.NewPhotoGrid(l, fyne.NewSize(160, 110), 2, func() int { return len(items) }, func(i int) kit.PhotoItem { return items[i] })
	g.OnChoose = func(int) {}
	return g, func(w fyne.Window) {
		w.Canvas().Focus(g)
		g.TypedKey(key(fyne.KeyRight))
		w.Canvas().Capture()
		l.Wait()
	}
}

func aStrip(t *testing.T) (fyne.CanvasObject, func(fyne.Window)) {
	l := loaded(t)
	strip := kit.NewPhotoStrip(l, fyne.NewSize(110, 80), 1, kit.NewLink("Add photos", nil))
	strip.SetItems(someLoaves()[:3])
	pair := kit.NewPhotoPair(maintest.New().Do)
	pair.Left.SetPicture(plainPicture(120, 90, crumbs["ferry"]))
	pair.Right.SetPicture(plainPicture(90, 120, crumbs["rye"]))
	return kit.Stack(4, strip, container.New(tall(180), pair)), func(w fyne.Window) {
		w.Canvas().Capture()
		l.Wait()
	}
}

func whatIsOffered(*testing.T) (fyne.CanvasObject, func(fyne.Window)) {
	f := kit.NewSuggestField("Flour", "name", func(string) []string { return []string{"Strong white", "Dark rye", "Wholegrain spelt"} })
	return kit.Stack(4, f, kit.Body("What stands beneath it stays where it is.")), func(w fyne.Window) {
		f.Focus()
		w.Canvas().Focused().TypedKey(key(fyne.KeyDown)) // marks the first
	}
}

func aDialog(*testing.T) (fyne.CanvasObject, func(fyne.Window)) {
	return kit.Body("The page beneath it."), func(w fyne.Window) {
		name := kit.NewTextField("Name", "what you call it")
		name.SetText("Harbour")
		kit.ShowDialog(w, kit.DialogOptions{
			Title: "Split off a new culture", Content: kit.Stack(4, name, kit.Small("It keeps the past of the culture that it comes from.")), Aside: kit.NewLink("What is kept?", nil),
			Buttons: []fyne.CanvasObject{kit.NewButton("Cancel", nil).WithKey("Esc"), kit.PrimaryButton("Split", nil)},
		})
		name.Focus()
	}
}

// aFileName is a field at a dialog's foot, beside its buttons.
func aFileName(*testing.T) (fyne.CanvasObject, func(fyne.Window)) {
	return kit.Body("The page beneath it."), func(w fyne.Window) {
		name := kit.NewTextField("", "file name")
		name.SetText("ferry-loaf-gorse-crumb.csv")
		kit.ShowDialog(w, kit.DialogOptions{Title: "Save the cells", Aside: name,
			Buttons: []fyne.CanvasObject{kit.NewButton("Cancel", nil).WithKey("Esc"), kit.PrimaryButton("Save", nil)}})
		name.Focus()
	}
}

func aQuestion(*testing.T) (fyne.CanvasObject, func(fyne.Window)) {
	return kit.Body("The page beneath it."), func(w fyne.Window) {
		kit.ConfirmLoss(w, "Throw the bin away?", "Everything in it is deleted.", "Throw away", func() {})
	}
}

// aFolder is a folder deep enough that the way to it, of which the end is shown, is always
// the same.
func aFolder(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "home", "baker", "Pictures", "bread", "March")
	if err := os.MkdirAll(filepath.Join(dir, "older"), 0o755); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"crumb.jpg", "crust.jpg", "jar.heic"} {
		if err := os.WriteFile(filepath.Join(dir, name), nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func aPicker(t *testing.T) (fyne.CanvasObject, func(fyne.Window)) {
	dir := aFolder(t)
	return kit.Body("The page beneath it."), func(w fyne.Window) {
		p := kit.PickFiles(maintest.New().Do, w, kit.PickOptions{Title: "Add photos", Many: true, Endings: []string{".jpg"},
			Start: dir, Places: []kit.Place{{Name: "Home folder", Dir: dir}, {Name: "Pictures", Dir: dir}}})
		p.Wait()
		if g, ok := w.Canvas().Focused().(*kit.PhotoGrid); ok {
			g.TypedKey(key(fyne.KeyRight))
			g.TypedKey(key(fyne.KeySpace))
		}
	}
}
