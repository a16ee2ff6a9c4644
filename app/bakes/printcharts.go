package bakes

import (
	"slices"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/paper"
)

// temperatures shows how warm the dough was at each step, and what a logger beside its
// culture recorded meanwhile; false where there is no line to draw.
func (p bakePages) temperatures(steps []journal.Step) (charts.Plot, bool) {
	shown := p.units.Temperature().Shown
	dough := charts.Series{Name: lang.L("dough"), Look: charts.SeriesStyle{Hue: charts.Accent}}
	var from, to time.Time
	for _, s := range steps {
		at := begun(s)
		if at.IsZero() {
			continue
		}
		if from.IsZero() {
			from = at
		}
		for _, t := range []time.Time{at, s.End} {
			if t.After(to) {
				to = t
			}
		}
		if s.Dough != nil {
			dough.X, dough.Y = append(dough.X, charts.Seconds(at)), append(dough.Y, shown(float64(*s.Dough)))
		}
	}
	logged := charts.Series{Name: lang.L("logged beside the culture"), Look: charts.SeriesStyle{Hue: charts.Faint, Dashed: true}, Draw: charts.Line, Gap: (2 * time.Hour).Seconds()}
	for _, t := range p.logged(from, to) {
		logged.X, logged.Y = append(logged.X, charts.Seconds(t.At)), append(logged.Y, shown(float64(t.C)))
	}
	panel := charts.Panel{Title: lang.L("Temperature"), Y: charts.Axis{Unit: p.units.Temperature().Unit}}
	if len(logged.X) > 1 {
		panel.Layers = append(panel.Layers, logged)
	}
	if len(dough.X) > 0 {
		panel.Layers = append(panel.Layers, dough)
	}
	return charts.Plot{X: charts.Axis{Zone: p.now.Location()}, Panels: []charts.Panel{panel}}, len(dough.X) > 1 || len(logged.X) > 1
}

// logged are the temperatures that a logger recorded with the bake's culture in some hours.
func (p bakePages) logged(from, to time.Time) (out []journal.TempPoint) {
	logs, err := journal.Linked[journal.TempLog](p.env.Journal, p.bake.Culture)
	if p.bake.Culture == "" || err != nil {
		return nil
	}
	for _, l := range logs {
		if l.To.Before(from) || l.From.After(to) {
			continue
		}
		points, err := journal.UnpackTemps(l.Packed, p.now.Location())
		if err != nil {
			continue // a check tells of it
		}
		out = append(out, slices.DeleteFunc(points, func(t journal.TempPoint) bool { return t.At.Before(from) || t.At.After(to) })...)
	}
	return out
}

// crumb prints how large the cells of the crumb are, of each photo on which they were
// measured.
func (p bakePages) crumb(d *paper.Document) error {
	for _, ph := range p.photos {
		s, ok, err := journal.CrumbMeasures(p.env.Journal, ph)
		if err != nil || !ok {
			continue // not measured, or the photo was changed since
		}
		f, ok := pages.CrumbSizes([]pages.CrumbSeries{{Sizes: s}}, p.units).(charts.Plot)
		if !ok || f.Empty != "" {
			continue
		}
		d.Section(lang.L("Crumb"))
		d.Small(p.caption(ph))
		if err := pages.DrawChart(d, f, p.units, 720, 380); err != nil {
			return err
		}
	}
	return nil
}
