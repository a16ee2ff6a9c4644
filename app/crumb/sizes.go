package crumb

import (
	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/charts"
)

// showSizes shows a chart of cells' sizes at its least size. A sentence that stands for it
// takes the room of one.
func showSizes(chart *kit.ChartFrame, spec charts.Spec, least fyne.Size) {
	if plot, ok := spec.(charts.Plot); ok && plot.Empty != "" {
		least.Height = look.Space(16)
	}
	chart.SetLeast(least)
	chart.SetSpec(spec)
}
