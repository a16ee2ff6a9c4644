package bakeday

import (
	"context"
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

// measured draws what was measured of the dough until it was shaped; nothing is seen where that
// is less than two figures.
func (f *overStage) measured(b *journal.Bake) fyne.CanvasObject {
	section := kit.Stack(2, kit.Section(lang.L("What was measured of the dough")), kit.Grown(0.65, look.Space(60), look.Space(115), f.chart),
		kit.Small(lang.L("What was written down without a time stands in the middle of its step if it is the dough's temperature, at its beginning if it is the air's, and at its end if it is a rise.")))
	draw := func() {
		d, ok := b.Bulk(f.seen...)
		ok = ok && len(d.Dough)+len(d.Air)+len(d.Rises) > 1
		kit.SetVisible(section, ok)
		if ok {
			f.chart.SetSpec(measuredPlot(d, f.env.Units(), f.env.Now().Location()))
		}
	}
	draw()
	pages.Fetch(f.env, func(ctx context.Context) ([]bulk.Rise, error) {
		return journal.BulkRises(f.env.Journal.Until(ctx), b.ID)
	}, func(seen []bulk.Rise, err error) {
		if err != nil {
			f.env.Fail(err)
			return
		}
		f.seen = seen
		draw()
	})
	return section
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

// mostBefore is how many bakes are told, the day's own among them.
const mostBefore = 10

// before tells the bake and those of the same formula before it by the figures of their days;
// nothing where it is the first.
func (f *overStage) before(b *journal.Bake) fyne.CanvasObject {
	section := kit.Stack(2)
	summaries, err := f.env.Journal.BakeSummaries()
	if err != nil {
		f.env.Fail(err)
		return section
	}
	var some []*journal.BakeSummary
	for _, c := range summaries {
		same := c.Name == b.Name || b.Formula != "" && c.Formula == b.Formula
		if same && !c.Binned && c.State.Over() && !c.At.After(b.At) && len(some) < mostBefore {
			some = append(some, c)
		}
	}
	if len(some) > 1 {
		section.Add(kit.Section(lang.L("This bake and those before it")))
		section.Add(pages.BakeTable(f.env, some, b.ID, shelf.Score, shelf.BulkHours, shelf.ColdHours, shelf.DoughTemp, shelf.Rise, shelf.Loss))
	}
	kit.SetVisible(section, len(some) > 1)
	return section
}
