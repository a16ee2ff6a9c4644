package bakeday

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/plan"
)

// toMix marks what comes before the mixing as done.
func toMix(t *testing.T, b *pagestest.Bench, id journal.ID) {
	t.Helper()
	for range 5 {
		k := pagestest.Stored[journal.Bake](b, id)
		day, _ := k.Day()
		m, more := day.Next(b.Clock)
		if !more || m.Kind == plan.Mix {
			return
		}
		day, err := day.Done(m.Ref, b.Clock)
		if err != nil {
			t.Fatal(err)
		}
		k.SetDay(day)
		b.Put(func(tx *journal.Tx) error { return journal.Put(tx, k) })
	}
	t.Fatal("the mixing does not come")
}

func weighedWords(w weighing) string {
	var out []string
	for _, r := range w.rows {
		words := strings.TrimSpace(r.amount + " " + r.name + " " + r.aside)
		if r.done {
			words = "✓ " + words
		}
		out = append(out, strings.ReplaceAll(words, "\u00a0", " "))
	}
	return strings.Join(out, ", ")
}

// At the mixing the grams stand on the page in the order in which they go in, with the
// water's temperature; W ticks them off one by one, and Undo takes a tick back.
func TestTheScaleIsInTheHand(t *testing.T) {
	b := pagestest.New(t)
	id := putDough(b, "Ferry loaf", journal.Running, b.Clock).ID
	k := pagestest.Stored[journal.Bake](b, id)
	k.Levains = []journal.LevainBuild{{Name: "Night levain", Lines: []journal.Ingredient{
		{ID: "seed", Name: "Harbour", Role: formula.Culture, Grams: 20}, {ID: "rye", Name: "Rye", Role: formula.Flour, Grams: 50}, {ID: "w", Name: "Water", Role: formula.Water, Grams: 50}}}}
	k.Ingredients = k.Ingredients[:3]
	k.Water = journal.WaterPlan{Wanted: new(formula.Celsius(25)), Flour: new(formula.Celsius(21)), Room: new(formula.Celsius(21)), Friction: new(formula.Celsius(0))}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, k) })
	toMix(t, b, id)
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	b.Wait()
	f.tick()
	if len(f.scale.shown) != 1 || !f.scale.beside.Visible() {
		t.Fatalf("on the scale: %+v", f.scale.shown)
	}
	// 4 × 25 °C less three times 21 °C leaves 37 °C for the water: the bakers' rule.
	const all = "700 g Water at 37 °C, 120 g Night levain, 1000 g Strong white flour, 20 g Salt"
	if got := weighedWords(f.scale.shown[0]); got != all {
		t.Errorf("on the scale: %s\nwant %s", got, all)
	}
	b.Press("W")
	b.Press("W")
	if got := weighedWords(f.scale.shown[0]); !strings.HasPrefix(got, "✓ 700 g Water at 37 °C, ✓ 120 g Night levain, 1000 g") {
		t.Errorf("after two ticks: %s", got)
	}
	list := f.scale.lists[id]
	b.Window.Canvas().Focus(list.Start())
	b.Window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace}) // the first once more: it was not weighed
	if got := weighedWords(f.scale.shown[0]); !strings.HasPrefix(got, "700 g Water") {
		t.Errorf("the tick stays: %s", got)
	}
	if _, ok := list.At(); !ok {
		t.Error("the keyboard has left the list")
	}
	if _, err := b.Journal.Undo(); err != nil || !strings.HasPrefix(weighedWords(f.scale.shown[0]), "✓ 700 g Water") {
		t.Errorf("undo: %v, %s", err, weighedWords(f.scale.shown[0]))
	}
	if again := pagestest.Stored[journal.Bake](b, id).Again(); len(again.Steps[0].Weighed)+len(again.Steps[1].Weighed) != 0 {
		t.Error("what was weighed is ticked off in the next bake")
	}
}

// Two doughs that are mixed at one time stand side by side, the page's own first.
func TestTwoDoughsOnTheScale(t *testing.T) {
	b := pagestest.New(t)
	one, two := putDough(b, "Harbour", journal.Running, b.Clock).ID, putDough(b, "Gorse", journal.Running, b.Clock).ID
	toMix(t, b, one)
	toMix(t, b, two)
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, two)))
	b.Wait()
	f.tick()
	if len(f.scale.shown) != 2 || f.scale.shown[0].bake != two || !f.scale.below.Visible() || f.scale.beside.Visible() {
		t.Fatalf("on the scale: %+v", f.scale.shown)
	}
	b.Press("W")
	if f.scale.shown[0].left() != 3 || f.scale.shown[1].left() != 4 {
		t.Errorf("%d and %d are left", f.scale.shown[0].left(), f.scale.shown[1].left())
	}
	b.Press("D") // the one is mixed; it stays on the scale until everything is in or its time is over
	if len(f.scale.shown) == 0 {
		t.Error("the scale is put away while there is something to weigh")
	}
}
