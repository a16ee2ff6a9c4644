package bakeday

import (
	"context"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/bulk"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
)

// measuredSection draws what was measured of a dough until it was shaped; nothing is seen where that
// is of less than an hour.
type measuredSection struct {
	env   *pages.Env
	box   *fyne.Container
	chart *kit.ChartFrame
	seen  []bulk.Rise // what pictures have shown
}

func newMeasuredSection(env *pages.Env) *measuredSection {
	m := &measuredSection{env: env, chart: env.NewChart(lang.L("What was measured of the dough"), fyne.NewSize(look.Space(80), look.Space(60)), nil)}
	m.box = kit.Stack(2, kit.Section(lang.L("What was measured of the dough")), kit.Grown(0.65, look.Space(60), look.Space(115), m.chart),
		kit.Small(lang.L("What was written down without a time stands in the middle of its step if it is the dough's temperature, at its beginning if it is the air's, and at its end if it is a rise.")))
	return m
}

// show draws what is written in the bake, and what is known of pictures.
func (m *measuredSection) show(b *journal.Bake) {
	d, ok := b.Bulk(m.seen...)
	ok = ok && measuredFor(d) >= leastMeasured
	kit.SetVisible(m.box, ok)
	if ok {
		m.chart.SetSpec(measuredPlot(d, m.env.Units(), m.env.Now().Location()))
	}
}

// leastMeasured is how long a dough was measured for at least where it is drawn.
const leastMeasured = time.Hour

// measuredFor is how long it is from the first that was measured of a dough to the last.
func measuredFor(d bulk.Dough) time.Duration {
	var from, to time.Time
	take := func(at time.Time) {
		if from.IsZero() || at.Before(from) {
			from = at
		}
		if at.After(to) {
			to = at
		}
	}
	for _, t := range slices.Concat(d.Dough, d.Air) {
		take(t.At)
	}
	for _, r := range d.Rises {
		take(r.At)
	}
	return to.Sub(from)
}

// read reads what pictures have shown, away from the main goroutine.
func (m *measuredSection) read(b *journal.Bake) {
	pages.Fetch(m.env, func(ctx context.Context) ([]bulk.Rise, error) {
		return journal.BulkRises(m.env.Journal.Until(ctx), b.ID)
	}, func(seen []bulk.Rise, err error) {
		if m.env.Failed(err) {
			return
		}
		m.seen = seen
		m.show(b)
	})
}

// joinedUpTo is how many figures a line has marks of; more of them lie on one another.
const joinedUpTo = 40

// measuredPlot draws how warm a dough was, and what was around it, above how far it rose.
func measuredPlot(d bulk.Dough, u measure.Units, zone *time.Location) charts.Plot {
	m := u.Temperature()
	temps := func(name string, look charts.SeriesStyle, all []bulk.Temp) charts.Series {
		s := charts.Series{Name: name, Look: look}
		for _, t := range all {
			s.X, s.Y = append(s.X, charts.Seconds(t.At)), append(s.Y, m.Shown(t.C))
		}
		return s
	}
	rises := charts.Series{Name: lang.L("dough"), Look: charts.SeriesStyle{Hue: charts.Ink}, Quiet: true,
		X: []float64{charts.Seconds(d.Began)}, Y: []float64{1}}
	for _, r := range d.Rises {
		rises.X, rises.Y = append(rises.X, charts.Seconds(r.At)), append(rises.Y, r.Times)
	}
	if len(rises.X) > joinedUpTo {
		rises.Draw = charts.Line
	}
	x := charts.Axis{Zone: zone, Include: []float64{charts.Seconds(d.Began)}}
	if d.Over() {
		x.Include = append(x.Include, charts.Seconds(d.Ended))
	}
	plot := charts.Plot{X: x}
	if len(d.Dough)+len(d.Air) > 0 {
		plot.Panels = append(plot.Panels, charts.Panel{Title: lang.L("Temperature"), Y: charts.Axis{Unit: m.Unit}, Layers: []charts.Layer{
			temps(lang.L("dough"), charts.SeriesStyle{Hue: charts.Ink}, d.Dough), temps(lang.L("ambient"), charts.SeriesStyle{Hue: charts.Faint, Hollow: true}, d.Air)}})
	}
	if len(d.Rises) > 0 {
		plot.Panels = append(plot.Panels, charts.Panel{Title: lang.L("Rise"), Y: charts.Axis{Ratio: true, Include: []float64{1}}, Layers: []charts.Layer{rises}})
	}
	return plot
}

// mostBefore is how many bakes are told besides the day's own.
const mostBefore = 10

// before tells the bake and those of the same formula before it by the figures of their days;
// nothing where it is the first.
func before(env *pages.Env, b *journal.Bake) fyne.CanvasObject {
	section := kit.Stack(2)
	summaries, err := env.Journal.BakeSummaries()
	if env.Failed(err) {
		return section
	}
	var own, some []*journal.BakeSummary
	for _, c := range summaries {
		same := c.Name == b.Name || b.Formula != "" && c.Formula == b.Formula
		switch {
		case c.ID == b.ID:
			own = append(own, c)
		case same && !c.Binned && c.State.Over() && !c.At.After(b.At) && len(some) < mostBefore:
			some = append(some, c)
		}
	}
	if len(some) > 0 {
		section.Add(kit.Section(lang.L("This bake and those before it")))
		section.Add(pages.BakeTable(env, append(own, some...), b.ID, shelf.Score, shelf.BulkHours, shelf.ColdHours, shelf.DoughTemp, shelf.Rise, shelf.Loss))
	}
	kit.SetVisible(section, len(some) > 0)
	return section
}
