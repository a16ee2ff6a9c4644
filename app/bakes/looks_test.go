package bakes

import (
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/looktest"
	"twinloaf/charts"
)

// A row of the list of bakes: with all that there is, and with little.
func TestLookOfARow(t *testing.T) {
	looktest.Renders(t, "row", fyne.NewSize(860, 240), func() fyne.CanvasObject {
		full, bare := newListRow(nil), newListRow(nil)
		full.set(rowView{id: "a", loaf: kit.BrownLoaf, mark: &charts.SeriesStyle{Hue: 1, Shape: 1}, title: "Spelt and oats", when: "Tue 3 March",
			flours: "Light spelt 60 %, Whole spelt 40 %", figures: "hydration 68 %, 14 h cold", score: "7"})
		bare.set(rowView{id: "b", loaf: kit.PaleLoaf, title: "A loaf with a name that is too long to stand in one line of a list of bakes", when: "2 March"})
		return kit.Stack(3, full, bare)
	})
}
