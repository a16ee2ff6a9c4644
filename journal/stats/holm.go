package stats

// Holm adjusts p-values so that the chance of even one false alarm among them
// stays at the level they are then judged at (Holm 1979, Scand J Stat 6:65).
// The result has the order of p.
func Holm(p []float64) []float64 {
	order := places(p)
	adjusted := make([]float64, len(p))
	running := 0.0
	for place, i := range order {
		running = max(running, min(1, p[i]*float64(len(p)-place)))
		adjusted[i] = running
	}
	return adjusted
}
