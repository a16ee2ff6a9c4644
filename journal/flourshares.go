package journal

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"twinloaf/journal/formula"
)

// FloursOf gives the flours of a dough, greatest share first. A levain counts by the part
// that went into the dough; names that differ in writing alone are one flour.
func FloursOf(d formula.Formula) []SummaryFlour {
	var out []SummaryFlour
	at := func(in formula.Ingredient) *SummaryFlour {
		key := FlourKey(in.Name)
		i := slices.IndexFunc(out, func(f SummaryFlour) bool { return f.Key == key })
		if i < 0 {
			i, out = len(out), append(out, SummaryFlour{Key: key, Name: strings.TrimSpace(in.Name)})
		}
		return &out[i]
	}
	add := func(in formula.Ingredient, used formula.Grams) {
		if in.Role != formula.Flour || in.Grams <= 0 {
			return
		}
		f := at(in)
		f.Weighed += in.Grams
		f.Share += formula.Percent(in.Grams * used)
	}
	for _, in := range d.Lines {
		add(in, 1)
	}
	for _, l := range d.Levains {
		used := formula.Grams(1)
		if built := l.Built(); built > 0 {
			used = l.Used() / built
		}
		for _, in := range l.Lines {
			add(in, used)
		}
	}
	var dough formula.Grams
	for _, f := range out {
		dough += formula.Grams(f.Share)
	}
	for i, f := range out {
		out[i].Share = formula.Grams(f.Share).PercentOf(dough)
	}
	slices.SortStableFunc(out, func(a, b SummaryFlour) int {
		return cmp.Or(cmp.Compare(b.Share, a.Share), strings.Compare(a.Key, b.Key))
	})
	return out
}

// WholeShares gives the shares of all flours of a dough as whole percents that add up to
// 100: rounded down, and what is missing goes to those that lost the most by it (the method
// of the largest remainder; common practice, no source).
func WholeShares(flours []SummaryFlour) []float64 {
	out, order, missing := make([]float64, len(flours)), make([]int, len(flours)), 100.0
	for i, f := range flours {
		out[i], order[i] = math.Floor(float64(f.Share)+1e-9), i
		missing -= out[i]
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(float64(flours[b].Share)-out[b], float64(flours[a].Share)-out[a])
	})
	for _, i := range order[:min(len(order), max(0, int(missing)))] {
		out[i]++
	}
	return out
}
