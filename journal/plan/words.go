package plan

import (
	"fmt"
	"strings"
	"time"
)

// Clock puts a time into words as the baker reads them.
type Clock func(time.Time) string

// WeekdayClock gives a time as "Sat 08:00".
func WeekdayClock(t time.Time) string { return t.Format("Mon 15:04") }

// Words says in plain sentences what had to give, what cannot be met, and which
// plan comes nearest. It says nothing when the plan is as it was asked for.
// With a nil clock times are given by [WeekdayClock].
func (s Schedule) Words(clock Clock) []string {
	if clock == nil {
		clock = WeekdayClock
	}
	var out []string
	for _, c := range s.Changes {
		verb := "lengthened"
		if c.To < c.From {
			verb = "shortened"
		}
		out = append(out, fmt.Sprintf("%s is %s from %s to %s.", c.Step.Title(), verb, c.From, c.To))
	}
	if s.TooSoon {
		out = append(out, fmt.Sprintf("It cannot be ready at %s: even at its shortest the day takes %s, and would have to begin at %s.",
			clock(s.Plan.ReadyAt()), s.Plan.Length(), clock(s.Plan.Start)))
	}
	for _, m := range s.Broken {
		out = append(out, fmt.Sprintf("%s falls at %s, within the sleep hours from %s to %s, and no step that may change can move it out.",
			m.Title, clock(m.Due), s.Night.From, s.Night.To))
	}
	switch {
	case s.OK():
	case s.Nearest == nil:
		out = append(out, "No plan of these steps within two days of it can be kept.")
	default:
		out = append(out, s.nearest(clock))
	}
	return out
}

func (s Schedule) nearest(clock Clock) string {
	side, away := "later", s.Away
	if away < 0 {
		side, away = "earlier", -away
	}
	if s.backward {
		return fmt.Sprintf("The nearest plan that can be kept is ready %s %s, at %s, and begins at %s.",
			away, side, clock(s.Nearest.ReadyAt()), clock(s.Nearest.Start))
	}
	return fmt.Sprintf("The nearest plan that can be kept begins %s %s, at %s, and is ready at %s.",
		away, side, clock(s.Nearest.Start), clock(s.Nearest.ReadyAt()))
}

// String gives the length as "2 h 30 min".
func (m Minutes) String() string {
	if m < 0 {
		return "-" + (-m).String()
	}
	var parts []string
	if h := m / 60; h > 0 {
		parts = append(parts, fmt.Sprintf("%d h", int(h)))
	}
	if r := m % 60; r > 0 || m == 0 {
		parts = append(parts, fmt.Sprintf("%d min", int(r)))
	}
	return strings.Join(parts, " ")
}
