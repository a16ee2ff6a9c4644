package tastings

import (
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// The keyboard stays at its row when the list is read again, also when what it lists has
// another name.
func TestTheListKeepsTheKeyboard(t *testing.T) {
	b := newBench(t)
	trial := b.trial()
	b.goTo(pages.Route{Name: pages.Tastings})
	p, ok := b.Page().(*listPage)
	if !ok {
		t.Fatalf("the list is %T", b.Page())
	}
	first, ok := p.list.Start().(*kit.OpenRow)
	if !ok {
		t.Fatal("no row to begin at")
	}
	b.Window.Canvas().Focus(first)
	key, _ := p.list.At()
	for _, change := range []func(*journal.Trial){
		func(t *journal.Trial) { t.Notes = "A word." },
		func(t *journal.Trial) { t.Name = "Another name" },
	} {
		b.Env.Do("a change", func(tx *journal.Tx) error { return journal.Change(tx, trial.ID, change) })
		b.settle()
		if at, ok := p.list.At(); !ok || at != key {
			t.Errorf("the keyboard is at %q (%v), was at %q", at, ok, key)
		}
		if has, ok := b.Window.Canvas().Focused().(fyne.CanvasObject); !ok || !has.Visible() {
			t.Errorf("the keyboard is in %T", b.Window.Canvas().Focused())
		}
	}
}
