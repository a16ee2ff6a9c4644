package plan

import (
	"slices"
	"time"

	"twinloaf/journal/say"
)

// Deviation holds one moment as it was against what was planned.
type Deviation struct {
	Ref
	Title   say.Line
	Planned time.Time
	Actual  time.Time // zero unless it was marked as done
	Skipped bool
}

// Noted says whether it is known when the moment happened.
func (d Deviation) Noted() bool { return !d.Actual.IsZero() }

// By is how much later than planned it was, negative for earlier, and 0 while
// that is not known.
func (d Deviation) By() time.Duration {
	if !d.Noted() {
		return 0
	}
	return d.Actual.Sub(d.Planned)
}

// Deviations holds the day as it went against the plan as it was made, before
// any mark or shift.
func (p Plan) Deviations() []Deviation {
	planned := Plan{Start: p.Start, Steps: p.Steps}.Timeline(time.Time{})
	actual := p.Timeline(time.Time{})
	out := make([]Deviation, len(planned))
	for i, m := range planned {
		out[i] = Deviation{
			Ref: m.Ref, Title: m.Title, Planned: m.Due,
			Actual: actual[i].At, Skipped: actual[i].State == Skipped,
		}
	}
	return out
}

// StepsAgain gives the steps of a plan for another day: as they were planned.
func (p Plan) StepsAgain() []Step { return slices.Clone(p.Steps) }

// StepsAsRun gives the steps of a plan for another day with the lengths they
// had on this one, to the minute, as far as marks and shifts tell. Skipped
// steps are left out. A length that leaves the step's bounds widens them, and
// a step of turns is never shorter than its turns need.
func (p Plan) StepsAsRun() []Step {
	var begins []Moment
	for _, m := range p.Timeline(time.Time{}) {
		if m.Turn == 0 {
			begins = append(begins, m)
		}
	}
	var out []Step
	for i, s := range p.Steps {
		if begins[i].State == Skipped {
			continue
		}
		span := begins[i+1].when(time.Time{}).Sub(begins[i].when(time.Time{}))
		if begins[i].Ended {
			span = begins[i].End.Sub(begins[i].when(time.Time{}))
		}
		length := max(Minutes(span.Round(time.Minute)/time.Minute), Minutes(s.Turns)*s.Every, 0)
		least, most := s.Bounds()
		fixed := s.Fixed()
		s.Length = min(length, longest)
		s.Min, s.Max = min(least, s.Length), max(most, s.Length)
		if fixed {
			s.Min, s.Max = 0, 0
		}
		out = append(out, s)
	}
	return out
}

// Upcoming is a pending moment of one of several plans.
type Upcoming struct {
	Moment
	Plan int // index of the plan among those handed in
}

// Merge lists what is pending at now in several plans, the soonest first. What
// is due at the same time keeps the order of the plans.
func Merge(now time.Time, plans ...Plan) []Upcoming {
	var out []Upcoming
	for i, p := range plans {
		for _, m := range p.Timeline(now) {
			if m.State == Pending {
				out = append(out, Upcoming{Moment: m, Plan: i})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Upcoming) int { return a.Due.Compare(b.Due) })
	return out
}
