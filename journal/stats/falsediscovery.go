package stats

// FalseDiscovery adjusts p-values so that, of those that are then at most q, no
// more than the share q are expected to be false alarms: the step-up procedure
// of Benjamini & Hochberg (1995, J R Stat Soc B 57:289). It holds for
// independent p-values and for positively dependent ones (Benjamini & Yekutieli
// 2001, Ann Stat 29:1165). The result has the order of p.
func FalseDiscovery(p []float64) []float64 {
	order := places(p)
	adjusted := make([]float64, len(p))
	least := 1.0
	for place := len(order) - 1; place >= 0; place-- {
		i := order[place]
		least = min(least, p[i]*float64(len(p))/float64(place+1))
		adjusted[i] = least
	}
	return adjusted
}
