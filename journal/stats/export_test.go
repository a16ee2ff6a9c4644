package stats

// SignedRankLower is the exact P(W <= w) for n pairs without ties or zeros.
func SignedRankLower(w, n int) float64 { return untiedSignedRank(n)(w) }
