package app

import (
	"os"
	"runtime/debug"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/maintest"
	"twinloaf/assets/demo"
	"twinloaf/journal"
)

// Pages come and go by the thousand in these tests: what they leave is cleared away less
// often than is usual, as long as there is room.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	debug.SetMemoryLimit(3 << 29)
	os.Exit(m.Run())
}

// demoJournal is the demo's journal without its photos.
func demoJournal(t *testing.T) *journal.Journal {
	t.Helper()
	dir := t.TempDir()
	now := time.Date(2026, time.November, 24, 10, 30, 0, 0, time.UTC)
	if err := demo.Build(t.Context(), dir, now, demo.Options{NoPictures: true}); err != nil {
		t.Fatal(err)
	}
	j, err := journal.Open(t.Context(), dir, journal.Options{Clock: func() time.Time { return now }})
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// demoWindow is a window on the demo, and the demo's journal.
func demoWindow(t *testing.T) (*window, *journal.Journal) {
	t.Helper()
	a, j := maintest.App(t), demoJournal(t)
	w, _ := windowOn(t, a, j)
	return w, j
}

// windowOn shows a journal in a window without a screen until the test ends.
func windowOn(t *testing.T, a fyne.App, j *journal.Journal) (*window, *maintest.Loop) {
	t.Helper()
	loop := maintest.New()
	w := compose(a, j, loop.Do)
	t.Cleanup(w.Close)
	return w, loop
}

// layOut gives the window a size and lets everything in it find its place: texts that wrap
// know their height once they know their width.
func (w *window) layOut(size fyne.Size) {
	for range 3 {
		w.win.Resize(size.AddWidthHeight(1, 1))
		w.win.Resize(size)
	}
}

// forget has the toolkit let go of what was not seen for a minute: it does so when it
// paints, which few of these tests do.
func forget() { test.NewCanvas().Capture() }
