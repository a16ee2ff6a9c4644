package journal

import (
	"math"
	"slices"
	"testing"

	"twinloaf/journal/formula"
)

// A dough of 1000 g of flour: 70 g of the levain's 84 g went in, since 30 g of 200 were kept.
func keptOver() *Bake {
	g := func(v float64) formula.Grams { return formula.Grams(v) }
	return &Bake{
		Ingredients: []Ingredient{
			{Name: "Strong white", Role: formula.Flour, Grams: g(598)}, {Name: "Whole wheat", Role: formula.Flour, Grams: g(149)},
			{Name: "Dark rye", Role: formula.Flour, Grams: g(83)}, {Name: "Water", Role: formula.Water, Grams: g(590)},
		},
		Levains: []LevainBuild{{Kept: 30, Lines: []Ingredient{
			{Name: "Gorse", Role: formula.Culture, Grams: g(32)}, {Name: "strong white ", Role: formula.Flour, Grams: g(84)}, {Name: "Water", Role: formula.Water, Grams: g(84)},
		}}},
	}
}

func TestFlourSharesAreOfWhatWentIn(t *testing.T) {
	b := keptOver()
	flours := summarize(b, nil, nil).Flours
	if len(flours) != 3 {
		t.Fatalf("flours %+v", flours)
	}
	in := 84.0 * 170 / 200
	if got, want := float64(flours[0].Share), 100*(598+in)/(830+in); math.Abs(got-want) > 1e-9 {
		t.Errorf("strong white is %v %% of the dough, want %v", got, want)
	}
	if got := flours[0].Weighed; got != 598+84 {
		t.Errorf("%v g of strong white weighed, want all that was built", got)
	}
}

func TestWholeSharesAddUp(t *testing.T) {
	for _, c := range []struct{ shares, want []float64 }{
		{[]float64{76.4, 15.3, 8.3}, []float64{77, 15, 8}}, // each rounded by itself: 99
		{[]float64{75.6, 15.8, 8.6}, []float64{75, 16, 9}}, // each rounded by itself: 101
		{[]float64{100}, []float64{100}},
		{[]float64{50, 50}, []float64{50, 50}},
		{nil, []float64{}},
	} {
		var flours []SummaryFlour
		for _, s := range c.shares {
			flours = append(flours, SummaryFlour{Share: formula.Percent(s)})
		}
		if got := WholeShares(flours); !slices.Equal(got, c.want) {
			t.Errorf("%v as whole percents: %v, want %v", c.shares, got, c.want)
		}
	}
}
