package plan

import "time"

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
