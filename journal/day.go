package journal

import (
	"slices"
	"time"

	"twinloaf/journal/plan"
)

// HandsNone is the [Step.Hands] of a step that needs no hands, whatever is
// usual for its kind.
const HandsNone plan.Hands = "none"

// A bake's day is kept in its steps alone: as planned, as it went, and what was
// put off. The plan that is reckoned with is made of them each time.

// Day gives the plan of a bake and what has happened of it so far. It says
// false when the steps were only written down, and never planned.
func (b *Bake) Day() (plan.Plan, bool) {
	if len(b.Steps) == 0 || !slices.ContainsFunc(b.Steps, func(s Step) bool { return s.Planned > 0 }) {
		return plan.Plan{}, false
	}
	p := plan.Plan{ID: string(b.ID), Name: b.Name, Start: b.Steps[0].PlannedAt, Steps: PlanSteps(b.Steps)}
	if p.Start.IsZero() {
		p.Start = b.At
	}
	for i, s := range b.Steps {
		p.Marks = append(p.Marks, s.marks()...)
		p.Shifts = append(p.Shifts, s.shifts()...)
		if last := i == len(b.Steps)-1; last && !s.End.IsZero() {
			p.Marks = append(p.Marks, plan.Mark{Ref: plan.Ready, At: s.End})
		}
	}
	return p, true
}

// PlanSteps gives steps for planning with. A step without a planned length has
// the one that it took.
func PlanSteps(steps []Step) []plan.Step {
	out := make([]plan.Step, len(steps))
	for i, s := range steps {
		length := s.Planned
		if length == 0 {
			length = s.Length()
		}
		out[i] = plan.Step{
			ID: string(s.ID), Kind: plan.Kind(s.Kind), Name: s.Name, Note: s.Advice,
			Length: wholeMinutes(length), Min: wholeMinutes(s.Min), Max: wholeMinutes(s.Max), Hands: s.hands(),
		}
		if s.Times > 0 {
			// A step with turns in it is one of turns, whatever it is called.
			out[i].Kind, out[i].Turns, out[i].Every = plan.Turns, s.Times, wholeMinutes(s.Every)
		}
	}
	return out
}

func wholeMinutes(d time.Duration) plan.Minutes {
	return plan.Minutes(d.Round(time.Minute) / time.Minute)
}

func (s Step) hands() plan.Hands {
	switch s.Hands {
	case "":
		return plan.UsualHands(plan.Kind(s.Kind))
	case HandsNone:
		return plan.HandsOff
	}
	return s.Hands
}

// marks are what has happened of the step.
func (s Step) marks() []plan.Mark {
	var out []plan.Mark
	switch begin := (plan.Ref{Step: string(s.ID)}); {
	case s.Skipped:
		return []plan.Mark{{Ref: begin, Skipped: true}}
	case !s.At.IsZero():
		out = append(out, plan.Mark{Ref: begin, At: s.At})
	}
	done := s.Done
	for n := 1; n <= s.Times; n++ {
		ref := plan.Ref{Step: string(s.ID), Turn: n}
		switch {
		case slices.Contains(s.Missed, n):
			out = append(out, plan.Mark{Ref: ref, Skipped: true})
		case len(done) > 0:
			out = append(out, plan.Mark{Ref: ref, At: done[0]})
			done = done[1:]
		}
	}
	if s.Ended && !s.End.IsZero() {
		out = append(out, plan.Mark{Ref: plan.Ref{Step: string(s.ID), Turn: plan.Over}, At: s.End})
	}
	return out
}

func (s Step) shifts() []plan.Shift {
	var out []plan.Shift
	for _, o := range s.PutOff {
		ref := plan.Ref{Step: string(s.ID), Turn: o.Turn}
		if o.Turn == dayEnd {
			ref = plan.Ready
		}
		out = append(out, plan.Shift{Ref: ref, By: wholeMinutes(o.By)})
	}
	return out
}

// SetPlan takes over the times and lengths of a plan for the steps with the
// same IDs, and forgets when they began, ended or were put off: see [Wishes]. The bake begins
// when the plan does.
func (b *Bake) SetPlan(p plan.Plan) {
	at := p.Start
	for _, ps := range p.Steps {
		if i := stepAt(b.Steps, ps.ID); i >= 0 {
			s := b.Steps[i].asPlanned()
			wished := s.Planned
			s.PlannedAt, s.Planned = at, ps.Length.Duration()
			if s.Planned != wished {
				s.Wished = wished
			}
			b.Steps[i] = s
		}
		at = at.Add(ps.Length.Duration())
	}
	b.At, b.Ready = p.Start, outOfOven(p)
}

// outOfOven is when a plan takes the bread out: when it begins to cool, or at
// its end.
func outOfOven(p plan.Plan) time.Time {
	at := p.Start
	for _, s := range p.Steps {
		if s.Kind == plan.Cool {
			return at
		}
		at = at.Add(s.Length.Duration())
	}
	return at
}

// Wishes gives the steps as the baker would have them, to be planned anew: at
// the lengths wished for, and without when they began, ended or were put off. What was
// noted or measured stays.
func Wishes(steps []Step) []Step {
	out := make([]Step, 0, len(steps))
	for _, s := range steps {
		out = append(out, s.asPlanned())
	}
	return out
}

// asPlanned is the step as it was wished for: see [Wishes].
func (s Step) asPlanned() Step {
	switch {
	case s.Wished > 0:
		s.Planned, s.Wished = s.Wished, 0
	case s.Planned == 0:
		s.Planned = s.Length().Round(time.Minute)
	}
	s.PlannedAt, s.At, s.End = time.Time{}, time.Time{}, time.Time{}
	s.Ended, s.Skipped, s.Done, s.Missed, s.PutOff, s.Weighed = false, false, nil, nil, nil, nil
	return s
}

// SetDay takes over what has happened from a plan that [Bake.Day] gave. Steps
// that began by themselves are taken to have begun when they were due, and each step
// to have ended when the next began.
func (b *Bake) SetDay(p plan.Plan) {
	was := make([][]PutOff, len(b.Steps))
	for i := range b.Steps {
		was[i] = b.Steps[i].PutOff
		b.Steps[i].Done, b.Steps[i].Missed, b.Steps[i].PutOff = nil, nil, nil
	}
	for _, m := range p.Marks {
		b.mark(m)
	}
	for _, s := range p.Shifts {
		b.putOff(s, was)
	}
	ended := -1 // the step that the next one to begin puts an end to
	for _, m := range p.Timeline(time.Time{}) {
		if m.Turn > 0 {
			continue
		}
		at, began := m.At, m.State == plan.Done
		if m.State == plan.Passed && m.Ref != plan.Ready {
			at, began = m.Due, true
		}
		if began && ended >= 0 && b.Steps[ended].End.IsZero() {
			b.Steps[ended].End = at
		}
		i := stepAt(b.Steps, m.Step)
		if !began || i < 0 {
			continue
		}
		ended = i
		if b.Steps[i].At.IsZero() {
			b.Steps[i].At = at
		}
	}
	b.outOfOven()
}

// outOfOven notes when the bread came out, once that is known.
func (b *Bake) outOfOven() {
	for i, s := range b.Steps {
		switch {
		case plan.Kind(s.Kind) == plan.Cool && !s.At.IsZero():
			b.Ready = s.At
			return
		case i == len(b.Steps)-1 && plan.Kind(s.Kind) != plan.Cool && !s.End.IsZero():
			b.Ready = s.End
		}
	}
}

func (b *Bake) mark(m plan.Mark) {
	if len(b.Steps) == 0 {
		return
	}
	if m.Ref == plan.Ready {
		b.Steps[len(b.Steps)-1].End = m.At
		return
	}
	i := stepAt(b.Steps, m.Step)
	if i < 0 {
		return
	}
	s := &b.Steps[i]
	switch {
	case m.Turn == plan.Over:
		s.End, s.Ended = m.At, true
	case m.Turn == 0 && m.Skipped:
		s.Skipped, s.At = true, time.Time{}
	case m.Turn == 0:
		s.Skipped, s.At = false, m.At
	case m.Skipped:
		s.Missed = append(s.Missed, m.Turn)
	default:
		s.Done = append(s.Done, m.At)
	}
}

// putOff notes a shift; was are the ones noted before it, by step.
func (b *Bake) putOff(s plan.Shift, was [][]PutOff) {
	i, turn := stepAt(b.Steps, s.Step), s.Turn
	if s.Ref == plan.Ready {
		i, turn = len(b.Steps)-1, dayEnd
	}
	if i < 0 {
		return
	}
	o := PutOff{Turn: turn}
	if k := slices.IndexFunc(was[i], func(o PutOff) bool { return o.Turn == turn }); k >= 0 {
		o = was[i][k]
	}
	o.By = s.By.Duration()
	b.Steps[i].PutOff = append(b.Steps[i].PutOff, o)
}

func stepAt(steps []Step, id string) int {
	return slices.IndexFunc(steps, func(s Step) bool { return string(s.ID) == id })
}
