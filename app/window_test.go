package app

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/app/outline"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/journaltest"
)

// newWindow makes a window without a screen on an empty journal.
func newWindow(t *testing.T) *window {
	t.Helper()
	j, _ := journaltest.Open(t, journal.Options{})
	w := compose(maintest.App(t), j, maintest.New().Do)
	w.env.Wait()
	t.Cleanup(w.Close)
	return w
}

// Page is the page on the screen.
func (w *window) Page() pages.Page { return w.here.page }

// fakePage is a page that notes what is done with it.
type fakePage struct {
	pages.Base
	name  string
	notes *[]string
	keys  []kit.Key
	stays bool
	took  []journal.Picture
}

func (p *fakePage) Object() fyne.CanvasObject { return kit.Body(p.name) }
func (p *fakePage) Title() string             { return p.name }
func (p *fakePage) Keys() []kit.Key           { return p.keys }
func (p *fakePage) Shown()                    { *p.notes = append(*p.notes, "shown "+p.name) }
func (p *fakePage) Left()                     { *p.notes = append(*p.notes, "left "+p.name) }
func (p *fakePage) Changed(c journal.Changed) { *p.notes = append(*p.notes, "heard "+c.Label) }
func (p *fakePage) MayLeave(leave func()) {
	if !p.stays {
		leave()
	}
}
func (p *fakePage) TakePictures(pictures []journal.Picture) { p.took = pictures }

// fake gives the window two pages of its own.
func fake(w *window, notes *[]string) (a, b *fakePage) {
	a, b = &fakePage{name: "one", notes: notes}, &fakePage{name: "two", notes: notes}
	w.openers["one"] = func(*pages.Env, pages.Route) (pages.Page, error) { return a, nil }
	w.openers["two"] = func(*pages.Env, pages.Route) (pages.Page, error) { return b, nil }
	w.openers["gone"] = func(*pages.Env, pages.Route) (pages.Page, error) { return nil, journal.ErrNotFound }
	return a, b
}

func TestPagesComeGoAndComeBack(t *testing.T) {
	w := newWindow(t)
	var notes []string
	a, _ := fake(w, &notes)
	w.Go(pages.Route{Name: "one"})
	w.Go(pages.Route{Name: "two"})
	w.back()
	w.forward()
	want := []string{"shown one", "left one", "shown two", "left two", "shown one", "left one", "shown two"}
	if !slices.Equal(notes, want) {
		t.Errorf("noted %q, want %q", notes, want)
	}
	if got := w.win.Title(); got != "two · Twinloaf" {
		t.Errorf("the title is %q", got)
	}
	w.back()
	a.stays = true
	w.Go(pages.Route{Name: "two"})
	if w.Page() != a {
		t.Error("a page that asked to stay was left")
	}
	a.stays = false
	w.Go(pages.Route{Name: "gone"})
	if w.Page() != a || !strings.Contains(w.frame.ToastText(), "no longer in the journal") {
		t.Errorf("a record that is gone: %q", w.frame.ToastText())
	}
}

// Only the last pages are kept as they were: what they hold would add up. Those before
// are opened anew, and one whose record is gone is passed by.
func TestPagesFarBackAreOpenedAnew(t *testing.T) {
	w := newWindow(t)
	opened := map[journal.ID]int{}
	w.openers["numbered"] = func(_ *pages.Env, at pages.Route) (pages.Page, error) {
		if opened[at.ID]++; opened[at.ID] > 1 && at.ID == "2" {
			return nil, journal.ErrNotFound
		}
		return &fakePage{name: string(at.ID), notes: new([]string)}, nil
	}
	const went = 20
	for i := range went {
		w.Go(pages.Route{Name: "numbered", ID: journal.ID(strconv.Itoa(i))})
	}
	kept := 0
	for _, v := range w.past {
		if v.page != nil {
			kept++
		}
	}
	if kept != whole {
		t.Errorf("%d pages are kept, want %d", kept, whole)
	}
	for i := went - 2; i >= 0; i-- {
		w.back()
		if title := w.Page().Title(); i == 2 && title != "3" || i != 2 && title != strconv.Itoa(i) {
			t.Fatalf("%d back is page %q", went-1-i, title)
		}
		want := 1
		if i < went-1-whole {
			want = 2
		}
		if got := opened[journal.ID(strconv.Itoa(i))]; got != want {
			t.Errorf("page %d was opened %d times, want %d", i, got, want)
		}
	}
	w.forward()
	if w.Page().Title() != "1" {
		t.Errorf("forward is page %q", w.Page().Title())
	}
}

func TestAPageHearsOfChangesOnlyWhileItIsShown(t *testing.T) {
	w := newWindow(t)
	var notes []string
	fake(w, &notes)
	put := func(label string) {
		t.Helper()
		if !w.env.Do(label, func(tx *journal.Tx) error { return journal.Put(tx, &journal.Bake{Name: label}) }) {
			t.Fatal(label)
		}
	}
	w.Go(pages.Route{Name: "one"})
	put("first")
	w.Go(pages.Route{Name: "two"})
	put("second")
	want := []string{"shown one", "heard first", "left one", "shown two", "heard second"}
	if !slices.Equal(notes, want) {
		t.Errorf("noted %q, want %q", notes, want)
	}
	w.keys.Press("Ctrl+Z")
	if got := w.frame.ToastText(); !strings.Contains(got, "second") {
		t.Errorf("undo said %q", got)
	}
	if all, _ := journal.All[journal.Bake](w.env.Journal); len(all) != 1 {
		t.Errorf("undo left %d bakes", len(all))
	}
	w.keys.Press("Shift+Ctrl+Z")
	if all, _ := journal.All[journal.Bake](w.env.Journal); len(all) != 2 {
		t.Errorf("redo left %d bakes", len(all))
	}
}

func TestFilesReachThePage(t *testing.T) {
	w := newWindow(t)
	var notes []string
	a, _ := fake(w, &notes)
	w.Go(pages.Route{Name: "one"})
	dir := t.TempDir()
	for _, name := range []string{"b.jpg", "a.jpg", ".hidden"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte("x"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	names := func() string {
		w.env.Wait()
		var out []string
		for _, p := range a.took {
			out = append(out, p.Name)
		}
		return strings.Join(out, " ")
	}
	w.drop([]fyne.URI{storage.NewFileURI(filepath.Join(dir, "b.jpg")), storage.NewFileURI(dir)})
	if got := names(); got != "b.jpg a.jpg b.jpg" {
		t.Errorf("dropped: %q", got)
	}
	w.env.App.Clipboard().SetContent("copy\nfile://" + filepath.Join(dir, "a.jpg") + "\n")
	w.keys.Press("Ctrl+V")
	if got := names(); got != "a.jpg" {
		t.Errorf("pasted: %q", got)
	}
	if got := pastedPaths("a line of a poem\nand another"); got != nil {
		t.Errorf("ordinary text is taken for files: %q", got)
	}
}

func TestEveryDoorOpensAndEveryKeyIsListed(t *testing.T) {
	w := newWindow(t)
	for i, d := range doors() {
		w.keys.Press("Ctrl+" + string(rune('1'+i)))
		w.env.Wait()
		if w.here.place.Name != d.name {
			t.Errorf("the door %s leads to %s", d.name, w.here.place.Name)
		}
	}
	w.keys.Press("F1")
	shown := strings.Join(outline.Texts(outline.Of(w.win)), "\n")
	for _, want := range []string{"Every key", "Find anything", "Undo"} {
		if !strings.Contains(shown, want) {
			t.Errorf("the list of keys lacks %q", want)
		}
	}
}

func TestSearch(t *testing.T) {
	all := []found{{words: "Shelf"}, {words: "Ferry loaf · 3 Mar 2026"}, {words: "Seeded ferry loaf"}, {words: "Harbour, culture"}}
	for _, c := range []struct {
		text string
		want []string
	}{
		{"ferry", []string{"Ferry loaf · 3 Mar 2026", "Seeded ferry loaf"}},
		{"loaf seed", []string{"Seeded ferry loaf"}},
		{"zzz", nil},
	} {
		var got []string
		for _, f := range search(all, c.text) {
			got = append(got, f.words)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("searching %q gave %q, want %q", c.text, got, c.want)
		}
	}
}

func TestClosingKeepsWhatIsBeingTyped(t *testing.T) {
	dir := t.TempDir()
	j, _ := journaltest.OpenIn(t, dir, journal.Options{})
	w := compose(maintest.App(t), j, maintest.New().Do)
	b := &journal.Bake{Name: "F"}
	if !w.env.Do("bake", func(tx *journal.Tx) error { return journal.Put(tx, b) }) {
		t.Fatal("not put")
	}
	if err := journal.Edit(j, b.ID, "name", func(b *journal.Bake) { b.Name = "Ferry" }); err != nil {
		t.Fatal(err)
	}
	w.Close()
	j, err := journal.Open(context.Background(), dir, journal.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	if got, err := journal.Get[journal.Bake](j, b.ID); err != nil || got.Name != "Ferry" {
		t.Errorf("kept %+v, %v", got, err)
	}
}

func TestRefusalsAreSentences(t *testing.T) {
	for _, err := range []error{journal.ErrInUse, journal.ErrNotJournal, journal.ErrNewer, journal.ErrDamaged, errors.New("opening the journal: no room")} {
		if s := Refusal(err); len(s) < 20 || !strings.HasSuffix(s, ".") {
			t.Errorf("%v is told as %q", err, s)
		}
	}
}
