package journal

import (
	"math"
	"slices"
	"testing"
	"time"

	"twinloaf/journal/formula"
	"twinloaf/journal/say"
)

// ferry is a formula with a night in the cold.
func ferry(t testing.TB, j *Journal) *Formula {
	t.Helper()
	f := &Formula{Name: "Ferry loaf", Number: 1, Loaves: 1,
		Ingredients: []Ingredient{
			{ID: "1", Name: "Strong white flour", Role: formula.Flour, Grams: 450},
			{ID: "2", Name: "Rye flour", Role: formula.Flour, Grams: 50},
			{ID: "3", Name: "Water", Role: formula.Water, Grams: 350},
			{ID: "4", Name: "Salt", Role: formula.Salt, Grams: 10},
			{ID: "5", Name: "Harbour", Role: formula.Culture, Grams: 100},
		},
		Steps: []Step{
			{ID: "a", Kind: "mix", Planned: 15 * time.Minute},
			{ID: "b", Kind: StepCold, Planned: 12 * time.Hour},
			{ID: "c", Kind: "bake covered", Planned: 40 * time.Minute},
		},
	}
	if err := j.Do("formula", func(tx *Tx) error { return Put(tx, f) }); err != nil {
		t.Fatal(err)
	}
	return f
}

func newTrial(t testing.TB, j *Journal, varied string, values ...string) (*Trial, []*Bake) {
	t.Helper()
	f := ferry(t, j)
	var trial *Trial
	err := j.Do("trial", func(tx *Tx) (err error) {
		trial, err = NewTrial(tx, TrialPlan{
			From: RefOf(f), Name: "a trial", Varied: varied, Values: values,
			Marks: []string{"ring", "cross", "bar"}, At: j.Now(),
		})
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	bakes, err := TrialBakes(j, trial)
	if err != nil {
		t.Fatal(err)
	}
	return trial, bakes
}

// saltOf is the salt of a bake as its page has it, in percent of all flour.
func saltOf(b *Bake) any { return math.Round(float64(b.Dough().Metrics().Salt)*1e3) / 1e3 }

// The salt of a bake comes to what its trial says, in however many lines, a levain's too.
func TestATrialsSaltIsThatOfItsBakes(t *testing.T) {
	flour, salt := Ingredient{Role: formula.Flour, Grams: 400}, Ingredient{Role: formula.Salt, Grams: 6}
	for name, b := range map[string]*Bake{
		"two salts":                {Ingredients: []Ingredient{flour, salt, {Role: formula.Salt, Grams: 3}}},
		"salt still to be weighed": {Ingredients: []Ingredient{flour, {Role: formula.Salt}, {Role: formula.Salt}}},
		"a levain kept back": {Ingredients: []Ingredient{flour, salt}, Levains: []LevainBuild{{Kept: 50, Lines: []Ingredient{
			{Role: formula.Flour, Grams: 100}, {Role: formula.Water, Grams: 100}, {Role: formula.Salt, Grams: 1}}}}},
	} {
		t.Run(name, func(t *testing.T) {
			if b.vary(VarySalt, "2,2 %"); saltOf(b) != 2.2 {
				t.Errorf("its salt is %v %%: %+v", saltOf(b), b)
			}
		})
	}
}

func TestATrialVariesOneThing(t *testing.T) {
	for _, tt := range []struct {
		varied string
		values []string
		got    func(*Bake) any
		want   []any
	}{
		{VaryCulture, []string{"Harbour", "Gorse"}, func(b *Bake) any { return b.Ingredients[4].Name }, []any{"Harbour", "Gorse"}},
		{VaryFlour, []string{"Mill 80", "Type 550"}, func(b *Bake) any { return b.Ingredients[0].Name }, []any{"Mill 80", "Type 550"}},
		{VarySalt, []string{"1,8 %", "2.2 %"}, saltOf, []any{1.8, 2.2}},
		{VaryColdRest, []string{"12 h", "24 h", "48 h"}, func(b *Bake) any { return b.Steps[1].Planned }, []any{12 * time.Hour, 24 * time.Hour, 48 * time.Hour}},
		{"the shaping", []string{"round", "long"}, func(b *Bake) any { return b.Name }, []any{"Ferry loaf, round", "Ferry loaf, long"}},
	} {
		t.Run(tt.varied, func(t *testing.T) {
			trial, bakes := newTrial(t, openTest(t, t.TempDir(), newClock()), tt.varied, tt.values...)
			var marks []string
			var mixed, baked []int
			for i, b := range bakes {
				if got := tt.got(b); got != tt.want[i] {
					t.Errorf("bake %d has %v, want %v", i+1, got, tt.want[i])
				}
				if b.Trial != trial.ID || b.State != Planned || b.Mark != trial.Arms[i].Mark || b.Steps[2].PlannedAt != b.At.Add(b.Steps[0].Planned+b.Steps[1].Planned) {
					t.Errorf("bake %d is %+v", i+1, b)
				}
				marks = append(marks, b.Mark)
				mixed, baked = append(mixed, trial.Arms[i].MixOrder), append(baked, trial.Arms[i].BakeOrder)
			}
			slices.Sort(marks)
			slices.Sort(mixed)
			slices.Sort(baked)
			if len(slices.Compact(marks)) != len(bakes) || mixed[0] != 1 || mixed[len(mixed)-1] != len(bakes) || !slices.Equal(mixed, baked) {
				t.Errorf("drawn: marks %v, mixed %v, baked %v", marks, mixed, baked)
			}
			unfair, err := TrialFairness(j(t, trial, bakes), trial)
			if err != nil || len(unfair) != 0 {
				t.Errorf("before anything is recorded it is unfair: %v, %v", unfair, err)
			}
		})
	}
}

// j puts a trial's bakes into a fresh journal, as they are.
func j(t testing.TB, trial *Trial, bakes []*Bake) *Journal {
	t.Helper()
	j := openTest(t, t.TempDir(), newClock())
	err := j.Do("again", func(tx *Tx) error {
		for _, b := range bakes {
			if err := Put(tx, b); err != nil {
				return err
			}
		}
		return Put(tx, trial)
	})
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func TestFairnessListsWhatWasNotMeant(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	trial, bakes := newTrial(t, j, VaryCulture, "Harbour", "Gorse")
	celsius := func(x float64) *formula.Celsius { return new(formula.Celsius(x)) }
	at := j.Now()
	record := func(id ID, dough float64, oven time.Time, flour formula.Grams) {
		if err := j.Do("record", func(tx *Tx) error {
			return Change(tx, id, func(b *Bake) {
				b.Water.Dough = celsius(dough)
				b.Steps[0].At, b.Steps[0].End = at, at.Add(15*time.Minute)
				b.Steps[2].At = oven
				b.Ingredients[1].Grams = flour
			})
		}); err != nil {
			t.Fatal(err)
		}
	}
	record(bakes[0].ID, 24.9, at.Add(13*time.Hour), 50)
	record(bakes[1].ID, 25.2, at.Add(13*time.Hour+5*time.Minute), 51)
	if unfair, err := TrialFairness(j, trial); err != nil || len(unfair) != 0 {
		t.Fatalf("differences that no kitchen can tell: %v, %v", unfair, err)
	}
	record(bakes[1].ID, 26.9, at.Add(13*time.Hour+40*time.Minute), 80)
	unfair, err := TrialFairness(j, trial)
	if err != nil {
		t.Fatal(err)
	}
	var said []string
	for _, u := range unfair {
		said = append(said, u.Key)
	}
	for _, want := range []string{"dough temperature", "time into the oven", "Rye flour"} {
		if !slices.Contains(said, want) {
			t.Errorf("%q is not listed among %q", want, said)
		}
	}
	if got := unfair[slices.Index(said, "dough temperature")].Sentence(say.Of("A"), say.Of("B")).String(); got != "Dough temperature: 24.9 °C for A, 26.9 °C for B, a difference of 2 °C." {
		t.Error(got)
	}
	if err := j.AnswerFairness(RefOf(trial), "dough temperature", true, ""); err != nil {
		t.Fatal(err)
	}
	trial, err = Get[Trial](j, trial.ID)
	if err != nil {
		t.Fatal(err)
	}
	unfair, err = TrialFairness(j, trial)
	if err != nil {
		t.Fatal(err)
	}
	for _, u := range unfair {
		if u.Settled() != (u.Key == "dough temperature") {
			t.Errorf("%s settled: %v", u.Key, u.Settled())
		}
	}
}

func TestWhatIsDoneToBothIsEnteredOnce(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	trial, bakes := newTrial(t, j, VaryCulture, "Harbour", "Gorse")
	if err := j.ForBoth(trial.ID, "mixed", func(b *Bake) { b.StepLike("mix", "", 0).At = j.Now() }); err != nil {
		t.Fatal(err)
	}
	for _, b := range bakes {
		if b, err := Get[Bake](j, b.ID); err != nil || !b.Steps[0].At.Equal(j.Now()) {
			t.Errorf("%s: mixed at %v, %v", b.Name, b.Steps[0].At, err)
		}
	}
	if _, err := j.Undo(); err != nil {
		t.Fatal(err)
	}
	if b, _ := Get[Bake](j, bakes[1].ID); !b.Steps[0].At.IsZero() {
		t.Error("undo took back one bake alone")
	}
}
