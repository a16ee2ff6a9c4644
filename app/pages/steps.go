package pages

import (
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// StepWord says what a kind of step is called.
func StepWord(k plan.Kind) string { return measure.Units{}.Say(k.Line()) }

// StepTitle is what a step is called: by its own name, or else by its kind.
func StepTitle(k plan.Kind, name string) string {
	return measure.Units{}.Say(plan.Step{Kind: k, Name: name}.Line())
}

// Weekday names a day as a schedule does: "Saturday 28 Nov".
func Weekday(t, now time.Time, u measure.Units) string {
	t = t.In(now.Location())
	return lang.L(t.Weekday().String()) + " " + u.Day(t, now)
}

// PlannedClock is when a moment was meant to be, beside when it was: the clock, with its
// day where that is another.
func PlannedClock(planned, at, now time.Time, u measure.Units) string {
	planned, at = planned.In(now.Location()), at.In(now.Location())
	if u.Day(planned, now) != u.Day(at, now) {
		return u.Moment(planned, now)
	}
	return u.Clock(planned)
}
