package plan

import (
	"slices"
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
	through  Step // that the plan was made around, at which time; zero for none
	at       time.Time
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

// Through plans the steps around one of them, which begins at a time: what comes before it
// ends there, planned as by [Backward], and what comes after goes on from there, as by
// [Forward]. So the hours at which a levain is ripe, as the bounds of its step, join its
// build to the mixing: either of the two is chosen and the other follows.
func Through(steps []Step, id string, at, notBefore time.Time, night Night) (Schedule, error) {
	i := slices.IndexFunc(steps, func(s Step) bool { return s.ID == id })
	if i <= 0 {
		return Forward(steps, at, night)
	}
	if err := Check(steps); err != nil {
		return Schedule{}, err
	}
	out, err := through(steps, i, at, notBefore, night)
	if err != nil || out.OK() {
		return out, err
	}
	// The nearest time at which it can be kept, looked for to a quarter of an hour.
	for away := quarter; away <= twoDays; away += quarter {
		for _, by := range []Minutes{away, -away} {
			near, err := through(steps, i, at.Add(by.Duration()), notBefore, night)
			if err != nil {
				return out, err
			}
			if near.OK() {
				out.Nearest, out.Away = &near.Plan, by
				return out, nil
			}
		}
	}
	return out, nil
}

const quarter Minutes = 15

// through joins the plan of what comes before the i-th step to the plan of the others.
func through(steps []Step, i int, at, notBefore time.Time, night Night) (Schedule, error) {
	before, err := exactly(search{steps: steps[:i], anchor: at, night: night, backward: true, notBefore: notBefore})
	if err != nil {
		return Schedule{}, err
	}
	after, err := exactly(search{steps: steps[i:], anchor: at, night: night})
	if err != nil {
		return Schedule{}, err
	}
	out := Schedule{Night: night, TooSoon: before.TooSoon, through: steps[i], at: at}
	out.Plan = Plan{Start: before.Plan.Start, Steps: slices.Concat(before.Plan.Steps, after.Plan.Steps)}
	out.Changes = changes(steps, out.Plan.Steps)
	out.Broken = out.Plan.AtNight(night, time.Time{})
	return out, nil
}

const twoDays Minutes = 2 * 24 * 60

func fit(q search) (Schedule, error) {
	if err := Check(q.steps); err != nil {
		return Schedule{}, err
	}
	out, err := exactly(q)
	if err != nil || out.OK() {
		return out, err
	}
	if near, ok := q.best(); ok {
		p := near.plan(q)
		if len(p.AtNight(q.night, time.Time{})) == 0 {
			out.Nearest, out.Away = &p, near.away
		}
	}
	return out, nil
}

// exactly plans the steps with the anchor where it is.
func exactly(q search) (Schedule, error) {
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
