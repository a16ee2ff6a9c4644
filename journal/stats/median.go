package stats

import (
	"slices"

	"gonum.org/v1/gonum/stat"
)

// Median gives the median of x.
func Median(x []float64) (float64, error) {
	if len(x) == 0 {
		return 0, ErrTooFew
	}
	if !allFinite(x) {
		return 0, ErrNotFinite
	}
	return medianOf(x), nil
}

func medianOf(x []float64) float64 { return middle(slices.Sorted(slices.Values(x))) }

// middle is the median of sorted values.
func middle(sorted []float64) float64 {
	n := len(sorted)
	if n%2 == 1 {
		return sorted[n/2]
	}
	return stat.Mean(sorted[n/2-1:n/2+1], nil)
}
