package bakes

import (
	"strings"
	"testing"

	"twinloaf/app/dough"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// flowing gives the words of the page as if no line of them were broken.
func flowing(b *pagestest.Bench) string { return strings.Join(strings.Fields(b.Texts()), " ") }

func TestAllergensOfTheBake(t *testing.T) {
	b := bench(t)
	open(b, "")
	if words := flowing(b); strings.Contains(words, "None on the European list") || !strings.Contains(words, "once the dough has ingredients") {
		t.Errorf("of a bake in which nothing is written yet it says:\n%s", words)
	}
	rye := &journal.Culture{Name: "Harbour", Flours: []journal.FlourShare{{Name: "Rye flour", Grain: "rye", Share: 100}}}
	if err := b.Journal.Do("a culture", func(tx *journal.Tx) error { return journal.Put(tx, rye) }); err != nil {
		t.Fatal(err)
	}
	b.Press("I")
	write(b, "Harbour")
	words := flowing(b)
	if strings.Contains(words, "Nothing certain can be said of") || !strings.Contains(words, "cereals containing gluten (rye)") {
		t.Errorf("of a dough of a culture fed with rye it says:\n%s", words)
	}
	rye.Flours = []journal.FlourShare{{Name: "Wheat flour", Grain: "wheat", Share: 100}}
	if err := b.Journal.Do("other flour", func(tx *journal.Tx) error { return journal.Put(tx, rye) }); err != nil {
		t.Fatal(err)
	}
	if words := flowing(b); !strings.Contains(words, "American list of nine (FALCPA 2004 and FASTER Act 2021): wheat") {
		t.Errorf("of a dough of a culture fed with wheat it says:\n%s", words)
	}
}

// What is printed of a bake reads its culture by the record, as its page does: the line may
// be called otherwise.
func TestAllergensOfThePrintedBake(t *testing.T) {
	b := bench(t)
	rye := &journal.Culture{Name: "Harbour", Flours: []journal.FlourShare{{Name: "Rye flour", Grain: "rye", Share: 100}}}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, rye) })
	bake := &journal.Bake{Culture: rye.ID, Ingredients: []journal.Ingredient{{Name: "Leaven", Role: formula.Culture, Grams: 90}}}
	r, err := dough.SideOf(bake).Mix.Allergens(b.Journal)
	if err != nil || len(r.Found) != 1 || r.Found[0].Allergen != formula.Rye || len(r.Unknown) != 0 {
		t.Errorf("of a dough of a culture fed with rye it says %+v, %v", r, err)
	}
}
