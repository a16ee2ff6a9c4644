package today

import (
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/histories"
	"twinloaf/journal/plan"
)

// ahead is how far the day band looks, and before how far back it begins.
const (
	ahead  = 34 * time.Hour
	before = 2 * time.Hour
)

// A state is everything that the page shows, read and worked out in one go off
// the main goroutine.
type state struct {
	now      time.Time
	settings *journal.Settings
	doughs   []dough
	cultures []culture
	recent   []*journal.BakeSummary // with a picture, newest first
	last     *journal.BakeSummary   // the last loaf that came out
	scoring  []*journal.Tasting
	tastings []*journal.Tasting // that are planned
	any      bool               // the journal holds anything at all
}

// A dough is a bake that is planned or under way, with its day.
type dough struct {
	bake    *journal.Bake
	moments []plan.Moment
	stand   plan.Stand // what runs, or is next
	waiting bool       // something is left to do
}

// name is the bake's, or what stands for it.
func (d dough) name() string {
	if name := strings.TrimSpace(d.bake.Name); name != "" {
		return name
	}
	return lang.L("A dough")
}

// A culture is one culture with what is expected of it.
type culture struct {
	life     *histories.CultureHistory
	forecast ferment.Forecast
	expected bool // forecast holds something
	due      ferment.Due
	hasDue   bool
	ready    ferment.Readiness
}

// name is the culture's.
func (c culture) name() string { return c.life.Culture.Name }

// ripe reports whether the culture is in its expected ripe window.
func (c culture) ripe(now time.Time) bool {
	return c.expected && now.After(c.forecast.RipeFrom.Mid) && now.Before(c.forecast.RipeTo.Mid)
}

// read works out the state at a time.
func read(j journal.Source, kept *histories.Cache, now time.Time) (*state, error) {
	s := &state{now: now}
	var err error
	if s.settings, err = j.Settings(); err != nil {
		return nil, err
	}
	summaries, err := j.BakeSummaries()
	if err != nil {
		return nil, err
	}
	s.any = len(summaries) > 0
	for _, c := range summaries {
		if c.Binned {
			continue
		}
		switch c.State {
		case journal.Running, journal.Planned:
			if err := s.addDough(j, c.ID); err != nil {
				return nil, err
			}
		default:
			if s.last == nil {
				s.last = c
			}
			if c.Cover != "" && len(s.recent) < 8 {
				s.recent = append(s.recent, c)
			}
		}
	}
	slices.SortStableFunc(s.doughs, func(a, b dough) int { return a.stand.Until.Compare(b.stand.Until) })
	if err := s.addCultures(j, kept); err != nil {
		return nil, err
	}
	return s, s.addTastings(j)
}

func (s *state) addDough(j journal.Source, id journal.ID) error {
	b, err := journal.Get[journal.Bake](j, id)
	if err != nil {
		return err
	}
	day, ok := b.Day()
	if !ok {
		return nil
	}
	d := dough{bake: b, moments: day.Timeline(s.now)}
	d.stand, d.waiting = day.Stand(s.now)
	// A plan that was never begun and is long past asks for nothing.
	if b.State == journal.Planned && d.waiting && d.stand.Until.Before(s.now.Add(-48*time.Hour)) {
		return nil
	}
	s.doughs = append(s.doughs, d)
	return nil
}

func (s *state) addCultures(j journal.Source, kept *histories.Cache) error {
	all, err := kept.All(j)
	if err != nil {
		return err
	}
	for _, l := range all {
		s.any = true
		if !l.Culture.Ended.IsZero() {
			continue
		}
		c := culture{life: l, ready: l.Ready(s.now)}
		if f, err := l.Forecast(s.now); err == nil {
			c.forecast, c.expected = f, true
		}
		c.due, c.hasDue = l.Due(s.now)
		s.cultures = append(s.cultures, c)
	}
	return nil
}

func (s *state) addTastings(j journal.Source) error {
	all, err := journal.All[journal.Tasting](j)
	if err != nil {
		return err
	}
	for _, t := range all {
		switch {
		case t.IsSealed():
			s.scoring = append(s.scoring, t)
		case !t.IsOpen() && !t.IsClosed():
			s.tastings = append(s.tastings, t)
		}
	}
	return nil
}

// days are those of the doughs that are under way or still to begin.
func (s *state) days() []pages.DoughDay {
	var out []pages.DoughDay
	for _, d := range s.doughs {
		day, _ := d.bake.Day()
		if d.bake.State == journal.Running || !day.Start.Before(s.now) {
			out = append(out, pages.DoughDay{Name: d.name(), Day: day})
		}
	}
	return out
}

// ready are the bakes under way whose bread is ready: how it came out is not written down.
func (s *state) ready() []dough {
	var out []dough
	for _, d := range s.doughs {
		if !d.waiting && d.bake.State == journal.Running {
			out = append(out, d)
		}
	}
	return out
}

// bench is the dough whose turn comes first, if any is under way or about to be.
func (s *state) bench() (dough, bool) {
	for _, d := range s.doughs {
		if d.waiting && (d.bake.State == journal.Running || d.stand.Until.Before(s.now.Add(36*time.Hour))) {
			return d, true
		}
	}
	return dough{}, false
}
