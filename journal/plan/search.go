package plan

import (
	"math"
	"time"
)

// search looks for the lengths of the steps that keep the night free at the
// least cost. It walks the steps away from the anchor, forward from a start or
// backward from the time of being ready, and keeps for every minute that can
// be reached the cheapest way to reach it.
type search struct {
	steps     []Step
	anchor    time.Time
	night     Night
	backward  bool
	notBefore time.Time
	shortest  bool // every step at its least

	// The anchor itself may move this much, at a price above any change.
	earlier, later Minutes
}

// found is what a search came to.
type found struct {
	lengths []Minutes // by step
	away    Minutes   // how far the anchor was moved
}

// Costs are ordered: first as few moments in the night as can be, then the
// anchor moved as little as can be, then as few minutes changed, then as few
// steps. Each unit outweighs all that can come together of the units below it.
const (
	costStep   int64 = 1
	costMinute int64 = 1 << 6
	costAway   int64 = 1 << 24
	costNight  int64 = 1 << 40
	never      int64 = math.MaxInt64
)

// stage is the cheapest cost of reaching each minute from lo on, and by what
// length of the step before it.
type stage struct {
	lo   Minutes
	cost []int64
	by   []Minutes
}

func newStage(lo, hi Minutes) stage {
	st := stage{lo: lo, cost: make([]int64, hi-lo+1), by: make([]Minutes, hi-lo+1)}
	for i := range st.cost {
		st.cost[i] = never
	}
	return st
}

func (st stage) reach(at Minutes, cost int64, by Minutes) {
	if i := at - st.lo; cost < st.cost[i] {
		st.cost[i], st.by[i] = cost, by
	}
}

// best gives the cheapest lengths, and false when no plan begins late enough.
func (q search) best() (found, bool) {
	order := q.order()
	stages := make([]stage, len(order)+1)
	stages[0] = newStage(-q.earlier, q.later)
	if q.backward {
		// Elapsed time counts backward, so a later anchor is a negative one.
		stages[0] = newStage(-q.later, q.earlier)
	}
	for i := range stages[0].cost {
		away := stages[0].lo + Minutes(i)
		stages[0].cost[i] = int64(max(away, -away)) * costAway
	}
	hours := q.hours()
	for i, s := range order {
		stages[i+1] = q.advance(stages[i], s, hours)
	}
	end, ok := q.cheapestEnd(stages[len(order)])
	if !ok {
		return found{}, false
	}
	out := found{lengths: make([]Minutes, len(order))}
	for i := len(order) - 1; i >= 0; i-- {
		by := stages[i+1].by[end-stages[i+1].lo]
		out.lengths[q.index(i)] = by
		end -= by
	}
	out.away = end
	if q.backward {
		out.away = -end
	}
	return out, true
}

// advance takes every minute reached so far through one more step.
func (q search) advance(from stage, s Step, hours nightHours) stage {
	least, most := s.Bounds()
	if q.shortest {
		most = least
	}
	to := newStage(from.lo+least, from.lo+Minutes(len(from.cost)-1)+most)
	atStart := make([]int64, len(to.cost))
	if q.backward {
		for i := range atStart {
			atStart[i] = hours.begin(s, -(to.lo + Minutes(i)))
		}
	}
	for i, cost := range from.cost {
		if cost == never {
			continue
		}
		at := from.lo + Minutes(i)
		if !q.backward {
			cost += hours.begin(s, at)
		}
		for length := least; length <= most; length++ {
			next := cost
			if length != s.Length {
				next += costStep + int64(max(length-s.Length, s.Length-length))*costMinute
			}
			end := at + length
			if q.backward {
				next += atStart[end-to.lo] + hours.through(s, -end, -at)
			} else {
				next += hours.through(s, at, end)
			}
			to.reach(end, next, length)
		}
	}
	return to
}

// cheapestEnd picks where to end among the minutes reached by all steps.
func (q search) cheapestEnd(last stage) (Minutes, bool) {
	best, at := never, Minutes(0)
	for i, cost := range last.cost {
		end := last.lo + Minutes(i)
		if q.backward && !q.notBefore.IsZero() && q.anchor.Add(-end.Duration()).Before(q.notBefore) {
			break
		}
		if cost < best {
			best, at = cost, end
		}
	}
	return at, best != never
}

func (q search) order() []Step {
	out := make([]Step, len(q.steps))
	for i := range out {
		out[i] = q.steps[q.index(i)]
	}
	return out
}

// index is the place among the steps of the i-th that is walked.
func (q search) index(i int) int {
	if q.backward {
		return len(q.steps) - 1 - i
	}
	return i
}

// plan makes the plan of what was found.
func (f found) plan(q search) Plan {
	p := Plan{Start: q.anchor.Add(f.away.Duration()), Steps: make([]Step, len(q.steps))}
	copy(p.Steps, q.steps)
	for i := range p.Steps {
		p.Steps[i].Length = f.lengths[i]
	}
	if q.backward {
		p.Start = p.Start.Add(-p.Length().Duration())
	}
	return p
}

// nightHours are the nights around an anchor in seconds away from it: whole
// numbers, so that millions of minutes are looked up in no time.
type nightHours []struct{ from, to int64 }

// hours lists every night that any plan of the search could touch.
func (q search) hours() nightHours {
	reach := q.earlier + q.later
	for _, s := range q.steps {
		_, most := s.Bounds()
		reach += most
	}
	a, b := q.anchor.Add(-reach.Duration()), q.anchor.Add(reach.Duration())
	var out nightHours
	for _, n := range q.night.between(a, b) {
		out = append(out, struct{ from, to int64 }{seconds(n.from.Sub(q.anchor)), seconds(n.to.Sub(q.anchor))})
	}
	return out
}

// seconds rounds up: a night that begins or ends between two seconds is moved
// to the next whole one, which holds for every minute counted from the anchor.
func seconds(d time.Duration) int64 {
	s := int64(d / time.Second)
	if time.Duration(s)*time.Second < d {
		s++
	}
	return s
}

// begin is the cost of the step's own moments when it begins at a minute.
func (h nightHours) begin(s Step, at Minutes) int64 {
	var cost int64
	if s.Hands == HandsAtStart && h.touches(at, at) {
		cost += costNight
	}
	for i := range s.Turns {
		if t := at + Minutes(i+1)*s.Every; h.touches(t, t) {
			cost += costNight
		}
	}
	return cost
}

// through is the cost of a step that needs hands all the time.
func (h nightHours) through(s Step, from, to Minutes) int64 {
	if s.Hands == HandsThroughout && h.touches(from, to) {
		return costNight
	}
	return 0
}

func (h nightHours) touches(from, to Minutes) bool {
	f, t := int64(from)*60, int64(to)*60
	for _, n := range h {
		if f < n.to && (t > n.from || f >= n.from) {
			return true
		}
	}
	return false
}
