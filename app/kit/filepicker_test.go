package kit_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
)

// folder makes a folder with files of no content.
func folder(t *testing.T, names ...string) string {
	t.Helper()
	dir := t.TempDir()
	for _, n := range names {
		path := filepath.Join(dir, filepath.FromSlash(n))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func base(paths []string) string {
	out := make([]string, len(paths))
	for i, p := range paths {
		out[i] = filepath.Base(p)
	}
	return strings.Join(out, " ")
}

func TestPickManyByKeyboard(t *testing.T) {
	dir := folder(t, "loaf 10.JPG", "loaf 2.jpg", "crumb.heic", "notes.txt", ".hidden.jpg", "older/a.png")
	win := window(t, kit.Body("page"), 1100, 800)
	var got []string
	left := ""
	p := kit.PickFiles(maintest.New().Do, win, kit.PickOptions{Title: "Add photos", Many: true, Endings: []string{".jpg", ".heic"},
		Start: dir, Places: []kit.Place{}, OnChosen: func(paths []string) { got = paths }, OnLeft: func(d string) { left = d }})
	p.Wait()
	g, ok := win.Canvas().Focused().(*kit.PhotoGrid)
	if !ok {
		t.Fatalf("the focus is on %T", win.Canvas().Focused())
	}
	// In order: the folder, crumb, loaf 2, loaf 10.
	g.TypedKey(key(fyne.KeyRight))
	g.TypedKey(key(fyne.KeySpace))
	g.TypedKey(key(fyne.KeyEnd))
	g.TypedKey(key(fyne.KeySpace))
	if c := base(p.Chosen()); c != "crumb.heic loaf 10.JPG" {
		t.Errorf("chosen %q", c)
	}
	g.TypedRune('a')
	if c := base(p.Chosen()); c != "crumb.heic loaf 2.jpg loaf 10.JPG" {
		t.Errorf("all chosen: %q", c)
	}
	g.TypedKey(key(fyne.KeyReturn))
	if len(got) != 3 || left != dir || win.Canvas().Overlays().Top() != nil {
		t.Errorf("handed over %q, left %q", base(got), left)
	}
}

func TestPickerOpensFoldersAndGoesUp(t *testing.T) {
	dir := folder(t, "older/a.png", "b.png")
	win := window(t, kit.Body("page"), 1100, 800)
	chosen := false
	p := kit.PickFiles(maintest.New().Do, win, kit.PickOptions{Endings: []string{".png"}, Start: dir, Places: []kit.Place{}, OnChosen: func([]string) { chosen = true }})
	p.Wait()
	g := win.Canvas().Focused().(*kit.PhotoGrid)
	g.TypedKey(key(fyne.KeyReturn)) // the folder
	p.Wait()
	g.TypedKey(key(fyne.KeySpace))
	if c := base(p.Chosen()); c != "a.png" {
		t.Errorf("in the folder chosen %q", c)
	}
	g.TypedKey(key(fyne.KeyBackspace))
	p.Wait()
	if len(p.Chosen()) != 0 {
		t.Error("going up keeps what was chosen below")
	}
	g.TypedKey(key(fyne.KeyEscape))
	if chosen || win.Canvas().Overlays().Top() != nil {
		t.Error("Esc should close without choosing")
	}
}

func TestPickerTellsOfAFolderItCannotRead(t *testing.T) {
	dir := folder(t, "a.png")
	win := window(t, kit.Body("page"), 1100, 800)
	p := kit.PickFiles(maintest.New().Do, win, kit.PickOptions{Start: dir, Places: []kit.Place{}})
	p.Wait()
	p.Go(filepath.Join(dir, "gone"))
	p.Wait()
	if len(p.Chosen()) != 0 {
		t.Error("something can be chosen in a folder that is gone")
	}
	p.Accept()
	if win.Canvas().Overlays().Top() == nil {
		t.Error("the picker closed with nothing chosen")
	}
}

func TestPickerWithTenThousandFiles(t *testing.T) {
	names := make([]string, 10_000)
	for i := range names {
		names[i] = fmt.Sprintf("IMG_%05d.jpg", i)
	}
	dir := folder(t, names...)
	s := held()
	l := newLoader(t, s, 16<<20)
	win := window(t, kit.Body("page"), 1100, 800)
	p := kit.PickFiles(maintest.New().Do, win, kit.PickOptions{Many: true, Endings: kit.PictureEndings(), Start: dir, Places: []kit.Place{}, Loader: l})
	p.Wait()
	p.ChooseAll()
	s.settle(l)
	if n := len(p.Chosen()); n != 10_000 {
		t.Errorf("%d are chosen", n)
	}
	if s.count() > 200 {
		t.Errorf("%d thumbnails were made to show one screen", s.count())
	}
}

func TestSaveAsAddsTheEndingAndAsksBeforeReplacing(t *testing.T) {
	dir := folder(t, "chart.png")
	win := window(t, kit.Body("page"), 1100, 800)
	got := ""
	p := kit.SaveAs(maintest.New().Do, win, kit.SaveOptions{Title: "Save the chart", Name: "chart.png", Start: dir, OnChosen: func(s string) { got = s }})
	p.Wait()
	picker := win.Canvas().Overlays().Top()
	p.Accept()
	if got != "" || win.Canvas().Overlays().Top() == picker {
		t.Fatal("a file would be replaced without asking")
	}
	win.Canvas().OnTypedKey()(key(fyne.KeyEscape))
	if win.Canvas().Overlays().Top() != picker {
		t.Fatal("after No the picker is not there")
	}
	win.Canvas().Unfocus() // what stands in a field with the cursor is the baker's
	for _, c := range []struct{ typed, want string }{
		{"spring", "spring.png"}, {"spring.PNG", "spring.PNG"}, {"../up", ""}, {"", ""},
	} {
		p.SetName(c.typed)
		if b := base(p.Chosen()); b != c.want {
			t.Errorf("the name %q would be saved as %q, want %q", c.typed, b, c.want)
		}
	}
	p.SetName("spring")
	p.Accept()
	if got != filepath.Join(dir, "spring.png") {
		t.Errorf("saved as %q", got)
	}
}
