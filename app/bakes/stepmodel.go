package bakes

import (
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// stepName is what a step is called on the page.
func stepName(s journal.Step) string {
	if s.Name != "" {
		return s.Name
	}
	if w := dough.StepWord(plan.Kind(s.Kind)); w != "" || plan.Kind(s.Kind) == plan.Other {
		return w
	}
	return s.Kind
}

// begun is when a step began, or was meant to; zero when neither is known.
func begun(s journal.Step) time.Time {
	if s.At.IsZero() {
		return s.PlannedAt
	}
	return s.At
}

// inOrder gives the steps as they happened; one without a time stays behind the
// step that it was written after.
func inOrder(steps []journal.Step) []journal.Step {
	type timed struct {
		journal.Step
		at time.Time
	}
	all := make([]timed, len(steps))
	var last time.Time
	for i, s := range steps {
		at := begun(s)
		if at.IsZero() {
			at = last
		}
		last = at
		all[i] = timed{s, at}
	}
	slices.SortStableFunc(all, func(a, b timed) int { return a.at.Compare(b.at) })
	out := make([]journal.Step, len(all))
	for i, s := range all {
		out[i] = s.Step
	}
	return out
}

// stepOf finds a step by its ID, writing a new one when it is not there.
func stepOf(b *journal.Bake, id journal.ID) *journal.Step {
	for i := range b.Steps {
		if b.Steps[i].ID == id {
			return &b.Steps[i]
		}
	}
	b.Steps = append(b.Steps, journal.Step{ID: id})
	return &b.Steps[len(b.Steps)-1]
}

// nextStep is a step as it would be added now: it begins where the one before it
// ended, if that is known.
func nextStep(b *journal.Bake, id journal.ID, kind plan.Kind) journal.Step {
	s := journal.Step{ID: id, Kind: string(kind)}
	ordered := inOrder(b.Steps)
	if n := len(ordered); n > 0 {
		s.At = ordered[n-1].End
	} else {
		s.At = b.At
	}
	return s
}

// stepFact says beside a step what is not edited there: how long it took, the
// turns that were made, what was planned.
func stepFact(s journal.Step, u measure.Units, now time.Time) string {
	var out []string
	switch {
	case s.Skipped:
		out = append(out, lang.L("left out"))
	case s.Length() > 0:
		out = append(out, u.Span(s.Length()))
	case !s.End.IsZero() && s.End.Before(s.At):
		out = append(out, lang.L("it ends before it begins"))
	case s.At.IsZero() && !s.PlannedAt.IsZero():
		out = append(out, lang.L("planned {{.When}}", map[string]any{"When": u.Moment(s.PlannedAt, now)}))
	}
	if turns := turnsSaid(s, u, now); turns != "" {
		out = append(out, turns)
	}
	return strings.Join(out, " · ")
}

// turnsSaid says when the dough was turned in a step.
func turnsSaid(s journal.Step, u measure.Units, now time.Time) string {
	if len(s.Done) == 0 {
		return ""
	}
	clocks := make([]string, len(s.Done))
	for i, at := range s.Done {
		clocks[i] = u.Clock(at.In(now.Location()))
	}
	return lang.L("folded at {{.Times}}", map[string]any{"Times": strings.Join(clocks, ", ")})
}
