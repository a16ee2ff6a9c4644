package stats

import "slices"

// MedianResult is a median and how far it can be trusted.
type MedianResult struct {
	Median float64
	N      int
	// Limits are two of the values themselves, chosen by the binomial
	// distribution; Level is 0 when there are too few values (fewer than six
	// for 95 %).
	Limits Limits
}

// Median gives the median of x with distribution-free limits (Thompson 1936,
// Ann Math Stat 7:122).
func Median(x []float64, level float64) (MedianResult, error) {
	if len(x) == 0 {
		return MedianResult{}, ErrTooFew
	}
	if !allFinite(x) {
		return MedianResult{}, ErrNotFinite
	}
	sorted := slices.Clone(x)
	slices.Sort(sorted)
	n := len(sorted)
	limits, _ := symmetricLimits(sorted, func(c int) float64 { return BinomialLower(c, n, 0.5) }, level)
	return MedianResult{Median: middle(sorted), N: n, Limits: limits}, nil
}
