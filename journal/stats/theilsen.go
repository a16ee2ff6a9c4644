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
	// Limits hold Slope; Level is 0 with too few points (fewer than five for
	// 95 %).
	Limits Limits
	// Exact says that Kendall's distribution, which gives the limits, was counted out;
	// with ties or more than 100 points it is the normal approximation, ties corrected.
	Exact bool
}

// TheilSen fits a line by the median of pairwise slopes (Theil 1950; Sen 1968,
// J Am Stat Assoc 63:1379), with limits from Kendall's distribution. Pairs
// with equal x give no slope. It needs three points and two different x.
func TheilSen(x, y []float64, level float64) (TheilSenResult, error) {
	n := len(x)
	switch {
	case n != len(y):
		return TheilSenResult{}, ErrLengths
	case n < 3:
		return TheilSenResult{}, ErrTooFew
	case !allFinite(x, y):
		return TheilSenResult{}, ErrNotFinite
	}
	slopes := pairSlopes(x, y)
	if len(slopes) == 0 {
		return TheilSenResult{}, ErrTooFew
	}
	slices.Sort(slopes)
	result := TheilSenResult{Slope: middle(slopes)}
	result.Intercept = medianOf(y) - result.Slope*medianOf(x)
	tiesX, tiesY := tieSizes(x), tieSizes(y)
	result.Exact = n <= exactKendall && len(tiesX)+len(tiesY) == 0
	if result.Exact {
		result.Limits = symmetricLimits(slopes, cumulative(inversions(n)), level)
		return result, nil
	}
	result.Limits = normalSlopeLimits(slopes, kendallVariance(n, tiesX, tiesY), level)
	return result, nil
}

// normalSlopeLimits are Sen's limits by the normal approximation.
func normalSlopeLimits(slopes []float64, variance, level float64) Limits {
	z, sigma := distuv.UnitNormal.Quantile(1-(1-level)/2), math.Sqrt(variance)
	count := float64(len(slopes))
	lower := math.RoundToEven((count-z*sigma)/2) - 1
	upper := math.RoundToEven((count + z*sigma) / 2)
	if lower < 0 || int(upper) >= len(slopes) {
		return Limits{}
	}
	return Limits{Lower: slopes[int(lower)], Upper: slopes[int(upper)], Level: level}
}

// kendallVariance is that of Kendall's score: of the pairs that rise less those that fall.
func kendallVariance(n int, tiesX, tiesY []int) float64 {
	term := func(k int) float64 { return float64(k) * float64(k-1) * float64(2*k+5) }
	v := term(n)
	for _, t := range slices.Concat(tiesX, tiesY) {
		v -= term(t)
	}
	return max(0, v/18)
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
