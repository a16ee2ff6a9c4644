package bakeday

import (
	"slices"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/room"
	"twinloaf/journal"
	"twinloaf/journal/plan"
)

// An anchor is what a plan is made from: the time it begins, or the time when the
// bread should be ready.
type anchor struct {
	at   time.Time
	back bool // at is when the bread should be ready
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
	if a.back {
		return plan.Backward(wishes, a.at, now.Truncate(time.Minute), night)
	}
	return plan.Forward(wishes, a.at, night)
}

// Soon is the next full five minutes: when a plan that begins now begins.
func soon(now time.Time) time.Time {
	t := now.Truncate(time.Minute)
	return t.Add(time.Duration((5-t.Minute()%5)%5) * time.Minute)
}

// scheduleWords says in the baker's language what had to give, what cannot be met,
// and which plan comes nearest; the same that [plan.Schedule.Words] says in English.
func scheduleWords(s plan.Schedule, back bool, now time.Time, u kit.Units) []string {
	clock := func(t time.Time) string { return when(t, now, u) }
	span := func(m plan.Minutes) string { return u.Duration().Format(float64(m)) }
	var out []string
	for _, c := range s.Changes {
		data := map[string]any{"Step": room.StepTitle(c.Step.Kind, c.Step.Name), "From": span(c.From), "To": span(c.To)}
		if c.To > c.From {
			out = append(out, lang.L("{{.Step}} is lengthened from {{.From}} to {{.To}}.", data))
		} else {
			out = append(out, lang.L("{{.Step}} is shortened from {{.From}} to {{.To}}.", data))
		}
	}
	if s.TooSoon {
		out = append(out, lang.L("It cannot be ready at {{.Ready}}: even at its shortest the day takes {{.Length}}, and would have to begin at {{.Start}}.",
			map[string]any{"Ready": clock(s.Plan.ReadyAt()), "Length": span(s.Plan.Length()), "Start": clock(s.Plan.Start)}))
	}
	for _, m := range s.Broken {
		out = append(out, lang.L("{{.What}} falls at {{.When}}, within your sleep, and no step that may change can move it out.",
			map[string]any{"What": room.MomentTitle(s.Plan, m), "When": clock(m.Due)}))
	}
	if s.OK() {
		return out
	}
	if s.Nearest == nil {
		return append(out, lang.L("No plan of these steps within two days of it can be kept."))
	}
	data := map[string]any{"Start": clock(s.Nearest.Start), "Ready": clock(s.Nearest.ReadyAt())}
	if back {
		return append(out, lang.L("The nearest plan that can be kept is ready at {{.Ready}} and begins at {{.Start}}.", data))
	}
	return append(out, lang.L("The nearest plan that can be kept begins at {{.Start}} and is ready at {{.Ready}}.", data))
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
		row := planRow{Clock: u.Clock(due), Title: room.MomentTitle(p, m)}
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
