package measure_test

import (
	"strings"
	"testing"

	"twinloaf/journal/measure"
)

// In a column each figure has the decimals that one of them needs; what is no plain number stays.
func TestColumn(t *testing.T) {
	var u measure.Units
	for _, c := range []struct {
		m       measure.Measure
		figures []float64
		want    []string
	}{
		{u.Percent(1), []float64{79, 74.9}, []string{"79.0", "74.9"}},
		{u.Percent(1), []float64{79, 75}, []string{"79", "75"}},
		{u.Duration(), []float64{45, 270}, []string{"45 min", "4 h 30 min"}},
		{u.Times(), []float64{1.5, 2}, []string{"1.50×", "2.00×"}},
	} {
		m := c.m.Column(c.figures...)
		for i, v := range c.figures {
			if got := strings.ReplaceAll(m.Format(v), "\u00a0", " "); got != c.want[i] {
				t.Errorf("%v in %v: %q, want %q", v, c.figures, got, c.want[i])
			}
		}
	}
}
