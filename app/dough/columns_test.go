package dough

import (
	"testing"

	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// The figures of a column have one number of decimals: as many as one of them needs.
func TestAColumnHasOneNumberOfDecimals(t *testing.T) {
	rows := []formula.Row{{Grams: 1000.5, Percent: 100}, {Grams: 20, Percent: 2.5}, {Grams: 3.5, Percent: 0.35}}
	for _, c := range []struct {
		u              measure.Units
		rows           []formula.Row
		grams, percent string // of the second row
	}{
		{measure.Units{}, rows, "20.0", "2.50"},
		{measure.Units{DecimalComma: true}, rows, "20,0", "2,50"},
		{measure.Units{}, []formula.Row{{Grams: 500, Percent: 100}, {Grams: 10, Percent: 2}}, "10", "2"},
	} {
		grams, percent := Columns(formula.Table{Rows: c.rows}, 2, c.u)
		if g, p := grams.Format(float64(c.rows[1].Grams)), percent.Format(float64(c.rows[1].Percent)); g != c.grams || p != c.percent {
			t.Errorf("%v: %q and %q, want %q and %q", c.rows, g, p, c.grams, c.percent)
		}
	}
}
