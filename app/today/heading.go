package today

import (
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal/ferment"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// soon is how near a step must be to stand above everything else.
const soon = 90 * time.Minute

// heading says in one line what needs the baker first.
func (s *state) heading(u measure.Units) string {
	words, _ := s.asks(u)
	return words
}

// due is when what the heading says was to be done; the zero time where that has no time.
func (s *state) due(u measure.Units) time.Time {
	if d, bench := s.bench(); bench && d.stand.Left(s.now) <= soon {
		return d.stand.Until
	}
	if _, c := s.asks(u); c != nil {
		return c.due.By
	}
	return time.Time{}
}

// asks says what needs the baker first and, when that is to feed a culture, which.
func (s *state) asks(u measure.Units) (words string, feed *culture) {
	d, bench := s.bench()
	if bench && d.stand.Until.Sub(s.now) <= soon {
		return stepHeading(d.stand, s.now, u), nil
	}
	for _, c := range s.cultures {
		if c.hasDue && c.due.Reason == ferment.DueNever {
			return lang.L("Throw {{.Name}} out: mould or a pink tint was seen", map[string]any{"Name": c.name()}), nil
		}
	}
	if len(s.scoring) > 0 {
		return lang.L("A tasting waits to be scored"), nil
	}
	if c, ok := s.hungriest(); ok {
		return lang.L("{{.Name}} needs feeding", map[string]any{"Name": c.name()}), &c
	}
	for _, c := range s.cultures {
		if c.ripe(s.now) {
			return lang.L("{{.Name}} is ripe until about {{.When}}", map[string]any{"Name": c.name(), "When": u.Clock(c.forecast.RipeTo.Mid.In(s.now.Location()))}), nil
		}
	}
	if bench {
		return stepHeading(d.stand, s.now, u), nil
	}
	if len(s.ready()) > 0 {
		return lang.L("The bread is ready"), nil
	}
	switch {
	case !s.any:
		return lang.L("Your journal is empty"), nil
	case len(s.cultures) > 0:
		return lang.L("Nothing to do right now"), nil
	}
	return lang.L("No dough under way"), nil
}

// hungriest is the culture whose feeding is most overdue.
func (s *state) hungriest() (out culture, ok bool) {
	for _, c := range s.cultures {
		if c.overdue(s.now) && (!ok || c.due.By.Before(out.due.By)) {
			out, ok = c, true
		}
	}
	return out, ok
}

// overdue reports whether a culture should have been fed by now.
func (c culture) overdue(now time.Time) bool {
	return c.hasDue && c.due.Reason != ferment.DueNever && kit.Overdue(c.due.By, now)
}

// stepHeading says what runs or comes next, and when that is over or due: "Fold 3 of 6 in
// 12 minutes". By how much it is overdue stands beneath.
func stepHeading(d plan.Stand, now time.Time, u measure.Units) string {
	left := d.Left(now)
	data := map[string]any{"Step": u.Say(d.Title), "Left": spell(left.Abs()), "When": u.When(d.Until, now)}
	switch {
	case kit.Overdue(d.Until, now) && d.Runs:
		return lang.L("{{.Step}} is still running", data)
	case kit.Overdue(d.Until, now):
		return u.Say(d.Title)
	case d.Runs && left > soon:
		return lang.L("{{.Step}} until {{.When}}", data)
	case d.Runs:
		return lang.L("{{.Step}}: {{.Left}} left", data)
	case left < time.Minute:
		return lang.L("{{.Step}} now", data)
	case left <= soon:
		return lang.L("{{.Step}} in {{.Left}}", data)
	}
	return lang.L("{{.Step}} {{.When}}", data)
}

// spell gives a span in whole words of minutes or hours.
func spell(d time.Duration) string {
	minutes := int(d.Round(time.Minute) / time.Minute)
	if minutes < 100 {
		return lang.N("{{.N}} minutes", minutes, map[string]any{"N": minutes})
	}
	hours := int(d.Round(time.Hour) / time.Hour)
	return lang.N("{{.N}} hours", hours, map[string]any{"N": hours})
}

// eyebrow is the line above the heading: the day, the hour, the kitchen.
func (s *state) eyebrow(u measure.Units) string {
	parts := []string{lang.L(s.now.Weekday().String()) + " " + u.Moment(s.now, s.now)}
	if s.settings.Kitchen != nil {
		parts = append(parts, lang.L("kitchen usually {{.T}}", map[string]any{"T": u.Celsius(*s.settings.Kitchen)}))
	}
	return strings.Join(parts, " · ")
}

// line says in words how a culture stands, for the list beside the bench.
func (c culture) line(now time.Time, u measure.Units) string {
	switch {
	case c.hasDue && c.due.Reason == ferment.DueNever:
		return lang.L("throw it away: mould, pink or orange")
	case !c.hasDue:
		return lang.L("not fed yet")
	case c.overdue(now):
		return lang.L("feed it: due {{.When}} ({{.Why}})", map[string]any{"When": u.When(c.due.By, now), "Why": u.Say(c.due.Reason.Line())})
	}
	return lang.L("feed again by {{.When}} ({{.Why}})", map[string]any{"When": hour(c.due.By, now, u), "Why": u.Say(c.due.Reason.Line())})
}

// expectation says when a culture is or was ripe.
func (c culture) expectation(now time.Time, u measure.Units) string {
	if !c.expected {
		return ""
	}
	from, to := c.forecast.RipeFrom.Mid, c.forecast.RipeTo.Mid
	switch {
	case now.Before(from):
		return lang.L("ripe from {{.When}}", map[string]any{"When": hour(from, now, u)})
	case now.Before(to):
		return lang.L("ripe until {{.When}}", map[string]any{"When": hour(to, now, u)})
	}
	return ""
}

// hour is a time of day, with its date where that is not today.
func hour(t, now time.Time, u measure.Units) string {
	t = t.In(now.Location())
	if y, m, d := t.Date(); y == now.Year() && m == now.Month() && d == now.Day() {
		return u.Clock(t)
	}
	return u.Moment(t, now)
}
