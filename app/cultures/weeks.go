package cultures

import (
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// A picture is a chart, and where a tap on each of its marks leads.
type picture struct {
	figure charts.Plot
	places map[string][]pages.Route // by the name of a series
}

// leads tells where a mark leads to.
func (p picture) leads(m charts.Mark) (pages.Route, bool) {
	places := p.places[m.Series]
	if m.Index < 0 || m.Index >= len(places) || places[m.Index].ID == "" {
		return pages.Route{}, false
	}
	return places[m.Index], true
}

// bare says that there is nothing to draw yet.
func (p picture) bare() bool { return len(p.figure.Panels) < 2 && len(p.places) == 0 }

// A scale turns times into the x of a chart and says which belong on it.
type scale struct {
	x        func(time.Time) float64
	from, to time.Time
	axis     charts.Axis
}

// firstWeeksDays is how many days of age the first chart shows at most.
const firstWeeksDays = 21

// byAge is the scale of a culture's first weeks: 1 is its birth.
func byAge(l *histories.CultureHistory, now time.Time) scale {
	born := l.Culture.Born
	return scale{
		x:    func(t time.Time) float64 { return 1 + t.Sub(born).Hours()/24 },
		from: born.Add(-time.Hour), to: born.AddDate(0, 0, firstWeeksDays),
		axis: charts.Axis{Title: lang.L("day of age · ticks are feedings"), Whole: true, Min: 1, Max: lastDay(l, now)},
	}
}

// lastDay is the day at which the first chart ends: a fortnight, or three weeks.
func lastDay(l *histories.CultureHistory, now time.Time) float64 {
	if l.Day(now) <= 14 {
		return 15
	}
	return firstWeeksDays + 1
}

// recentDays is how many days the chart of an old culture shows.
const recentDays = 42

// byDate is the scale of the last weeks.
func byDate(now time.Time) scale {
	from := now.AddDate(0, 0, -recentDays)
	return scale{x: charts.Seconds, from: from, to: now, axis: charts.Axis{Title: lang.L("ticks are feedings"), Zone: now.Location()}}
}

func (s scale) holds(t time.Time) bool { return !t.Before(s.from) && !t.After(s.to) }

// weeksChart draws how a culture rose after each feeding, how warm it was and how it
// smelled. recent shows the last weeks by date instead of the first by age.
func weeksChart(p *portrait, u measure.Units, recent bool) picture {
	own := byAge(p.life, p.now)
	if recent {
		own = byDate(p.now)
		if ended := p.life.Culture.Ended; !ended.IsZero() {
			own = byDate(ended.In(p.now.Location()))
		}
	}
	out := picture{places: map[string][]pages.Route{}}
	rises := charts.Panel{
		Title: lang.L("Peak rise after each feeding"), Height: 5, XHere: true,
		Y: charts.Axis{Ratio: true, Include: []float64{1, 2.5}},
	}
	if l := p.guide.Lull; l.Found && !recent {
		rises.Layers = append(rises.Layers, charts.Band{From: float64(l.First) - 0.5, To: float64(l.Last) + 0.6, Label: lang.L("lull")})
	}
	rises.Layers = append(rises.Layers, charts.Level{At: float64(p.life.Thresholds().Rise), Label: lang.L("wanted"), Dashed: true}, feedingTicks(p.life, own, p.now))
	if p.other != nil {
		theirs := own
		if !recent {
			theirs = byAge(p.other, p.now)
			theirs.to = p.other.Culture.Born.Add(own.to.Sub(p.life.Culture.Born))
		}
		look := pages.LookOf(p.other.Culture)
		look.Hollow = true
		rises.Layers = append(rises.Layers, out.peaks(sketch(p.other, p.now), theirs, look, u))
	}
	rises.Layers = append(rises.Layers, out.peaks(p, own, pages.LookOf(p.life.Culture), u))
	if photos, ok := out.photoMarks(p, own); ok {
		rises.Layers = append(rises.Layers, photos)
		own.axis.Title += " · " + lang.L("diamonds are photos")
	}
	out.figure = charts.Plot{X: own.axis, Panels: []charts.Panel{rises}, Empty: lang.L("No height has been read yet. Take the first some hours after a feeding.")}
	if p.read() {
		out.figure.Empty = lang.L("No height was read in these weeks.")
	}
	if warm, ok := out.warmth(p.life, own, u); ok {
		out.figure.Panels = append(out.figure.Panels, warm)
	}
	if smell, ok := out.smells(p.life, own, p.now); ok {
		out.figure.Panels = append(out.figure.Panels, smell)
	}
	return out
}

func feedingTicks(l *histories.CultureHistory, s scale, now time.Time) charts.Events {
	out := charts.Events{Name: lang.L("feeding")}
	for _, f := range l.Feedings {
		if s.holds(f.At) && !f.At.After(now) && !histories.Taking(f) {
			out.X = append(out.X, s.x(f.At))
		}
	}
	return out
}

// peaks is the series of a culture's greatest rises, placed at the feedings.
// One that is still climbing is hollow. The line breaks where none was read for long.
func (p *picture) peaks(por *portrait, s scale, look charts.SeriesStyle, u measure.Units) charts.Series {
	l, now := por.life, por.now
	out := charts.Series{Name: nameOf(l.Culture), Look: look}
	for _, k := range l.Peaks(now) {
		if !s.holds(k.Fed) {
			continue
		}
		out.X = append(out.X, s.x(k.Fed))
		out.Y = append(out.Y, k.Rise)
		note := lang.L("fed {{.When}}", map[string]any{"When": u.Moment(k.Fed, now)})
		climbing := por.climbing(k)
		if climbing {
			note = joined(note, lang.L("still climbing"))
		}
		out.Notes, out.LeftOut = append(out.Notes, note), append(out.LeftOut, climbing)
		place := pages.Route{Name: pages.Feeding, ID: k.Feeding}
		if k.Feeding == l.Culture.ID {
			place = pages.Route{} // what was read before the first feeding
		}
		p.places[out.Name] = append(p.places[out.Name], place)
	}
	out.Gap = gapOf(out.X, 2.5) // what was not read is not drawn
	return out
}

// photoMarks are small marks along the floor of the chart, one for each photo.
func (p *picture) photoMarks(por *portrait, s scale) (charts.Series, bool) {
	out := charts.Series{Name: lang.L("photo"), Draw: charts.Points, Quiet: true,
		Look: charts.SeriesStyle{Hue: charts.Faint, Shape: charts.Diamond, Hollow: true}}
	for _, ph := range por.photos {
		if !s.holds(ph.at) {
			continue
		}
		out.X, out.Y = append(out.X, s.x(ph.at)), append(out.Y, 1)
		out.Notes = append(out.Notes, ph.photo.Caption)
		p.places[out.Name] = append(p.places[out.Name], pages.At(pages.Photo, ph.photo.ID))
	}
	return out, len(out.X) > 0
}
