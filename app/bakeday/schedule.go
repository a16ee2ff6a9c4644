package bakeday

import (
	"slices"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// An anchor is what a plan is made from: a time, and what should be then.
type anchor struct {
	at time.Time
	of plan.Anchor
}

// in gives when a plan has what an anchor is of.
func (a anchor) in(p plan.Plan) time.Time {
	switch a.of {
	case plan.Readiness:
		return p.ReadyAt()
	case plan.Around:
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

// schedule plans the steps of a bake from an anchor, at the lengths wished for, beside the
// other doughs of the kitchen. It says where they clash.
func schedule(steps []journal.Step, a anchor, now time.Time, night plan.Night, others []plan.Plan) (plan.Schedule, []plan.Clash, error) {
	wishes := journal.PlanSteps(journal.Wishes(steps))
	return plan.Ask{Steps: wishes, Of: a.of, Step: mixes(wishes), At: a.at, NotBefore: now.Truncate(time.Minute), Night: night}.Beside(others...)
}

// soon is the next full five minutes: when a plan that begins now begins.
func soon(now time.Time) time.Time {
	t := now.Truncate(time.Minute)
	return t.Add(time.Duration((5-t.Minute()%5)%5) * time.Minute)
}

// when is a time of a plan in words: the clock today, the weekday with it within
// a week, else the day.
func when(t, now time.Time, u measure.Units) string {
	t = t.In(now.Location())
	switch days := t.Sub(now).Hours() / 24; {
	case u.Day(t, now) == u.Day(now, now):
		return u.Clock(t)
	case days > 0 && days < 6:
		return lang.L(t.Weekday().String()) + " " + u.Clock(t)
	}
	return u.Moment(t, now)
}

// planRows lists the moments of a plan, the day written where it changes.
func planRows(p plan.Plan, night plan.Night, now time.Time, u measure.Units) []kit.ScheduleRow {
	atNight := p.AtNight(night, time.Time{})
	var out []kit.ScheduleRow
	last := ""
	for _, m := range p.Timeline(time.Time{}) {
		due := m.Due.In(now.Location())
		row := kit.ScheduleRow{Clock: u.Clock(due), Title: u.Say(m.Title)}
		if d := pages.Weekday(due, now, u); d != last {
			row.Day, last = d, d
		}
		if length := m.End.Sub(m.Due); length > 0 {
			row.Length = u.Duration().Format(length.Minutes())
		}
		if slices.ContainsFunc(atNight, func(n plan.Moment) bool { return n.Ref == m.Ref }) {
			row.State = kit.StepNight
		}
		out = append(out, row)
	}
	return out
}
