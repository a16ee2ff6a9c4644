package formulas

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
)

// The bakes of the formula that was pointed at stay beside the list when records change, wherever
// its row goes, though the keyboard is at another.
func TestWhatStandsBesideTheListStaysThere(t *testing.T) {
	b := pagestest.New(t)
	first, second := &journal.Formula{Family: "ferry", Name: "Ferry loaf", Number: 1}, &journal.Formula{Family: "deck", Name: "Deck rye", Number: 1}
	bake := func(f *journal.Formula, ago time.Duration) (made *journal.Bake) {
		b.Put(func(tx *journal.Tx) error {
			if f.ID == "" {
				if err := journal.Put(tx, f); err != nil {
					return err
				}
			}
			made = &journal.Bake{Name: f.Name, Formula: f.ID, At: b.Clock.Add(-ago)}
			if err := journal.Put(tx, made); err != nil {
				return err
			}
			return journal.Put(tx, &journal.Photo{Owner: journal.RefOf(made), Hash: fmt.Sprintf("%064x", ago), Role: journal.RoleCrumb, Added: b.Clock})
		})
		return made
	}
	bake(first, time.Hour)
	of := bake(second, 2*time.Hour)
	p := b.Show(openList, pages.Route{Name: pages.Formulas}).(*listPage)
	beside := func(when string, want *journal.Bake) {
		t.Helper()
		b.Wait()
		test.Tap(pagestest.All[*kit.PhotoTile](p.beside)[0])
		if got := b.Went[len(b.Went)-1]; got != pages.At(pages.Bake, want.ID) {
			t.Errorf("%s, the first bake beside the list opens %+v, want %+v", when, got, want.ID)
		}
	}
	test.MoveMouse(b.Window.Canvas(), b.App.Driver().AbsolutePositionForObject(p.list).AddXY(40, 300))
	beside("pointed at", of)
	bake(first, 30*time.Minute)
	beside("after another bake", of)
	again := bake(second, time.Minute) // its row is now the first
	beside("after a bake of its own", again)
}

// Beside the list stand the figures of all bakes by the formula, of each figure that one of them has.
func TestTheBakesBesideTheListAreToldInFigures(t *testing.T) {
	b := pagestest.New(t)
	f := &journal.Formula{Family: "ferry", Name: "Ferry loaf", Number: 1}
	b.Put(func(tx *journal.Tx) error {
		if err := journal.Put(tx, f); err != nil {
			return err
		}
		scored := &journal.Bake{Name: "Ferry loaf, Gorse", Formula: f.ID, At: b.Clock.Add(-time.Hour)}
		scored.Outcome.Scores = []journal.AttributeScore{{Attribute: journal.Overall, Score: 7}}
		if err := journal.Put(tx, scored); err != nil {
			return err
		}
		return journal.Put(tx, &journal.Bake{Name: "Ferry loaf, Harbour", Formula: f.ID, At: b.Clock.Add(-2 * time.Hour)})
	})
	p := b.Show(openList, pages.Route{Name: pages.Formulas}).(*listPage)
	b.Wait()
	said := ""
	pagestest.Each(p.beside, func(o fyne.CanvasObject) {
		if text, ok := o.(fmt.Stringer); ok {
			said += text.String() + "\n"
		}
	})
	for _, want := range []string{"Ferry loaf, Gorse", "overall score", "7", "Ferry loaf, Harbour", "–"} {
		if !strings.Contains(said, want) {
			t.Errorf("beside the list nothing says %q: %s", want, said)
		}
	}
	for _, none := range []string{"hydration", "bake loss"} {
		if strings.Contains(said, none) {
			t.Errorf("no bake has a %s, and it has a column", none)
		}
	}
}
