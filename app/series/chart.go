package series

import (
	"math"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/jar"
	"twinloaf/journal/measure"
)

// curveChart draws the curves of all jars by one clock, with the band that holds the height
// 95 times of 100, and marks one picture.
func curveChart(curves []journal.SeriesCurve, names []string, looks []charts.SeriesStyle, at int, zone *time.Location, u measure.Units) charts.Plot {
	panel := charts.Panel{Title: lang.L("Height over the level when fed"), Y: charts.Axis{Format: charts.Words{Locale: u.Locale()}.Times, Include: []float64{1}}}
	plot := charts.Plot{X: charts.Axis{Zone: zone}, Empty: lang.L("The curve grows here as the pictures are read.")}
	for k, c := range curves {
		line := charts.Series{Name: names[k], Look: looks[k], Draw: charts.Line, Quiet: len(curves) == 1, Mute: true}
		line.Look.Dashed = false
		band := charts.Ribbon{Name: lang.L("give or take"), Look: looks[k]}
		drawn := charts.Series{Name: lang.L("drawn by hand"), Look: looks[k], Draw: charts.Points, Quiet: true}
		here := charts.Series{Name: lang.L("this picture"), Look: charts.SeriesStyle{Hue: charts.Ink}, Draw: charts.Points, Quiet: true}
		for i, p := range c.Points {
			x, y, off := charts.Seconds(p.At), p.Rise, 2*p.SD
			if p.Lost != jar.Kept {
				y, off = math.NaN(), 0
			}
			line.X, line.Y = append(line.X, x), append(line.Y, y)
			band.X, band.Low, band.High = append(band.X, x), append(band.Low, y-off), append(band.High, y+off)
			if p.Drawn {
				drawn.X, drawn.Y = append(drawn.X, x), append(drawn.Y, y)
			}
			if i == at {
				here.X, here.Y = append(here.X, x), append(here.Y, y)
			}
		}
		panel.Layers = append(panel.Layers, band, line, drawn, here)
	}
	plot.Panels = []charts.Panel{panel}
	return plot
}
