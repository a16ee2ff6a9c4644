package stats

import "math"

// SignedRankResult is what Wilcoxon's signed rank test says of paired
// differences.
type SignedRankResult struct {
	// Pairs is the number of differences that count: zeros are left out.
	Pairs int
	// Zeros is how many differences were exactly zero and were left out, as
	// Wilcoxon did. A test that leaves out many of them speaks only of those
	// pairs in which something was noticed, so a verdict should say the number.
	Zeros int
	// Plus and Minus are the sums of the ranks of the positive and the
	// negative differences.
	Plus, Minus float64
	// P is the exact two-sided p-value, also when some differences were equally
	// large and share mid-ranks: it is counted on the mid-ranks themselves.
	P float64
}

// SignedRank is Wilcoxon's signed rank test of paired differences against
// "as often up as down, and as far" (Wilcoxon 1945, Biometrics Bulletin 1:80).
// With no differences but zeros p is 1. It takes time in the cube of the number of
// pairs: a hundred are quick.
func SignedRank(differences []float64) (SignedRankResult, error) {
	if len(differences) == 0 {
		return SignedRankResult{P: 1}, ErrTooFew
	}
	if !allFinite(differences) {
		return SignedRankResult{P: 1}, ErrNotFinite
	}
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
	return result, nil
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
