package app

import (
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal/blind"
	"twinloaf/journal/journaltest/race"
)

// A figured is a field of which a figure or a time is made.
type figured interface {
	fyne.CanvasObject
	Entry() fyne.Focusable
	Text() string
	Name() string
	Understood() bool
	Focus()
}

// Every dialog that a key of any page opens: with a figure in it that is not understood
// it neither closes nor changes the journal, by Enter, by its button or by Esc, whichever
// figure it is, and Esc leaves every field of it as it was typed.
func TestNoSheetTakesWhatIsNotUnderstood(t *testing.T) {
	lw := newLeakWorld(t, filepath.Join(t.TempDir(), "journal"), planOf(blind.Paired, blind.WithHelper), false)
	a := maintest.App(t)
	lw.show(a)
	t.Cleanup(lw.w.Close)
	fields := 0
	lw.everyDialog(func(s *kit.Dialog, where string) { fields += lw.spoil(s, where) })
	if fields < race.Cases(20, 1) {
		t.Errorf("only %d figures were found in sheets", fields)
	}
}

func (lw *leakWorld) top() (*kit.Dialog, bool) {
	s, ok := lw.w.win.Canvas().Overlays().Top().(*kit.Dialog)
	return s, ok
}

func (lw *leakWorld) closeSheets() {
	c := lw.w.win.Canvas()
	for c.Overlays().Top() != nil {
		if s, ok := lw.top(); ok {
			s.Close()
			continue
		}
		c.Overlays().Remove(c.Overlays().Top())
	}
	c.Unfocus()
}

// spoil types what is no figure into each field of a dialog in turn, and gives how many
// there are.
func (lw *leakWorld) spoil(s *kit.Dialog, where string) int {
	lw.t.Helper()
	c := lw.w.win.Canvas()
	var all []figured
	for _, f := range pagestest.All[*kit.QuantityField](s) {
		all = append(all, f)
	}
	for _, f := range pagestest.All[*kit.WhenField](s) {
		all = append(all, f)
	}
	const rubbish = "12 zz"
	write := func(f figured, text string) {
		c.Focus(f.Entry())
		f.Entry().(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
		f.Entry().TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
		for _, r := range text {
			f.Entry().TypedRune(r)
		}
	}
	for _, f := range all {
		name, was := where+", "+f.Name(), f.Text()
		write(f, rubbish)
		before, _ := lw.j.Steps()
		tries := map[string]func(){
			"Enter":              func() { c.Unfocus(); c.OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyReturn}) },
			"Ctrl+Enter":         func() { lw.w.keys.Press("Ctrl+Enter") },
			"Enter in the field": func() { c.Focus(f.Entry()); f.Entry().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) },
		}
		for _, b := range pagestest.All[*kit.Button](s) {
			if b.Main() {
				tries[b.Label()] = func() { test.Tap(b) }
			}
		}
		for how, do := range tries {
			do()
			lw.settle()
			after, _ := lw.j.Steps()
			if top, ok := lw.top(); !ok || top != s || f.Text() != rubbish || f.Understood() || after != before {
				lw.t.Fatalf("%s: %s: it is open still: %v, the text is %q, the last change %q", name, how, ok && top == s, f.Text(), after)
			}
		}
		c.Focus(f.Entry())
		f.Entry().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if f.Text() != rubbish || !s.Open() || c.Focused() != nil {
			lw.t.Errorf("%s: Esc leaves %q, open %v", name, f.Text(), s.Open())
		}
		write(f, was)
	}
	return len(all)
}
