package plan

import (
	"fmt"
	"slices"
	"strconv"
	"time"

	"twinloaf/journal/say"
)

// The reasons why a moment cannot be marked or moved.
var (
	ErrNoSuchMoment = say.NewError("the plan has no such moment")
	ErrDealtWith    = say.NewError("that has been dealt with already")
	ErrTooEarly     = say.NewError("that would come before what goes before it")
)

// Done gives the plan with the moment marked as done at that time. An earlier
// mark of the same moment is replaced.
func (p Plan) Done(ref Ref, at time.Time) (Plan, error) {
	return p.withMark(Mark{Ref: ref, At: at})
}

// Skip gives the plan with the moment left out: a turn alone, or, at its
// beginning, a whole step with its turns.
func (p Plan) Skip(ref Ref, at time.Time) (Plan, error) {
	return p.withMark(Mark{Ref: ref, At: at, Skipped: true})
}

// unmark gives the plan without the moment's mark.
func (p Plan) unmark(ref Ref) Plan {
	out := p.Clone()
	out.Marks = slices.DeleteFunc(out.Marks, func(m Mark) bool { return m.Ref == ref })
	if len(out.Marks) == 0 {
		out.Marks = nil
	}
	return out
}

// Shift gives the plan with the moment, and all that follows, moved later by
// some minutes, or earlier when they are negative; a turn moves alone. Opposite shifts undo each
// other. A moment that was dealt with cannot be moved, nor one moved to before
// the moment that precedes it.
func (p Plan) Shift(ref Ref, by Minutes) (Plan, error) {
	gap, err := p.gap(ref)
	if err != nil {
		return p, err
	}
	if _, ok := p.mark(ref); ok {
		return p, &say.Error{Err: ErrDealtWith,
			Said: say.Of("{{.What}} cannot be moved: it has been dealt with already", say.With{"What": p.title(ref)})}
	}
	total := p.shift(ref) + by
	if gap+total < 0 {
		return p, &say.Error{Err: ErrTooEarly,
			Said: say.Of("{{.What}} cannot be moved by {{.By}}: it would come before what goes before it", say.With{"What": p.title(ref), "By": by.Line()})}
	}
	out := p.Clone()
	out.Shifts = slices.DeleteFunc(out.Shifts, func(s Shift) bool { return s.Ref == ref })
	if total != 0 {
		out.Shifts = append(out.Shifts, Shift{Ref: ref, By: total})
	}
	refs := p.refs()
	slices.SortFunc(out.Shifts, func(a, b Shift) int { return slices.Index(refs, a.Ref) - slices.Index(refs, b.Ref) })
	if len(out.Shifts) == 0 {
		out.Shifts = nil
	}
	return out, nil
}

// Later gives the plan with the moment put off by some minutes, counted from
// now when it is overdue already, and by how many it was moved in all: a shift
// by as many the other way undoes it.
func (p Plan) Later(ref Ref, by Minutes, now time.Time) (Plan, Minutes, error) {
	for _, m := range p.Timeline(now) {
		if m.Ref == ref && m.State == Pending && m.Due.Before(now) {
			over := now.Sub(m.Due)
			by += Minutes((over + time.Minute - 1) / time.Minute)
		}
	}
	out, err := p.Shift(ref, by)
	if err != nil {
		return p, 0, err
	}
	return out, by, nil
}

func (p Plan) withMark(m Mark) (Plan, error) {
	if p.place(m.Ref) < 0 {
		return p, fmt.Errorf("mark %s: %w", p.title(m.Ref), ErrNoSuchMoment)
	}
	out := p.unmark(m.Ref)
	out.Marks = append(out.Marks, m)
	slices.SortFunc(out.Marks, func(a, b Mark) int { return p.place(a.Ref) - p.place(b.Ref) })
	return out, nil
}

func (p Plan) mark(ref Ref) (Mark, bool) {
	for _, m := range p.Marks {
		if m.Ref == ref {
			return m, true
		}
	}
	return Mark{}, false
}

func (p Plan) shift(ref Ref) Minutes {
	for _, s := range p.Shifts {
		if s.Ref == ref {
			return s.By
		}
	}
	return 0
}

// gap is the planned length between the moment and the one before it. Before
// the first moment there is all the room one could want.
func (p Plan) gap(ref Ref) (Minutes, error) {
	before := longest
	for _, s := range p.Steps {
		if ref == (Ref{Step: s.ID}) {
			return before, nil
		}
		if ref.Step == s.ID && ref.Turn >= 1 && ref.Turn <= s.Turns {
			return s.Every, nil
		}
		before = s.Length - Minutes(s.Turns)*s.Every
	}
	if ref == Ready {
		return before, nil
	}
	return 0, fmt.Errorf("move %s: %w", p.title(ref), ErrNoSuchMoment)
}

// title is what the moment is called in a sentence.
func (p Plan) title(ref Ref) say.Line {
	if ref == Ready {
		return say.Of("Ready")
	}
	for _, s := range p.Steps {
		switch {
		case s.ID != ref.Step:
		case ref.Turn == 0 || ref.Turn == Over:
			return s.Line()
		default:
			return turnTitle(ref.Turn, s.Turns)
		}
	}
	return named(strconv.Quote(ref.Step))
}
