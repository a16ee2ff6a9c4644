package pages

import (
	"io"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/charts"
)

// NewChart makes a frame for a chart that can be saved under a name, without its
// ending. onMark hears of a tap on a mark; nil for none.
func (e *Env) NewChart(name string, least fyne.Size, onMark func(charts.Mark)) *kit.ChartFrame {
	f := kit.NewChartFrame(e.Main, least)
	f.Name = name
	f.Units = e.Units
	f.OnMark = onMark
	f.OnSave = func(name string, write func(io.Writer) error) {
		e.SaveFile(lang.L("Save the chart"), name, write)
	}
	return f
}
