package pages_test

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/outline"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
)

// A file that takes its time to be written shows how much of it there is, and can be stopped;
// nothing of it is left then, and the file that was there before stands.
func TestASavingIsStopped(t *testing.T) {
	b := pagestest.New(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "table.csv")
	if err := os.WriteFile(path, []byte("before"), 0o644); err != nil {
		t.Fatal(err)
	}
	b.AskWhere = func(o kit.SaveOptions) { o.OnChosen(path) }
	ended := make(chan error, 1)
	b.SaveFile("As a table", "table.csv", func(w io.Writer) error {
		for {
			if _, err := w.Write(make([]byte, 1000)); err != nil {
				ended <- err
				return err
			}
			time.Sleep(time.Millisecond)
		}
	})
	shown := func(words string) bool {
		b.Main(func() {})
		return strings.Contains(strings.Join(outline.Texts(outline.Of(b.Window)), "\n"), words)
	}
	for deadline := time.Now().Add(20 * time.Second); !shown("Saving table.csv") || !shown("MB"); time.Sleep(20 * time.Millisecond) {
		if time.Now().After(deadline) {
			t.Fatal("nothing tells that it takes its time")
		}
	}
	for _, button := range pagestest.All[*kit.Button](b.Window.Canvas().Overlays().Top()) {
		test.Tap(button) // there is but the one that stops it
	}
	b.Wait()
	if err := <-ended; err == nil {
		t.Error("the writing was not ended")
	}
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) != 1 {
		t.Errorf("left behind: %v (%v)", entries, err)
	}
	if kept, err := os.ReadFile(path); err != nil || string(kept) != "before" {
		t.Errorf("the file is now %q (%v)", kept, err)
	}
	if shown("Saving table.csv") {
		t.Error("it still tells that it saves")
	}
}

// Whoever stops a saving is told the truth of it, also if all was written by then.
func TestASavingIsStoppedAtItsEnd(t *testing.T) {
	b := pagestest.New(t)
	path := filepath.Join(t.TempDir(), "table.csv")
	b.AskWhere = func(o kit.SaveOptions) { o.OnChosen(path) }
	pressed := make(chan struct{})
	b.SaveFile("As a table", "table.csv", func(io.Writer) error {
		<-pressed
		return nil
	})
	top := func() (top fyne.CanvasObject) {
		b.Main(func() { top = b.Window.Canvas().Overlays().Top() })
		return top
	}
	for deadline := time.Now().Add(20 * time.Second); top() == nil; time.Sleep(20 * time.Millisecond) {
		if time.Now().After(deadline) {
			t.Fatal("nothing tells that it takes its time")
		}
	}
	if b.Window.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape}); len(b.Said) > 0 {
		t.Errorf("it says %q before it has ended", b.Said)
	}
	close(pressed)
	b.Wait()
	_, err := os.Stat(path)
	if there := err == nil; len(b.Said) != 1 || there || b.Said[0] != "Stopped. Nothing was saved." || top() != nil {
		t.Errorf("it says %q, and the file is there: %v", b.Said, there)
	}
}

// Work that had ended when it was stopped is not said to have been stopped.
func TestWhatWasDoneIsSaidThoughItWasStopped(t *testing.T) {
	b := pagestest.New(t)
	pressed, heard := make(chan struct{}), make(chan int, 1)
	pages.FetchOver(b.Env, "Counting", func(context.Context, *kit.Progress) (int, error) {
		<-pressed
		return 7, nil
	}, func(n int, err error) {
		if err != nil {
			t.Error(err)
		}
		heard <- n
	})
	b.Window.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
	close(pressed)
	b.Wait()
	if len(heard) != 1 || <-heard != 7 || b.Window.Canvas().Overlays().Top() != nil {
		t.Error("what was done is not told")
	}
}
