package crumb

import (
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/looktest"
)

// Two crumbs compared, where there is room for what is thought of the differences beside
// the figures, and where there is none.
func TestLookOfAComparison(t *testing.T) {
	rows := []pairRow{
		{name: "Figure", a: "A", b: "B", change: "B − A", verdict: "The difference is"},
		{name: "Open area", unit: "%", a: "59 ± 16.3 (doubtful)", b: "64.2 ± 16.3 (doubtful)", change: "+5.2", verdict: "larger than retaking would give"},
		{name: "Mean cell area", unit: "mm²", a: "withheld", b: "withheld", change: "–", verdict: "cannot tell"},
		{name: "Top / bottom openness", a: "1.04 ± 0.18", b: "1.12 ± 0.18", change: "+0.08", verdict: "no larger than retaking would give"},
	}
	for name, size := range map[string]fyne.Size{"comparison": fyne.NewSize(980, 200), "comparison-narrow": fyne.NewSize(660, 260)} {
		looktest.Renders(t, name, size, func() fyne.CanvasObject {
			var lines []*pairLine
			for _, r := range rows {
				l := newPairLine()
				l.set(r)
				lines = append(lines, l)
			}
			return newPairTable(lines)
		})
	}
}
