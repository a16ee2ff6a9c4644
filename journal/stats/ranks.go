package stats

import (
	"cmp"
	"math"
	"slices"
)

// Ranks gives each value its rank from 1 (least); equal values share the mean
// of the ranks they cover. The result has the length and order of x.
func Ranks(x []float64) []float64 {
	twice := doubleRanks(x)
	ranks := make([]float64, len(x))
	for i, r := range twice {
		ranks[i] = float64(r) / 2
	}
	return ranks
}

// doubleRanks gives twice the mid-rank, which is a whole number also for ties:
// the exact distributions are counted on these.
func doubleRanks(x []float64) []int {
	order := places(x)
	twice := make([]int, len(x))
	for from := 0; from < len(order); {
		to := from + 1
		for to < len(order) && x[order[to]] == x[order[from]] {
			to++
		}
		for _, i := range order[from:to] {
			twice[i] = from + 1 + to
		}
		from = to
	}
	return twice
}

// places lists the places of the values, the least first.
func places(x []float64) []int {
	order := make([]int, len(x))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(x[a], x[b]) })
	return order
}

// tieSizes gives the sizes of the groups of equal values, ones left out.
func tieSizes(x []float64) []int {
	sorted := slices.Clone(x)
	slices.Sort(sorted)
	var sizes []int
	for from := 0; from < len(sorted); {
		to := from + 1
		for to < len(sorted) && sorted[to] == sorted[from] {
			to++
		}
		if to-from > 1 {
			sizes = append(sizes, to-from)
		}
		from = to
	}
	return sizes
}

func allFinite(lists ...[]float64) bool {
	for _, x := range lists {
		for _, v := range x {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return false
			}
		}
	}
	return true
}

// twoSided doubles the smaller tail, never above 1.
func twoSided(lower, upper float64) float64 {
	return min(1, 2*min(lower, upper))
}
