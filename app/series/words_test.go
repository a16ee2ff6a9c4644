package series

import (
	"math"
	"strings"
	"testing"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/jar"
	"twinloaf/journal/measure"
)

// Of a peak that may have been while no picture showed the height it is said that it is an estimate,
// and of no other.
func TestAPeakThatWasNotSeenIsAnEstimate(t *testing.T) {
	start := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	for _, dark := range []bool{false, true} {
		var c journal.SeriesCurve
		for i := range 60 {
			p := journal.SeriesPoint{At: start.Add(time.Duration(i) * 5 * time.Minute), Rise: 2 - 0.3*math.Abs(float64(i)/12-2.5), SD: 0.01}
			if dark && i >= 27 && i < 38 {
				p = journal.SeriesPoint{At: p.At, Lost: jar.Dark}
			}
			c.Points = append(c.Points, p)
		}
		said := curveHeading(c, start, measure.Units{}) + " " + peakWords(c, time.UTC, measure.Units{})
		if !strings.Contains(said, "after") || !strings.Contains(said, "between") || strings.Contains(said, "estimate") != dark {
			t.Errorf("dark: %v: %s", dark, said)
		}
	}
}
