package dough

import (
	"slices"

	"fyne.io/fyne/v2/lang"

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

// FloursHeading stands above the shares of a dough's flour: where a culture is in it, whose
// own flour they leave out, it says so.
func FloursHeading(f formula.Formula) string {
	cultured := func(lines []formula.Ingredient) bool {
		return slices.ContainsFunc(lines, func(in formula.Ingredient) bool { return in.Role == formula.Culture && in.Grams > 0 })
	}
	if cultured(f.Lines) || slices.ContainsFunc(f.Levains, func(l formula.Levain) bool { return cultured(l.Lines) }) {
		return lang.L("Flours, without the culture's own")
	}
	return lang.L("Flours")
}

// KeptOver says how much of a levain went into the dough where some of it did not; else it
// is empty.
func KeptOver(l formula.Levain, weights measure.Measure) string {
	if l.Used() >= l.Built() {
		return ""
	}
	return lang.L("It comes to {{.Built}}, of which {{.Used}} go into the dough and {{.Kept}} are kept over.", map[string]any{
		"Built": weights.Write(float64(l.Built())), "Used": weights.Write(float64(l.Used())), "Kept": weights.Write(float64(l.Built() - l.Used()))})
}

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
