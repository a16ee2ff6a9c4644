package verdict

import "twinloaf/journal/blind"

// Interval gives the share of those who can tell between the limits that [Verdict.Words]
// state: from 0, what guessing gives, to 1. Where the test is one-sided one end is open
// and stands at 0 or 1. It is false where no share is given.
func (v Verdict) Interval(plan blind.Plan) (low, share, high float64, ok bool) {
	switch s := v.Share; {
	case s == nil || s.Telling == 0:
		return 0, 0, 0, false
	case !plan.OneSided():
		return s.Exact.Lower, s.Telling, s.Exact.Upper, true
	case v.Shown:
		return s.Least, s.Telling, 1, true
	default:
		return 0, s.Telling, s.Most, true
	}
}
