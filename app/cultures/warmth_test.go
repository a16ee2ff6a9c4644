package cultures

import (
	"testing"
	"time"

	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// Readings from one day to the next are one line, one by itself is a point, and no line leads
// over days on which nothing was read.
func TestTemperaturesThatFollowOnOneAnotherAreALine(t *testing.T) {
	now := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	l := &histories.CultureHistory{}
	for _, hoursAgo := range []float64{400, 250, 244, 226, 100, 98, 2} {
		l.Readings = append(l.Readings, &journal.Reading{At: now.Add(-time.Duration(hoursAgo * float64(time.Hour))), Temp: new(formula.Celsius(21))})
	}
	panel, ok := (&picture{}).warmth(l, byDate(now), measure.Units{})
	if !ok {
		t.Fatal("no temperature is shown")
	}
	points, joined := 0, 0
	for _, layer := range panel.Layers {
		switch s := layer.(charts.Series); s.Draw {
		case charts.Points:
			points += len(s.X)
		case charts.Line:
			for i := 1; i < len(s.X); i++ {
				if s.X[i]-s.X[i-1] <= s.Gap {
					joined++
				}
			}
		}
	}
	if points != 2 || joined != 3 {
		t.Errorf("%d points, want 2; %d steps of lines, want 3", points, joined)
	}
}
