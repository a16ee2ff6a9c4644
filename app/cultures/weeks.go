package cultures

import (
	"math"
	"slices"
	"sort"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/lives"
	"twinloaf/app/room"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
)

// A picture is a chart, and where a tap on each of its marks leads.
type picture struct {
	figure charts.Plot
	places map[string][]room.Place // by the name of a series
}

// leads tells where a mark leads to.
func (p picture) leads(m charts.Mark) (room.Place, bool) {
	places := p.places[m.Series]
	if m.Index < 0 || m.Index >= len(places) || places[m.Index].ID == "" {
		return room.Place{}, false
	}
	return places[m.Index], true
}

// A scale turns times into the x of a chart and says which belong on it.
type scale struct {
	x        func(time.Time) float64
	from, to time.Time
	axis     charts.Axis
}

// firstWeeksDays is how many days of age the first chart shows at most.
const firstWeeksDays = 21

// byAge is the scale of a culture's first weeks: 1 is its birth.
func byAge(l *lives.Life, now time.Time) scale {
	born := l.Culture.Born
	return scale{
		x:    func(t time.Time) float64 { return 1 + t.Sub(born).Hours()/24 },
		from: born.Add(-time.Hour), to: born.AddDate(0, 0, firstWeeksDays),
		axis: charts.Axis{Title: lang.L("day of age · ticks are feedings"), Whole: true, Min: 1, Max: lastDay(l, now)},
	}
}

// lastDay is the day at which the first chart ends: a fortnight, or three weeks.
func lastDay(l *lives.Life, now time.Time) float64 {
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
func weeksChart(p *portrait, u kit.Units, recent bool) picture {
	own := byAge(p.life, p.now)
	if recent {
		own = byDate(p.now)
		if ended := p.life.Culture.Ended; !ended.IsZero() {
			own = byDate(ended.In(p.now.Location()))
		}
	}
	out := picture{places: map[string][]room.Place{}}
	rises := charts.Panel{
		Title: lang.L("Greatest rise after each feeding"), Height: 5, XHere: true,
		Y: charts.Axis{Format: charts.Times, Include: []float64{1, 2.5}},
	}
	if l := p.guide.Lull; l.Found && !recent {
		rises.Layers = append(rises.Layers, charts.Band{From: float64(l.First) - 0.5, To: float64(l.Last) + 0.6, Label: lang.L("the usual pause")})
	}
	rises.Layers = append(rises.Layers, charts.Level{At: float64(p.life.Thresholds().Rise), Label: lang.L("wanted"), Dashed: true}, feedingTicks(p.life, own, p.now))
	if p.other != nil {
		theirs := own
		if !recent {
			theirs = byAge(p.other, p.now)
			theirs.to = p.other.Culture.Born.Add(own.to.Sub(p.life.Culture.Born))
		}
		look := lookOf(p.other.Culture)
		if look == lookOf(p.life.Culture) {
			look = charts.LookOf(p.life.Culture.Colour + 1)
		}
		look.Hollow = true
		rises.Layers = append(rises.Layers, out.peaks(sketch(p.other, p.now), theirs, look, u))
	}
	rises.Layers = append(rises.Layers, out.peaks(p, own, lookOf(p.life.Culture), u))
	if photos, ok := out.photoMarks(p, own); ok {
		rises.Layers = append(rises.Layers, photos)
	}
	out.figure = charts.Plot{X: own.axis, Panels: []charts.Panel{rises},
		Empty: lang.L("No height has been read yet. Take the first some hours after a feeding.")}
	if warm, ok := out.warmth(p.life, own, u); ok {
		out.figure.Panels = append(out.figure.Panels, warm)
	}
	if smell, ok := out.smells(p.life, own, p.now); ok {
		out.figure.Panels = append(out.figure.Panels, smell)
	}
	return out
}

// lookOf is the look of a culture in every chart.
func lookOf(c *journal.Culture) charts.Look {
	look := charts.LookOf(max(0, c.Colour-1))
	look.Hollow = false
	return look
}

func feedingTicks(l *lives.Life, s scale, now time.Time) charts.Events {
	out := charts.Events{Name: lang.L("feeding")}
	for _, f := range l.Feedings {
		if s.holds(f.At) && !f.At.After(now) && !lives.Taking(f) {
			out.X = append(out.X, s.x(f.At))
		}
	}
	return out
}

// peaks is the series of a culture's greatest rises, placed at the feedings.
// One that is still climbing is hollow.
func (p *picture) peaks(por *portrait, s scale, look charts.Look, u kit.Units) charts.Series {
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
		place := room.Place{Name: room.Feeding, ID: k.Feeding}
		if k.Feeding == l.Culture.ID {
			place = room.Place{} // what was read before the first feeding
		}
		p.places[out.Name] = append(p.places[out.Name], place)
	}
	return out
}

// photoMarks are small marks along the floor of the chart, one for each photo.
func (p *picture) photoMarks(por *portrait, s scale) (charts.Series, bool) {
	out := charts.Series{Name: lang.L("photo"), Draw: charts.Points, Quiet: true,
		Look: charts.Look{Hue: charts.Accent, Shape: charts.Diamond, Hollow: true}}
	for _, ph := range por.photos {
		if !s.holds(ph.at) {
			continue
		}
		out.X, out.Y = append(out.X, s.x(ph.at)), append(out.Y, 1)
		out.Notes = append(out.Notes, ph.photo.Caption)
		p.places[out.Name] = append(p.places[out.Name], room.At(room.Photo, ph.photo.ID))
	}
	return out, len(out.X) > 0
}

// warmth is the panel of temperatures: the log as a line, readings as points.
func (p *picture) warmth(l *lives.Life, s scale, u kit.Units) (charts.Panel, bool) {
	m := u.Temperature()
	face := func(c float64) float64 {
		if u.Fahrenheit {
			return c*9/5 + 32
		}
		return c
	}
	log := charts.Series{Name: lang.L("logged"), Draw: charts.Line, Look: charts.Look{Hue: charts.Faint}, Quiet: true}
	from := sort.Search(len(l.Temps), func(i int) bool { return !l.Temps[i].At.Before(s.from) })
	for _, t := range l.Temps[from:] {
		if t.At.After(s.to) {
			break
		}
		log.X, log.Y = append(log.X, s.x(t.At)), append(log.Y, face(float64(t.Temp)))
	}
	log.Gap = gapOf(log.X)
	read := charts.Series{Name: lang.L("read"), Draw: charts.Points, Look: charts.Look{Hue: charts.Faint, Hollow: true}, Quiet: true}
	for _, r := range l.Readings {
		if r.Temp != nil && s.holds(r.At) && !logged(l.Temps, r.At) {
			read.X, read.Y = append(read.X, s.x(r.At)), append(read.Y, face(float64(*r.Temp)))
		}
	}
	panel := charts.Panel{Title: lang.L("Temperature"), Y: charts.Axis{Unit: m.Unit}, Height: 1.2}
	if len(log.X) > 0 {
		panel.Layers = append(panel.Layers, log)
	}
	if len(read.X) > 0 {
		panel.Layers = append(panel.Layers, read)
	}
	return panel, len(panel.Layers) > 0
}

// logged says whether a log has a temperature within two hours of a time: what was
// read then adds nothing to the chart.
func logged(temps []ferment.TempPoint, at time.Time) bool {
	i := sort.Search(len(temps), func(i int) bool { return !temps[i].At.Before(at.Add(-2 * time.Hour)) })
	return i < len(temps) && !temps[i].At.After(at.Add(2*time.Hour))
}

// gapOf is the distance in x over which a log is not drawn on: well over its usual
// step.
func gapOf(x []float64) float64 {
	if len(x) < 3 {
		return 0
	}
	steps := make([]float64, 0, min(len(x)-1, 500))
	for i := 1; i < len(x) && len(steps) < cap(steps); i++ {
		steps = append(steps, x[i]-x[i-1])
	}
	slices.Sort(steps)
	return 4 * math.Max(steps[len(steps)/2], 1e-9)
}

// smellRows are the smells that were noted, in the order in which they stand in the
// chart, lowest first: the further up, the nearer to what is wanted of a ripe culture.
func smellRows(l *lives.Life, s scale) []ferment.Smell {
	all := []ferment.Smell{ferment.SmellFoul, ferment.SmellSolvent, ferment.SmellNone, ferment.SmellMilky, ferment.SmellSour, ferment.SmellFruity}
	return slices.DeleteFunc(all, func(smell ferment.Smell) bool {
		return !slices.ContainsFunc(l.Readings, func(r *journal.Reading) bool { return s.holds(r.At) && r.Smells[string(smell)] > 0 })
	})
}

// smells is the panel of smells: for each day a mark at those that were noted, hollow
// where they were faint at most.
func (p *picture) smells(l *lives.Life, s scale, now time.Time) (charts.Panel, bool) {
	rows := smellRows(l, s)
	name := lang.L("smell")
	out := charts.Series{Name: name, Draw: charts.Points, Look: lookOf(l.Culture), Quiet: true}
	type cell struct{ day, row int }
	seen := map[cell]int{} // place in the series
	for _, r := range l.Readings {
		if !s.holds(r.At) || r.At.After(now) {
			continue
		}
		for i, smell := range rows {
			n := r.Smells[string(smell)]
			if n == 0 {
				continue
			}
			at := cell{r.At.YearDay() + 400*r.At.Year(), i}
			k, again := seen[at]
			if !again {
				k = len(out.X)
				seen[at] = k
				out.X, out.Y = append(out.X, s.x(r.At)), append(out.Y, float64(i+1))
				out.LeftOut, out.Notes = append(out.LeftOut, true), append(out.Notes, "")
				p.places[name] = append(p.places[name], room.Place{})
			}
			out.LeftOut[k] = out.LeftOut[k] && n == 1
			out.Notes[k] = smellsText(map[string]int{string(smell): n})
			p.places[name][k] = room.Place{Name: room.History, ID: l.Culture.ID, More: string(r.ID)}
		}
	}
	panel := charts.Panel{
		Title: lang.L("Smell (hollow: faint)"), Height: 0.5 + 0.5*float64(len(rows)),
		// The rows are named by lines of their own: ticks would be too few.
		Y: charts.Axis{Whole: true, Min: 0, Max: float64(len(rows)) + 1, Format: func(float64) string { return "" }},
	}
	for i, smell := range rows {
		panel.Layers = append(panel.Layers, charts.Level{At: float64(i + 1), Label: smellWord(smell), Dashed: true})
	}
	panel.Layers = append(panel.Layers, out)
	return panel, len(out.X) > 0
}
