package formulas

import (
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/looktest"
)

// A row of the list of formulas, where there is room for its scores and where there is
// none: one that was baked, and one that says little.
func TestLookOfARow(t *testing.T) {
	for name, size := range map[string]fyne.Size{"row": fyne.NewSize(660, 280), "row-wide": fyne.NewSize(1000, 280)} {
		looktest.Renders(t, name, size, looksOfRows)
	}
}

func looksOfRows() fyne.CanvasObject {
	all := []row{
		{Name: "Ferry loaf", Version: "version 2", Change: "More water, a longer night in the cold.", Figures: "1782 g of dough, hydration 76 %", Baked: "last baked 2 March",
			Scores: []int{5, 3, 6, 6, 8, 7}, Score: "last score 7 of 9",
			Flours: []kit.Share{{Name: "Strong white", Part: 0.76, Text: "76 %"}, {Name: "Whole wheat", Part: 0.15, Text: "15 %"}, {Name: "Dark rye", Part: 0.09, Text: "9 %"}}},
		{Name: "A formula with a name that is too long for one line", Version: "version 1", Baked: "not baked yet"},
	}
	lineUp(all)
	rows := kit.Stack(2)
	for _, v := range all {
		o := newFormulaRow(nil)
		if r, ok := o.Layout.(*formulaRow); ok {
			r.show(v)
		}
		rows.Add(o)
	}
	return rows
}
