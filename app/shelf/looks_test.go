package shelf

import (
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/looktest"
	"twinloaf/charts"
)

// The bars of a filter: plain, chosen, with a culture's mark, with the keyboard.
func TestLookOfTheFilter(t *testing.T) {
	looktest.Renders(t, "filter", fyne.NewSize(320, 220), func() fyne.CanvasObject {
		column := kit.Stack(0.5, heading("Flour"))
		for i, name := range []string{"Strong white", "Dark rye", "Wholegrain spelt", "Light spelt from a mill with a long name"} {
			bar := newChoiceBar(func() {})
			bar.set(name, "12", 1-0.22*float32(i), i == 1)
			bar.setMark(charts.SeriesStyle{Hue: charts.Hue(i)}, i == 2)
			if i == 3 {
				bar.FocusGained()
			}
			column.Add(bar)
		}
		return column
	})
}
