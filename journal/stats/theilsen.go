package stats

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// exactKendall is the most points whose distribution of inversions is counted.
const exactKendall = 100

// TheilSenResult is a straight line that a few wild points do not bend.
type TheilSenResult struct {
	// Slope is the median of the slopes between all pairs of points, in units
	// of y per unit of x; Intercept is median(y) - Slope × median(x).
	Slope, Intercept float64
	N                int
	// Limits hold Slope; Level is 0 with too few points (fewer than five for
	// 95 %).
	Limits Limits
	// P is Kendall's two-sided p-value for "no slope".
	P float64
	// Exact says that Kendall's distribution was counted out; with ties or
	// more than 100 points it is the normal approximation, ties corrected.
	Exact bool
}

// TheilSen fits a line by the median of pairwise slopes (Theil 1950; Sen 1968,
// J Am Stat Assoc 63:1379), with limits from Kendall's distribution. Pairs
// with equal x give no slope. It needs three points and two different x.
func TheilSen(x, y []float64, level float64) (TheilSenResult, error) {
	n := len(x)
	switch {
	case n != len(y):
		return TheilSenResult{P: 1}, ErrLengths
	case n < 3:
		return TheilSenResult{P: 1}, ErrTooFew
	case !allFinite(x, y):
		return TheilSenResult{P: 1}, ErrNotFinite
	}
	slopes, score := pairSlopes(x, y) // score: pairs that rise less pairs that fall
	if len(slopes) == 0 {
		return TheilSenResult{P: 1}, ErrTooFew
	}
	slices.Sort(slopes)
	result := TheilSenResult{Slope: middle(slopes), N: n}
	result.Intercept = medianOf(y) - result.Slope*medianOf(x)
	tiesX, tiesY := tieSizes(x), tieSizes(y)
	result.Exact = n <= exactKendall && len(tiesX)+len(tiesY) == 0
	if result.Exact {
		tail := cumulative(inversions(n))
		falls := (len(slopes) - score) / 2
		result.P = twoSided(tail(falls), tail(len(slopes)-falls))
		result.Limits, _ = symmetricLimits(slopes, tail, level)
		return result, nil
	}
	sigma := kendallSigma(n, tiesX, tiesY)
	result.P = 1
	if sigma > 0 {
		// No continuity correction: with ties the score has uneven steps.
		result.P = min(1, 2*distuv.UnitNormal.Survival(math.Abs(float64(score))/kendallSigmaScore(n, tiesX, tiesY)))
	}
	result.Limits = normalSlopeLimits(slopes, sigma, level)
	return result, nil
}

// normalSlopeLimits are Sen's limits by the normal approximation.
func normalSlopeLimits(slopes []float64, sigma, level float64) Limits {
	z := distuv.UnitNormal.Quantile(1 - (1-level)/2)
	count := float64(len(slopes))
	lower := math.RoundToEven((count-z*sigma)/2) - 1
	upper := math.RoundToEven((count + z*sigma) / 2)
	if lower < 0 || int(upper) >= len(slopes) {
		return Limits{}
	}
	return Limits{Lower: slopes[int(lower)], Upper: slopes[int(upper)], Level: level}
}

// kendallSigma is Sen's standard deviation of the score for the limits.
func kendallSigma(n int, tiesX, tiesY []int) float64 {
	term := func(k int) float64 { return float64(k) * float64(k-1) * float64(2*k+5) }
	v := term(n)
	for _, t := range slices.Concat(tiesX, tiesY) {
		v -= term(t)
	}
	return math.Sqrt(max(0, v/18))
}

// kendallSigmaScore is the standard deviation of Kendall's score with ties on
// both sides (Kendall 1970, Rank Correlation Methods, 4th ed., ch. 4).
func kendallSigmaScore(n int, tiesX, tiesY []int) float64 {
	pairs := func(ties []int) (two, three float64) {
		for _, t := range ties {
			two += float64(t) * float64(t-1)
			three += float64(t) * float64(t-1) * float64(t-2)
		}
		return two, three
	}
	x2, x3 := pairs(tiesX)
	y2, y3 := pairs(tiesY)
	s, size := kendallSigma(n, tiesX, tiesY), float64(n)
	v := s*s + x3*y3/(9*size*(size-1)*(size-2)) + x2*y2/(2*size*(size-1))
	return math.Sqrt(v)
}

// inversions is the distribution of the number of inversions of a random
// permutation of n things.
func inversions(n int) []float64 {
	probability := []float64{1}
	for k := 2; k <= n; k++ {
		next := make([]float64, len(probability)+k-1)
		for s, p := range probability {
			for j := range k {
				next[s+j] += p / float64(k)
			}
		}
		probability = next
	}
	return probability
}

func medianOf(x []float64) float64 {
	sorted := slices.Clone(x)
	slices.Sort(sorted)
	return middle(sorted)
}
