package plan

import "math"

// Costs are ordered: first as few moments in the night as can be, then the
// anchor moved as little as can be, then as few minutes changed, then rather
// those of steps with much room to move than of others, then as few steps.
// Each unit outweighs all that can come together of the units below it, for
// there are at most mostSteps steps, mostTurns turns, a fortnight of room and
// two days for the anchor.
const (
	costStep   int64 = 1
	costRank   int64 = 1 << 6
	costMinute int64 = 1 << 24
	costAway   int64 = 1 << 40
	costNight  int64 = 1 << 52
	never      int64 = math.MaxInt64

	mostRank = 7
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

func (st stage) hi() Minutes { return st.lo + Minutes(len(st.cost)-1) }

// plus is the stage with a cost added to every minute reached.
func (st stage) plus(cost func(Minutes) int64) stage {
	out := stage{lo: st.lo, cost: make([]int64, len(st.cost)), by: st.by}
	for i, c := range st.cost {
		out.cost[i] = never
		if c != never {
			out.cost[i] = c + cost(st.lo+Minutes(i))
		}
	}
	return out
}

func (st stage) reach(at Minutes, cost int64, by Minutes) {
	if i := at - st.lo; cost < st.cost[i] {
		st.cost[i], st.by[i] = cost, by
	}
}

// slide takes every minute through lengths from shortest to longest, all of
// which lie on one side of the length planned, so that every minute changed
// costs the same: slope is that cost for the shorter side, minus that for the
// longer, 0 for the planned length itself. The cheapest minute to come from is
// then the least of a window that slides along, and each minute is looked at
// but twice.
func (from stage) slide(to stage, planned, shortest, longest Minutes, slope int64) {
	if shortest > longest {
		return
	}
	var step int64
	if slope != 0 {
		step = costStep
	}
	type candidate struct {
		at  Minutes
		key int64 // its cost, less the slope it shares with all others
	}
	var window []candidate
	next := from.lo
	for end := from.lo + shortest; end <= from.hi()+longest; end++ {
		for ; next <= min(end-shortest, from.hi()); next++ {
			cost := from.cost[next-from.lo]
			if cost == never {
				continue
			}
			c := candidate{next, cost + slope*int64(next)}
			for len(window) > 0 && window[len(window)-1].key >= c.key {
				window = window[:len(window)-1]
			}
			window = append(window, c)
		}
		for len(window) > 0 && window[0].at < end-longest {
			window = window[1:]
		}
		if len(window) > 0 {
			best := window[0]
			to.reach(end, best.key+slope*int64(planned-end)+step, end-best.at)
		}
	}
}
