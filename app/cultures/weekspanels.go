package cultures

import (
	"math"
	"slices"
	"sort"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// together is how far apart readings are at most that one line joins: not quite from one day to
// the next but one.
const together = 40 * time.Hour

// warmth is the panel of temperatures: the log and the readings that follow on one another as
// lines, a reading by itself as a point.
func (p *picture) warmth(l *histories.CultureHistory, s scale, u measure.Units) (charts.Panel, bool) {
	m := u.Temperature()
	log := charts.Series{Name: lang.L("logged"), Draw: charts.Line, Look: charts.SeriesStyle{Hue: charts.Faint}, Quiet: true}
	from := sort.Search(len(l.Temps), func(i int) bool { return !l.Temps[i].At.Before(s.from) })
	for _, t := range l.Temps[from:] {
		if t.At.After(s.to) {
			break
		}
		log.X, log.Y = append(log.X, s.x(t.At)), append(log.Y, m.Shown(float64(t.Temp)))
	}
	log.Gap = gapOf(log.X, 4)
	var read []*journal.Reading
	for _, r := range l.Readings {
		if r.Temp != nil && s.holds(r.At) && !logged(l.Temps, r.At) {
			read = append(read, r)
		}
	}
	// Those that follow on one another are a line, since their marks would lie on one another.
	apart := func(i, j int) bool {
		return i < 0 || j == len(read) || read[j].At.Sub(read[i].At) > together
	}
	lone := charts.Series{Name: lang.L("read"), Draw: charts.Points, Look: charts.SeriesStyle{Hue: charts.Faint, Hollow: true}, Quiet: true}
	near := charts.Series{Name: lang.L("read"), Draw: charts.Line, Look: charts.SeriesStyle{Hue: charts.Faint}, Quiet: true, Gap: s.x(s.from.Add(together)) - s.x(s.from)}
	for i, r := range read {
		to := &near
		if apart(i-1, i) && apart(i, i+1) {
			to = &lone
		}
		to.X, to.Y = append(to.X, s.x(r.At)), append(to.Y, m.Shown(float64(*r.Temp)))
	}
	panel := charts.Panel{Title: lang.L("Temperature"), Y: charts.Axis{Unit: m.Unit}, Height: 1.2}
	for _, layer := range []charts.Series{log, near, lone} {
		if len(layer.X) > 0 {
			panel.Layers = append(panel.Layers, layer)
		}
	}
	return panel, len(panel.Layers) > 0
}

// logged says whether a log has a temperature within two hours of a time: what was
// read then adds nothing to the chart.
func logged(temps []ferment.TempPoint, at time.Time) bool {
	i := sort.Search(len(temps), func(i int) bool { return !temps[i].At.Before(at.Add(-2 * time.Hour)) })
	return i < len(temps) && !temps[i].At.After(at.Add(2*time.Hour))
}

// gapOf is the distance in x over which a line is not drawn on: some times its usual step.
func gapOf(x []float64, steps float64) float64 {
	if len(x) < 3 {
		return 0
	}
	all := make([]float64, 0, min(len(x)-1, 500))
	for i := 1; i < len(x) && len(all) < cap(all); i++ {
		all = append(all, x[i]-x[i-1])
	}
	slices.Sort(all)
	return steps * math.Max(all[len(all)/2], 1e-9)
}

// smellRows are the smells that were noted, in the order in which they stand in the
// chart, lowest first: the further up, the nearer to what is wanted of a ripe culture.
func smellRows(l *histories.CultureHistory, s scale) []ferment.Smell {
	all := []ferment.Smell{ferment.SmellFoul, ferment.SmellSolvent, ferment.SmellNone, ferment.SmellMilky, ferment.SmellSour, ferment.SmellFruity}
	return slices.DeleteFunc(all, func(smell ferment.Smell) bool {
		return !slices.ContainsFunc(l.Readings, func(r *journal.Reading) bool { return s.holds(r.At) && r.Smells[string(smell)] > 0 })
	})
}

// smells is the panel of smells: for each day a mark at those that were noted, as the strongest
// of it was, hollow where that was faint.
func (p *picture) smells(l *histories.CultureHistory, s scale, now time.Time) (charts.Panel, bool) {
	rows := smellRows(l, s)
	name := lang.L("smell")
	out := charts.Series{Name: name, Draw: charts.Points, Look: pages.LookOf(l.Culture), Quiet: true}
	type cell struct{ day, row int }
	seen := map[cell]int{} // place in the series
	var strongest []int
	for _, r := range l.Readings {
		if !s.holds(r.At) || r.At.After(now) {
			continue
		}
		for i, smell := range rows {
			n := r.Smells[string(smell)]
			if n == 0 {
				continue
			}
			day := r.At.In(now.Location())
			at := cell{day.YearDay() + 400*day.Year(), i}
			k, again := seen[at]
			if !again {
				k = len(out.X)
				seen[at] = k
				out.X, out.Y = append(out.X, s.x(r.At)), append(out.Y, float64(i+1))
				out.LeftOut, out.Notes, strongest = append(out.LeftOut, true), append(out.Notes, ""), append(strongest, 0)
				p.places[name] = append(p.places[name], pages.Route{})
			}
			if n < strongest[k] {
				continue
			}
			strongest[k], out.LeftOut[k] = n, n == 1
			out.Notes[k] = smellsText(map[string]int{string(smell): n})
			p.places[name][k] = pages.Route{Name: pages.History, ID: l.Culture.ID, More: string(r.ID)}
		}
	}
	panel := charts.Panel{
		Title: lang.L("Smell (hollow: faint)"), Height: 0.5 + 0.5*float64(len(rows)),
		Y: charts.Axis{Min: 0, Max: float64(len(rows)) + 1},
	}
	for _, smell := range rows {
		panel.Y.Names = append(panel.Y.Names, smellWord(smell))
	}
	panel.Layers = append(panel.Layers, out)
	return panel, len(out.X) > 0
}
