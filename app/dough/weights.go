package dough

import (
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// Weights is the face of all weights of a dough, of what it comes to and of its loaves as well:
// each with as many decimals as one of its lines is weighed to, so that none stands in two ways.
func Weights(f formula.Formula, u measure.Units) measure.Measure {
	var all []float64
	add := func(lines []formula.Ingredient) {
		for _, in := range lines {
			all = append(all, float64(in.Grams))
		}
	}
	add(f.Lines)
	for _, l := range f.Levains {
		add(l.Lines)
		all = append(all, float64(l.KeptBack))
	}
	return u.Weight().Column(all...)
}

// Shares is the face of the percentages of a table: a decimal, and another where a line is less
// than one percent of the flour.
func Shares(t formula.Table, u measure.Units) measure.Measure {
	for _, r := range t.Rows {
		if r.Percent > 0 && r.Percent < 1 {
			return u.Percent(2).Fixed(2)
		}
	}
	return u.Percent(1).Fixed(1)
}
