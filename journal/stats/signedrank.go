package stats

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// SignedRankResult is what Wilcoxon's signed rank test says of paired
// differences.
type SignedRankResult struct {
	// Pairs is the number of differences that count: zeros are left out.
	Pairs int
	// Zeros is how many differences were exactly zero and were left out, as
	// Wilcoxon did. A test that leaves out many of them speaks only of those
	// pairs in which something was noticed, so a verdict should say the number.
	Zeros int
	// Tied says that some differences were equally large, so that they share
	// mid-ranks. The p-value is exact also then: it is counted on the
	// mid-ranks themselves.
	Tied bool
	// Plus and Minus are the sums of the ranks of the positive and the
	// negative differences.
	Plus, Minus float64
	// P is the exact two-sided p-value.
	P float64
	// Shift is the Hodges-Lehmann estimate: the median of all pairwise means
	// of the differences, zeros included.
	Shift float64
	// ShiftLimits hold Shift, when there are enough pairs for the level;
	// otherwise Level is 0. With ties or zeros they are approximate.
	ShiftLimits Limits
}

// SignedRank is Wilcoxon's signed rank test of paired differences against
// "as often up as down, and as far" (Wilcoxon 1945, Biometrics Bulletin 1:80),
// with limits for the shift at the given level, such as 0.95. With no
// differences but zeros p is 1. It takes time in the cube of the number of
// pairs: a hundred are quick.
func SignedRank(differences []float64, level float64) (SignedRankResult, error) {
	if len(differences) == 0 {
		return SignedRankResult{P: 1}, ErrTooFew
	}
	if !allFinite(differences) {
		return SignedRankResult{P: 1}, ErrNotFinite
	}
	result := signedRank(differences)
	result.Shift, result.ShiftLimits = hodgesLehmann(differences, level)
	return result, nil
}

// SignedRankP is the p-value of SignedRank alone, for those who need very many
// of them. The differences must be finite; with none p is 1.
func SignedRankP(differences []float64) float64 { return signedRank(differences).P }

// signedRank is the test without the shift.
func signedRank(differences []float64) SignedRankResult {
	var sizes []float64
	var positive []bool
	for _, d := range differences {
		if d != 0 {
			sizes = append(sizes, math.Abs(d))
			positive = append(positive, d > 0)
		}
	}
	result := SignedRankResult{
		Pairs: len(sizes),
		Zeros: len(differences) - len(sizes),
		Tied:  len(tieSizes(sizes)) > 0,
		P:     1,
	}
	twice := doubleRanks(sizes)
	plus, all := 0, 0
	for i, r := range twice {
		all += r
		if positive[i] {
			plus += r
		}
	}
	result.Plus, result.Minus = float64(plus)/2, float64(all-plus)/2
	if result.Pairs > 0 {
		tail := cumulative(signFlips(twice))
		result.P = twoSided(tail(plus), tail(all-plus))
	}
	return result
}

func untiedSignedRank(n int) nullTail {
	ranks := make([]int, n)
	for i := range ranks {
		ranks[i] = i + 1
	}
	return cumulative(signFlips(ranks))
}

// signFlips is the distribution of the sum of a random half of the ranks:
// each is in or out with equal chance.
func signFlips(ranks []int) []float64 {
	total := 0
	for _, r := range ranks {
		total += r
	}
	probability := make([]float64, total+1)
	probability[0] = 1
	reached := 0
	for _, r := range ranks {
		reached += r
		for s := reached; s >= 0; s-- {
			without := probability[s] / 2
			if s >= r {
				without += probability[s-r] / 2
			}
			probability[s] = without
		}
	}
	return probability
}

func hodgesLehmann(differences []float64, level float64) (float64, Limits) {
	n := len(differences)
	means := make([]float64, 0, n*(n+1)/2)
	for i := range differences {
		for j := i; j < n; j++ {
			means = append(means, (differences[i]+differences[j])/2)
		}
	}
	slices.Sort(means)
	limits, _ := symmetricLimits(means, untiedSignedRank(n), level)
	return middle(means), limits
}

// middle is the median of sorted values.
func middle(sorted []float64) float64 {
	n := len(sorted)
	if n%2 == 1 {
		return sorted[n/2]
	}
	return stat.Mean(sorted[n/2-1:n/2+1], nil)
}
