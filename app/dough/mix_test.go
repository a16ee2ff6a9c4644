package dough

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"twinloaf/journal"
	"twinloaf/journal/formula"
	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
	"twinloaf/journal/measure"
)

// ferryLoaf is a dough of 1000 g of flour, 75 of them in the levain.
func ferryLoaf() Mix {
	return Mix{
		Loaves: 2,
		Ingredients: []journal.Ingredient{
			{ID: "white", Name: "Strong white flour", Role: formula.Flour, Grams: 800},
			{ID: "whole", Name: "Wholemeal rye", Role: formula.Flour, Grams: 125, Flour: &journal.FlourFacts{Grain: "rye", Wholegrain: 100}},
			{ID: "water", Name: "Water", Role: formula.Water, Grams: 645},
			{ID: "salt", Name: "Salt", Role: formula.Salt, Grams: 20},
		},
		Levains: []journal.LevainBuild{{Name: "Levain", Lines: []journal.Ingredient{
			{ID: "seed", Name: "Harbour", Role: formula.Culture, Grams: 30},
			{ID: "feed", Name: "Strong white flour", Role: formula.Flour, Grams: 60},
			{ID: "drink", Name: "Water", Role: formula.Water, Grams: 60},
		}}},
	}
}

func TestFiguresOf(t *testing.T) {
	// By hand: flour 800 + 125 + 60 + 15 of the culture; water 645 + 60 + 15.
	want := map[formula.Metric]string{
		formula.FigureDough: "1740 g", formula.FigureFlour: "1000 g",
		formula.FigureHydration:    "72.0 %", // 720 / 1000
		formula.FigureWeighed:      "71.6 %", // 705 / 985
		formula.FigureSalt:         "2.0 %",
		formula.FigurePrefermented: "8 %",
		formula.FigureInoculation:  "16 %", // 150 / 925
		formula.FigureWholegrain:   "12 %",
	}
	for _, f := range MetricsOf(ferryLoaf(), measure.Units{}) {
		got := f.Value + " " + f.Unit
		if got != want[f.Of] {
			t.Errorf("%s is %q, want %q", f.Of, got, want[f.Of])
		}
		if !strings.HasPrefix(f.Derived, formula.Define(f.Of).What) {
			t.Errorf("%s does not say what it is: %q", f.Of, f.Derived)
		}
	}
	for _, f := range MetricsOf(Mix{}, measure.Units{}) {
		if f.Of == formula.FigureHydration && f.Value != "–" {
			t.Errorf("without flour the hydration is %q", f.Value)
		}
	}
}

// What a page says of a levain and of the flours is of the same dough.
func TestALevainOfWhichSomeIsKeptOver(t *testing.T) {
	m, u := ferryLoaf(), measure.Units{}
	f := m.Formula()
	if got := KeptOver(f.Levains[0], Weights(f, u)); got != "" {
		t.Errorf("with nothing kept it says %q", got)
	}
	if got := FloursHeading(f); got == FloursHeading(formula.Formula{Lines: f.Lines}) {
		t.Errorf("with a culture and without, the flours are headed %q", got)
	}
	m.Levains[0].Kept = 30
	f = m.Formula()
	if got := strings.ReplaceAll(KeptOver(f.Levains[0], Weights(f, u)), "\u00a0", " "); got != "It comes to 150 g, of which 120 g go into the dough and 30 g are kept over." {
		t.Errorf("it says %q", got)
	}
	// 48 of the levain's 60 g of white: 848 of 973 g are 87.2 %.
	if got := FlourShares(f, u)[0]; math.Abs(got.Part-848.0/973) > 1e-9 {
		t.Errorf("strong white is %v of the dough", got.Part)
	}
}

func TestGramsAndPercentFollowOneAnother(t *testing.T) {
	m := ferryLoaf()
	change, err := m.setPercent("salt", 2.2, formula.WithCulture)
	if err != nil {
		t.Fatal(err)
	}
	change(&m)
	if got := m.Line("salt").Grams; math.Abs(float64(got-22)) > 1e-9 {
		t.Errorf("2.2 %% salt weighs %v, want 22", got)
	}
	m.SetGrams("water", 700)(&m)
	if got := m.percents(formula.Final, formula.WithCulture)["water"]; math.Abs(float64(got-70)) > 1e-9 {
		t.Errorf("700 g of water are %v %%, want 70", got)
	}
	// A levain's percentages are of its own flour: 60 + 15.
	if got := m.percents(0, formula.WithCulture)["drink"]; math.Abs(float64(got-80)) > 1e-9 {
		t.Errorf("60 g of water in the levain are %v %%, want 80", got)
	}
	if _, err := m.setPercent("gone", 1, formula.WithCulture); err == nil {
		t.Error("a line that is gone was set")
	}
}

// TestAChangeOnlySetsWhatItSets makes changes on a record that has lost lines
// and gained others since, and makes them twice.
func TestAChangeOnlySetsWhatItSets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := ferryLoaf()
		change, err := m.scaled(func(f formula.Formula) (formula.Formula, error) {
			return f.ScaleToDough(formula.Grams(rapid.Float64Range(1, 1e5).Draw(t, "dough")))
		})
		if err != nil {
			t.Fatal(err)
		}
		fresher := ferryLoaf()
		fresher.Ingredients = append(fresher.Ingredients[1:], journal.Ingredient{ID: "oil", Grams: 12})
		if rapid.Bool().Draw(t, "levain gone") {
			fresher.Levains = nil
		}
		change(&fresher)
		once := fmt.Sprint(fresher)
		change(&fresher)
		if fmt.Sprint(fresher) != once {
			t.Fatal("made twice it does more than once")
		}
		if fresher.Line("oil").Grams != 12 {
			t.Fatal("a line that came since was altered")
		}
	})
}

func TestNames(t *testing.T) {
	n := &Names{cultures: []string{"Harbour"}, flours: []string{"Mill 80"},
		facts: map[string]*journal.FlourFacts{"mill 80": {Grain: "wheat", Ash: new(formula.Percent(0.8))}},
		fed: map[string]*journal.Culture{"harbour": {Hydration: new(formula.Percent(80)), Flours: []journal.FlourShare{
			{Grain: "rye", Share: 75, Wholegrain: 100}, {Grain: "wheat", Share: 25}}}}}
	var in journal.Ingredient
	for i := range "Harbour" { // as it is typed
		n.Name(&in, "Harbour"[:i+1])
	}
	if in.Role != formula.Culture || in.Hydration == nil || *in.Hydration != 80 {
		t.Errorf("Harbour is %+v", in)
	}
	if in.Flour == nil || in.Flour.Grain != "rye" || in.Flour.Wholegrain != 75 {
		t.Errorf("Harbour is fed with %+v", in.Flour)
	}
	n.Name(&in, "mill 80")
	if in.Role != formula.Flour || in.Flour == nil || *in.Flour.Ash != 0.8 {
		t.Errorf("the flour of the larder is %+v", in)
	}
	in.Role = formula.Other // the baker knows better
	n.Name(&in, "mill 80, sifted")
	if in.Role != formula.Other {
		t.Errorf("what the baker said became %q", in.Role)
	}
	var milk journal.Ingredient
	if n.Name(&milk, "Milk"); milk.Role != formula.Liquid || milk.WaterShare == nil || *milk.WaterShare != 88 {
		t.Errorf("milk is %+v", milk)
	}
	if got := n.suggest("ar"); len(got) != 1 || got[0] != "Harbour" {
		t.Errorf("for %q it suggests %v", "ar", got)
	}
}

func TestNamesOfEarlierBakes(t *testing.T) {
	reads := 0
	n := &Names{facts: map[string]*journal.FlourFacts{}, newest: map[string]journal.ID{}, read: func(id journal.ID) (*journal.Bake, error) {
		reads++
		return &journal.Bake{Ingredients: []journal.Ingredient{{Name: "Mill 80", Role: formula.Flour,
			Flour: &journal.FlourFacts{Grain: "spelt", Protein: new(formula.Percent(12.5))}}}}, nil
	}}
	n.gather(nil, []*journal.BakeSummary{
		{ID: "new", Flours: []journal.SummaryFlour{{Key: "mill 80", Name: "Mill 80"}}, AddIns: []string{"poppy seed"}},
		{ID: "old", Flours: []journal.SummaryFlour{{Key: "rye", Name: "Rye"}, {Key: "mill 80", Name: "mill 80"}}},
	})
	if want := []string{"Mill 80", "Rye"}; !slices.Equal(n.flours, want) {
		t.Errorf("the flours are %v, want %v: the most used first", n.flours, want)
	}
	var in journal.Ingredient
	for _, typed := range []string{"m", "mi", "mill 80", "mill 80"} {
		n.Name(&in, typed)
	}
	if in.Flour == nil || in.Flour.Grain != "spelt" || in.Flour.Protein == nil || *in.Flour.Protein != 12.5 {
		t.Errorf("the facts of the earlier bake did not come along: %+v", in.Flour)
	}
	if reads != 1 {
		t.Errorf("the bake was read %d times, want once", reads)
	}
	n.Name(&in, "water")
	if in.Role != formula.Water || in.Flour != nil {
		t.Errorf("renamed to water it is %+v", in)
	}
}

func TestAllergenCorrections(t *testing.T) {
	in := journal.Ingredient{ID: "a", Name: "Rye flour", Role: formula.Flour}
	in.Allergens = flipped(in, formula.Rye)
	if got := in.Line().AllergensIn().Allergens; len(got) != 0 {
		t.Errorf("rye taken out leaves %v", got)
	}
	in.Allergens = flipped(in, formula.Rye)
	in.Allergens = flipped(in, formula.Sesame)
	m := Mix{Ingredients: []journal.Ingredient{in, {Name: "Grandmother's mix"}}}
	words := strings.Join(AllergenWords(m, m.Formula().Allergens()), "\n")
	for _, want := range []string{
		"European list of fourteen (Regulation (EU) 1169/2011, Annex II): cereals containing gluten (rye), sesame",
		"American list of nine (FALCPA 2004 and FASTER Act 2021): sesame", "coeliac", "Only on the European list: rye", "Unknown: Grandmother's mix",
	} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is missing in:\n%s", want, words)
		}
	}
}

func TestAllergensOfAnEmptyDough(t *testing.T) {
	for _, m := range []Mix{{}, {Ingredients: []journal.Ingredient{{Role: formula.Water}}}} {
		if words := AllergenWords(m, m.Formula().Allergens()); words != nil {
			t.Errorf("of %+v it says %q", m, words)
		}
	}
	m := Mix{Ingredients: []journal.Ingredient{{Name: "Water", Role: formula.Water}}}
	if words := AllergenWords(m, m.Formula().Allergens()); len(words) != 1 || !strings.HasPrefix(words[0], "None on the European list") {
		t.Errorf("of water it says %q", words)
	}
}

func TestTypeWords(t *testing.T) {
	// DIN 10355, wheat 550: 0.51 to 0.63 % ash (gmf-info.de); T65 0.62 to 0.75.
	for _, tt := range []struct {
		facts        journal.FlourFacts
		words, hover string
	}{
		{journal.FlourFacts{Grain: "wheat", Type: "550"}, "550", "ash 0.51 to 0.63 %"},
		{journal.FlourFacts{Grain: "wheat", Type: "Type 550"}, "550", "DIN 10355"},
		{journal.FlourFacts{Type: "T65"}, "T65", "ash 0.62 to 0.75 %"},
		{journal.FlourFacts{Grain: "rye", Ash: new(formula.Percent(1.2))}, "1150", "ash 1.11 to 1.3 %"},
		{journal.FlourFacts{Grain: "wheat", Type: "00"}, "00", "ash at most 0.55 %"},
		{journal.FlourFacts{Grain: "wheat"}, "–", "Write the type"},
	} {
		words, hover := typeWords(&tt.facts, measure.Units{})
		if !strings.Contains(words, tt.words) || !strings.Contains(hover, tt.hover) {
			t.Errorf("%+v: %q, on hover %q; want %q and %q", tt.facts, words, hover, tt.words, tt.hover)
		}
	}
}

func TestDifferences(t *testing.T) {
	step := func(id journal.ID, kind string, d time.Duration) journal.Step {
		return journal.Step{ID: id, Kind: kind, Planned: d}
	}
	was := Side{Mix: ferryLoaf(), Steps: []journal.Step{step("m", "mix", 15*time.Minute), step("b", "bulk", time.Hour)}}
	if got := Differences(was, was, measure.Units{}); len(got) != 0 {
		t.Errorf("a dough differs from itself: %v", got)
	}
	now := Side{Mix: ferryLoaf(), Steps: []journal.Step{step("m2", "mix", 15*time.Minute), step("b2", "bulk", 90*time.Minute), step("c", "cold rest", 8*time.Hour)}}
	twice, err := now.scaled(func(f formula.Formula) (formula.Formula, error) { return f.Scale(2) })
	if err != nil {
		t.Fatal(err)
	}
	twice(&now.Mix)
	got := map[string]Difference{}
	for _, d := range Differences(was, now, measure.Units{}) {
		got[d.What] = d
	}
	if len(got) != 4 || got["Bulk"].Now != "1\u00a0h 30\u00a0min" || got["Cold proof"].Was != "" || got["Dough"].Was == got["Dough"].Now {
		t.Errorf("twice as much, longer in bulk, with a cold rest: %v", got)
	}
	other := was
	other.Mix = ferryLoaf()
	other.Ingredients[1].Name = "Wholemeal spelt"
	other.Ingredients[2].Grams += 30
	other.Ingredients = other.Ingredients[:3]
	got = map[string]Difference{}
	for _, d := range Differences(was, other, measure.Units{}) {
		got[d.What] = d
	}
	if d := got["Wholemeal spelt"]; !strings.HasPrefix(d.Was, "Wholemeal rye") {
		t.Errorf("the flour that was changed: %+v", d)
	}
	if d := got["Water"]; !strings.Contains(d.Was, "64.5") || !strings.Contains(d.Now, "67.5") {
		t.Errorf("the water: %+v", d)
	}
	if salt := got["Salt"]; salt.Now != "" && !strings.HasPrefix(salt.Now, "0") {
		t.Errorf("the salt that was left out: %+v", salt)
	}
}

func TestStepBoundsAndTurns(t *testing.T) {
	st := journal.Step{Kind: "turns", Planned: 3 * time.Hour, Times: 6, Every: 30 * time.Minute}
	setTurns(&st, 4, 45*time.Minute)
	if st.Planned != 3*time.Hour {
		t.Errorf("four turns of 45 minutes take %v", st.Planned)
	}
	setTurns(&st, 5, 45*time.Minute)
	if st.Planned != 225*time.Minute {
		t.Errorf("five turns of 45 minutes take %v", st.Planned)
	}
	setBounds(&st, 4*time.Hour, 0)
	if st.Planned != 4*time.Hour || st.Max != 4*time.Hour {
		t.Errorf("at least four hours: %+v", st)
	}
	setLength(&st, 5*time.Hour)
	if st.Max != 5*time.Hour || st.Min != 4*time.Hour {
		t.Errorf("five hours: %+v", st)
	}
	if words := stepsWords([]journal.Step{{ID: "a", Kind: "turns", Planned: time.Hour, Times: 9, Every: 30 * time.Minute}}, measure.Units{}); !strings.Contains(words, "9 folds") {
		t.Errorf("nine half-hourly turns in an hour: %q", words)
	}
	one := journal.Step{ID: "a", Kind: "turns", Planned: time.Hour, Times: 1, Every: 30 * time.Minute}
	if words := stepWords(one, measure.Units{}); !strings.HasSuffix(words, ", one fold") {
		t.Errorf("one fold: %q", words)
	}
}

// The Teigausbeute is 100 and the hydration together (definition of the German trade).
func TestTeigausbeuteStandsBesideHydration(t *testing.T) {
	m := Mix{Ingredients: []journal.Ingredient{{Name: "flour", Role: formula.Flour, Grams: 1000}, {Name: "water", Role: formula.Water, Grams: 720}}}
	for _, yield := range []bool{false, true} {
		for _, f := range MetricsOf(m, measure.Units{DoughYield: yield}) {
			if f.Of == formula.FigureHydration && strings.Contains(f.Unit, "TA 172") != yield {
				t.Errorf("with %v it says %s %s", yield, f.Value, f.Unit)
			}
		}
	}
}
