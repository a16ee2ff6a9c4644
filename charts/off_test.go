package charts_test

import (
	"strings"
	"testing"

	"twinloaf/charts"
)

// A value with an uncertainty has a bar that is wholly in view, says it when it is pointed at, and
// stands in the table from low to high.
func TestUncertaintyOfPoints(t *testing.T) {
	s := charts.Series{Name: "crumb", X: []float64{1, 2, 3}, Y: []float64{10, 12, 11}, Off: []float64{4, 0, 1.5}}
	plot := charts.Plot{Panels: []charts.Panel{{Y: charts.Axis{}, Layers: []charts.Layer{s}}}}
	with := drawn(t, plot, 400, 300, 1)
	if len(with.Marks) != 3 || !strings.Contains(with.Marks[0].Text, "10 ± 4") || strings.Contains(with.Marks[1].Text, "±") {
		t.Errorf("marks: %+v", with.Marks)
	}
	chart, err := charts.New(plot, style(t, charts.LightPalette()))
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if err := chart.CSV(&b); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), "10,6,14") || !strings.Contains(b.String(), "12,,") {
		t.Errorf("as a table: %s", b.String())
	}
	s.Off = s.Off[:2]
	plot.Panels[0].Layers[0] = s
	if _, err := charts.New(plot, style(t, charts.LightPalette())); err == nil {
		t.Error("three points with two uncertainties are drawn")
	}
}
