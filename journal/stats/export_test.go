package stats

// SignedRankLower is the exact P(W <= w) for n pairs without ties or zeros.
func SignedRankLower(w, n int) float64 {
	ranks := make([]int, n)
	for i := range ranks {
		ranks[i] = i + 1
	}
	return cumulative(signFlips(ranks))(w)
}
