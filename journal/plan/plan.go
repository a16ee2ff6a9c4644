package plan

import (
	"slices"
	"time"
)

// Plan is one dough's day: what was planned and what has happened. Start and
// Steps are never changed once the day has begun; Marks and Shifts say how it
// went, so that the two can be held against each other.
type Plan struct {
	ID     string    `json:"id,omitzero"`
	Name   string    `json:"name,omitzero"`
	Start  time.Time `json:"start"`
	Steps  []Step    `json:"steps"`
	Marks  []Mark    `json:"marks,omitzero"`
	Shifts []Shift   `json:"shifts,omitzero"`
}

// In is the plan on the clock of a zone.
func (p Plan) In(zone *time.Location) Plan {
	p.Start, p.Marks = p.Start.In(zone), slices.Clone(p.Marks)
	for i := range p.Marks {
		p.Marks[i].At = p.Marks[i].At.In(zone)
	}
	return p
}

// Ref names a moment of a plan: the beginning of a step, a turn of it (1 is the
// first), or, with the step [Ready.Step], the end of it all.
type Ref struct {
	Step string `json:"step"`
	Turn int    `json:"turn,omitzero"`
}

// Over is the [Ref.Turn] of the end of a step whose length matters, see [Kind]. It
// can be marked, and is no moment of the timeline of its own.
const Over = -1

const readyID = "ready"

// Ready is the moment when the last step is over and the bread is ready.
var Ready = Ref{Step: readyID}

// Mark says that a moment has been dealt with, and when.
type Mark struct {
	Ref     `json:",inline"`
	At      time.Time `json:"at"`
	Skipped bool      `json:"skipped,omitzero"`
}

// Shift moves a moment, and all that follows it, by some minutes; a turn moves
// alone, see [Plan.Timeline]. There is at most one for a moment.
type Shift struct {
	Ref `json:",inline"`
	By  Minutes `json:"byMinutes"`
}

// Clone copies the plan so that the copy shares nothing with it.
func (p Plan) Clone() Plan {
	p.Steps = slices.Clone(p.Steps)
	p.Marks = slices.Clone(p.Marks)
	p.Shifts = slices.Clone(p.Shifts)
	return p
}

// Length is the length of all steps as planned.
func (p Plan) Length() Minutes { return length(p.Steps) }

// ReadyAt is when the bread was planned to be ready.
func (p Plan) ReadyAt() time.Time { return p.Start.Add(p.Length().Duration()) }

func length(steps []Step) Minutes {
	var sum Minutes
	for _, s := range steps {
		sum += s.Length
	}
	return sum
}
