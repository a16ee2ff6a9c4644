package bakeday

import (
	"slices"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/plan"
)

// An anchor is what a plan is made from: a time, and what should be then.
type anchor struct {
	at time.Time
	of end
}

// An end is what a plan is made from, in the order of the choices on the page.
type end int

const (
	beginning end = iota // it begins then
	ready                // the bread is ready then
	mixing               // the dough is mixed then: the levain is built so that it is ripe
)

// in gives when a plan has that.
func (e end) in(p plan.Plan) time.Time {
	switch e {
	case ready:
		return p.ReadyAt()
	case mixing:
		at := p.Start
		for _, s := range p.Steps {
			if s.Kind == plan.Mix {
				return at
			}
			at = at.Add(s.Length.Duration())
		}
	}
	return p.Start
}

// mixes names the step of mixing; empty when there is none.
func mixes(steps []plan.Step) string {
	for _, s := range steps {
		if s.Kind == plan.Mix {
			return s.ID
		}
	}
	return ""
}

// nightOf gives the sleep hours of the settings.
func nightOf(j *journal.Journal) (plan.Night, error) {
	s, err := j.Settings()
	if err != nil {
		return plan.Night{}, err
	}
	from, to := s.Sleep()
	clock := func(d time.Duration) plan.ClockTime { return plan.ClockTime(d/time.Minute) % (24 * 60) }
	return plan.Night{From: clock(from), To: clock(to)}, nil
}

// schedule plans the steps of a bake from an anchor, at the lengths wished for.
func schedule(steps []journal.Step, a anchor, now time.Time, night plan.Night) (plan.Schedule, error) {
	wishes := journal.PlanSteps(journal.Wishes(steps))
	switch a.of {
	case ready:
		return plan.Backward(wishes, a.at, now.Truncate(time.Minute), night)
	case mixing:
		return plan.Through(wishes, mixes(wishes), a.at, now.Truncate(time.Minute), night)
	}
	return plan.Forward(wishes, a.at, night)
}

// Soon is the next full five minutes: when a plan that begins now begins.
func soon(now time.Time) time.Time {
	t := now.Truncate(time.Minute)
	return t.Add(time.Duration((5-t.Minute()%5)%5) * time.Minute)
}

// when is a time of a plan in words: the clock today, the weekday with it within
// a week, else the day.
func when(t, now time.Time, u kit.Units) string {
	t = t.In(now.Location())
	switch days := t.Sub(now).Hours() / 24; {
	case u.Day(t, now) == u.Day(now, now):
		return u.Clock(t)
	case days > 0 && days < 6:
		return lang.L(t.Weekday().String()) + " " + u.Clock(t)
	}
	return u.Moment(t, now)
}

// weekday names a day of a plan: "Saturday 28 Nov".
func weekday(t, now time.Time, u kit.Units) string {
	return lang.L(t.Weekday().String()) + " " + u.Day(t, now)
}

// planRow is a moment of a plan that has not begun.
type planRow struct {
	Day, Clock, Title, Length string
	Night                     bool // it falls into the sleep hours
}

// planRows lists the moments of a plan, the day written where it changes.
func planRows(p plan.Plan, night plan.Night, now time.Time, u kit.Units) []planRow {
	atNight := p.AtNight(night, time.Time{})
	var out []planRow
	last := ""
	for _, m := range p.Timeline(time.Time{}) {
		due := m.Due.In(now.Location())
		row := planRow{Clock: u.Clock(due), Title: u.Say(m.Title)}
		if d := weekday(due, now, u); d != last {
			row.Day, last = d, d
		}
		if length := m.End.Sub(m.Due); length > 0 {
			row.Length = u.Duration().Format(length.Minutes())
		}
		row.Night = slices.ContainsFunc(atNight, func(n plan.Moment) bool { return n.Ref == m.Ref })
		out = append(out, row)
	}
	return out
}
