package plan

import "time"

// A Stand is the one thing of a day to look out for: the step that runs, where its length
// matters, or else what comes next.
type Stand struct {
	Moment
	// Runs says that the step has begun and is not over; ByClock that it began by itself
	// when it was due, and nobody said so.
	Runs, ByClock bool
	// Until is when it is to be over while it runs, and else when it is due.
	Until time.Time
	// Then is what comes after it, where More is up.
	Then Moment
	More bool
}

// Left is the time until what is looked out for: negative when it is overdue.
func (s Stand) Left(now time.Time) time.Duration { return s.Until.Sub(now) }

// Since is when the step that runs began.
func (s Stand) Since() time.Time { return s.when(s.Due) }

// Stand gives where the day stands at now; false when it is over.
func (p Plan) Stand(now time.Time) (Stand, bool) {
	timeline := p.Timeline(now)
	for i, m := range timeline {
		if m.State != Pending {
			continue
		}
		if i > 0 {
			if before := timeline[i-1]; before.runs() {
				return Stand{Moment: before, Runs: true, ByClock: before.State == Passed, Until: m.Due, Then: m, More: true}, true
			}
		}
		s := Stand{Moment: m, Until: m.Due}
		if s.More = i+1 < len(timeline); s.More {
			s.Then = timeline[i+1]
		}
		return s, true
	}
	if n := len(timeline) - 1; n > 0 && timeline[n].State == Passed && timeline[n-1].runs() {
		// The end of it all came by itself, and what runs is not said to be over.
		last := timeline[n-1]
		return Stand{Moment: last, Runs: true, ByClock: last.State == Passed, Until: timeline[n].Due, Then: timeline[n], More: true}, true
	}
	return Stand{}, false
}

// runs says that the step that began here goes on until it is said to be over.
func (m Moment) runs() bool {
	return m.Turn == 0 && m.Kind.timed() && !m.Ended && (m.State == Done || m.State == Passed)
}

// Press does what is looked out for: it marks the step that runs as over, or else what
// comes next as done, which for a step is its beginning.
func (p Plan) Press(s Stand, at time.Time) (Plan, error) {
	if s.Runs {
		return p.Done(Ref{Step: s.Step, Turn: Over}, at)
	}
	return p.Done(s.Ref, at)
}

// Begins says that to press it is to begin something: else something is done by that.
func (s Stand) Begins() bool { return !s.Runs && s.Turn == 0 && s.Ref != Ready }

// LeaveOut leaves out what comes next. The end of it all cannot be left out, and is done
// instead; what runs is over by that.
func (p Plan) LeaveOut(s Stand, at time.Time) (Plan, error) {
	if s.Runs || s.Ref == Ready {
		return p.Press(s, at)
	}
	return p.Skip(s.Ref, at)
}

// PutOff puts what comes next off by some minutes, see [Plan.Later]; what runs goes on for
// that long.
func (p Plan) PutOff(s Stand, by Minutes, now time.Time) (Plan, error) {
	ref := s.Ref
	if s.Runs {
		ref = s.Then.Ref
	}
	out, _, err := p.Later(ref, by, now)
	return out, err
}
