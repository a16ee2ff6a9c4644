package shelf

import (
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
)

// On the shelf Ctrl and a click take one loaf more or one away, Shift takes all from the last
// one, a plain click opens; Space and Shift with the arrows do the same by keys. What is
// selected says what can be done with it.
func TestSelectingOnTheShelf(t *testing.T) {
	b := pagestest.New(t)
	for range 3 { // so many that there is something to select
		baked(t, b)
	}
	p := showShelf(t, b, pages.Route{Name: pages.Shelf})
	b.Wait()
	g := p.grid
	held := fyne.KeyModifier(0)
	g.Held = func() fyne.KeyModifier { return held }
	with := func(mod fyne.KeyModifier, i int) {
		held = mod
		g.OnSelected(i)
		held = 0
	}
	wants := func(what string, rows ...int) {
		t.Helper()
		if len(p.chosen) != len(rows) {
			t.Fatalf("%s: %d are selected, want %v", what, len(p.chosen), rows)
		}
		for _, i := range rows {
			if !p.item(i).Chosen {
				t.Errorf("%s: %d is not selected", what, i)
			}
		}
	}
	with(fyne.KeyModifierControl, 1)
	wants("Ctrl", 1)
	with(fyne.KeyModifierControl, 3)
	wants("Ctrl again", 1, 3)
	with(fyne.KeyModifierShift, 5)
	wants("Shift", 1, 3, 4, 5)
	with(fyne.KeyModifierControl, 1)
	wants("Ctrl on one that is selected", 3, 4, 5)
	p.chooseNone()
	wants("none")
	g.SetCursor(0)
	g.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	held = fyne.KeyModifierShift
	g.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	g.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	held = 0
	wants("Space, and Shift with the arrows", 0, 1, 2)
	if len(b.Went) > 0 {
		t.Fatalf("it went to %v", b.Went)
	}
	with(0, 2)
	if len(b.Went) != 1 {
		t.Errorf("a plain click went to %v", b.Went)
	}
}
