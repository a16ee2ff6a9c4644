package pages

import (
	"testing"
	"time"

	"twinloaf/charts"
	"twinloaf/journal/measure"
)

// The crumb over the weeks of bakes that lie two days apart has an axis of two weeks.
func TestACrumbsWeeksAreWeeks(t *testing.T) {
	last := time.Date(2026, 3, 2, 7, 0, 0, 0, time.UTC)
	moments := []CrumbMoment{{At: last.AddDate(0, 0, -2)}, {At: last}}
	plot := crumbCourse(moments, charts.SeriesStyle{}, measure.Units{}, time.UTC).(charts.Plot)
	want := []float64{charts.Seconds(last.AddDate(0, 0, -14)), charts.Seconds(last)}
	if got := plot.X.Include; len(got) != 2 || got[0] != want[0] || got[1] != want[1] {
		t.Errorf("the axis holds %v, want %v", got, want)
	}
}
