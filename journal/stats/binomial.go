package stats

import "gonum.org/v1/gonum/mathext"

// BinomialUpper is P(X >= k) for X binomial with n trials and chance p of
// each. It is the regularised incomplete beta function I_p(k, n-k+1), so a
// tiny tail keeps its digits.
func BinomialUpper(k, n int, p float64) float64 {
	switch {
	case k <= 0:
		return 1
	case k > n || p <= 0:
		return 0
	case p >= 1:
		return 1
	}
	return mathext.RegIncBeta(float64(k), float64(n-k+1), p)
}

// BinomialLower is P(X <= k) for X binomial with n trials and chance p.
func BinomialLower(k, n int, p float64) float64 {
	return BinomialUpper(n-k, n, 1-p)
}

// SignTest is the exact two-sided p of k out of n when either side is as
// likely: twice the smaller tail, at most 1.
func SignTest(k, n int) float64 {
	return twoSided(BinomialLower(k, n, 0.5), BinomialUpper(k, n, 0.5))
}

// Significant reports whether a p-value is at most alpha. One that is alpha but for the
// rounding of floating-point numbers is: a tenth times a tenth comes out above 0.01.
func Significant(p, alpha float64) bool { return p <= alpha*(1+1e-12) }

// FewestSignificant is the smallest k with P(X >= k) <= alpha under chance p:
// the critical value of a one-sided binomial test. It reports false when even
// n out of n is not rare enough.
func FewestSignificant(n int, p, alpha float64) (int, bool) {
	if n < 1 || !Significant(BinomialUpper(n, n, p), alpha) {
		return 0, false
	}
	low, high := 0, n
	for low < high {
		mid := (low + high) / 2
		if Significant(BinomialUpper(mid, n, p), alpha) {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return low, true
}
