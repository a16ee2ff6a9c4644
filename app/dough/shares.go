package dough

import (
	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// FlourShares are the shares of the flour in the dough, the largest first; what is in a
// culture is not told apart.
func FlourShares(f formula.Formula, u measure.Units) []kit.Share {
	flours := journal.FloursOf(f)
	out := make([]kit.Share, len(flours))
	for i, part := range journal.WholeShares(flours) {
		out[i] = kit.Share{Name: flours[i].Name, Part: float64(flours[i].Share / 100), Text: u.Percent(0).Write(part)}
	}
	return out
}
