package stats

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// exactMannWhitney is the most values, both groups together, whose
// distribution is counted out.
const exactMannWhitney = 120

// MannWhitneyResult compares two independent groups.
type MannWhitneyResult struct {
	// Superiority is the share of pairs in which a value of the first group is the
	// greater; equal pairs count half. 0.5 is "no difference".
	Superiority float64
	P           float64
	// Exact says that P was counted out, on mid-ranks where there are ties.
	// Otherwise it is the normal approximation with corrections for ties and
	// for continuity.
	Exact bool
	// Shift is the median of all differences first minus second, with limits
	// when the groups are large enough (Level 0 otherwise) and were counted
	// out. With ties the limits are approximate.
	Shift       float64
	ShiftLimits Limits
}

// MannWhitney tests whether one of two independent groups tends to be greater
// (Mann & Whitney 1947, Ann Math Stat 18:50). It is exact, also with ties, up
// to 120 values.
func MannWhitney(first, second []float64, level float64) (MannWhitneyResult, error) {
	m, n := len(first), len(second)
	if m == 0 || n == 0 {
		return MannWhitneyResult{P: 1}, ErrTooFew
	}
	if !allFinite(first, second) {
		return MannWhitneyResult{P: 1}, ErrNotFinite
	}
	all := slices.Concat(first, second)
	twice := doubleRanks(all)
	sum := 0
	for _, r := range twice[:m] {
		sum += r
	}
	u := float64(sum)/2 - float64(m*(m+1))/2
	result := MannWhitneyResult{
		Superiority: u / float64(m*n),
		Exact:       m+n <= exactMannWhitney,
	}
	differences := make([]float64, 0, m*n)
	for _, a := range first {
		for _, b := range second {
			differences = append(differences, a-b)
		}
	}
	slices.Sort(differences)
	result.Shift = middle(differences)
	if !result.Exact {
		result.P = mannWhitneyNormal(u, m, n, tieSizes(all))
		return result, nil
	}
	tail := cumulative(chosenSums(twice, m))
	result.P = twoSided(tail(sum), 1-tail(sum-1))
	untied := make([]int, m+n)
	for i := range untied {
		untied[i] = i + 1
	}
	least := m * (m + 1) / 2
	plain := cumulative(chosenSums(untied, m))
	result.ShiftLimits = symmetricLimits(differences, func(c int) float64 { return plain(least + c) }, level)
	return result, nil
}

// chosenSums is the distribution of the sum of m ranks chosen at random, all
// choices equally likely, from the ranks given.
func chosenSums(ranks []int, m int) []float64 {
	total := 0
	for _, r := range ranks {
		total += r
	}
	// ways[k][s] is the chance that k of the ranks so far are chosen and sum
	// to s, times the number of choices; kept as float64, whose 53 bits give
	// the tails to better than 1e-12.
	ways := make([][]float64, m+1)
	for k := range ways {
		ways[k] = make([]float64, total+1)
	}
	ways[0][0] = 1
	reached := 0
	for _, r := range ranks {
		reached += r
		for k := m; k >= 1; k-- {
			from, to := ways[k-1], ways[k]
			for s := reached; s >= r; s-- {
				to[s] += from[s-r]
			}
		}
	}
	sums := ways[m]
	all := 0.0
	for _, w := range sums {
		all += w
	}
	for s := range sums {
		sums[s] /= all
	}
	return sums
}

func mannWhitneyNormal(u float64, m, n int, ties []int) float64 {
	size := float64(m + n)
	lost := 0.0
	for _, t := range ties {
		lost += float64(t*t*t - t)
	}
	pairs := float64(m) * float64(n)
	variance := pairs / 12 * (size + 1 - lost/(size*(size-1)))
	if variance <= 0 {
		return 1
	}
	away := max(0, math.Abs(u-pairs/2)-0.5)
	return min(1, 2*distuv.UnitNormal.Survival(away/math.Sqrt(variance)))
}
