package stats

import (
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// WithinResult says how far two figures rise together among things that are
// alike in something else.
type WithinResult struct {
	// Rho is the correlation of the ranks after the mean rank of each stratum is
	// taken off: a partial rank correlation, -1 to 1, in which strata that differ
	// in level tell nothing. 0 when one of the two never varies within a stratum.
	Rho float64
	// N is how many things lie in a stratum of at least two; the others tell
	// nothing and are left out.
	N int
	P float64
}

// Most things for which orders are drawn, and how the drawing stops: once so
// many drawn orders were as far off, p is as well known as it need be (Besag &
// Clifford 1991, Biometrika 78:301).
const (
	mostDrawn  = 400
	drawsAtEnd = 19_999
	farEnough  = 40
)

// RankWithin is the rank correlation of x and y within strata, things of one
// stratum having the same number. Ranks are over all things and aligned by
// stratum (Hodges & Lehmann 1962, Ann Math Stat 33:482); the p-value is that of
// orders drawn anew within each stratum, which needs no more than that things of
// one stratum could have changed places. With one stratum it is Spearman's.
// Above 400 things the normal approximation of the same permutations is used.
// It asks for a stratum of two, and for finite values.
func RankWithin(x, y []float64, stratum []int, src rand.Source) (WithinResult, error) {
	if len(x) != len(y) || len(x) != len(stratum) {
		return WithinResult{P: 1}, ErrLengths
	}
	if !allFinite(x, y) {
		return WithinResult{P: 1}, ErrNotFinite
	}
	groups := strata(stratum)
	var order []int
	for _, g := range groups {
		order = append(order, g...)
	}
	result := WithinResult{N: len(order), P: 1}
	if len(order) < 2 {
		return result, ErrTooFew
	}
	ax, ay := aligned(x, order, groups), aligned(y, order, groups)
	sxx, syy, sxy, variance := 0.0, 0.0, 0.0, 0.0
	at := 0
	for _, g := range groups {
		gxx, gyy := 0.0, 0.0
		for i := at; i < at+len(g); i++ {
			gxx, gyy, sxy = gxx+ax[i]*ax[i], gyy+ay[i]*ay[i], sxy+ax[i]*ay[i]
		}
		sxx, syy = sxx+gxx, syy+gyy
		variance += gxx * gyy / float64(len(g)-1)
		at += len(g)
	}
	if sxx <= 0 || syy <= 0 || variance <= 0 {
		return result, nil
	}
	result.Rho = max(-1, min(1, sxy/math.Sqrt(sxx*syy)))
	if len(order) > mostDrawn {
		result.P = min(1, 2*distuv.UnitNormal.Survival(math.Abs(sxy)/math.Sqrt(variance)))
		return result, nil
	}
	result.P = drawnWithin(ax, ay, groups, math.Abs(sxy)-1e-9, rand.New(src))
	return result, nil
}

// drawnWithin draws the order of ay anew within each group until it is known how
// often the sum of products lies as far off.
func drawnWithin(ax, ay []float64, groups [][]int, seen float64, r *rand.Rand) float64 {
	as := 0
	for drawn := 1; drawn <= drawsAtEnd; drawn++ {
		at, sum := 0, 0.0
		for _, g := range groups {
			part := ay[at : at+len(g)]
			for i := len(part) - 1; i > 0; i-- {
				j := r.IntN(i + 1)
				part[i], part[j] = part[j], part[i]
			}
			at += len(g)
		}
		for i := range ax {
			sum += ax[i] * ay[i]
		}
		if math.Abs(sum) >= seen {
			if as++; as == farEnough {
				return float64(as) / float64(drawn)
			}
		}
	}
	return float64(as+1) / float64(drawsAtEnd+1)
}

// strata lists the places of each stratum of at least two.
func strata(stratum []int) [][]int {
	at := map[int]int{}
	var all [][]int
	for i, s := range stratum {
		k, known := at[s]
		if !known {
			k = len(all)
			at[s], all = k, append(all, nil)
		}
		all[k] = append(all[k], i)
	}
	return slices.DeleteFunc(all, func(g []int) bool { return len(g) < 2 })
}

// aligned ranks the values at the places of order and takes off each group's
// mean rank.
func aligned(x []float64, order []int, groups [][]int) []float64 {
	picked := make([]float64, len(order))
	for i, k := range order {
		picked[i] = x[k]
	}
	ranks := Ranks(picked)
	at := 0
	for _, g := range groups {
		mean := 0.0
		for _, r := range ranks[at : at+len(g)] {
			mean += r / float64(len(g))
		}
		for i := at; i < at+len(g); i++ {
			ranks[i] -= mean
		}
		at += len(g)
	}
	return ranks
}

// TheilSenWithin fits a line by the median of the slopes between pairs of one
// stratum, so that strata that differ in level do not bend it. Its limits are
// Sen's, by the normal approximation, with the variances of the strata added up,
// which are independent (as Hirsch, Slack & Smith 1982, Water Resour Res 18:107, do,
// whose strata are months).
func TheilSenWithin(x, y []float64, stratum []int, level float64) (TheilSenResult, error) {
	if len(x) != len(y) || len(x) != len(stratum) {
		return TheilSenResult{}, ErrLengths
	}
	if !allFinite(x, y) {
		return TheilSenResult{}, ErrNotFinite
	}
	var slopes, usedX, usedY []float64
	variance := 0.0
	for _, g := range strata(stratum) {
		gx, gy := make([]float64, len(g)), make([]float64, len(g))
		for i, k := range g {
			gx[i], gy[i] = x[k], y[k]
		}
		usedX, usedY = append(usedX, gx...), append(usedY, gy...)
		slopes = append(slopes, pairSlopes(gx, gy)...)
		variance += kendallVariance(len(g), tieSizes(gx), tieSizes(gy))
	}
	if len(slopes) == 0 {
		return TheilSenResult{}, ErrTooFew
	}
	slices.Sort(slopes)
	result := TheilSenResult{Slope: middle(slopes)}
	result.Intercept = medianOf(usedY) - result.Slope*medianOf(usedX)
	result.Limits = normalSlopeLimits(slopes, variance, level)
	return result, nil
}

// pairSlopes lists the slopes between points of different x.
func pairSlopes(x, y []float64) (slopes []float64) {
	for i := range x {
		for j := i + 1; j < len(x); j++ {
			if x[i] != x[j] {
				slopes = append(slopes, (y[j]-y[i])/(x[j]-x[i]))
			}
		}
	}
	return slopes
}
