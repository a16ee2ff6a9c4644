package plan

import (
	"time"
)

// Schedule is a plan made to measure, and what had to give for it.
type Schedule struct {
	Plan    Plan
	Night   Night
	Changes []Change
	// Broken lists what needs hands within the sleep hours and could not be
	// moved out of them. The plan has as few of these as can be.
	Broken []Moment
	// TooSoon says that the plan would have to begin before it may.
	TooSoon bool
	// Nearest is there when something is broken: the plan that keeps the sleep
	// hours free and begins, or is ready, least far from the time asked for;
	// Away is how far, positive for later. It is nil when none was found
	// within two days.
	Nearest *Plan
	Away    Minutes

	backward bool
}

// Change is a step whose length was changed to keep the sleep hours free.
type Change struct {
	Step     Step // with the length it has now
	From, To Minutes
}

// OK says whether the plan can be kept as it is.
func (s Schedule) OK() bool { return len(s.Broken) == 0 && !s.TooSoon }

// Forward plans the steps from a start. Steps that may be lengthened or
// shortened are, by as few minutes as will do, so that no moment that needs
// hands falls into the night.
func Forward(steps []Step, start time.Time, night Night) (Schedule, error) {
	return fit(search{steps: steps, anchor: start, night: night, later: twoDays})
}

// Backward plans the steps so that the bread is ready at a time, in the same
// way. The plan does not begin before notBefore, unless that is the zero time.
func Backward(steps []Step, ready, notBefore time.Time, night Night) (Schedule, error) {
	return fit(search{
		steps: steps, anchor: ready, night: night, backward: true, notBefore: notBefore,
		earlier: twoDays, later: twoDays,
	})
}

const twoDays Minutes = 2 * 24 * 60

func fit(q search) (Schedule, error) {
	if err := Check(q.steps); err != nil {
		return Schedule{}, err
	}
	if err := q.night.check(); err != nil {
		return Schedule{}, err
	}
	exact := q
	exact.earlier, exact.later = 0, 0
	found, ok := exact.best()
	out := Schedule{Night: q.night, backward: q.backward, TooSoon: !ok}
	if !ok {
		// Not even the shortest plan begins late enough: show that one.
		exact.notBefore = time.Time{}
		exact.shortest = true
		found, _ = exact.best()
	}
	out.Plan = found.plan(q)
	out.Changes = changes(q.steps, out.Plan.Steps)
	out.Broken = out.Plan.AtNight(q.night, time.Time{})
	if out.OK() {
		return out, nil
	}
	if near, ok := q.best(); ok {
		p := near.plan(q)
		if len(p.AtNight(q.night, time.Time{})) == 0 {
			out.Nearest, out.Away = &p, near.away
		}
	}
	return out, nil
}

func changes(before, after []Step) []Change {
	var out []Change
	for i, s := range after {
		if s.Length != before[i].Length {
			out = append(out, Change{Step: s, From: before[i].Length, To: s.Length})
		}
	}
	return out
}
