package plan

import (
	"fmt"
	"time"
)

// ClockTime is a time of day on the wall clock, in minutes after midnight.
type ClockTime int

// String gives the time of day as 22:30.
func (c ClockTime) String() string { return fmt.Sprintf("%02d:%02d", int(c)/60, int(c)%60) }

// Night is the window of every day in which nobody works dough, from From up
// to but not including To, by the wall clock of the zone that the plan's times
// carry. It may run over midnight. When both are the same there is no night.
type Night struct {
	From ClockTime `json:"from,omitzero"`
	To   ClockTime `json:"to,omitzero"`
}

// empty says whether there is no night to be kept free.
func (n Night) empty() bool { return n.From == n.To }

func (n Night) check() error {
	const day = ClockTime(24 * 60)
	if n.From < 0 || n.From >= day || n.To < 0 || n.To >= day {
		return fmt.Errorf("sleep hours from minute %d to minute %d of the day: the day has minutes 0 to %d", int(n.From), int(n.To), int(day)-1)
	}
	return nil
}

// span is a stretch of time, its end not included.
type span struct{ from, to time.Time }

type spans []span

// between lists every night that touches the time from a to b, in order, in
// the zone of a. Each is found from its own calendar day, so that a change of
// the clocks in it or before it does not move it.
func (n Night) between(a, b time.Time) spans {
	if n.empty() {
		return nil
	}
	loc := a.Location()
	y, m, d := a.Date()
	over := 0
	if n.To < n.From {
		over = 1
	}
	var out spans
	for i := -1; ; i++ {
		from, _ := wall(y, m, d+i, n.From, loc)
		if from.After(b) {
			return out
		}
		if _, to := wall(y, m, d+i+over, n.To, loc); to.After(a) && to.After(from) {
			out = append(out, span{from, to})
		}
	}
}

// wall gives the first and the last instant at which the wall clock shows a
// time of a day. They differ for the hour that comes twice when the clocks go
// back; for the hour that is left out when they go forward they are that time
// by the old and the new setting. A night made of the first for its beginning
// and the last for its end is never too short.
func wall(y int, m time.Month, d int, c ClockTime, loc *time.Location) (first, last time.Time) {
	t := time.Date(y, m, d, int(c)/60, int(c)%60, 0, 0, loc)
	shows := time.Date(y, m, d, int(c)/60, int(c)%60, 0, 0, time.UTC)
	_, before := t.Add(-12 * time.Hour).Zone()
	_, after := t.Add(12 * time.Hour).Zone()
	if before == after {
		return t, t
	}
	a := shows.Add(-time.Duration(before) * time.Second).In(loc)
	b := shows.Add(-time.Duration(after) * time.Second).In(loc)
	if b.Before(a) {
		a, b = b, a
	}
	showsIt := func(t time.Time) bool { return t.Hour()*60+t.Minute() == int(c) }
	if showsIt(a) != showsIt(b) { // near a change, but not in its hour
		return t, t
	}
	return a, b
}

// touches says whether the instant from, or anything of the stretch from there
// up to to, lies in one of the spans.
func (s spans) touches(from, to time.Time) bool {
	for _, n := range s {
		if from.Before(n.to) && (to.After(n.from) || !from.Before(n.from)) {
			return true
		}
	}
	return false
}

// AtNight lists the pending moments of the plan that need hands within the
// sleep hours, as expected at now; with the zero time, all of a fresh plan. A
// step that needs hands throughout is listed when any of it lies in the night.
func (p Plan) AtNight(night Night, now time.Time) []Moment {
	timeline := p.Timeline(now)
	nights := night.between(p.Start, timeline[len(timeline)-1].Due)
	throughout := make(map[string]bool, len(p.Steps))
	for _, s := range p.Steps {
		throughout[s.ID] = s.Hands == HandsThroughout
	}
	var out []Moment
	for _, m := range timeline {
		if !m.Hands || m.State != Pending {
			continue
		}
		m.Due = m.when(now) // what is overdue is done now at the earliest
		end := m.Due
		if m.Turn == 0 && throughout[m.Step] {
			end = m.End
		}
		if nights.touches(m.Due, end) {
			out = append(out, m)
		}
	}
	return out
}
