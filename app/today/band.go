package today

import (
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// A band is the day band: one strip of time with a lane for each culture and
// each dough.
type band struct {
	from, to, now time.Time
	nights        []span
	lanes         []lane
}

type span struct{ from, to time.Time }

// A lane is one culture or one dough along the band.
type lane struct {
	name   string
	look   charts.SeriesStyle // a culture's mark
	bake   journal.ID
	of     journal.ID // the culture
	fed    time.Time
	curve  []curvePoint // the rise expected, 0 level, with its limits
	ripe   span
	words  string        // beneath the lane: "ripe 12:20 to 15:40"
	by     time.Time     // when it is to be fed, or its step to be done; zero for never
	late   bool          // that is overdue
	handle time.Time     // a feeding that is thought of, to be dragged; zero for none
	tried  bool          // the curve is that of a feeding that is thought of
	shift  time.Duration // by how much the lane is drawn off its place, on its way there
	ticks  []tick
	blocks []block
}

type curvePoint struct {
	at             time.Time
	low, mid, high float64
}

type tick struct {
	at   time.Time
	done bool
}

// A block is a stretch of a dough's day.
type block struct {
	span
	kind  plan.Kind
	words string
	done  bool
}

// whatIf are feedings that the baker thinks of, by culture: dragged along the
// band, and forgotten when the page is left.
type whatIf map[journal.ID]time.Time

// makeBand lays out the band from the state.
func (s *state) makeBand(u measure.Units, think whatIf) band {
	from := s.now.Add(-before).Truncate(time.Hour)
	b := band{from: from, to: from.Add(before + ahead), now: s.now}
	b.nights = nights(b.from, b.to, s.settings)
	for _, c := range s.cultures {
		if c.due.Reason == ferment.DueNever { // what is thrown away is neither ripe nor fed
			continue
		}
		b.lanes = append(b.lanes, c.lane(s.now, u, think[c.life.Culture.ID], s.settings))
	}
	for _, d := range s.doughs {
		if n := len(d.moments); n > 0 && d.moments[0].Due.Before(b.to) && d.moments[n-1].Due.After(b.from) {
			b.lanes = append(b.lanes, d.lane(s.now, u))
		}
	}
	return b
}

// lane draws a culture: the feeding it is in, or the one that is thought of.
func (c culture) lane(now time.Time, u measure.Units, thought time.Time, settings *journal.Settings) lane {
	l := lane{name: c.name(), look: pages.LookOf(c.life.Culture), of: c.life.Culture.ID}
	if c.hasDue {
		l.by, l.late = c.due.By, c.overdue(now)
	}
	f, known := c.forecast, c.expected
	if !thought.IsZero() {
		l.handle, l.tried = thought, true
		f, known = c.think(thought, settings)
	} else if c.hasDue {
		l.handle = pages.Later(c.due.By, now)
	} else {
		l.handle = now
	}
	if !known {
		l.words = lang.L("no forecast yet: feed it and take readings")
		return l
	}
	l.fed = f.Fed
	l.ripe = span{f.RipeFrom.Mid, f.RipeTo.Mid}
	for _, p := range f.Band {
		l.curve = append(l.curve, curvePoint{p.At, float64(p.Low) - 1, float64(p.Mid) - 1, float64(p.High) - 1})
	}
	clock := func(t time.Time) string { return u.Clock(t.In(now.Location())) }
	words := map[string]any{"From": clock(f.RipeFrom.Mid), "To": clock(f.RipeTo.Mid), "Fed": clock(f.Fed)}
	if f.RipeTo.Mid.Before(now.Add(-before)) || f.RipeFrom.Mid.After(now.Add(ahead)) { // beyond the band: the day is told
		words["From"], words["To"] = u.When(f.RipeFrom.Mid, now), u.When(f.RipeTo.Mid, now)
	}
	switch {
	case !thought.IsZero():
		l.words = lang.L("if fed at {{.Fed}}: ripe about {{.From}} to {{.To}}, approximate", words)
	case f.Basis == ferment.BasisPublished || f.Basis == ferment.BasisReadings:
		l.words = lang.L("ripe {{.From}} to {{.To}}, a guess, approximate", words)
	default:
		l.words = lang.L("ripe {{.From}} to {{.To}}, approximate", words)
	}
	return l
}

// think forecasts a feeding at another time, with the amounts of the last one.
func (c culture) think(at time.Time, settings *journal.Settings) (ferment.Forecast, bool) {
	last, ok := c.life.Current(at)
	if !ok {
		return ferment.Forecast{}, false
	}
	f := last.Feeding
	f.ID, f.At, f.Place = "", at, ferment.Place(c.life.Home(at))
	if settings.Kitchen != nil && !f.Room.Known {
		f.Room = ferment.Measured(*settings.Kitchen)
	}
	out, err := c.life.Planner(at).Predict(ferment.Course{Feeding: f}, at)
	return out, err == nil
}

// lane draws a dough: its stretches, and its turns as ticks.
func (d dough) lane(now time.Time, u measure.Units) lane {
	l := lane{name: d.name(), bake: d.bake.ID}
	if d.waiting {
		l.by, l.late = d.stand.Until, kit.Overdue(d.stand.Until, now)
	}
	if l.late {
		l.words = u.Say(d.stand.Title)
	}
	for _, m := range d.moments {
		at := m.Due
		if !m.At.IsZero() {
			at = m.At
		}
		done := m.State == plan.Done || m.State == plan.Passed
		switch {
		case m.Turn > 0:
			l.ticks = append(l.ticks, tick{at, done})
		case m.End.After(at):
			l.blocks = append(l.blocks, block{span{at, m.End}, m.Kind, u.Say(m.Title), done})
		}
	}
	return l
}

// nights gives the hours of sleep between two times.
func nights(from, to time.Time, settings *journal.Settings) []span {
	asleep, awake := settings.Sleep()
	clock := func(day time.Time, d time.Duration) time.Time {
		return time.Date(day.Year(), day.Month(), day.Day(), int(d/time.Hour), int(d%time.Hour/time.Minute), 0, 0, day.Location())
	}
	var out []span
	for day := from.AddDate(0, 0, -1); day.Before(to.AddDate(0, 0, 1)); day = day.AddDate(0, 0, 1) {
		night := span{clock(day, asleep), clock(day, awake)}
		if !night.to.After(night.from) {
			night.to = clock(day.AddDate(0, 0, 1), awake)
		}
		if night.from.Before(to) && night.to.After(from) {
			out = append(out, night)
		}
	}
	return out
}
