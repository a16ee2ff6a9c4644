package kit_test

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/charts"
	"twinloaf/journal/measure"
)

func TestChartFrameSpeaksInTheUnitsOfTheWindow(t *testing.T) {
	at := charts.Seconds(time.Date(2026, time.May, 3, 15, 30, 0, 0, time.UTC))
	figure := charts.Plot{X: charts.Axis{Zone: time.UTC}, Panels: []charts.Panel{{Layers: []charts.Layer{
		charts.Series{Name: "Gorse", X: []float64{at, at + 3600}, Y: []float64{1.5, 2}},
	}}}}
	units := measure.Units{}
	f := kit.NewChartFrame(maintest.New().Do, fyne.NewSize(200, 100))
	f.Units = func() measure.Units { return units }
	win := drawn(t, f, figure)
	for _, c := range []struct {
		units measure.Units
		want  string
	}{
		{measure.Units{}, "Gorse, Sun 3\u00a0May 15:30: 1.5"},
		{measure.Units{DecimalComma: true}, "Gorse, Sun 3\u00a0May 15:30: 1,5"},
		{measure.Units{TwelveHour: true, MonthFirst: true}, "Gorse, Sun May\u00a03 3:30\u00a0pm: 1.5"},
	} {
		units = c.units // as a setting that is changed while the chart is shown
		f.Refresh()
		win.Canvas().Capture()
		f.Wait()
		f.MouseOut()
		f.TypedKey(key(fyne.KeyRight))
		m, ok := f.Marked()
		if !ok || m.Text != c.want {
			t.Errorf("its first mark is %q, want %q", m.Text, c.want)
		}
		if summary := f.Summary(); !strings.HasPrefix(summary, "Gorse: 2 values from Sun") {
			t.Errorf("its summary is %q", summary)
		}
	}
}
