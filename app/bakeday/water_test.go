package bakeday

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/outline"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
)

// What is not known yet says what it would be in, and stands on the line of its row whatever
// the labels take.
func TestTemperaturesStandOnOneLine(t *testing.T) {
	b := pagestest.New(t)
	w := newWaterPanel(b.Units(), func(string, func(*journal.WaterPlan)) {})
	b.Window.SetContent(container.NewVBox(w.object))
	b.Window.Resize(fyne.NewSize(610, 700))
	var lines []float32
	for _, thing := range outline.Of(b.Window) {
		if thing.Kind == "text" && thing.Text == "°C" {
			lines = append(lines, thing.Y)
		}
	}
	if len(lines) != 8 {
		t.Fatalf("%d of 8 temperatures have a unit\n%s", len(lines), b.Texts())
	}
	for i, y := range lines {
		if math.Abs(float64(y-lines[i/4*4])) > 0.1 {
			t.Errorf("temperature %d of a row of four stands at %v, the first at %v", i%4+1, y, lines[i/4*4])
		}
	}
}
