package stats

import "gonum.org/v1/gonum/mathext"

// ClopperPearson gives the exact limits for a proportion of k out of n: those
// proportions that a binomial test at (1-level)/2 on each side would not
// refuse (Clopper & Pearson 1934, Biometrika 26:404). They hold at least the
// level asked for. n must be at least 1 and 0 <= k <= n, else the limits are
// the whole range.
func ClopperPearson(k, n int, level float64) Limits {
	limits := Limits{Lower: 0, Upper: 1, Level: level}
	if n < 1 || k < 0 || k > n {
		return limits
	}
	side := (1 - level) / 2
	if k > 0 {
		limits.Lower = mathext.InvRegIncBeta(float64(k), float64(n-k+1), side)
	}
	if k < n {
		limits.Upper = mathext.InvRegIncBeta(float64(k+1), float64(n-k), 1-side)
	}
	return limits
}

// ClopperPearsonLower is the exact one-sided lower limit for a proportion of k
// out of n: the least proportion that an upper-tailed binomial test at 1-level
// would not refuse (Clopper & Pearson 1934). It lies above a proportion exactly
// where that test refuses it, so it is the limit that belongs to a one-sided
// verdict. It is 0 where k is, and where the counts make no sense.
func ClopperPearsonLower(k, n int, level float64) float64 {
	if n < 1 || k <= 0 || k > n {
		return 0
	}
	return mathext.InvRegIncBeta(float64(k), float64(n-k+1), 1-level)
}

// ClopperPearsonUpper is the one-sided upper limit, 1 where k is n.
func ClopperPearsonUpper(k, n int, level float64) float64 {
	return 1 - ClopperPearsonLower(n-k, n, level)
}
