package plan

import "time"

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
	to := newStage(from.lo+least, from.hi()+most)
	if !q.backward {
		from = from.plus(func(at Minutes) int64 { return hours.begin(s, at) })
	}
	if s.Hands == HandsThroughout {
		q.tryAll(from, to, s, hours, least, most)
	} else {
		cost := q.minuteOf(s)
		from.slide(to, s.Length, max(least, s.Length), min(most, s.Length), 0)
		from.slide(to, s.Length, least, min(most, s.Length-1), cost)
		from.slide(to, s.Length, max(least, s.Length+1), most, -cost)
	}
	if q.backward {
		to = to.plus(func(at Minutes) int64 { return hours.begin(s, -at) })
	}
	return to
}

// minuteOf is the cost of changing the step by a minute. Of steps that would do
// as well, the one with the most room to move is changed: a quarter of an hour
// is little to a night in the cold and much to a rest.
func (q search) minuteOf(s Step) int64 {
	room := func(s Step) Minutes { least, most := s.Bounds(); return most - least }
	rank := 0
	for _, other := range q.steps {
		if room(other) > room(s) {
			rank++
		}
	}
	return costMinute + costRank*int64(min(rank, mostRank))
}

// tryAll takes every length from every minute: what a step that needs hands all
// the time costs depends on both its ends.
func (q search) tryAll(from, to stage, s Step, hours nightHours, least, most Minutes) {
	minute := q.minuteOf(s)
	for i, cost := range from.cost {
		if cost == never {
			continue
		}
		at := from.lo + Minutes(i)
		for length := least; length <= most; length++ {
			next, end := cost, at+length
			if length != s.Length {
				next += costStep + int64(max(length-s.Length, s.Length-length))*minute
			}
			if q.backward {
				next += hours.through(s, -end, -at)
			} else {
				next += hours.through(s, at, end)
			}
			to.reach(end, next, length)
		}
	}
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
