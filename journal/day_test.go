package journal

import (
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"twinloaf/journal/formula"
	"twinloaf/journal/plan"
)

// plannedBake is a bake in the journal whose day is planned from seven.
func plannedBake(t testing.TB, j *Journal) *Bake {
	t.Helper()
	steps, err := j.TemplateSteps(append([]plan.Step{plan.LevainBuild()}, plan.CountryLoaf()...))
	if err != nil {
		t.Fatal(err)
	}
	b := &Bake{Name: "Ferry loaf", State: Planned, Steps: steps}
	b.SetPlan(plan.Plan{Start: time.Date(2026, 3, 4, 7, 0, 0, 0, time.UTC), Steps: PlanSteps(steps)})
	if err := j.Do("plan", func(tx *Tx) error { return Put(tx, b) }); err != nil {
		t.Fatal(err)
	}
	return b
}

func TestTheTemplateSurvivesTheRecord(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	b := plannedBake(t, j)
	stored, err := Get[Bake](j, b.ID)
	if err != nil {
		t.Fatal(err)
	}
	day, ok := stored.Day()
	if !ok {
		t.Fatal("a planned bake has no day")
	}
	if err := plan.Check(day.Steps); err != nil {
		t.Fatal(err)
	}
	want := append([]plan.Step{plan.LevainBuild()}, plan.CountryLoaf()...)
	for i, s := range day.Steps {
		s.ID = want[i].ID
		if s != want[i] {
			t.Errorf("step %d is %+v, want %+v", i, s, want[i])
		}
	}
	// The levain's eight hours, fifteen minutes' mixing, half an hour's rest,
	// three hours of turns, one of bulk, half of shaping, twelve in the cold, 45 + 20
	// + 25 minutes of heating and baking: then it begins to cool.
	out := day.Start.Add(26*time.Hour + 45*time.Minute)
	if !stored.Ready.Equal(out) || !stored.At.Equal(day.Start) {
		t.Errorf("begun %v and out of the oven %v, want %v and %v", stored.At, stored.Ready, day.Start, out)
	}
}

// TestTheDayInTheRecord lets a baker do, skip and put off whatever comes next,
// with the record as the only memory, beside a plan that is kept whole.
func TestTheDayInTheRecord(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	start := plannedBake(t, j)
	rapid.Check(t, func(t *rapid.T) {
		b, _ := Get[Bake](j, start.ID)
		kept, _ := b.Day()
		now := kept.Start
		for n := rapid.IntRange(0, 30).Draw(t, "steps"); n > 0; n-- {
			now = now.Add(time.Duration(rapid.IntRange(1, 90*60).Draw(t, "later")) * time.Second)
			next, more := kept.Next(now)
			if !more {
				break
			}
			var err error
			switch rapid.SampledFrom([]string{"press", "done", "skip", "later"}).Draw(t, "act") {
			case "press":
				stand, _ := kept.Stand(now)
				kept, err = kept.Press(stand, now)
			case "done":
				kept, err = kept.Done(next.Ref, now)
			case "skip":
				if next.Ref == plan.Ready {
					continue
				}
				kept, err = kept.Skip(next.Ref, now)
			case "later":
				kept, _, err = kept.Later(next.Ref, 10, now)
			}
			if err != nil {
				t.Fatal(err)
			}
			day, _ := b.Day()
			for _, m := range kept.Marks { // as the window does: one thing at a time
				if m.Skipped {
					day, err = day.Skip(m.Ref, m.At)
				} else {
					day, err = day.Done(m.Ref, m.At)
				}
				if err != nil {
					t.Fatal(err)
				}
			}
			day.Shifts = kept.Shifts
			b.SetDay(day)
			v, err := encode[Bake](b)
			if err != nil {
				t.Fatal(err)
			}
			if b, err = decode[Bake](b.ID, v); err != nil {
				t.Fatal(err)
			}
		}
		day, _ := b.Day()
		want, wantMore := kept.Next(now)
		got, more := day.Next(now)
		if more != wantMore || got.Ref != want.Ref || !got.Due.Equal(want.Due) {
			t.Fatalf("next by the record: %v at %v; by the plan: %v at %v", got.Ref, got.Due, want.Ref, want.Due)
		}
		stand, _ := day.Stand(now)
		if w, _ := kept.Stand(now); stand.Ref != w.Ref || stand.Runs != w.Runs || !stand.Until.Equal(w.Until) {
			t.Fatalf("by the record %v, until %v, by the plan %v, until %v", stand.Ref, stand.Until, w.Ref, w.Until)
		}
		for i, d := range day.Deviations() {
			w := kept.Deviations()[i]
			if w.Noted() && !d.Actual.Equal(w.Actual) || d.Skipped != w.Skipped || !d.Planned.Equal(w.Planned) {
				t.Fatalf("%s: %+v by the record, %+v by the plan", d.Title, d, w)
			}
		}
	})
}

func TestStepsEndWhenTheNextBegins(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	b := plannedBake(t, j)
	at := func(h, m int) time.Time { return time.Date(2026, 3, 4, h, m, 0, 0, time.UTC) }
	do := func(step, turn int, when time.Time) {
		day, _ := b.Day()
		day, err := day.Done(plan.Ref{Step: string(b.Steps[step].ID), Turn: turn}, when)
		if err != nil {
			t.Fatal(err)
		}
		b.SetDay(day)
	}
	do(0, 0, at(7, 0))   // levain
	do(1, 0, at(15, 10)) // mix, ten minutes late
	do(3, 1, at(16, 30)) // the first turn, five minutes late
	for _, tt := range []struct {
		name      string
		got, want time.Time
	}{
		{"levain ends when mixing begins", b.Steps[0].End, at(15, 10)},
		{"mixing ends when the rest begins by itself", b.Steps[1].End, at(15, 25)},
		{"the rest began by itself", b.Steps[2].At, at(15, 25)},
		{"the turns begin when the rest is over", b.Steps[3].At, at(15, 55)},
		{"the turns have not ended", b.Steps[3].End, time.Time{}},
		{"the bulk has not begun", b.Steps[4].At, time.Time{}},
	} {
		if !tt.got.Equal(tt.want) {
			t.Errorf("%s: %v, want %v", tt.name, tt.got, tt.want)
		}
	}
	if len(b.Steps[3].Done) != 1 || !b.Steps[3].Done[0].Equal(at(16, 30)) {
		t.Errorf("turns done: %v", b.Steps[3].Done)
	}
	// The dough ferments by the clock: the turns are due half an hour apart from 15:55, when
	// they begin, and the first, five minutes late, does not put the second off to 17:00.
	day, _ := b.Day()
	if next, _ := day.Next(at(16, 40)); next.Turn != 2 || !next.Due.Equal(at(16, 55)) {
		t.Errorf("the next is %+v, want turn 2 at 16:55", next)
	}
}

func TestAgain(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	b := plannedBake(t, j)
	b.Ingredients = []Ingredient{{ID: "a", Name: "Strong white", Role: formula.Flour, Grams: 900, Flour: &FlourFacts{Grain: "wheat"}}}
	b.Steps[1].At, b.Steps[1].Dough, b.Steps[1].Note = b.At, new(formula.Celsius(25)), "sticky"
	b.Outcome.Notes = "Good."
	again := b.Again()
	if again.From != b.ID || again.State != Planned || again.ID != "" || again.Outcome.Notes != "" {
		t.Errorf("again is %+v", again)
	}
	if s := again.Steps[1]; !s.At.IsZero() || s.Dough != nil || s.Note != "" || s.Planned != 15*time.Minute {
		t.Errorf("the step to repeat is %+v", s)
	}
	again.Ingredients[0].Flour.Grain = "rye"
	if b.Ingredients[0].Flour.Grain != "wheat" {
		t.Error("the repeated bake shares its flour with the one it repeats")
	}
	// A step that was only written down is planned as long as it took.
	written := &Bake{Steps: []Step{{ID: "s", Kind: StepBulk, At: b.At, End: b.At.Add(4*time.Hour + 20*time.Second)}}}
	if _, ok := written.Day(); ok {
		t.Error("steps written down afterwards make a day")
	}
	if s := written.Again().Steps[0]; s.Planned != 4*time.Hour {
		t.Errorf("planned %v, want 4 h", s.Planned)
	}
}

func TestAPlanThatGivesWayKeepsTheWish(t *testing.T) {
	b := plannedBake(t, openTest(t, t.TempDir(), newClock()))
	day, _ := b.Day()
	day.Steps[6].Length = 13*60 + 30 // the cold rest, an hour and a half longer
	b.SetPlan(day)
	b.SetPlan(day) // made twice, the wish is the first one still
	if s := b.Steps[6]; s.Planned != 13*time.Hour+30*time.Minute || s.Wished != 12*time.Hour {
		t.Errorf("planned %v, wished %v", s.Planned, s.Wished)
	}
	if s := Wishes(b.Steps)[6]; s.Planned != 12*time.Hour || s.Wished != 0 || !s.PlannedAt.IsZero() {
		t.Errorf("the wish is %+v", s)
	}
	if s := b.Steps[1]; s.Wished != 0 {
		t.Errorf("a step that did not give way has a wish: %v", s.Wished)
	}
}

func TestVersions(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	first := &Formula{Name: "Ferry loaf", Change: "none", Ingredients: []Ingredient{{ID: "a", Name: "Rye", Grams: 5}}}
	var second *Formula
	err := j.Do("formula", func(tx *Tx) (err error) {
		if err = NewFormula(tx, first); err == nil {
			second, err = NextVersion(tx, first.ID)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	third := new(Formula)
	if err := j.Do("next", func(tx *Tx) (err error) { third, err = NextVersion(tx, first.ID); return err }); err != nil {
		t.Fatal(err)
	}
	if first.Number != 1 || second.Number != 2 || third.Number != 3 || third.Family != first.Family || third.Change != "" {
		t.Errorf("versions %d, %d, %d of %s", first.Number, second.Number, third.Number, third.Family)
	}
	bake := PlanBake(second)
	if err := j.Do("plan", func(tx *Tx) error { return Put(tx, bake) }); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		f    *Formula
		want int
	}{{first, 0}, {second, 1}, {third, 0}} {
		if got, err := Followed(j, tt.f.ID); err != nil || len(got) != tt.want {
			t.Errorf("version %d is followed by %d bakes (%v), want %d", tt.f.Number, len(got), err, tt.want)
		}
	}
	mustBeSound(t, j)
}

func TestUnknownMembersOfADaySurvive(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	b := plannedBake(t, j)
	b.Steps[1].PutOff = []PutOff{{Turn: 0, By: 10 * time.Minute, Rest: []byte(`{"why":"ferry late"}`)}}
	day, _ := b.Day()
	day, _, err := day.Later(plan.Ref{Step: string(b.Steps[1].ID)}, 10, day.Start)
	if err != nil {
		t.Fatal(err)
	}
	b.SetDay(day)
	want := []PutOff{{By: 20 * time.Minute, Rest: []byte(`{"why":"ferry late"}`)}}
	if got := b.Steps[1].PutOff; !reflect.DeepEqual(got, want) {
		t.Errorf("put off %+v, want %+v", got, want)
	}
}

func TestMixedDoughs(t *testing.T) {
	full := WaterPlan{Flour: new(formula.Celsius(20)), Room: new(formula.Celsius(21)), Water: new(formula.Celsius(32)), Dough: new(formula.Celsius(25))}
	if d, ok := (&Bake{Water: full}).MixedDough(); !ok || d.HasLevain || d.Measured != 25 {
		t.Errorf("%+v, %v", d, ok)
	}
	// A levain that is in the dough and was not measured is as warm as the room:
	// 25 x 4 - (20 + 21 + 21) - 32 = 6.
	leavened := Bake{Water: full, Ingredients: []Ingredient{{Role: formula.Culture, Grams: 100}}}
	if d, ok := leavened.MixedDough(); !ok || !d.HasLevain || formula.Friction(d.Measured, d.Factors, d.Water) != 6 {
		t.Errorf("with a levain %+v, %v", d, ok)
	}
	full.Levain = new(formula.Celsius(24))
	// 25 x 4 - (20 + 21 + 24) - 32 = 3
	d, _ := (&Bake{Water: full}).MixedDough()
	if got := formula.Friction(d.Measured, d.Factors, d.Water); got != 3 {
		t.Errorf("friction %v, want 3", got)
	}
	full.Water = nil
	if _, ok := (&Bake{Water: full}).MixedDough(); ok {
		t.Error("friction is learned from a dough whose water was not measured")
	}
	if !full.Factors(false).HasLevain {
		t.Error("the levain's temperature is not among the factors")
	}
}

// What was typed of a step is not lost when its day is planned anew or begins; another dough
// begins without it.
func TestNotesOutliveAPlan(t *testing.T) {
	b := plannedBake(t, openTest(t, t.TempDir(), newClock()))
	b.Steps[0].Note, b.Steps[0].Dough = "the blue bowl", new(formula.Celsius(24))
	day, ok := b.Day()
	if !ok {
		t.Fatal("no day")
	}
	day.Start = day.Start.Add(time.Hour)
	b.SetPlan(day)
	for what, s := range map[string]Step{"planned anew": b.Steps[0], "as wished for": Wishes(b.Steps)[0]} {
		if s.Note != "the blue bowl" || s.Dough == nil {
			t.Errorf("%s: note %q, dough %v", what, s.Note, s.Dough)
		}
	}
	if s := b.Again().Steps[0]; s.Note != "" || s.Dough != nil {
		t.Errorf("another dough has the note %q and %v of this one", s.Note, s.Dough)
	}
}
