package bakes

import (
	"strings"
	"testing"

	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

func TestEveryKeyIsListedOnce(t *testing.T) {
	b := bench(t)
	for _, name := range []string{pages.Bakes, pages.Bake, pages.Bin} {
		page := b.Show(Routes()[name], pages.Route{Name: name})
		seen := map[string]bool{}
		for _, k := range page.Keys() {
			if k.Doc == "" || k.Do == nil {
				t.Errorf("%s: the key %s does nothing, or nobody is told of it", name, k.Name)
			}
			if seen[k.Name] {
				t.Errorf("%s: the key %s is there twice", name, k.Name)
			}
			seen[k.Name] = true
		}
		if len(seen) == 0 {
			t.Errorf("%s has no keys", name)
		}
	}
}

func TestNewCultureOnTheBake(t *testing.T) {
	b := bench(t)
	p := open(b, "")
	p.head.culture.OnChanged(len(p.head.ids) - 1) // a new one
	if b.Window.Canvas().Focused() != p.head.fresh.Entry() {
		t.Fatal("it does not ask for a name")
	}
	write(b, "Harbour")
	b.Window.Canvas().Unfocus()
	got := pagestest.Stored[journal.Bake](b, p.rec.id)
	c, err := journal.Get[journal.Culture](b.Journal, got.Culture)
	if err != nil || c.Name != "Harbour" {
		t.Fatalf("the bake's culture is %+v, %v", c, err)
	}
	if p.head.culture.Word() != "Harbour" {
		t.Errorf("the page shows the culture %q", p.head.culture.Word())
	}
	b.Press("I")
	write(b, "ripe Harbour")
	if got := pagestest.Stored[journal.Bake](b, p.rec.id); got.Ingredients[0].Role != formula.Culture {
		t.Errorf("a line named after it counts as %q", got.Ingredients[0].Role)
	}
}

func TestUnitsAreFaces(t *testing.T) {
	b := bench(t)
	bake := &journal.Bake{Name: "Deck rye", At: b.Clock, Ingredients: []journal.Ingredient{
		{ID: "f", Name: "Rye", Role: formula.Flour, Grams: formula.GramsPerOunce * 16}}}
	put(b, bake)
	open(b, bake.ID)
	if err := b.Journal.Set("units", func(s *journal.Settings) { s.Weight = "oz" }); err != nil {
		t.Fatal(err)
	}
	if words := b.Texts(); !strings.Contains(words, "16\u00a0oz") && !strings.Contains(words, "16\noz") {
		t.Errorf("a pound of flour is not 16 oz in\n%s", words)
	}
	if got := pagestest.Stored[journal.Bake](b, bake.ID).Ingredients[0].Grams; got != formula.GramsPerOunce*16 {
		t.Errorf("the face changed what is stored to %v g", got)
	}
}

func TestBakeThatIsGone(t *testing.T) {
	b := bench(t)
	if _, err := Routes()[pages.Bake](b.Env, pages.At(pages.Bake, "01HZZZZZZZZZZZZZZZZZZZZZZZ")); err == nil {
		t.Error("a bake that is not in the journal opens")
	}
	bake := &journal.Bake{Name: "Deck rye", At: b.Clock}
	put(b, bake)
	open(b, bake.ID)
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	if words := b.Texts(); !strings.Contains(words, "This bake is no longer in the journal") {
		t.Errorf("it shows\n%s", words)
	}
	if _, err := b.Journal.Redo(); err != nil {
		t.Fatal(err)
	}
	if words := b.Texts(); !strings.Contains(words, "Deck rye") {
		t.Errorf("done again it shows\n%s", words)
	}
}
