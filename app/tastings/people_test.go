package tastings

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
)

// Enter takes a name and stays, so that a whole table can be typed in one go.
func TestNamesAreTypedOneAfterAnother(t *testing.T) {
	b := newBench(t)
	trial := b.trial()
	b.goTo(pages.At(pages.Trial, trial.ID))
	b.key("T")
	who := b.Page().(*tastingPage).state.(*planSection).who
	b.Window.Canvas().Focus(who.Entry())
	for _, name := range []string{"Ines", "Jory"} {
		test.Type(b.Window.Canvas().Focused(), name)
		who.Entry().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		if b.Window.Canvas().Focused() != who.Entry() {
			t.Fatalf("after %s the cursor is elsewhere", name)
		}
		if got := who.Text(); got != "" || strings.Contains(b.Texts(), "nobody yet") {
			t.Errorf("after %s the field holds %q: %s", name, got, b.Texts())
		}
	}
	s, err := b.tasting().Setting()
	if err != nil || !slices.Equal(s.Plan.Tasters, []string{"Ines", "Jory"}) {
		t.Errorf("tasters %q, %v", s.Plan.Tasters, err)
	}
}

// Whoever reads the allergens and does not want to taste need not; the next one is
// asked at once, and the verdict waits for nobody.
func TestATasterDeclines(t *testing.T) {
	b := newBench(t)
	trial := b.trial()
	b.goTo(pages.At(pages.Trial, trial.ID))
	b.key("T")
	b.setPlan(func(p *blind.Plan) { p.Method, p.Tasters, p.Rounds = blind.Paired, []string{"Ines", "Jory"}, 1 })
	plating, err := b.Env.Journal.Plate(b.tasting().ID)
	if err != nil {
		t.Fatal(err)
	}
	if err := plating.Seal(); err != nil {
		t.Fatal(err)
	}
	b.goTo(pages.Route{Name: pages.Tasting, ID: b.tasting().ID, More: scoring})
	b.key("Enter") // it is Ines
	b.mustSay("do not taste")
	b.press("I will not taste")
	b.key("Ctrl+Enter") // in the dialog that asks
	b.mustSay("Now Jory")
	b.key("Enter")
	b.press("I will not taste")
	b.key("Ctrl+Enter")
	b.mustSay("Every score is in")
	b.goTo(pages.Route{Name: pages.Tasting, ID: b.tasting().ID})
	b.mustSay("chose not to taste")
	if err := b.Env.Journal.Unseal(b.tasting().ID, ""); err != nil {
		t.Fatal(err)
	}
	b.settle()
	b.mustSay("There is no answer to count.")
	b.mustSay("was not tasted")
}

// What was changed after the sealing is told before anybody tastes.
func TestABrokenSealIsToldBeforeTheFirstBite(t *testing.T) {
	b := newBench(t)
	trial := b.trial()
	b.goTo(pages.At(pages.Trial, trial.ID))
	b.key("T")
	b.setPlan(func(p *blind.Plan) { p.Tasters, p.Rounds = []string{"Ines"}, 1 })
	plating, err := b.Env.Journal.Plate(b.tasting().ID)
	if err != nil {
		t.Fatal(err)
	}
	if err := plating.Seal(); err != nil {
		t.Fatal(err)
	}
	err = b.Env.Journal.Do("alter", func(tx *journal.Tx) error {
		rec := b.tasting()
		s, err := rec.Setting()
		if err != nil {
			return err
		}
		s.Plan.Alpha = 0.2
		if err := rec.SetSetting(s); err != nil {
			return err
		}
		return journal.Put(tx, rec)
	})
	if err != nil {
		t.Fatal(err)
	}
	b.goTo(pages.Route{Name: pages.Tasting, ID: b.tasting().ID, More: scoring})
	b.mustSay("The seal does not hold")
}

// Mould that is seen on a culture after its loaves were planned to be tasted keeps the
// tasting from going on, at every step, without a word on which loaf it is.
func TestNobodyTastesFromACondemnedCulture(t *testing.T) {
	b := newBench(t)
	trial := b.trial()
	b.goTo(pages.At(pages.Trial, trial.ID))
	b.key("T")
	b.setPlan(func(p *blind.Plan) { p.Tasters, p.Rounds = []string{"Ines"}, 1 })
	plating, err := b.Env.Journal.Plate(b.tasting().ID)
	if err != nil {
		t.Fatal(err)
	}
	err = b.Env.Journal.Do("mould", func(tx *journal.Tx) error {
		all, err := journal.All[journal.Culture](tx)
		if err != nil {
			return err
		}
		c := all[0]
		c.Born = b.Clock.AddDate(0, -1, 0)
		return errors.Join(journal.Put(tx, c),
			journal.Put(tx, &journal.Feeding{Culture: c.ID, At: b.Clock.Add(-9 * time.Hour), Kept: 20, Flour: 40, Water: 40}),
			journal.Put(tx, &journal.Reading{Culture: c.ID, At: b.Clock.Add(-time.Hour), Mould: true}))
	})
	if err != nil {
		t.Fatal(err)
	}
	b.goTo(pages.At(pages.Tasting, b.tasting().ID))
	b.mustSay("mould, or pink or orange, was seen on it")
	b.key("P")
	b.mustSay("Nobody is to taste these")
	if err := plating.Seal(); err != nil {
		t.Fatal(err)
	}
	b.goTo(pages.Route{Name: pages.Tasting, ID: b.tasting().ID, More: scoring})
	b.mustSay("Nobody is to taste these")
}

// Once both loaves are taken by keys the button has the focus: Enter plans.
func TestTwoLoavesAreTakenByKeys(t *testing.T) {
	b := newBench(t)
	b.trial()
	b.goTo(pages.Route{Name: pages.Tasting})
	p, ok := b.Page().(*beginTastingPage)
	if !ok {
		t.Fatalf("a new tasting shows %T", b.Page())
	}
	for n, f := range p.fields {
		b.Window.Canvas().Focus(f.Entry())
		test.Type(f.Entry(), named(p.summaries[n].Name, "a bake"))
		for _, key := range []fyne.KeyName{fyne.KeyDown, fyne.KeyReturn} {
			f.Entry().TypedKey(&fyne.KeyEvent{Name: key})
		}
	}
	if p.chosen[0] == p.chosen[1] || b.Window.Canvas().Focused() != fyne.Focusable(p.begin) {
		t.Fatalf("chosen %q, the focus is on %T", p.chosen, b.Window.Canvas().Focused())
	}
	p.begin.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	b.mustSay("What this plan can find")
}

// A loaf that is still dough is not offered by its picture, and says so by its name.
func TestDoughIsNotOfferedToBeTasted(t *testing.T) {
	b := newBench(t)
	b.trial()
	loaf := &journal.Bake{Name: "Ferry loaf", State: journal.Finished, At: b.Clock.AddDate(0, 0, -2)}
	dough := &journal.Bake{Name: "Deck rye", State: journal.Running, At: b.Clock}
	if err := b.Env.Journal.Do("baking", func(tx *journal.Tx) error { return errors.Join(journal.Put(tx, loaf), journal.Put(tx, dough)) }); err != nil {
		t.Fatal(err)
	}
	b.goTo(pages.Route{Name: pages.Tasting})
	p, ok := b.Page().(*beginTastingPage)
	if !ok {
		t.Fatalf("a new tasting shows %T", b.Page())
	}
	if p.tiles[dough.ID] != nil || p.tiles[loaf.ID] == nil {
		t.Errorf("%d loaves are offered, the dough among them: %v", len(p.tiles), p.tiles[dough.ID] != nil)
	}
	p.choose(dough.ID)
	b.mustSay("under way")
}

// So it is once both are taken by their pictures, not before.
func TestTwoLoavesAreTakenByTheirPictures(t *testing.T) {
	b := newBench(t)
	var loaves [2]*journal.Bake
	if err := b.Env.Journal.Do("baking", func(tx *journal.Tx) error {
		for i := range loaves {
			loaves[i] = &journal.Bake{Name: "Ferry loaf", State: journal.Finished, At: b.Clock.AddDate(0, 0, -1-i)}
			if err := journal.Put(tx, loaves[i]); err != nil {
				return err
			}
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	b.goTo(pages.Route{Name: pages.Tasting})
	p := b.Page().(*beginTastingPage)
	for i, loaf := range loaves {
		p.tiles[loaf.ID].Tapped(nil)
		if plans := b.Window.Canvas().Focused() == fyne.Focusable(p.begin); plans != (i == 1) {
			t.Errorf("with %d chosen Enter plans the tasting: %v", i+1, plans)
		}
	}
}
