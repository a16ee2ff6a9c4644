package formula

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
)

// anyFormula draws a formula with at least one flour in every table.
func anyFormula(t *rapid.T) Formula {
	lines := func(label string, withCulture bool) []Ingredient {
		n := rapid.IntRange(1, 8).Draw(t, label)
		out := []Ingredient{{Name: "flour 0", Role: Flour, Grams: 100 + Grams(rapid.IntRange(0, 900).Draw(t, "flour"))}}
		for i := range n {
			in := Ingredient{
				Name:  fmt.Sprintf("line %d", i),
				Role:  rapid.SampledFrom(Roles()).Draw(t, "role"),
				Grams: Grams(rapid.IntRange(0, 5000).Draw(t, "tenths of a gram")) / 10,
			}
			switch in.Role {
			case Culture:
				in.Hydration = Percent(rapid.IntRange(0, 200).Draw(t, "hydration"))
			case Liquid:
				in.WaterShare = Percent(rapid.IntRange(0, 100).Draw(t, "water share"))
			case SoakWater:
				in.Counts = rapid.Bool().Draw(t, "counts")
			}
			out = append(out, in)
		}
		if withCulture {
			out = append(out, Ingredient{Name: "seed", Role: Culture, Grams: Grams(rapid.IntRange(1, 50).Draw(t, "seed"))})
		}
		return out
	}
	f := Formula{Lines: lines("lines", false)}
	for i := range rapid.IntRange(0, 2).Draw(t, "levains") {
		l := Levain{Name: fmt.Sprintf("levain %d", i), Lines: lines("levain lines", true)}
		l.KeptBack = l.Built() * Grams(rapid.Float64Range(0, 0.5).Draw(t, "kept back"))
		f.Levains = append(f.Levains, l)
	}
	return f
}

func cells(f Formula) []Cell {
	var out []Cell
	for i := range f.Lines {
		out = append(out, Cell{Final, i})
	}
	for l := range f.Levains {
		for i := range f.Levains[l].Lines {
			out = append(out, Cell{l, i})
		}
	}
	return out
}

func closeTo(a, b float64) bool { return math.Abs(a-b) <= 1e-6*math.Max(1, math.Abs(b)) }

func TestGramsToPercentToGramsIsTheIdentity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := anyFormula(t)
		c := rapid.SampledFrom(cells(f)).Draw(t, "cell")
		b := rapid.SampledFrom([]Basis{WithCulture, WithoutCulture}).Draw(t, "basis")
		p, err := f.Percent(c, b)
		if err != nil {
			t.Fatal(err)
		}
		back, err := f.SetPercent(c, p, b)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range cells(f) {
			was, _ := f.lines(c)
			is, _ := back.lines(c)
			if !closeTo(float64(is[c.Line].Grams), float64(was[c.Line].Grams)) {
				t.Fatalf("%s went from %g to %g g", was[c.Line].Name, was[c.Line].Grams, is[c.Line].Grams)
			}
		}
	})
}

func TestSetPercentGivesThatPercent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := anyFormula(t)
		c := rapid.SampledFrom(cells(f)).Draw(t, "cell")
		b := rapid.SampledFrom([]Basis{WithCulture, WithoutCulture}).Draw(t, "basis")
		want := Percent(rapid.Float64Range(0, 90).Draw(t, "percent"))
		got, err := f.SetPercent(c, want, b)
		if errors.Is(err, ErrTooMuch) {
			if in, _ := f.lines(c); in[c.Line].Role != Flour && in[c.Line].Role != Culture {
				t.Fatalf("a line that is no flour leaves no room: %v", err)
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		is, err := got.Percent(c, b)
		if err != nil {
			t.Fatal(err)
		}
		if !closeTo(float64(is), float64(want)) {
			t.Fatalf("asked for %g %%, got %g %%", want, is)
		}
	})
}

func TestFlourTakesFromTheOtherFlours(t *testing.T) {
	f := Formula{Lines: []Ingredient{
		{Name: "wheat", Role: Flour, Grams: 800},
		{Name: "spelt", Role: Flour, Grams: 100},
		{Name: "rye", Role: Flour, Grams: 100},
		{Name: "water", Role: Water, Grams: 700},
	}}
	got, err := f.SetPercent(Cell{Final, 2}, 28, WithCulture)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []Grams{640, 80, 280, 700} {
		near(t, got.Lines[i].Name, float64(got.Lines[i].Grams), float64(want), 1e-9)
	}
	if _, err := f.SetPercent(Cell{Final, 2}, 101, WithCulture); !errors.Is(err, ErrTooMuch) {
		t.Errorf("101 %% of rye: %v, want %v", err, ErrTooMuch)
	}
}

func TestScalingKeepsPercentages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := anyFormula(t)
		target := Grams(rapid.Float64Range(10, 50000).Draw(t, "target"))
		scaled, err := f.ScaleToDough(target)
		switch rapid.IntRange(0, 3).Draw(t, "how") {
		case 0:
			scaled, err = f.ScaleToFlour(target, WithCulture)
		case 1:
			scaled, err = f.ScaleToLoaves(3, target)
		case 2:
			if f.CultureIn() == 0 {
				return
			}
			if scaled, err = f.ScaleToCulture(target); err == nil && !closeTo(float64(scaled.CultureIn()), float64(target)) {
				t.Fatalf("uses %g g of culture, there are %g", scaled.CultureIn(), target)
			}
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range cells(f) {
			was, _ := f.Percent(c, WithCulture)
			is, _ := scaled.Percent(c, WithCulture)
			if !closeTo(float64(is), float64(was)) {
				t.Fatalf("cell %v went from %g to %g %%", c, was, is)
			}
		}
		was, is := f.Metrics(), scaled.Metrics()
		for i, p := range [][2]Percent{
			{was.Hydration, is.Hydration}, {was.HydrationWeighed, is.HydrationWeighed}, {was.Salt, is.Salt},
			{was.Prefermented, is.Prefermented}, {was.Wholegrain, is.Wholegrain}, {was.Inoculation, is.Inoculation},
		} {
			if !closeTo(float64(p[0]), float64(p[1])) {
				t.Fatalf("figure %d went from %g to %g", i, p[0], p[1])
			}
		}
	})
}

// What is built and what goes into the bowl beside it is the whole formula.
func TestTheLevainsPartsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := anyFormula(t)
		fig := f.Metrics()
		final := f.FinalDough(WithCulture)
		if !closeTo(float64(final.Total.Grams), float64(fig.Dough)) {
			t.Fatalf("final dough %g, dough %g", final.Total.Grams, fig.Dough)
		}
		var flour, water Grams
		for _, l := range f.Levains {
			build := l.BuildTable(WithCulture)
			if !closeTo(float64(build.Total.Grams), float64(l.Used()+l.KeptBack)) {
				t.Fatalf("built %g, used %g and kept back %g", build.Total.Grams, l.Used(), l.KeptBack)
			}
			own := l.Metrics()
			part := l.usedShare()
			flour += own.Flour * part
			water += own.Hydration.Of(own.Flour) * part
		}
		for _, in := range f.Lines {
			flour += in.flourIn(WithCulture)
			water += in.waterIn(WithCulture)
		}
		if !closeTo(float64(flour), float64(fig.Flour)) || !closeTo(float64(water), float64(fig.Water)) {
			t.Fatalf("parts have flour %g and water %g, the whole %g and %g", flour, water, fig.Flour, fig.Water)
		}
		sum := Grams(0)
		for _, r := range final.Rows {
			sum += r.Grams
		}
		if !closeTo(float64(sum), float64(final.Total.Grams)) {
			t.Fatalf("rows add up to %g, total %g", sum, final.Total.Grams)
		}
	})
}

func TestAnEditSharesNothingWithTheFormulaBefore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := anyFormula(t)
		before := f.Clone()
		c := rapid.SampledFrom(cells(f)).Draw(t, "cell")
		if got, err := f.setGrams(c, 12345); err != nil || reflect.DeepEqual(got, f) {
			t.Fatalf("nothing was set: %v", err)
		}
		if _, err := f.Scale(3); err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(f, before) {
			t.Fatal("the formula itself was changed")
		}
	})
}

func TestWhatCannotBeDoneIsSaid(t *testing.T) {
	water := Formula{Lines: []Ingredient{{Name: "water", Role: Water, Grams: 10}}}
	lone := Formula{Lines: []Ingredient{{Name: "flour", Role: Flour, Grams: 500}}}
	tests := []struct {
		what string
		err  func() error
		want error
	}{
		{"negative grams", func() error { _, err := lone.setGrams(Cell{Final, 0}, -1); return err }, ErrNotAWeight},
		{"grams that are no number", func() error { _, err := lone.setGrams(Cell{Final, 0}, Grams(math.NaN())); return err }, ErrNotAWeight},
		{"no such line", func() error { _, err := lone.setGrams(Cell{Final, 1}, 1); return err }, ErrNoSuchLine},
		{"no such levain", func() error { _, err := lone.SetPercent(Cell{0, 0}, 1, WithCulture); return err }, ErrNoSuchLine},
		{"percent without flour", func() error { _, err := water.SetPercent(Cell{Final, 0}, 70, WithCulture); return err }, ErrNoFlour},
		{"the only flour at 90", func() error { _, err := lone.SetPercent(Cell{Final, 0}, 90, WithCulture); return err }, ErrTooMuch},
		{"the only flour at 100", func() error { _, err := lone.SetPercent(Cell{Final, 0}, 100, WithCulture); return err }, nil},
		{"scale to nothing", func() error { _, err := lone.ScaleToDough(0); return err }, ErrNotAWeight},
		{"scale an empty formula", func() error { _, err := Formula{}.ScaleToLoaves(2, 900); return err }, ErrNothing},
		{"scale to a culture there is none of", func() error { _, err := lone.ScaleToCulture(50); return err }, ErrNothing},
		{"ice for ice", func() error { _, err := Ice(500, 20, -1); return err }, ErrFrozen},
	}
	for _, tt := range tests {
		t.Run(tt.what, func(t *testing.T) {
			if err := tt.err(); !errors.Is(err, tt.want) {
				t.Errorf("got %v, want %v", err, tt.want)
			}
		})
	}
}

func TestSeedsAndTheirWaterStayOutUnlessTold(t *testing.T) {
	f := Formula{Lines: []Ingredient{
		{Name: "flour", Role: Flour, Grams: 1000},
		{Name: "water", Role: Water, Grams: 700},
		{Name: "linseed", Role: Seeds, Grams: 100},
		{Name: "soaking water", Role: SoakWater, Grams: 150},
		{Name: "milk", Role: Liquid, Grams: 100, WaterShare: 88},
	}}
	near(t, "hydration", float64(f.Metrics().Hydration), 78.8, 1e-9)
	near(t, "dough", float64(f.Metrics().Dough), 2050, 1e-9)
	f.Lines[3].Counts = true
	near(t, "hydration with the soaking water", float64(f.Metrics().Hydration), 93.8, 1e-9)
}

func TestAnEmptyFormulaHasNoPercentages(t *testing.T) {
	fig := Formula{Lines: []Ingredient{{Name: "salt", Role: Salt, Grams: 10}}}.Metrics()
	if fig.Defined() || fig.Salt != 0 || fig.Dough != 10 {
		t.Errorf("figures without flour: %+v", fig)
	}
}

func TestKeptBackLevainStaysOutOfTheDough(t *testing.T) {
	f := Formula{
		Lines: []Ingredient{{Name: "flour", Role: Flour, Grams: 900}, {Name: "water", Role: Water, Grams: 600}},
		Levains: []Levain{{Name: "levain", KeptBack: 50, Lines: []Ingredient{
			{Name: "flour", Role: Flour, Grams: 100}, {Name: "water", Role: Water, Grams: 100}, {Name: "Gorse", Role: Culture, Grams: 50},
		}}},
	}
	fig := f.Metrics()
	near(t, "dough", float64(fig.Dough), 1700, 1e-9)
	near(t, "flour", float64(fig.Flour), 1000, 1e-9)
	near(t, "hydration", float64(fig.Hydration), 70, 1e-9)
	near(t, "prefermented", float64(fig.Prefermented), 10, 1e-9)
	near(t, "inoculation", float64(fig.Inoculation), 200.0/9, 1e-9)
}

func TestFrictionIsLearnedByTheMedian(t *testing.T) {
	dough := func(measured Celsius) MixedDough {
		return MixedDough{Factors: Factors{Flour: 20, Room: 20, Levain: 20, HasLevain: true}, Water: 30, Measured: measured}
	}
	// Friction is 4 x measured - 90; the 60 is a slip of the thermometer.
	got, ok := LearnFriction([]MixedDough{dough(24), dough(60), dough(23.5), dough(24.5)})
	want := LearnedFriction{Median: 7, Doughs: 4}
	if !ok || got != want {
		t.Errorf("learned %+v, want %+v", got, want)
	}
	if _, ok := LearnFriction(nil); ok {
		t.Error("friction was learned from no dough")
	}
}

func TestWaterThatNoKitchenHas(t *testing.T) {
	tests := []struct {
		water Celsius
		want  WaterCaution
	}{{-0.1, WaterFreezes}, {0, ""}, {30, ""}, {34.9, ""}, {35, WaterHot}, {60, WaterHot}, {60.1, WaterScalds}}
	for _, tt := range tests {
		got := CheckWater(tt.water)
		if got != tt.want {
			t.Errorf("%g °C: %q, want %q", tt.water, got, tt.want)
		}
		if got.Line().IsZero() != (got == "") {
			t.Errorf("%g °C: %q", tt.water, got.Line())
		}
	}
}

func TestIceIsPartOfTheWater(t *testing.T) {
	got, err := Ice(1000, 25, 4)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "ice", float64(got.Ice), 200, 1e-9)
	near(t, "ice and water", float64(got.Ice+got.Water), 1000, 1e-9)
	if got, err = Ice(1000, 10, 12); err != nil || got.Ice != 0 {
		t.Errorf("a cold tap asks for %g g of ice: %v", got.Ice, err)
	}
}

func TestNeighbouringFlourTypes(t *testing.T) {
	pick := func(sys System, grain, name string) FlourType {
		for _, ft := range FlourTypes() {
			if ft.System == sys && ft.Grain == grain && ft.Name == name {
				return ft
			}
		}
		t.Fatalf("no type %s", name)
		return FlourType{}
	}
	tests := []struct {
		of   FlourType
		want []string
	}{
		{pick(German, "wheat", "550"), []string{"T55", "0"}},
		{pick(German, "wheat", "1050"), []string{"T110", "2"}},
		{pick(French, "wheat", "T65"), []string{"812", "1"}},
		{pick(Italian, "wheat", "integrale"), []string{"1600", "T150"}},
		{pick(German, "rye", "1150"), []string{"T85", "T130"}},
		{pick(French, "rye", "T170"), []string{"1370"}},
	}
	for _, tt := range tests {
		var got []string
		for _, n := range tt.of.Neighbours() {
			got = append(got, n.Name)
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("neighbours of %s are %v, want %v", tt.of.Name, got, tt.want)
		}
	}
}

func TestAllergensOfADough(t *testing.T) {
	f := Formula{
		Lines: []Ingredient{
			{Name: "T65", Role: Flour, Type: "T65", Allergens: Corrections{Add: []Allergen{Wheat}}},
			{Name: "Miller's secret", Role: Flour},
			{Name: "Walnuts", Role: Seeds},
			{Name: "milk", Role: Liquid, Allergens: Corrections{Remove: []Allergen{Milk}, Add: []Allergen{Oats}}},
			{Name: "from the spring", Role: Water},
		},
		Levains: []Levain{{Lines: []Ingredient{{Name: "whole rye", Role: Flour, Grams: 10}, {Name: "Harbour", Role: Culture, Grams: 1, Allergens: Corrections{Checked: true}}}}},
	}
	got := f.Allergens()
	if want := []string{"Miller's secret"}; !slices.Equal(got.Unknown, want) {
		t.Errorf("unknown %q, want %q", got.Unknown, want)
	}
	us := []ListEntry{{"wheat", []Allergen{Wheat}}, {usNuts, []Allergen{Walnut}}}
	if !reflect.DeepEqual(got.On(USNine), us) {
		t.Errorf("US: %v, want %v", got.On(USNine), us)
	}
	eu := []ListEntry{{gluten, []Allergen{Wheat, Rye, Oats}}, {euNuts, []Allergen{Walnut}}}
	if !reflect.DeepEqual(got.On(EUFourteen), eu) {
		t.Errorf("EU: %v, want %v", got.On(EUFourteen), eu)
	}
	if want := []Allergen{Rye, Oats}; !slices.Equal(got.OnlyOn(EUFourteen), want) || len(got.OnlyOn(USNine)) != 0 {
		t.Errorf("only in the EU %v, want %v; only in the US %v", got.OnlyOn(EUFourteen), want, got.OnlyOn(USNine))
	}
}

func TestEveryFigureIsDefined(t *testing.T) {
	for _, d := range definitions {
		if got := Define(d.Figure); got.Name == "" || got.What == "" || (got.Usual == "") != (got.Source == "") {
			t.Errorf("%s: %+v", d.Figure, got)
		}
	}
	if (Define("gossip") != Definition{}) {
		t.Error("an unknown figure is defined")
	}
}

// What is usual of one figure must follow from what is usual of the other: of a flour of
// which the share p is prefermented in a culture at 100 % hydration, 2p/(1-p) is what that
// culture weighs for each part of fresh flour (arithmetic).
func TestUsualFiguresDoNotContradictEachOther(t *testing.T) {
	prefermented, inoculation := Define(FigurePrefermented).Usual, Define(FigureInoculation).Usual
	for _, p := range []Percent{5, 25, 20, 50} {
		f := Formula{Lines: []Ingredient{
			{Name: "flour", Role: Flour, Grams: Grams(1000 - 10*p)},
			{Name: "culture", Role: Culture, Grams: Grams(20 * p), Hydration: 100},
		}}
		fig := f.Metrics()
		near(t, "prefermented flour", float64(fig.Prefermented), float64(p), 1e-9)
		near(t, "inoculation", float64(fig.Inoculation), float64(200*p/(100-p)), 1e-9)
		for words, v := range map[string]Percent{prefermented: p, inoculation: fig.Inoculation} {
			if !strings.Contains(words, fmt.Sprintf("%.0f ", float64(v))) {
				t.Errorf("%q does not say %.0f", words, float64(v))
			}
		}
	}
}

// What a keystroke in a formula of forty lines costs: an edit, all figures and
// all tables. The allergens are looked up as well.
func BenchmarkFortyLines(b *testing.B) {
	f := miche()
	for i := range 40 - len(cells(f)) {
		f.Lines = append(f.Lines, Ingredient{Name: fmt.Sprintf("Toasted seeds no. %d", i), Role: Seeds, Grams: 20})
	}
	if n := len(cells(f)); n != 40 {
		b.Fatalf("%d lines", n)
	}
	b.ReportAllocs()
	for b.Loop() {
		g, err := f.SetPercent(Cell{Final, 1}, 5, WithCulture)
		if err != nil {
			b.Fatal(err)
		}
		g.Metrics()
		g.FinalDough(WithCulture)
		for _, l := range g.Levains {
			l.BuildTable(WithCulture)
		}
		g.Allergens()
	}
}
