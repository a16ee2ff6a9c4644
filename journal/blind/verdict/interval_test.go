package verdict

import (
	"testing"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/sensory"
	"twinloaf/journal/stats"
)

// The interval is the one that the words state: it does not reach guessing where
// something was shown, and does where nothing was.
func TestIntervalIsThatOfTheWords(t *testing.T) {
	share := &sensory.Share{Telling: 0.5, Least: 0.17, Most: 0.77, Exact: stats.Limits{Lower: 0.1, Upper: 0.8}}
	one, two := blind.Plan{Method: blind.Triangle}, blind.Plan{Method: blind.Paired, Attribute: "sour"}
	if !one.OneSided() || two.OneSided() {
		t.Fatal("the plans are not what the test needs")
	}
	for _, c := range []struct {
		name      string
		v         Verdict
		plan      blind.Plan
		low, high float64
		ok        bool
	}{
		{"shown, one-sided", Verdict{Shown: true, Share: share}, one, 0.17, 1, true},
		{"not shown, one-sided", Verdict{Share: share}, one, 0, 0.77, true},
		{"two-sided", Verdict{Share: share}, two, 0.1, 0.8, true},
		{"no better than guessing", Verdict{Share: &sensory.Share{Most: 0.4}}, one, 0, 0, false},
		{"liking", Verdict{}, two, 0, 0, false},
	} {
		low, mid, high, ok := c.v.Interval(c.plan)
		if ok != c.ok || low != c.low || high != c.high {
			t.Errorf("%s: %v to %v, %v; want %v to %v, %v", c.name, low, high, ok, c.low, c.high, c.ok)
		}
		if ok && (mid < low || mid > high) {
			t.Errorf("%s: %v lies outside %v to %v", c.name, mid, low, high)
		}
	}
}
