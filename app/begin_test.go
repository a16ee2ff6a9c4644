package app

import (
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// The first Tab goes to where the work of a page begins, not to the sidebar; a page that
// was reached by a key begins there by itself, one that was clicked on does not.
func TestAPageBeginsWhereItsWorkBegins(t *testing.T) {
	w := newWindow(t)
	c := w.win.Canvas()
	if err := w.env.Journal.Do("cultures", func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Culture{Name: "Gorse"})
	}); err != nil {
		t.Fatal(err)
	}
	isRow := func() bool { _, ok := c.Focused().(*kit.OpenRow); return ok }
	w.Go(pages.Route{Name: pages.Cultures})
	w.env.Wait()
	if c.Focused() != nil {
		t.Errorf("a page that was clicked on begins with %T", c.Focused())
	}
	c.FocusNext()
	if !isRow() {
		t.Errorf("the first Tab goes to %T", c.Focused())
	}
	w.Go(pages.Route{Name: pages.Settings})
	c.FocusNext()
	if _, ok := c.Focused().(*kit.Pill); !ok {
		t.Errorf("where the page says nothing of it, the first Tab goes to %T", c.Focused())
	}
	w.keys.Press("Ctrl+2")
	w.env.Wait()
	if !isRow() {
		t.Errorf("a page that was reached by a key begins with %T", c.Focused())
	}
}

// A page that is shown anew keeps the keyboard in its place: a setting chosen by a key can be
// chosen on from.
func TestTheKeyboardStaysWhereItWas(t *testing.T) {
	w := newWindow(t)
	c := w.win.Canvas()
	w.Go(pages.Route{Name: pages.Settings})
	c.FocusNext()
	c.FocusNext() // the second language
	for range 6 {
		c.FocusNext()
	}
	was, ok := c.Focused().(*kit.Pill)
	if !ok {
		t.Fatalf("Tab comes to %T", c.Focused())
	}
	was.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	w.env.Wait()
	now, ok := c.Focused().(*kit.Pill)
	if !ok || now == was || now.Words() != was.Words() || now.Position() != was.Position() {
		t.Errorf("after %v the keyboard is on %v", was, c.Focused())
	}
}

// Page down scrolls whatever has the keyboard, and End goes to the end.
func TestKeysScrollThePage(t *testing.T) {
	w := newWindow(t)
	w.Go(pages.Route{Name: pages.Help})
	w.env.Wait()
	p := w.here.page.Object().(*kit.Page)
	press := func(name fyne.KeyName) float32 {
		w.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: name})
		return p.Offset()
	}
	down := press(fyne.KeyPageDown)
	if down < 300 {
		t.Errorf("Page down scrolls by %v", down)
	}
	if end := press(fyne.KeyEnd); end < down || press(fyne.KeyPageDown) != end {
		t.Errorf("End goes to %v, and Page down beyond it", end)
	}
	if top := press(fyne.KeyHome); top != 0 {
		t.Errorf("Home goes to %v", top)
	}
	if line := press(fyne.KeyDown); line <= 0 || line > 100 {
		t.Errorf("an arrow scrolls by %v", line)
	}
}

// Ctrl+plus and minus go through the sizes and stop at either end; a size from elsewhere
// counts as the usual.
func TestTextSize(t *testing.T) {
	t.Setenv(scaleVariable, startScale)
	w := newWindow(t)
	size := func() int {
		s, err := w.env.Journal.Settings()
		if err != nil {
			t.Fatal(err)
		}
		return textSize(s)
	}
	w.keys.Press("Ctrl+Plus")
	if size() != 110 {
		t.Errorf("one step larger is %d %%", size())
	}
	for range 12 {
		w.keys.Press("Ctrl+Plus")
	}
	if size() != 200 {
		t.Errorf("the largest is %d %%", size())
	}
	w.keys.Press("Ctrl+0")
	w.keys.Press("Ctrl+Minus")
	if size() != 90 {
		t.Errorf("one step smaller than usual is %d %%", size())
	}
	if err := w.env.Journal.Set("", func(s *journal.Settings) { s.TextSize = 7 }); err != nil || size() != 100 {
		t.Errorf("a size that is none is %d %% (%v)", size(), err)
	}
}
