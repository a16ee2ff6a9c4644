package app

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/outline"
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

// A page that turns while the keyboard is in the sidebar leaves it there.
func TestATurningPageLeavesTheSidebarAlone(t *testing.T) {
	w := newWindow(t)
	c := w.win.Canvas()
	c.Focus(w.side.doors[1])
	w.env.Turned()
	if c.Focused() != w.side.doors[1] {
		t.Errorf("the keyboard went to %T", c.Focused())
	}
}

// While a tasting is plated by keys, an Enter too many neither shows the card to those who
// taste nor seals.
func TestAnEnterTooManyNeitherShowsNorSeals(t *testing.T) {
	w, j := demoWindow(t)
	all, err := journal.All[journal.Tasting](j)
	if err != nil {
		t.Fatal(err)
	}
	planned := all[slices.IndexFunc(all, func(t *journal.Tasting) bool { return t.Sealed.IsZero() })]
	w.keys.Set("test", []kit.Key{{Name: "F12", Do: func() { w.Go(pages.Route{Name: pages.Tasting, ID: planned.ID, More: "plate"}) }}})
	for _, shown := range []string{"Tasters, look away", "For the helper alone"} {
		w.keys.Press("F12")
		w.env.Wait()
		if shown == "For the helper alone" {
			w.keys.Press("G")
			w.env.Wait()
		}
		if said := strings.Join(outline.Texts(outline.Of(w.win)), " "); !strings.Contains(said, shown) {
			t.Fatalf("shown is %s", said)
		}
		f := w.win.Canvas().Focused()
		if f == nil {
			t.Fatal("nothing has the keyboard")
		}
		f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		w.env.Wait()
		said := strings.Join(outline.Texts(outline.Of(w.win)), " ")
		if now, err := journal.Get[journal.Tasting](j, planned.ID); err != nil || !now.Sealed.IsZero() || shown == "Tasters, look away" && strings.Contains(said, "For the helper alone") {
			t.Errorf("after Enter on %v: sealed %v, %v, %s", f, now.Sealed, err, said)
		}
	}
}

// A tasting that went to the bin while its page is shown takes its keys along.
func TestATastingThatIsGoneHasNoKeys(t *testing.T) {
	w, j := demoWindow(t)
	all, err := journal.All[journal.Tasting](j)
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(all, func(t *journal.Tasting) bool { return t.Sealed.IsZero() })
	w.Go(pages.At(pages.Tasting, all[i].ID))
	w.env.Wait()
	if !w.keys.Press("N") {
		t.Fatal("a planned tasting has no keys")
	}
	if err := j.Do("to the bin", func(tx *journal.Tx) error { return journal.MoveToBin[journal.Tasting](tx, all[i].ID) }); err != nil {
		t.Fatal(err)
	}
	w.env.Wait()
	if w.keys.Press("P") {
		t.Error("it can still be plated")
	}
}

// A page that cannot be read, reached by a key, has the keyboard all the same.
func TestAPageThatCannotBeReadBegins(t *testing.T) {
	w := newWindow(t)
	again := kit.PrimaryButton("Again", func() {})
	p := &pages.Base{Name: "broken", Body: kit.NewPage(kit.PageOptions{Actions: []fyne.CanvasObject{again}})}
	p.Read = func() {
		pages.Load(w.env, p, func(context.Context, journal.Source) (int, error) { return 0, errors.New("the disk is gone") }, func(int) {})
	}
	w.openers["broken"] = func(*pages.Env, pages.Route) (pages.Page, error) { return p, nil }
	w.keys.Set("test", []kit.Key{{Name: "F12", Do: func() { w.Go(pages.Route{Name: "broken"}) }}})
	w.keys.Press("F12")
	w.env.Wait()
	if c := w.win.Canvas(); c.Focused() != again {
		t.Errorf("it begins with %T", c.Focused())
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
