package shelf

import (
	"twinloaf/journal/shelf"
	"twinloaf/journal/stats"
)

// medianScore is the median of the overall scores of some rows, and of how many.
func (s wording) medianScore(rows []int) (median float64, n int) {
	return s.median(rows, shelf.Score)
}

// median is that of a figure over the rows that have it; n is how many do.
func (s wording) median(rows []int, f shelf.Metric) (median float64, n int) {
	var seen []float64
	for _, row := range rows {
		if v := s.record.Metric(row, f); v == v {
			seen = append(seen, v)
		}
	}
	median, err := stats.Median(seen)
	if err != nil {
		return 0, 0 // nobody has it
	}
	return median, len(seen)
}
