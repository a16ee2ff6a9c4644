package demo

import (
	"time"

	"twinloaf/journal"
	"twinloaf/journal/plan"
)

// steps lays out a bread's day from the mixing on, as it is planned. cold is
// the hours in the refrigerator, which matters to breads that rest there.
func (s *story) steps(d *bread, mix time.Time, cold float64) []journal.Step {
	var out []journal.Step
	at := mix
	add := func(kind plan.Kind, length float64, least, most float64) *journal.Step {
		st := journal.Step{ID: s.id(mix), Kind: string(kind), PlannedAt: at, Planned: minutes(length)}
		if most > 0 {
			st.Min, st.Max = minutes(least), minutes(most)
		}
		at = at.Add(st.Planned)
		out = append(out, st)
		return &out[len(out)-1]
	}
	if d.built {
		ripens := 8.0
		if mix.Hour() < 9 { // set the evening before, not in the night
			ripens = 10
		}
		at = mix.Add(-hours(ripens))
		add(plan.Levain, ripens*60, 6*60, 12*60)
	}
	add(plan.Mix, 15, 0, 0)
	switch {
	case d.ryeShare() > 50:
		add(plan.Bulk, 90, 60, 120)
		add(plan.Divide, 15, 0, 0)
		add(plan.Proof, 75, 45, 120).Name = "Proof in the tin"
	default:
		add(plan.Rest, 30, 20, 60)
		turns := add(plan.Turns, 150, 0, 0)
		turns.Every, turns.Times = 30*time.Minute, 5
		add(plan.Bulk, 60, 30, 150)
		add(plan.PreShape, 5, 0, 0)
		add(plan.BenchRest, 15, 10, 30)
		add(plan.Divide, 10, 0, 0)
		if d.cold {
			add(plan.ColdRest, cold*60, 8*60, 36*60)
		} else {
			add(plan.Proof, 100, 60, 150).Name = "Proof in the tin"
		}
	}
	add(plan.Heat, 45, 0, 0)
	add(plan.BakeCovered, 20, 0, 0)
	add(plan.BakeUncovered, 25, 0, 0)
	add(plan.Cool, 120, 60, 240)
	return out
}

// carryOut fills in how a planned day went: each step a little early or late,
// and longer where the dough was cold.
func (s *story) carryOut(steps []journal.Step, doughC float64) {
	var slip time.Duration
	for i := range steps {
		st := &steps[i]
		st.At = st.PlannedAt.Add(slip)
		length := st.Planned
		switch plan.Kind(st.Kind) {
		case plan.Bulk:
			length += minutes(round(clamp(9*(25-doughC), -25, 45), 5))
		case plan.Mix, plan.Divide:
			length += minutes(float64(s.rng.IntN(9) - 2))
		case plan.ColdRest, plan.Levain:
			length += minutes(round(s.scatter(0, 10), 1)) - slip // the morning has its own clock
		}
		if st.Times > 0 {
			s.turn(st)
			length = st.Done[len(st.Done)-1].Sub(st.At)
		}
		st.End = st.At.Add(length)
		slip = st.End.Sub(st.PlannedAt.Add(st.Planned))
		s.measure(st, doughC)
	}
}

// turn notes when each turn was made, a few minutes off at most.
func (s *story) turn(st *journal.Step) {
	at := st.At
	for range st.Times {
		at = at.Add(st.Every + minutes(float64(s.rng.IntN(7)-2)))
		st.Done = append(st.Done, at)
	}
}

// measure notes the temperatures and the rise that belong to a step.
func (s *story) measure(st *journal.Step, doughC float64) {
	switch plan.Kind(st.Kind) {
	case plan.Mix:
		st.Dough = new(celsius(doughC))
		st.Air = new(celsius(s.galley(st.At)))
	case plan.Bulk:
		st.Dough = new(celsius(doughC + 0.35*(s.galley(st.End)-doughC)))
		st.Rise = new(round(clamp(s.scatter(1.55+0.035*(doughC-25), 0.1), 1.2, 2), 0.05))
	case plan.ColdRest:
		st.Air = new(celsius(s.scatter(4.4, 0.5)))
	case plan.BakeCovered:
		st.Air = new(celsius(round(s.scatter(246, 4), 1)))
	case plan.BakeUncovered:
		st.Air = new(celsius(round(s.scatter(226, 4), 1)))
	}
}
