// Package finding asks what a record of bakes shows: whether an outcome ran
// with a factor, how sure that is, and what else ran with it. Nothing here was
// assigned by lot, so nothing here says what causes what; it says where to look,
// and which trial would settle it.
package finding

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/stat"

	"twinloaf/journal/stats"

	"twinloaf/journal/say"
)

// level is the confidence of every interval.
const level = 0.95

// most is how many bakes an interval is worked out from. The median of pairwise
// slopes needs every pair of them; beyond this many, an even draw is taken.
const most = 1200

// Enough is how many bakes there must be before a trend or a comparison is
// worked out at all: with fewer than five points no Theil-Sen interval reaches 95 %.
const Enough = 5

// ErrTooFew is returned when there are fewer bakes than [Enough] that have both
// figures, or when the factor never varies.
var ErrTooFew = say.NewError("too few bakes have both figures")

// seed makes the permutations the same for the same bakes.
func seed() rand.Source { return rand.NewPCG(10, 1964) }

// A Trend says how an outcome ran with a factor that is a number.
type Trend struct {
	N int // bakes with both
	// Used is how many of them the line and its interval rest on: N, or an even
	// draw from very many.
	Used int
	stats.TheilSenResult
	Rank stats.SpearmanResult
	// Held is what was held alike; then the line and the rank correlation are those
	// within bakes of one kind, and Across is the rank correlation of all bakes
	// together, which may point the other way.
	Held   Held
	Across float64
}

// Told reports whether the trend, asked about alone, can be told from chance: its
// rank correlation has a p-value of at most 0.05. Of one among many questions a
// [Survey] tells.
func (t Trend) Told() bool { return t.Rank.P <= 0.05 && t.Rank.Rho != 0 }

// TrendOf works out the trend of y with x. Pairs with a NaN are left out. Beyond
// 1200 pairs an even draw of that many is taken, in the order given.
func TrendOf(x, y []float64) (Trend, error) {
	x, y = complete(x, y)
	t := Trend{N: len(x)}
	if t.N < Enough || flat(x) {
		return t, ErrTooFew
	}
	x, y = thinned(x), thinned(y)
	t.Used = len(x)
	var err error
	if t.TheilSenResult, err = stats.TheilSen(x, y, level); err != nil {
		return t, err
	}
	t.Rank, err = stats.Spearman(x, y, seed())
	return t, err
}

// A Group is the outcomes of the bakes that have one value of a factor that is a
// name.
type Group struct {
	Name   string
	Values []float64
	Median float64
}

// A Comparison says how an outcome ran between groups.
type Comparison struct {
	N      int
	Groups []Group // the largest first
	// Test compares the two largest groups, the first of which is Groups[0]; it
	// is nil with fewer than two groups of three bakes.
	Test *stats.MannWhitneyResult
	// Others is how many more comparisons there could have been among the groups:
	// the more there are, the likelier one of them is a whim of chance.
	Others int
	// Held is what was held alike; then Test is that within bakes of one kind, and
	// Across is how much more often the first group had more among all bakes.
	Held   Held
	Across float64
}

// Told reports whether the two largest groups can be told from chance, after
// Holm's correction in its first and strictest step for all the pairs that
// could have been compared.
func (c Comparison) Told() bool { return c.Test != nil && c.Adjusted() <= 0.05 }

// Adjusted is the p-value times the number of pairs it was one of, at most 1.
func (c Comparison) Adjusted() float64 {
	if c.Test == nil {
		return 1
	}
	return min(1, c.Test.P*float64(1+c.Others))
}

// CompareGroups compares the outcomes y of bakes whose factor has the names
// given; an empty name or a NaN leaves a bake out.
func CompareGroups(names []string, y []float64) (Comparison, error) {
	var c Comparison
	at := map[string]int{}
	for i, name := range names {
		if name == "" || math.IsNaN(y[i]) {
			continue
		}
		k, ok := at[name]
		if !ok {
			k = len(c.Groups)
			at[name] = k
			c.Groups = append(c.Groups, Group{Name: name})
		}
		c.Groups[k].Values = append(c.Groups[k].Values, y[i])
		c.N++
	}
	slices.SortStableFunc(c.Groups, func(a, b Group) int {
		return cmp.Or(len(b.Values)-len(a.Values), cmp.Compare(a.Name, b.Name))
	})
	if c.N < Enough || len(c.Groups) < 2 {
		return c, ErrTooFew
	}
	large := 0
	for i := range c.Groups {
		g := &c.Groups[i]
		g.Median, _ = stats.Median(g.Values) // there are values
		if len(g.Values) >= 3 {
			large++
		}
	}
	if large < 2 {
		return c, nil
	}
	c.Others = large*(large-1)/2 - 1
	test, err := stats.MannWhitney(thinned(c.Groups[0].Values), thinned(c.Groups[1].Values), level)
	if err != nil {
		return c, err
	}
	c.Test = &test
	return c, nil
}

// complete leaves out the pairs with a NaN.
func complete(x, y []float64) (cx, cy []float64) {
	for i := range x {
		if !math.IsNaN(x[i]) && !math.IsNaN(y[i]) && !math.IsInf(x[i], 0) && !math.IsInf(y[i], 0) {
			cx, cy = append(cx, x[i]), append(cy, y[i])
		}
	}
	return cx, cy
}

// thinned takes an even draw of at most [most] values.
func thinned[T any](x []T) []T {
	if len(x) <= most {
		return x
	}
	out := make([]T, most)
	for i := range out {
		out[i] = x[i*len(x)/most]
	}
	return out
}

func flat(x []float64) bool {
	return !slices.ContainsFunc(x, func(v float64) bool { return v != x[0] })
}

// rho is the rank correlation, or 0 when one side never varies.
func rho(x, y []float64) float64 {
	r := stat.Correlation(stats.Ranks(x), stats.Ranks(y), nil)
	if math.IsNaN(r) {
		return 0
	}
	return max(-1, min(1, r))
}
