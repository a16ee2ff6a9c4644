package journal

import (
	"testing"
	"time"

	"twinloaf/journal/formula"
)

// Two spellings that were meant to be one flour become one everywhere, and an undo
// brings both back.
func TestRenameFlourMerges(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	b := &Bake{At: j.Now(), Ingredients: []Ingredient{
		{Name: "Speltflour", Role: formula.Flour, Grams: 100},
		{Name: "Strong white", Role: formula.Flour, Grams: 300},
		{Name: "speltflour", Role: formula.Seeds, Grams: 5}, // not a flour here
	}, Levains: []LevainBuild{{Lines: []Ingredient{{Name: " SPELTFLOUR", Role: formula.Flour, Grams: 20}}}}}
	other := &Bake{At: j.Now(), Ingredients: []Ingredient{{Name: "Spelt", Role: formula.Flour, Grams: 80}}}
	c := &Culture{Name: "Gorse", Flours: []FlourShare{{Name: "speltflour", Share: 100}}}
	from := &Flour{Name: "Speltflour", Lots: []FlourLot{{Mark: "A"}}, Facts: FlourFacts{Grain: "spelt", Type: "630"}, Notes: "sticky"}
	to := &Flour{Name: "Spelt", Lots: []FlourLot{{Mark: "B"}}, Facts: FlourFacts{Type: "812"}}
	if err := j.Do("set up", func(tx *Tx) error {
		for _, err := range []error{Put(tx, b), Put(tx, other), Put(tx, c), Put(tx, from), Put(tx, to)} {
			if err != nil {
				return err
			}
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	before := records(t, j)
	if err := j.Do("rename", func(tx *Tx) error {
		n, err := RenameFlour(tx, "speltflour", "Spelt")
		if n != 1 {
			t.Errorf("%d bakes altered, want 1", n)
		}
		return err
	}); err != nil {
		t.Fatal(err)
	}
	summaries, err := j.BakeSummaries()
	if err != nil {
		t.Fatal(err)
	}
	for _, summary := range summaries {
		for _, f := range summary.Flours {
			if f.Key == "speltflour" {
				t.Errorf("%s still has %q", summary.ID, f.Name)
			}
		}
	}
	if got := must[Bake](t, j, b.ID).Ingredients[2].Name; got != "speltflour" {
		t.Errorf("the seeds were renamed to %q", got)
	}
	if got := must[Culture](t, j, c.ID).Flours[0].Name; got != "Spelt" {
		t.Errorf("the culture is fed with %q", got)
	}
	flours, err := All[Flour](j)
	if err != nil {
		t.Fatal(err)
	}
	if len(flours) != 1 || len(flours[0].Lots) != 2 || flours[0].Facts.Grain != "spelt" || flours[0].Facts.Type != "812" || flours[0].Notes != "sticky" {
		t.Errorf("the larder holds %+v", flours)
	}
	mustBeSound(t, j)
	if _, err := j.Undo(); err != nil {
		t.Fatal(err)
	}
	if records(t, j).Differences(before) != 0 {
		t.Error("undo did not bring the two flours back")
	}
}

func must[T any, R Record[T]](t *testing.T, j *Journal, id ID) R {
	t.Helper()
	rec, err := Get[T, R](j, id)
	if err != nil {
		t.Fatal(err)
	}
	return rec
}

func TestPerGram(t *testing.T) {
	day := func(n int) time.Time { return time.Date(2026, 1, n, 0, 0, 0, 0, time.UTC) }
	f := &Flour{Lots: []FlourLot{
		{Bought: day(20), Grams: 1000, Price: 3},
		{Bought: day(10), Grams: 2000, Price: 4},
		{Bought: day(15), Grams: 0, Price: 9}, // no weight
	}}
	for _, tt := range []struct {
		at   time.Time
		want float64
	}{{day(1), 0.002}, {day(10), 0.002}, {day(16), 0.002}, {day(25), 0.003}} {
		if got, ok := f.PerGram(tt.at); !ok || got != tt.want {
			t.Errorf("on the %d. a gram cost %v, %v; want %v", tt.at.Day(), got, ok, tt.want)
		}
	}
	if _, ok := (&Flour{Lots: []FlourLot{{Grams: 5}}}).PerGram(day(1)); ok {
		t.Error("a lot without a price has one")
	}
}
