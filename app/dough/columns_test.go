package dough

import (
	"testing"

	"twinloaf/app/maintest"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// All weights of a dough, its sums too, have as many decimals as one of its lines is weighed to, and
// all percentages of a table have one, or two where a line is very little.
func TestAllWeightsOfADoughHaveOneNumberOfDecimals(t *testing.T) {
	mix := func(salt float64) Mix {
		line := func(name string, role formula.Role, g float64) journal.Ingredient {
			return journal.Ingredient{ID: journal.ID(name), Name: name, Role: role, Grams: formula.Grams(g)}
		}
		return Mix{Loaves: 2, Ingredients: []journal.Ingredient{line("Rye", formula.Flour, 900), line("Water", formula.Water, 600), line("Salt", formula.Salt, salt), line("Harbour", formula.Culture, 59)}}
	}
	for _, c := range []struct {
		u                         measure.Units
		salt                      float64
		dough, flour, loaf, share string
	}{
		{measure.Units{}, 20, "1579", "930", "790\u00a0g", "2.2"}, // its flour is 929.5, its loaf 789.5
		{measure.Units{}, 20.5, "1579.5", "929.5", "789.8\u00a0g", "2.2"},
		{measure.Units{DecimalComma: true}, 20.5, "1579,5", "929,5", "789,8\u00a0g", "2,2"},
		{measure.Units{}, 2, "1561", "930", "780\u00a0g", "0.22"},
	} {
		m := mix(c.salt)
		got := map[formula.Metric]string{}
		for _, f := range MetricsOf(m, c.u) {
			got[f.Of] = f.Value
		}
		table := m.table(formula.Final, formula.WithCulture)
		total := Weights(m.Formula(), c.u).Format(float64(table.Total.Grams))
		if got[formula.FigureDough] != c.dough || total != c.dough || got[formula.FigureFlour] != c.flour || m.Loaf(c.u) != c.loaf {
			t.Errorf("%v of salt: dough %s, in its table %s, flour %s, a loaf %s, want %+v", c.salt, got[formula.FigureDough], total, got[formula.FigureFlour], m.Loaf(c.u), c)
		}
		if share := Shares(table, c.u).Format(float64(table.Rows[2].Percent)); share != c.share {
			t.Errorf("%v of salt are %s %%, want %s", c.salt, share, c.share)
		}
	}
}

// Of a dough of nothing no percentage is said.
func TestADoughOfNothingHasNoPercent(t *testing.T) {
	maintest.App(t)
	r := newRipeLine(true)
	for percent, want := range map[formula.Percent]string{0: "–", 174: "174.0"} {
		if r.set("Total", formula.Row{Percent: percent}, measure.Units{}.Weight(), Shares(formula.Table{}, measure.Units{})); r.percent.String() != want {
			t.Errorf("%v: %q, want %q", percent, r.percent.String(), want)
		}
	}
}
