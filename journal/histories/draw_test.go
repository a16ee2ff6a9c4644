package histories

import (
	"context"
	"errors"
	"math"
	"os"
	"testing"
	"time"

	"pgregory.net/rapid"

	"twinloaf/journal"
	"twinloaf/journal/formula"
	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
	"twinloaf/journal/plan"
)

// The jar's balance over some weeks: what is in it is what went in less what went out,
// whatever is fed, taken by bakes and put back by them. A bake that wants more than there
// is takes nothing, and says so.
func TestTheJarsBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		now := time.Date(2026, 3, 1, 8, 0, 0, 0, time.UTC)
		dir, err := os.MkdirTemp("", "jar")
		if err != nil {
			t.Fatal(err)
		}
		defer func() { _ = os.RemoveAll(dir) }()
		j, err := journal.Open(context.Background(), dir, journal.Options{Clock: func() time.Time { return now }})
		if err != nil {
			t.Fatal(err)
		}
		defer func() { _ = j.Close() }()
		gorse := &journal.Culture{Name: "Gorse"}
		do := func(fn func(tx *journal.Tx) error) {
			if err := j.Do("", fn); err != nil {
				t.Fatal(err)
			}
		}
		do(func(tx *journal.Tx) error { return journal.Put(tx, gorse) })
		do(func(tx *journal.Tx) error {
			return journal.Put(tx, &journal.Feeding{Culture: gorse.ID, At: now, Flour: 50, Water: 50})
		})
		balance := 100.0
		for range rapid.IntRange(1, 6).Draw(t, "events") {
			now = now.Add(time.Duration(rapid.IntRange(4, 60).Draw(t, "hours")) * time.Hour)
			if rapid.Bool().Draw(t, "fed") {
				off := balance * rapid.Float64Range(0, 0.9).Draw(t, "off")
				add := rapid.Float64Range(1, 200).Draw(t, "added")
				do(func(tx *journal.Tx) error {
					return journal.Put(tx, &journal.Feeding{Culture: gorse.ID, At: now, Kept: formula.Grams(balance - off), Flour: formula.Grams(add / 2), Water: formula.Grams(add / 2)})
				})
				balance += add - off
			} else {
				seed, back := rapid.Float64Range(1, 150).Draw(t, "seed"), rapid.Float64Range(0, 60).Draw(t, "back")
				b := &journal.Bake{Name: "Ferry loaf", Culture: gorse.ID, Steps: []journal.Step{{ID: "a", Kind: string(plan.Levain)}, {ID: "b", Kind: string(plan.Mix)}},
					Levains: []journal.LevainBuild{{Kept: formula.Grams(back), Lines: []journal.Ingredient{{Role: formula.Culture, Grams: formula.Grams(seed)}}}}}
				do(func(tx *journal.Tx) error { return journal.Put(tx, b) })
				var short []Draw
				do(func(tx *journal.Tx) (err error) { _, short, err = Settle(tx, b, plan.Levain, now); return err })
				if enough := seed < balance; enough != (len(short) == 0) && math.Abs(seed-balance) > 2 {
					t.Fatalf("%v g of %v: short %v", seed, balance, short)
				}
				if len(short) == 0 {
					balance -= seed
				}
				now = now.Add(8 * time.Hour)
				do(func(tx *journal.Tx) (err error) { _, _, err = Settle(tx, b, plan.Mix, now); return err })
				balance += back
				// Once more changes nothing of what was taken.
				do(func(tx *journal.Tx) (err error) { _, _, err = Settle(tx, b, plan.Rest, now); return err })
			}
			l, err := Of(j, gorse.ID)
			if err != nil {
				t.Fatal(err)
			}
			jar, ok := l.Jar(now.Add(time.Minute))
			if got := float64(jar.Mix.Total()); !ok || math.Abs(got-balance) > 1e-6*balance {
				t.Fatalf("the jar holds %v, and %v went in less what went out", got, balance)
			}
		}
	})
}

// What was written down by hand as taken is not taken twice, but tied to the bake.
func TestTakenByHandIsNotTakenTwice(t *testing.T) {
	now := time.Date(2026, 3, 1, 8, 0, 0, 0, time.UTC)
	j, err := journal.Open(context.Background(), t.TempDir(), journal.Options{Clock: func() time.Time { return now }})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = j.Close() })
	gorse := &journal.Culture{Name: "Gorse"}
	b := &journal.Bake{Name: "Ferry loaf", Ingredients: []journal.Ingredient{{Name: "gorse", Role: formula.Culture, Grams: 40}}}
	byHand := &journal.Feeding{At: now.Add(-time.Hour), Kept: 61, Taken: []journal.TakenOff{{Grams: 39, For: journal.Baked}}}
	err = j.Do("", func(tx *journal.Tx) error {
		if err := journal.Put(tx, gorse); err != nil {
			return err
		}
		byHand.Culture = gorse.ID
		for _, f := range []*journal.Feeding{{Culture: gorse.ID, At: now.Add(-9 * time.Hour), Flour: 50, Water: 50}, byHand} {
			if err := journal.Put(tx, f); err != nil {
				return err
			}
		}
		if err := journal.Put(tx, b); err != nil {
			return err
		}
		made, short, err := Settle(tx, b, plan.Mix, now)
		if len(made) > 0 || len(short) > 0 {
			t.Errorf("taken %v, short %v", made, short)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	l, err := Of(j, gorse.ID)
	if err != nil {
		t.Fatal(err)
	}
	if jar, _ := l.Jar(now); len(l.Feedings) != 2 || math.Abs(float64(jar.Mix.Total())-61) > 1e-9 || l.Feedings[1].Taken[0].Bake != b.ID {
		t.Errorf("%d feedings, %v g, taken %+v", len(l.Feedings), jar.Mix.Total(), l.Feedings[1].Taken)
	}
}

// What was taken for a bake that is named stands for that bake, before what was taken for none.
func TestATakingThatNamesItsBakeComesFirst(t *testing.T) {
	now := time.Date(2026, 3, 1, 8, 0, 0, 0, time.UTC)
	j, err := journal.Open(t.Context(), t.TempDir(), journal.Options{Clock: func() time.Time { return now }})
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = j.Close() }()
	gorse := &journal.Culture{Name: "Gorse"}
	b := &journal.Bake{Name: "Ferry loaf", Steps: []journal.Step{{ID: "a", Kind: string(plan.Mix)}}}
	taken := func(at time.Time, kept formula.Grams, of journal.ID) *journal.Feeding {
		return &journal.Feeding{Culture: gorse.ID, At: at, Kept: kept, Taken: []journal.TakenOff{{Grams: 50, For: journal.Baked, Bake: of}}}
	}
	var unnamed *journal.Feeding
	err = j.Do("", func(tx *journal.Tx) error {
		if err := journal.Put(tx, gorse); err != nil {
			return err
		}
		b.Culture, b.Ingredients = gorse.ID, []journal.Ingredient{{Role: formula.Culture, Grams: 50}}
		if err := journal.Put(tx, b); err != nil {
			return err
		}
		unnamed = taken(now.Add(-2*time.Hour), 150, "")
		for _, f := range []*journal.Feeding{{Culture: gorse.ID, At: now.Add(-24 * time.Hour), Flour: 100, Water: 100}, unnamed, taken(now.Add(-time.Hour), 100, b.ID)} {
			if err := journal.Put(tx, f); err != nil {
				return err
			}
		}
		made, _, err := Settle(tx, b, plan.Mix, now)
		if len(made) > 0 {
			t.Errorf("it is taken once more: %+v", made)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if f, err := journal.Get[journal.Feeding](j, unnamed.ID); err != nil || f.Taken[0].Bake != "" {
		t.Errorf("what was taken for none is tied to %q, %v", f.Taken[0].Bake, err)
	}
}

// Of two cultures of one name a bake takes from the jar of its own, and one that names none
// from that of the culture that is still kept.
func TestADrawIsFromTheBakesOwnCulture(t *testing.T) {
	now := time.Date(2026, 3, 1, 8, 0, 0, 0, time.UTC)
	j, err := journal.Open(t.Context(), t.TempDir(), journal.Options{Clock: func() time.Time { return now }})
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	retired, kept := &journal.Culture{Name: "Harbour", Ended: now.AddDate(0, -1, 0)}, &journal.Culture{Name: "Harbour"}
	if err := j.Do("two cultures", func(tx *journal.Tx) error {
		return errors.Join(journal.Put(tx, retired), journal.Put(tx, kept))
	}); err != nil {
		t.Fatal(err)
	}
	for _, own := range []journal.ID{kept.ID, ""} {
		b := &journal.Bake{Culture: own, Ingredients: []journal.Ingredient{{Name: "harbour", Role: formula.Culture, Grams: 90}}}
		draws, err := Wants(j, b, plan.Mix)
		if err != nil || len(draws) != 1 || draws[0].Culture.ID != kept.ID || draws[0].Out != 90 {
			t.Errorf("of the culture %q it takes %+v, %v", own, draws, err)
		}
	}
}
