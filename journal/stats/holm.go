package stats

import "slices"

// Holm adjusts p-values so that the chance of even one false alarm among them
// stays at the level they are then judged at (Holm 1979, Scand J Stat 6:65).
// The result has the order of p.
func Holm(p []float64) []float64 {
	order := make([]int, len(p))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case p[a] < p[b]:
			return -1
		case p[a] > p[b]:
			return 1
		}
		return 0
	})
	adjusted := make([]float64, len(p))
	running := 0.0
	for place, i := range order {
		running = max(running, min(1, p[i]*float64(len(p)-place)))
		adjusted[i] = running
	}
	return adjusted
}
