package cultures

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal/ferment"
	"twinloaf/journal/measure"
)

// A courseCurve is the feeding that a culture is in: what was read, what is expected of
// it and when it is ripe.
type courseCurve struct {
	fed      time.Time
	forecast ferment.Forecast
	readings []ferment.Reading
}

func curveOf(p *portrait) *courseCurve {
	c, ok := p.life.Current(p.now)
	if !ok || len(p.forecast.Band) == 0 {
		return nil
	}
	since := p.now.Add(-axesBack)
	if slices.ContainsFunc(p.forecast.Band, func(b ferment.BandPoint) bool { return b.At.After(since) }) ||
		slices.ContainsFunc(c.Readings, func(r ferment.Reading) bool { return r.At.After(since) }) {
		return &courseCurve{fed: c.Feeding.At, forecast: p.forecast, readings: c.Readings}
	}
	return nil
}

// axesBack is how far back the axes of the curves reach at most: what was over before has
// nothing to show.
const axesBack = 10 * time.Hour

// axes are those that the curves of all rows share, so that one can be read against
// another.
type axes struct {
	from, to time.Time
	top      float64 // the greatest rise
}

// axesOf reach from a little before now until the last culture is no longer ripe.
func axesOf(rows []row, now time.Time) axes {
	a := axes{now.Add(-2 * time.Hour), now.Add(6 * time.Hour), 2}
	for _, r := range rows {
		if r.course == nil {
			continue
		}
		if fed := r.course.fed; fed.Before(a.from) {
			a.from = pages.Later(fed, now.Add(-axesBack))
		}
		a.to = pages.Later(a.to, r.ripe[1].Add(time.Hour))
		a.top = max(a.top, r.course.top())
	}
	if most := now.Add(36 * time.Hour); a.to.After(most) {
		a.to = most
	}
	a.from, a.to = a.from.Add(-30*time.Minute).Truncate(time.Hour), a.to.Truncate(time.Hour).Add(time.Hour)
	return a
}

// top is the greatest rise that was read or may be expected.
func (c *courseCurve) top() float64 {
	top := 0.0
	for _, b := range c.forecast.Band {
		top = max(top, float64(b.High))
	}
	for _, r := range c.readings {
		top = max(top, float64(r.Rise))
	}
	return top
}

// plot draws the curve.
func (c *courseCurve) plot(look charts.SeriesStyle, on axes, now time.Time, u measure.Units) charts.Plot {
	inside := func(t time.Time) bool { return !t.Before(on.from) && !t.After(on.to) }
	band := charts.Ribbon{Name: lang.L("expected"), Look: look}
	mid := charts.Series{Name: lang.L("expected"), Look: look, Draw: charts.Line, Quiet: true}
	for _, b := range c.forecast.Band {
		if !inside(b.At) {
			continue
		}
		x := charts.Seconds(b.At)
		band.X, mid.X = append(band.X, x), append(mid.X, x)
		band.Low, band.High = append(band.Low, float64(b.Low)), append(band.High, float64(b.High))
		mid.Y = append(mid.Y, float64(b.Mid))
	}
	read := charts.Series{Name: lang.L("readings"), Look: look, Draw: charts.Points, Quiet: true}
	read.Look.Hollow = true
	for _, r := range c.readings {
		if r.Rise > 0 && inside(r.At) && !r.At.After(now) {
			read.X, read.Y = append(read.X, charts.Seconds(r.At)), append(read.Y, float64(r.Rise))
		}
	}
	layers := []charts.Layer{band, mid, read,
		charts.Series{Name: lang.L("now"), Look: charts.SeriesStyle{Hue: charts.Ink, Dashed: true}, Draw: charts.Line, Quiet: true, Mute: true,
			X: []float64{charts.Seconds(now), charts.Seconds(now)}, Y: []float64{1, on.top}}}
	ripe := [2]time.Time{pages.Later(c.forecast.RipeFrom.Mid, on.from), c.forecast.RipeTo.Mid}
	if ripe[1].After(on.to) {
		ripe[1] = on.to
	}
	if ripe[1].After(ripe[0]) {
		layers = append(layers, charts.Band{From: charts.Seconds(ripe[0]), To: charts.Seconds(ripe[1]),
			Label: lang.L("ripe {{.From}} to {{.To}}", map[string]any{"From": clockAt(c.forecast.RipeFrom.Mid, now, u), "To": clockAt(c.forecast.RipeTo.Mid, now, u)})})
	}
	return charts.Plot{X: charts.Axis{Zone: now.Location(), Min: charts.Seconds(on.from), Max: charts.Seconds(on.to)},
		Panels: []charts.Panel{{Y: charts.Axis{Ratio: true, Include: []float64{1, on.top}}, Layers: layers}}}
}

// fourWeeksDays is how far back the chart of all cultures reaches.
const fourWeeksDays = 28

// weeksSize is the least size of that chart.
func weeksSize() fyne.Size { return fyne.NewSize(look.Space(80), look.Space(50)) }

// fourWeeks draws how high each culture rose after each feeding of the last weeks, all on
// one clock.
func fourWeeks(all []*portrait, now time.Time, u measure.Units) picture {
	out := picture{places: map[string][]pages.Route{}}
	s := byDate(now)
	s.from = now.AddDate(0, 0, -fourWeeksDays)
	panel := charts.Panel{Title: lang.L("The last four weeks: greatest rise after each feeding"),
		Y: charts.Axis{Ratio: true, Include: []float64{1, 2}}}
	for _, p := range all {
		if peaks := out.peaks(p, s, pages.LookOf(p.life.Culture), u); len(peaks.X) > 0 {
			panel.Layers = append(panel.Layers, peaks)
		}
	}
	out.figure = charts.Plot{X: charts.Axis{Zone: now.Location(), Min: charts.Seconds(s.from), Max: charts.Seconds(now)}, Panels: []charts.Panel{panel}}
	return out
}
