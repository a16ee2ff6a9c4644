package journal

import (
	"reflect"
	"testing"
	"time"

	"twinloaf/journal/bulk"
	"twinloaf/journal/formula"
	"twinloaf/journal/plan"
)

// A day as it is written down: flour and water rest before the levain is in, the bulk goes
// from mixing to shaping, figures without a time are of their step's middle or end, and
// a figure that was corrected counts before the reading that it came from.
func TestBulkOfABake(t *testing.T) {
	at := func(h, m int) time.Time { return time.Date(2026, 3, 4, h, m, 0, 0, time.UTC) }
	c := func(v formula.Celsius) *formula.Celsius { return &v }
	b := &Bake{Head: Head{ID: "b"}, Name: "Ferry  Loaf", Culture: "gorse",
		Ingredients: []Ingredient{{Role: formula.Flour, Grams: 900}, {Role: formula.Water, Grams: 600}, {Role: formula.Salt, Grams: 20}, {Role: formula.Culture, Grams: 200}},
		Water:       WaterPlan{Room: c(21), Dough: c(25)},
		Outcome:     Outcome{Scores: []AttributeScore{{Attribute: Overall, Score: 7}}},
		Steps: []Step{
			{Kind: string(plan.Levain), At: at(0, 0), End: at(8, 0), Rise: new(3.0)},
			{Kind: string(plan.Rest), At: at(8, 0), End: at(9, 0), Dough: c(19)},
			{Kind: string(plan.Mix), At: at(9, 0), End: at(9, 15)},
			{Kind: string(plan.Rest), At: at(9, 15), End: at(9, 45), Dough: c(24)},
			{Kind: string(plan.Turns), At: at(9, 45), End: at(12, 0), Rise: new(1.25), Dough: c(23),
				Readings: []StepReading{{At: at(10, 0), Dough: c(23.5)}, {At: at(11, 0), Rise: new(1.2), Dough: c(22)}}},
			{Kind: string(plan.Bulk), At: at(12, 0), End: at(14, 0), Rise: new(1.6)},
			{Kind: string(plan.Divide), At: at(14, 10)},
			{Kind: string(plan.ColdRest), At: at(14, 40), End: at(23, 0), Rise: new(2.0)},
		}}
	got, ok := b.Bulk()
	want := bulk.Dough{ID: "b", Culture: "gorse", Style: "ferry loaf", Inoculation: 10, Salt: 2, Grams: 1720, Began: at(9, 0), Ended: at(14, 10), Score: 7,
		Dough: []bulk.Temp{{At: at(9, 0), C: 25}, {At: at(9, 30), C: 24}, {At: at(10, 0), C: 23.5}, {At: at(11, 0), C: 23}},
		Air:   []bulk.Temp{{At: at(9, 0), C: 21}},
		Rises: []bulk.Rise{{At: at(11, 0), Times: 1.25}, {At: at(14, 0), Times: 1.6}}}
	if !ok || !reflect.DeepEqual(got, want) {
		t.Errorf("the bulk is\n%+v, want\n%+v", got, want)
	}
	b.Steps = b.Steps[:6]
	b.Steps[5].End = time.Time{}
	if got, ok := b.Bulk(); !ok || !got.Ended.IsZero() || len(got.Rises) != 1 {
		t.Errorf("while it rises: %+v, %v", got, ok)
	}
	if _, ok := (&Bake{Steps: []Step{{Kind: string(plan.Mix)}}}).Bulk(); ok {
		t.Error("a dough that was not mixed has a bulk")
	}
	for i, s := range b.Again().Steps {
		if s.Readings != nil {
			t.Errorf("baked again, step %d has readings", i)
		}
	}
}

// A step that was measured after the next had begun takes its place in time.
func TestABulkGoesByTheClock(t *testing.T) {
	at := func(h int) time.Time { return time.Date(2026, 3, 4, h, 0, 0, 0, time.UTC) }
	reading := func(h int, c formula.Celsius, rise float64) StepReading {
		return StepReading{At: at(h), Dough: &c, Air: &c, Rise: &rise}
	}
	late, early := reading(12, 22, 1.4), reading(11, 23, 1.2)
	b := &Bake{Steps: []Step{
		{Kind: string(plan.Turns), At: at(9), End: at(10), Dough: late.Dough, Air: late.Air, Rise: late.Rise, Readings: []StepReading{late}},
		{Kind: string(plan.Bulk), At: at(10), Dough: early.Dough, Air: early.Air, Rise: early.Rise, Readings: []StepReading{early}},
	}}
	got, ok := b.Bulk()
	temps, rises := []bulk.Temp{{At: at(11), C: 23}, {At: at(12), C: 22}}, []bulk.Rise{{At: at(11), Times: 1.2}, {At: at(12), Times: 1.4}}
	if !ok || !reflect.DeepEqual(got.Dough, temps) || !reflect.DeepEqual(got.Air, temps) || !reflect.DeepEqual(got.Rises, rises) {
		t.Errorf("dough %v, air %v, rises %v", got.Dough, got.Air, got.Rises)
	}
}

func TestBulksLeavesOut(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	put := func(ended bool) *Bake {
		b := &Bake{Name: "Ferry loaf", Ingredients: []Ingredient{{Role: formula.Flour, Grams: 500}, {Role: formula.Culture, Grams: 100}},
			Steps: []Step{{Kind: string(plan.Mix), At: time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)}}}
		if ended {
			b.Steps = append(b.Steps, Step{Kind: string(plan.Divide), At: time.Date(2026, 3, 4, 13, 0, 0, 0, time.UTC)})
		}
		if err := j.Do("bake", func(tx *Tx) error { return Put(tx, b) }); err != nil {
			t.Fatal(err)
		}
		return b
	}
	one, two := put(true), put(true)
	put(false) // it still rises
	all, err := Bulks(j, two.ID)
	if err != nil || len(all) != 1 || all[0].ID != string(one.ID) {
		t.Errorf("%+v, %v", all, err)
	}
}
