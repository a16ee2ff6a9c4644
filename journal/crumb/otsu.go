package crumb

// otsu returns the grey level that best parts a histogram in two: pixels above
// it are one class, the rest the other. It maximises the variance between the
// classes; of equal maxima the first is taken. Otsu 1979, IEEE Transactions on
// Systems, Man, and Cybernetics 9:62.
//
// A histogram with one level or none returns that level.
func otsu(hist []int) int {
	var total, sum float64
	only := 0
	for v, n := range hist {
		total += float64(n)
		sum += float64(n) * float64(v)
		if n > 0 {
			only = v
		}
	}
	best, at := 0.0, only
	var below, belowSum float64
	for v, n := range hist {
		below += float64(n)
		belowSum += float64(n) * float64(v)
		above := total - below
		if below == 0 || above == 0 {
			continue
		}
		d := belowSum/below - (sum-belowSum)/above
		if between := below * above * d * d; between > best {
			best, at = between, v
		}
	}
	return at
}
