package app

import (
	"testing"
	"time"

	"fyne.io/fyne/v2/test"

	"twinloaf/app/maintest"
	"twinloaf/assets/demo"
	"twinloaf/journal"
)

// demoWindow is a window on the demo without its photos, and the demo's journal.
func demoWindow(t *testing.T) (*Window, *journal.Journal) {
	t.Helper()
	a := test.NewTempApp(t)
	dir := t.TempDir()
	now := time.Date(2026, time.November, 24, 10, 30, 0, 0, time.UTC)
	if err := demo.Build(t.Context(), dir, now, demo.Options{NoPictures: true}); err != nil {
		t.Fatal(err)
	}
	j, err := journal.Open(t.Context(), dir, journal.Options{Clock: func() time.Time { return now }})
	if err != nil {
		t.Fatal(err)
	}
	w := compose(a, j, maintest.New().Do)
	t.Cleanup(w.Close)
	return w, j
}
