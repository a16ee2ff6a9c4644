package plan

import (
	"slices"
	"time"

	"twinloaf/journal/say"
)

// State says what has become of a moment.
type State int

// The states.
const (
	Pending State = iota // still to come, or due and not dealt with
	Passed               // over without a mark: it needed no hands, or nobody noted it
	Done                 // marked as done
	Skipped              // marked as left out, or part of a step that was
)

// Moment is a point of the day at which something begins or has to be done.
type Moment struct {
	Ref
	Kind  Kind
	Title say.Line // what it is called: "Divide and shape", "Fold 3 of 6", "Ready"
	Note  string
	Hands bool // the baker is needed
	State State

	// Due is when it is expected, with all that has happened taken into
	// account; At is when it happened, if it was marked as done.
	Due time.Time
	At  time.Time
	// End is when the step that begins here is expected to be over, or was, where Ended is
	// up. For turns and for the end of the plan it is the same as Due.
	End   time.Time
	Ended bool
}

// Left is the time until the moment is due: negative when it is overdue.
func (m Moment) Left(now time.Time) time.Duration { return m.Due.Sub(now) }

// when is the time that what follows is reckoned from.
func (m Moment) when(now time.Time) time.Time {
	switch {
	case m.State == Done:
		return m.At
	case m.State == Pending && m.Hands && m.Due.Before(now):
		return now
	}
	return m.Due
}

// Timeline lists the moments of the plan in their order, as expected at now.
//
// Marks move what follows: a dough mixed ten minutes late is shaped ten minutes later. But
// a dough ferments by the clock: rest, turns and bulk that follow one another are over at
// their time whenever the turns among them are made. A turn that is late, or put off,
// moves the others only as far as leaves half of the time between two, and a turn left out
// moves none. A skipped step takes no time. A moment that needs no hands passes by itself.
// One that does, and is overdue, holds back what follows until it is dealt with, unless
// something later has been marked already. With the zero time nothing is overdue and
// nothing passes: that is the plan as marks and shifts have left it.
func (p Plan) Timeline(now time.Time) []Moment {
	w := walk{plan: p, now: now, marked: p.lastMarked(), at: p.Start, clock: p.Start}
	for _, s := range p.Steps {
		w.step(s)
	}
	w.moment(Moment{Ref: Ready, Title: say.Of("Ready")}, w.clock.Add(p.shift(Ready).Duration()))
	cutShort(w.out)
	return w.out
}

// cutShort ends each step at the latest when one after it has begun.
func cutShort(moments []Moment) {
	var begun time.Time
	for i := len(moments) - 1; i >= 0; i-- {
		m := &moments[i]
		if m.Turn != 0 {
			continue
		}
		if !begun.IsZero() && m.End.After(begun) {
			m.End = later(begun, m.when(time.Time{}))
		}
		if m.State == Done && (begun.IsZero() || m.At.Before(begun)) {
			begun = m.At
		}
	}
}

// walk goes through a plan and keeps the time.
type walk struct {
	plan    Plan
	now     time.Time
	marked  int       // index of the last moment with a mark, -1 for none
	at      time.Time // when the last moment happened or is expected to
	clock   time.Time // when the next step is due by the lengths of those before it
	rising  bool      // the step before is one of those by the clock
	waiting bool      // a moment before this one is still pending
	out     []Moment
}

// byClock says that the step goes on from one of its sort by the clock, whenever it was
// marked as begun.
func (s Step) byClock() bool {
	return s.Hands == HandsOff && (s.Kind == Rest || s.Kind == Turns || s.Kind == Bulk)
}

func (w *walk) step(s Step) {
	due := w.clock.Add(w.plan.shift(Ref{Step: s.ID}).Duration())
	begin := w.moment(Moment{
		Ref: Ref{Step: s.ID}, Kind: s.Kind, Title: s.Line(), Note: s.Note,
		Hands: s.Hands != HandsOff,
	}, due)
	first, from := len(w.out)-1, w.at
	if begin == Skipped {
		w.clock = w.at
		for i := range s.Turns {
			turn := s.turn(i + 1)
			turn.State, turn.Due, turn.End = Skipped, w.at, w.at
			w.out = append(w.out, turn)
		}
		return
	}
	if w.rising && s.byClock() {
		from = due
	}
	var last time.Time // a turn that was or will be made
	for i := range s.Turns {
		turn := s.turn(i + 1)
		due := from.Add((Minutes(i+1)*s.Every + w.plan.shift(turn.Ref)).Duration())
		if soonest := last.Add(s.Every.Duration() / 2); !last.IsZero() && due.Before(soonest) {
			due = soonest
		}
		if w.moment(turn, due) != Skipped {
			last = w.at
		}
	}
	w.clock, w.rising = from.Add(s.Length.Duration()), s.byClock()
	if over, ok := w.plan.mark(Ref{Step: s.ID, Turn: Over}); ok {
		w.clock, w.out[first].Ended = later(over.At, w.at), true
	}
	w.out[first].End = w.clock
	if w.at.After(w.clock) {
		w.out[first].End = w.at
	}
}

func (s Step) turn(n int) Moment {
	return Moment{Ref: Ref{Step: s.ID, Turn: n}, Kind: s.Kind, Title: turnTitle(n, s.Turns), Note: s.Note, Hands: true}
}

// moment places m when it is due, but not before the last one, and says what became of it.
func (w *walk) moment(m Moment, due time.Time) State {
	if due.Before(w.at) {
		due = w.at
	}
	m.Due = due
	mark, ok := w.plan.mark(m.Ref)
	switch {
	case ok && mark.Skipped:
		m.State = Skipped
	case ok:
		m.State, m.At = Done, mark.At
	case len(w.out) < w.marked:
		m.State = Passed
	case !m.Hands && !w.waiting && !w.now.IsZero() && !due.After(w.now):
		m.State = Passed
	default:
		m.State = Pending
		w.waiting = true
	}
	w.at = m.when(w.now)
	m.End = m.Due
	w.out = append(w.out, m)
	return m.State
}

// Next gives the moment to look out for at now: the first that is pending. It
// says false when the day is over.
func (p Plan) Next(now time.Time) (Moment, bool) {
	for _, m := range p.Timeline(now) {
		if m.State == Pending {
			return m, true
		}
	}
	return Moment{}, false
}

// lastMarked is the place in the timeline of the last moment with a mark. A step that was
// marked as over has begun, marked or not.
func (p Plan) lastMarked() int {
	last := -1
	for i, ref := range p.refs() {
		if _, ok := p.mark(ref); ok {
			last = i
		}
		if _, over := p.mark(Ref{Step: ref.Step, Turn: Over}); over && ref.Turn == 0 {
			last = max(last, i+1)
		}
	}
	return last
}

// place orders what can be marked: the end of a step comes after its turns.
func (p Plan) place(ref Ref) int {
	refs := p.refs()
	if ref.Turn != Over {
		return 2 * slices.Index(refs, ref)
	}
	last := -1
	for i, r := range refs {
		if r.Step == ref.Step {
			last = i
		}
	}
	return 2*last + 1
}

// refs lists every moment's name in the order of the timeline.
func (p Plan) refs() []Ref {
	var out []Ref
	for _, s := range p.Steps {
		out = append(out, Ref{Step: s.ID})
		for i := range s.Turns {
			out = append(out, Ref{Step: s.ID, Turn: i + 1})
		}
	}
	return append(out, Ready)
}
