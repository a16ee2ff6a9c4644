package finding

import (
	"math"

	"twinloaf/journal/say"
	"twinloaf/journal/stats"
)

// A Level names what bakes are held alike in: the flour and the culture of each,
// say. Bakes of the same word are compared with one another alone.
type Level struct {
	Name  string // as its maker calls it
	Words []string
}

// ErrMixed is returned when the bakes differ in what they should be held alike
// in, and too few of them are alike.
var ErrMixed = say.NewError("too few bakes are alike in flour")

// Held says what an answer held alike.
type Held struct {
	// Name is the level's, empty where every bake was alike already.
	Name string
	// Strata is how many kinds of bakes there were, Alone how many bakes were the
	// only one of their kind and tell nothing.
	Strata, Alone int
}

// leastFree is how many bakes beyond the first of their kind there must be for
// bakes of one kind to be compared with one another, and what share of all bakes
// that must be.
const (
	leastFree      = 6
	leastFreeShare = 0.5
)

// hold chooses the finest level with enough bakes in it: of those used, how many
// lie in a kind within which x varies. It gives the kind of each used bake.
func hold(levels []Level, used []int, x func(i int) float64) ([]int, Held, error) {
	varied := false
	for _, level := range levels {
		kinds, at, first := make([]int, len(used)), map[string]int{}, map[int]float64{}
		size, varies := map[int]int{}, map[int]bool{}
		for i, row := range used {
			k, known := at[level.Words[row]]
			if !known {
				k = len(at)
				at[level.Words[row]], first[k] = k, x(row)
			}
			kinds[i] = k
			size[k]++
			varies[k] = varies[k] || x(row) != first[k]
		}
		if len(at) < 2 {
			continue // all alike in this
		}
		varied = true
		free, alone, strata := 0, 0, 0
		for k, n := range size {
			switch {
			case n == 1:
				alone++
			case varies[k]:
				free, strata = free+n-1, strata+1
			}
		}
		if free >= leastFree && float64(free) >= leastFreeShare*float64(len(used)) {
			return kinds, Held{Name: level.Name, Strata: strata, Alone: alone}, nil
		}
	}
	if varied {
		return nil, Held{}, ErrMixed
	}
	return make([]int, len(used)), Held{}, nil
}

// TrendWithin works out the trend of y with x among bakes that are alike, by the
// finest of the levels given, finest first, that has enough bakes; without levels
// in which the bakes differ it is [TrendOf]. Flours that differ in level, in both
// figures at once, would else make a trend where there is none, or turn one round
// (Simpson 1951, J R Stat Soc B 13:238). The error is [ErrTooFew] or [ErrMixed].
func TrendWithin(x, y []float64, levels []Level) (Trend, error) {
	used := usable(x, y)
	if len(used) < Enough {
		return Trend{N: len(used)}, ErrTooFew
	}
	kinds, held, err := hold(levels, used, func(i int) float64 { return x[i] })
	if err != nil {
		return Trend{N: len(used)}, err
	}
	if held.Name == "" {
		return TrendOf(x, y)
	}
	t := Trend{N: len(used), Held: held}
	cx, cy := at(x, used), at(y, used)
	t.Across = rho(cx, cy)
	cx, cy, kinds = thinned(cx), thinned(cy), thinned(kinds)
	t.Used = len(cx)
	if t.TheilSenResult, err = stats.TheilSenWithin(cx, cy, kinds, level); err != nil {
		return t, ErrTooFew
	}
	within, err := stats.RankWithin(cx, cy, kinds, seed())
	if err != nil {
		return t, ErrTooFew
	}
	t.Rank = stats.SpearmanResult{Rho: within.Rho, P: within.P}
	return t, nil
}

// CompareWithin compares the outcomes of the two largest groups among bakes that
// are alike, as [TrendWithin] does; without levels in which the bakes differ it
// is [CompareGroups].
func CompareWithin(names []string, y []float64, levels []Level) (Comparison, error) {
	c, err := CompareGroups(names, y)
	if err != nil || c.Test == nil {
		return c, err
	}
	var used []int
	for i, name := range names {
		if !math.IsNaN(y[i]) && (name == c.Groups[0].Name || name == c.Groups[1].Name) {
			used = append(used, i)
		}
	}
	first := func(i int) float64 {
		if names[i] == c.Groups[0].Name {
			return 1
		}
		return 0
	}
	kinds, held, err := hold(levels, used, first)
	if err != nil {
		c.Test = nil
		return c, err
	}
	if held.Name == "" {
		return c, nil
	}
	x := make([]float64, len(used))
	for i, row := range used {
		x[i] = first(row)
	}
	x, cy, kinds := thinned(x), thinned(at(y, used)), thinned(kinds)
	within, err := stats.RankWithin(x, cy, kinds, seed())
	if err != nil {
		return c, ErrTooFew
	}
	c.Held, c.Across = held, 2*c.Test.Superiority-1
	wins, pairs := 0.0, 0.0
	var shifts []float64
	for i := range x {
		for j := range x {
			if kinds[i] != kinds[j] || x[i] != 1 || x[j] != 0 {
				continue
			}
			pairs++
			shifts = append(shifts, cy[i]-cy[j])
			switch {
			case cy[i] > cy[j]:
				wins++
			case cy[i] == cy[j]:
				wins += 0.5
			}
		}
	}
	if pairs == 0 {
		return c, ErrTooFew
	}
	shift, _ := stats.Median(shifts) // there are pairs
	c.Test = &stats.MannWhitneyResult{P: within.P, Superiority: wins / pairs, Shift: shift}
	return c, nil
}

// usable lists the bakes that have both figures.
func usable(x, y []float64) []int {
	var used []int
	for i := range x {
		if !math.IsNaN(x[i]) && !math.IsNaN(y[i]) && !math.IsInf(x[i], 0) && !math.IsInf(y[i], 0) {
			used = append(used, i)
		}
	}
	return used
}

// at picks the values of some bakes.
func at[T any](list []T, rows []int) []T {
	out := make([]T, len(rows))
	for i, row := range rows {
		out[i] = list[row]
	}
	return out
}
