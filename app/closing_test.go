package app

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/app/outline"
	"twinloaf/journal"
	"twinloaf/journal/journaltest"
)

// adrift is a window whose journal has lost its folder with something typed.
type adrift struct {
	*window
	dir, aside string
	bake       journal.ID
}

func newAdrift(t *testing.T) *adrift {
	t.Helper()
	a := &adrift{dir: filepath.Join(t.TempDir(), "journal"), aside: filepath.Join(t.TempDir(), "aside")}
	j, _ := journaltest.OpenIn(t, a.dir, journal.Options{})
	a.window = compose(maintest.App(t), j, maintest.New().Do)
	a.env.Wait()
	b := &journal.Bake{Name: "Ferry loaf", At: j.Now()}
	if !a.env.Do("bake", func(tx *journal.Tx) error { return journal.Put(tx, b) }) {
		t.Fatal("not put")
	}
	a.bake = b.ID
	if err := os.Rename(a.dir, a.aside); err != nil {
		t.Fatal(err)
	}
	if err := journal.Edit(j, b.ID, "notes", func(b *journal.Bake) { b.Notes = "windy" }); err != nil {
		t.Fatal(err)
	}
	return a
}

func (a *adrift) shown() string { return strings.Join(outline.Texts(outline.Of(a.win)), "\n") }

// kept reads the notes of the bake from a journal folder.
func (a *adrift) kept(t *testing.T, dir string) string {
	t.Helper()
	j, err := journal.Open(t.Context(), dir, journal.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	b, err := journal.Get[journal.Bake](j, a.bake)
	if err != nil {
		t.Fatal(err)
	}
	return b.Notes
}

func TestAWindowThatCannotSaveStaysAndClosesByItself(t *testing.T) {
	a := newAdrift(t)
	a.Close()
	a.Close() // asking twice asks once
	for _, want := range []string{"What you typed is not saved yet", "Ferry loaf", "kept in memory", "Close and lose it"} {
		if !strings.Contains(a.shown(), want) {
			t.Errorf("the sheet lacks %q: %q", want, a.shown())
		}
	}
	a.closing.stop() // the test looks by itself
	a.closing.try()
	if a.closed {
		t.Fatal("the window closed though nothing could be saved")
	}
	a.win.Canvas().Overlays().Top().(*kit.Dialog).Close()
	if a.closing != nil || a.closed {
		t.Fatal("going back does not go back")
	}
	a.Close()
	a.closing.stop()
	if err := errors.Join(os.Rename(a.aside, a.dir), a.env.Journal.Flush()); err != nil {
		t.Fatal(err)
	}
	a.closing.try()
	if !a.closed || a.lost {
		t.Errorf("closed %v, lost %v", a.closed, a.lost)
	}
	if got := a.kept(t, a.dir); got != "windy" {
		t.Errorf("kept %q", got)
	}
}

func TestTheTextCanBeSavedElsewhereBeforeClosing(t *testing.T) {
	a := newAdrift(t)
	path := filepath.Join(t.TempDir(), "unsaved.txt")
	a.env.AskWhere = func(o kit.SaveOptions) { o.OnChosen(path) }
	a.Close()
	a.closing.saveText()
	a.env.Wait()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	want := "Typed into Twinloaf and not saved in the journal\n\nFerry loaf, 4\u00a0March 2026 (notes)\n\nnotes:\nwindy\n"
	if string(b) != want {
		t.Errorf("the file holds %q, want %q", b, want)
	}
	if !strings.Contains(a.shown(), "The text is in") {
		t.Errorf("shown: %q", a.shown())
	}
	a.closing.discard()
	if !a.closed || a.lost {
		t.Errorf("closed %v, lost %v", a.closed, a.lost)
	}
}

func TestGivingTextUpIsNoted(t *testing.T) {
	a := newAdrift(t)
	a.Close()
	a.closing.lose()
	if !a.closed || !a.lost {
		t.Errorf("closed %v, lost %v", a.closed, a.lost)
	}
}

func TestAJournalThatLostItsPlaceCanBeCopied(t *testing.T) {
	a := newAdrift(t)
	a.trouble(journal.ErrGone)
	a.trouble(journal.ErrGone)
	// The path is longer than a line, in some folders.
	if !strings.Contains(a.shown(), "no longer in its place") || !strings.Contains(strings.ReplaceAll(a.shown(), "\n", ""), a.dir) {
		t.Errorf("shown: %q", a.shown())
	}
	folder := t.TempDir()
	a.copyTo(folder)
	a.env.Wait()
	copies, err := filepath.Glob(filepath.Join(folder, "*"))
	if err != nil || len(copies) != 1 {
		t.Fatalf("%q, %v", copies, err)
	}
	if got := a.kept(t, copies[0]); got != "windy" {
		t.Errorf("the copy holds %q", got)
	}
	if err := os.Rename(a.aside, a.dir); err != nil {
		t.Fatal(err)
	}
	a.changed(journal.Changed{Saved: true})
	if a.place.Open() || !strings.Contains(a.frame.ToastText(), "saved again") {
		t.Errorf("shown: %q", a.shown())
	}
	a.Close()
}
