package bakeday

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/plan"
)

// A bake is taken from its formula to its record without leaving the bake day for a figure:
// every gram stands there to be ticked off, the water's temperature beside it, what is measured
// is typed in there, and only how it came out is written elsewhere.
func TestFromFormulaToRecordOnOnePage(t *testing.T) {
	b := pagestest.New(t)
	steps, err := b.Journal.TemplateSteps(append([]plan.Step{plan.LevainBuild()}, plan.CountryLoaf()...))
	if err != nil {
		t.Fatal(err)
	}
	f := &journal.Formula{Name: "Ferry loaf", Loaves: 2, Steps: steps, Ingredients: []journal.Ingredient{
		{ID: "flour", Name: "Strong white flour", Role: formula.Flour, Grams: 900},
		{ID: "water", Name: "Water", Role: formula.Water, Grams: 600},
		{ID: "salt", Name: "Salt", Role: formula.Salt, Grams: 20},
	}, Levains: []journal.LevainBuild{{Name: "Night levain", Lines: []journal.Ingredient{
		{ID: "seed", Name: "Harbour", Role: formula.Culture, Grams: 20}, {ID: "rye", Name: "Rye", Role: formula.Flour, Grams: 90}, {ID: "w", Name: "Water", Role: formula.Water, Grams: 90}}}}}
	b.Put(func(tx *journal.Tx) error { return journal.NewFormula(tx, f) })
	bake := journal.PlanBake(f)
	bake.State, bake.At = journal.Planned, b.Clock
	bake.Water = journal.WaterPlan{Wanted: new(formula.Celsius(25)), Flour: new(formula.Celsius(21)), Room: new(formula.Celsius(21)), Friction: new(formula.Celsius(0))}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, bake) })
	p := b.Show(open, pages.At(pages.BakeDay, bake.ID))
	b.Wait()
	b.Press("G") // the day begins
	face := stageOf(p)
	b.Wait()
	typeIn := func(key, text string) {
		t.Helper()
		b.Press(key)
		for _, r := range text {
			b.Window.Canvas().Focused().TypedRune(r)
		}
		b.Window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	}
	weighed := map[string]bool{}
	for range 60 {
		face.tick()
		face.scale.show()
		for _, w := range face.scale.shown {
			for _, r := range w.rows {
				if !r.done {
					weighed[strings.ReplaceAll(r.amount+" "+r.name+" "+r.aside, "\u00a0", " ")] = true
					b.Press("W")
				}
			}
		}
		stand, more := face.stand()
		if !more {
			break
		}
		if stand.Until.After(b.Clock) {
			b.Clock = stand.Until
		}
		if now, _ := face.stand(); now.Ref != stand.Ref || now.Runs != stand.Runs {
			continue
		}
		b.Press("D")
		switch {
		case stand.Kind == plan.Mix:
			typeIn("T", "24.5")
		case stand.Kind == plan.Turns && stand.Turn == 6:
			typeIn("R", "1.6")
		}
	}
	for _, want := range []string{"20 g Harbour ", "90 g Rye ", "90 g Water ", "200 g Night levain ", "900 g Strong white flour ", "20 g Salt "} {
		if !weighed[want] {
			t.Errorf("%q was not on the scale: %v", want, weighed)
		}
	}
	if len(b.Went) != 0 || len(b.Failed) != 0 {
		t.Errorf("on the way it went to %v, failed %v", b.Went, b.Failed)
	}
	if face.main.Label() != "Write down how it came out" {
		t.Fatalf("at the end the button says %q", face.main.Label())
	}
	b.Press("D")
	got := pagestest.Stored[journal.Bake](b, bake.ID)
	if len(b.Went) != 1 || b.Went[0].More != pages.ToOutcome || got.State != journal.Finished || got.Ready.IsZero() {
		t.Errorf("it went to %v, and the bake is %q", b.Went, got.State)
	}
	if got.Water.Dough == nil || *got.Water.Dough != 24.5 {
		t.Errorf("the dough's temperature is %v", got.Water.Dough)
	}
	rose := false
	for _, s := range got.Steps {
		rose = rose || s.Rise != nil && *s.Rise == 1.6
		if s.At.IsZero() || s.End.IsZero() {
			t.Errorf("%s has no beginning or end", s.Kind)
		}
	}
	if !rose {
		t.Error("how far it rose is not in the record")
	}
	if took := got.Ready.Sub(got.At); took < 12*time.Hour || kit.Overdue(got.Ready, got.At) {
		t.Errorf("the day took %v", took)
	}
}
