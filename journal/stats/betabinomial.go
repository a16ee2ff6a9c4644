package stats

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// BetaBinomialResult describes counts of several people, each of whom has a
// proportion of his own.
type BetaBinomialResult struct {
	// Mean is the mean proportion; Dispersion, from 0 to 1, is how far people
	// differ: 0 when all have the same proportion, 1 when each is always right or
	// always wrong.
	Mean, Dispersion float64
	LogLikelihood    float64
	// Lower and Upper are one-sided limits for Mean, each at the level asked for,
	// by the likelihood profile. They are approximate, and with few people too
	// narrow.
	Lower, Upper float64
}

// BetaBinomial fits right[i] of of[i] answers of person i by greatest likelihood
// (Skellam 1948, J R Stat Soc B 10:257; for replicated tastings Ennis & Bi 1998,
// J Sens Stud 13:389). It asks for two people with an answer.
func BetaBinomial(right, of []int, level float64) (BetaBinomialResult, error) {
	if len(right) != len(of) {
		return BetaBinomialResult{}, ErrLengths
	}
	people := 0
	for i, n := range of {
		if right[i] < 0 || right[i] > n {
			return BetaBinomialResult{}, ErrNotFinite
		}
		if n > 0 {
			people++
		}
	}
	if people < 2 {
		return BetaBinomialResult{}, ErrTooFew
	}
	profile := func(mean float64) (likelihood, dispersion float64) {
		dispersion = highest(func(g float64) float64 { return betaBinomialLog(right, of, mean, g) }, 0, 1-1e-9)
		return betaBinomialLog(right, of, mean, dispersion), dispersion
	}
	const edge = 1e-9
	mean := highest(func(m float64) float64 { l, _ := profile(m); return l }, edge, 1-edge)
	result := BetaBinomialResult{Mean: mean}
	result.LogLikelihood, result.Dispersion = profile(mean)
	z := distuv.UnitNormal.Quantile(level)
	enough := result.LogLikelihood - z*z/2
	within := func(m float64) bool { l, _ := profile(m); return l >= enough }
	result.Lower = boundary(within, mean, edge)
	result.Upper = boundary(within, mean, 1-edge)
	return result, nil
}

// betaBinomialLog is the log likelihood of counts, the binomial coefficients
// included. Written as sums of logs it holds also without dispersion.
func betaBinomialLog(right, of []int, mean, dispersion float64) float64 {
	sum := 0.0
	for i, n := range of {
		k := right[i]
		for j := range k {
			sum += math.Log(mean*(1-dispersion) + float64(j)*dispersion)
		}
		for j := range n - k {
			sum += math.Log((1-mean)*(1-dispersion) + float64(j)*dispersion)
		}
		for j := range n {
			sum -= math.Log(1 - dispersion + float64(j)*dispersion)
		}
		all, _ := math.Lgamma(float64(n + 1))
		one, _ := math.Lgamma(float64(k + 1))
		other, _ := math.Lgamma(float64(n - k + 1))
		sum += all - one - other
	}
	return sum
}

// highest finds where a function with one peak is highest, by golden sections.
func highest(f func(float64) float64, low, high float64) float64 {
	ratio := (math.Sqrt(5) - 1) / 2
	a, b := high-ratio*(high-low), low+ratio*(high-low)
	fa, fb := f(a), f(b)
	for high-low > 1e-8 {
		if fa >= fb {
			high, b, fb = b, a, fa
			a = high - ratio*(high-low)
			fa = f(a)
		} else {
			low, a, fa = a, b, fb
			b = low + ratio*(high-low)
			fb = f(b)
		}
	}
	best := (low + high) / 2
	for _, end := range []float64{low, high} {
		if f(end) > f(best) {
			best = end
		}
	}
	return best
}

// boundary finds how far towards an end a property of the middle still holds.
func boundary(holds func(float64) bool, middle, end float64) float64 {
	if holds(end) {
		return end
	}
	inside, outside := middle, end
	for math.Abs(outside-inside) > 1e-7 {
		if mid := (inside + outside) / 2; holds(mid) {
			inside = mid
		} else {
			outside = mid
		}
	}
	return inside
}
