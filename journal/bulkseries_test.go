package journal

import (
	"math"
	"testing"
	"time"

	"twinloaf/journal/formula"
	"twinloaf/journal/plan"
)

// A row of pictures of a dough in its box: what it shows are rises of the bulk, of which the
// last is the one at its end.
func TestARowOfADoughInBulk(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	scene := rowOf(24) // two hours and eighteen minutes, its peak after 96 minutes
	b := &Bake{Name: "Ferry loaf", Ingredients: []Ingredient{{Role: formula.Flour, Grams: 500}, {Role: formula.Culture, Grams: 100}},
		Steps: []Step{{Kind: string(plan.Bulk), At: scene.Start.Add(-30 * time.Minute), End: scene.Start.Add(96 * time.Minute)}}}
	if err := j.Do("a dough", func(tx *Tx) error { return Put(tx, b) }); err != nil {
		t.Fatal(err)
	}
	rises, err := BulkRises(j, b.ID)
	if err != nil || len(rises) != 0 {
		t.Fatalf("before any picture: %v, %v", rises, err)
	}
	plan, err := j.PlanSeries(t.Context(), filesOf(t, scene, 0))
	if err != nil {
		t.Fatal(err)
	}
	one := SeriesJar{Bake: b.ID}
	one.SetMarks(scene.Marks())
	id, err := j.BeginSeries(plan, false, one)
	if err != nil {
		t.Fatal(err)
	}
	take(t, j, id)
	if _, err := j.FollowSeries(t.Context(), id); err != nil {
		t.Fatal(err)
	}
	if rises, err = BulkRises(j, b.ID); err != nil || len(rises) < 6 {
		t.Fatalf("%d rises, %v", len(rises), err)
	}
	for _, r := range rises {
		at := float64(r.At.Sub(scene.Start)) / float64(scene.Every)
		i := int(at)
		truth := scene.Rise(i) + (at-float64(i))*(scene.Rise(i+1)-scene.Rise(i))
		if math.Abs(r.Times-truth) > 0.03 || !(r.SD > 0) {
			t.Errorf("at %v it is %.3f ± %.3f, truly %.3f", r.At, r.Times, r.SD, truth)
		}
	}
	d, ok := b.Bulk(rises...)
	end, known := d.EndRise()
	if !ok || !known || math.Abs(end-scene.Peak) > 0.06 {
		t.Errorf("at its end %.3f, %v, truly %.3f", end, known, scene.Peak)
	}
	all, err := Bulks(j, "")
	if err != nil || len(all) != 1 || len(all[0].Rises) != len(rises) {
		t.Errorf("of %d doughs is learned, %v", len(all), err)
	}
}
