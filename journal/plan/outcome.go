package plan

import (
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
