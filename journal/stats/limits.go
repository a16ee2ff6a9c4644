package stats

// nullTail is the lower tail P(D <= c) of a count whose null distribution is
// symmetric about half its greatest value.
type nullTail func(c int) float64

// symmetricLimits turns a symmetric null distribution into limits: with c the
// greatest count whose lower tail is at most (1-level)/2, the limits are the
// (c+1)th least and the (c+1)th greatest of the sorted values. Their Level
// is 0 when there are too few values for the one asked for.
func symmetricLimits(sorted []float64, tail nullTail, level float64) Limits {
	alpha := 1 - level
	// A hair of slack: a tail that equals alpha/2 but for rounding counts.
	allowed := alpha/2 + 1e-12
	if len(sorted) == 0 || tail(0) > allowed {
		return Limits{}
	}
	low, high := 0, len(sorted)/2
	for low < high {
		mid := (low + high + 1) / 2
		if tail(mid) <= allowed {
			low = mid
		} else {
			high = mid - 1
		}
	}
	if 2*low+1 > len(sorted) {
		low = (len(sorted) - 1) / 2
	}
	return Limits{
		Lower: sorted[low],
		Upper: sorted[len(sorted)-1-low],
		Level: 1 - 2*tail(low),
	}
}

// cumulative turns the probabilities of 0, 1, 2… into a lower tail.
func cumulative(probability []float64) nullTail {
	sums := make([]float64, len(probability))
	total := 0.0
	for i, p := range probability {
		total += p
		sums[i] = total
	}
	return func(c int) float64 {
		switch {
		case c < 0:
			return 0
		case c >= len(sums):
			return 1
		}
		return min(1, sums[c])
	}
}
