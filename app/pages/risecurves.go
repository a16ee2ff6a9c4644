package pages

import (
	"math"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/bulk"
	"twinloaf/journal/jar"
	"twinloaf/journal/measure"
)

// RiseCurves are the curves of a row of pictures as a chart, by one clock.
type RiseCurves struct {
	Curves []journal.SeriesCurve
	Names  []string // of what is in the jars
	Looks  []charts.SeriesStyle
	// At is the place of the picture that is marked; -1 is none.
	At   int
	Zone *time.Location
	// Doughs are, for each jar, the bulk of the dough in it, of which its curve is a part: what
	// was read by hand and the end of the bulk are drawn with it. Of a culture it is zero.
	Doughs []bulk.Dough
}

// Plot draws them, each with the band that holds the height 95 times of 100.
func (r RiseCurves) Plot(u measure.Units) charts.Plot {
	panel := charts.Panel{Title: lang.L("Height over the level at the start"), Y: charts.Axis{Ratio: true, Include: []float64{1}}}
	plot := charts.Plot{X: charts.Axis{Zone: r.Zone}, Empty: lang.L("The curve grows here as the pictures are read.")}
	for k, c := range r.Curves {
		line := charts.Series{Name: r.Names[k], Look: r.Looks[k], Draw: charts.Line, Quiet: len(r.Curves) == 1, Mute: true}
		line.Look.Dashed = false
		band := charts.Ribbon{Name: lang.L("give or take"), Look: r.Looks[k]}
		drawn := charts.Series{Name: lang.L("drawn by hand"), Look: r.Looks[k], Draw: charts.Points, Quiet: true}
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
			if i == r.At {
				here.X, here.Y = append(here.X, x), append(here.Y, y)
			}
		}
		panel.Layers = append(panel.Layers, band, line, drawn, here)
		if k < len(r.Doughs) && !r.Doughs[k].Began.IsZero() {
			panel.Layers = append(panel.Layers, bulkLayers(r.Doughs[k], c, r.Looks[k])...)
		}
	}
	plot.Panels = []charts.Panel{panel}
	return plot
}

// bulkLayers draw what else is known of a bulk: what was read by hand, its end, and the way
// there from the last picture.
func bulkLayers(d bulk.Dough, c journal.SeriesCurve, look charts.SeriesStyle) []charts.Layer {
	look.Hollow = true
	read := charts.Series{Name: lang.L("read by hand"), Look: look, Draw: charts.Points, Quiet: true}
	for _, r := range d.Rises {
		if r.SD == 0 {
			read.X, read.Y = append(read.X, charts.Seconds(r.At)), append(read.Y, r.Times)
		}
	}
	out := []charts.Layer{read}
	rise, ok := d.EndRise()
	if !d.Over() || !ok {
		return out
	}
	end := charts.Series{Name: lang.L("end of the bulk"), Look: charts.SeriesStyle{Hue: charts.Ink, Shape: charts.Diamond, Hollow: true}, Draw: charts.Points,
		X: []float64{charts.Seconds(d.Ended)}, Y: []float64{rise}}
	for i := len(c.Points) - 1; i >= 0; i-- {
		p := c.Points[i]
		if p.Lost != jar.Kept {
			continue
		}
		if p.At.Before(d.Ended) {
			look.Dashed = true
			out = append(out, charts.Series{Name: lang.L("to its end"), Look: look, Draw: charts.Line, Quiet: true, Mute: true,
				X: []float64{charts.Seconds(p.At), end.X[0]}, Y: []float64{p.Rise, rise}})
		}
		break
	}
	return append(out, end)
}

// LooksOfJars tell the jars of a row apart by the marks of the cultures in them.
func LooksOfJars(r journal.Reader, s *journal.Series) []charts.SeriesStyle {
	cultures := make([]*journal.Culture, len(s.Jars))
	for k, one := range s.Jars {
		if c, err := journal.Get[journal.Culture](r, one.Culture); err == nil {
			cultures[k] = c
		} else if one.Bake != "" {
			cultures[k] = cultureOf(r, one.Bake)
		}
	}
	switch {
	case len(cultures) == 2:
		pair := PairLooks(cultures[0], cultures[1])
		return pair[:]
	case len(cultures) == 1 && cultures[0] != nil:
		return []charts.SeriesStyle{LookOf(cultures[0])}
	}
	return make([]charts.SeriesStyle, len(cultures))
}
