package journal

import (
	"math"
	"testing"

	"twinloaf/journal/formula"
)

// What bakes were wetted with: the shares of their flours, the levain's among them, with
// the larder's facts before those of the bake, and each formula's versions as one style.
func TestWetDoughs(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	first := &Formula{Name: "Ferry loaf", Number: 1}
	if err := j.Do("all", func(tx *Tx) error {
		if err := NewFormula(tx, first); err != nil {
			return err
		}
		second := &Formula{Name: "Ferry loaf", Number: 2, Family: first.Family}
		if err := Put(tx, second); err != nil {
			return err
		}
		if err := Put(tx, &Flour{Name: "Mill 80", Facts: FlourFacts{Ash: new(formula.Percent(0.8))}}); err != nil {
			return err
		}
		mix := []Ingredient{{Name: "Mill 80", Role: formula.Flour, Grams: 600, Flour: &FlourFacts{Protein: new(formula.Percent(12))}},
			{Name: "Dark rye", Role: formula.Flour, Grams: 300}, {Name: "Water", Role: formula.Water, Grams: 650}}
		levain := []LevainBuild{{Lines: []Ingredient{{Name: "mill  80", Role: formula.Flour, Grams: 100}, {Role: formula.Water, Grams: 100}}}}
		for _, b := range []*Bake{
			{Name: "Ferry loaf", Formula: first.ID, Ingredients: mix, Levains: levain},
			{Name: "Ferry loaf", Formula: second.ID, Ingredients: mix},
			{Name: "Crossing  Tin", Ingredients: mix},
			{Name: "Not yet", State: Planned, Ingredients: mix},
		} {
			if err := Put(tx, b); err != nil {
				return err
			}
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	all, err := WetDoughs(j)
	if err != nil || len(all) != 3 {
		t.Fatalf("%d doughs, %v", len(all), err)
	}
	styles := map[string]int{}
	for _, d := range all {
		styles[d.Style]++
		sum := 0.0
		for _, f := range d.Flours {
			sum += f.Share
		}
		if mill := d.Flours[0]; len(d.Flours) != 2 || math.Abs(sum-1) > 1e-12 || mill.Key != "mill 80" || mill.Protein != nil || mill.Ash == nil || *mill.Ash != 0.8 || !d.Flours[1].Rye || mill.Rye {
			t.Errorf("flours %+v", d.Flours)
		}
	}
	if styles[string(first.Family)] != 2 || styles["name crossing tin"] != 1 {
		t.Errorf("styles %v", styles)
	}
	if f, ok := UsualFlour(all, "mill 80"); !ok || f.Key != "dark rye" {
		t.Errorf("the usual flour is %+v", f)
	}
	if _, ok := UsualFlour(nil, ""); ok {
		t.Error("there is a usual flour of nothing")
	}
}
