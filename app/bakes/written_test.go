package bakes

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// A dough is written down as bakers jot it: the amount beside the name, by weight or by
// percent, and Enter goes on to the next line.
func TestADoughIsJottedDown(t *testing.T) {
	b := bench(t)
	p := open(b, "")
	write(b, "Deck rye")
	b.Press("I")
	for _, line := range []string{"strong white 400", "100 g whole rye", "water 72 %", "salt 2 %", "rye starter 100 (80 % hydration)"} {
		write(b, line)
		press(b, fyne.KeyReturn)
		if b.Window.Canvas().Focused() != p.dough.Final().Next().Entry() {
			t.Fatalf("after %q the cursor is not in the next line", line)
		}
	}
	got := pagestest.Stored[journal.Bake](b, p.rec.id)
	if len(got.Ingredients) != 5 {
		t.Fatalf("%d lines: %+v", len(got.Ingredients), got.Ingredients)
	}
	for i, want := range []struct {
		name  string
		role  formula.Role
		grams formula.Grams
	}{{"strong white", formula.Flour, 400}, {"whole rye", formula.Flour, 100}, {"water", formula.Water, 360}, {"salt", formula.Salt, 10}, {"rye starter", formula.Culture, 100}} {
		if in := got.Ingredients[i]; in.Name != want.name || in.Role != want.role || in.Grams != want.grams {
			t.Errorf("line %d is %q, %s, %v g; want %+v", i+1, in.Name, in.Role, in.Grams, want)
		}
	}
	if h := got.Ingredients[4].Hydration; h == nil || *h != 80 {
		t.Errorf("the starter's hydration is %v", h)
	}
}

// A flour of an earlier bake brings along what was said of it there, while it is typed.
func TestAFlourOfAnEarlierBakeIsKnown(t *testing.T) {
	b := bench(t)
	b.Put(func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Bake{Name: "First", Ingredients: []journal.Ingredient{
			{Role: formula.Flour, Name: "Hill mill", Grams: 500, Flour: &journal.FlourFacts{Grain: "spelt", Type: "630"}},
		}})
	})
	p := open(b, "")
	write(b, "Second")
	b.Press("I")
	write(b, "Hill mill 400")
	press(b, fyne.KeyReturn)
	if err := b.Journal.Flush(); err != nil {
		t.Fatal(err)
	}
	got := pagestest.Stored[journal.Bake](b, p.rec.id).Ingredients
	if len(got) != 1 || got[0].Flour == nil || got[0].Flour.Grain != "spelt" || got[0].Flour.Type != "630" {
		t.Errorf("the second bake holds %+v", got)
	}
}

// Ten lines of a page make ten lines of the dough; what was not understood is marked, and
// one Undo takes them all back.
func TestTenLinesArePasted(t *testing.T) {
	b := bench(t)
	p := open(b, "")
	write(b, "Pasted")
	b.Press("I")
	board := test.NewClipboard()
	board.SetContent("Ingredients:\n• 400 g strong white flour\n• 100 g whole rye\n• 375 g water\n• 10 g salt\n• 100 g ripe starter (100 % hydration)\n" +
		"- 30 g honey\n- 20 g olive oil\n- 40 g sunflower seeds\n- 2 tbsp sesame\n- a handful of oats\n")
	p.dough.Final().Next().Entry().(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutPaste{Clipboard: board})
	got := pagestest.Stored[journal.Bake](b, p.rec.id)
	if len(got.Ingredients) != 10 {
		t.Fatalf("%d lines: %+v", len(got.Ingredients), got.Ingredients)
	}
	if in := got.Ingredients[0]; in.Name != "strong white flour" || in.Grams != 400 || in.Role != formula.Flour {
		t.Errorf("the first line is %+v", in)
	}
	for i, in := range got.Ingredients {
		if (in.Grams == 0) != (i >= 8) {
			t.Errorf("line %d, %q, weighs %v g", i+1, in.Name, in.Grams)
		}
	}
	words := b.Texts()
	for _, want := range []string{"2 tbsp sesame", "weigh it", "No amount was understood here"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not shown in\n%s", want, words)
		}
	}
	if len(b.Said) == 0 || !strings.Contains(b.Said[len(b.Said)-1], "10 lines pasted. 2 of them need a weight.") {
		t.Errorf("said %q", b.Said)
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	if n := len(pagestest.Stored[journal.Bake](b, p.rec.id).Ingredients); n != 0 {
		t.Errorf("one Undo leaves %d lines", n)
	}
}
