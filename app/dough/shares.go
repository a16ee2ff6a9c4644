package dough

import (
	"slices"

	"twinloaf/app/kit"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// FlourShares are the shares of the flour that is weighed, the largest first; what is in
// a culture is not told apart.
func FlourShares(f formula.Formula, u measure.Units) []kit.Share {
	var sum formula.Grams
	var flours []formula.Row
	for _, row := range f.Overall(formula.WithCulture).Rows {
		if row.Role == formula.Flour && row.Grams > 0 {
			flours, sum = append(flours, row), sum+row.Grams
		}
	}
	slices.SortStableFunc(flours, func(a, b formula.Row) int { return int(b.Grams - a.Grams) })
	out := make([]kit.Share, len(flours))
	for i, row := range flours {
		part := float64(row.Grams / sum)
		out[i] = kit.Share{Name: row.Name, Part: part, Text: u.FormatNumber(100*part, 0) + " %"}
	}
	return out
}
