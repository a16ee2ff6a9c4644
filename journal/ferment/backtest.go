package ferment

import (
	"math"
	"slices"
	"time"
)

// Miss is one earlier prediction, made at the feeding from what had been written down
// by then, beside what happened.
type Miss struct {
	ID        string
	Fed       time.Time
	Predicted Span
	Actual    Span          // the top, as the readings of that feeding alone tell it
	Off       time.Duration // actual less predicted: positive if the peak came later
	Inside    bool          // the peak fell into the 80 % interval
	Basis     Basis
}

// BackTest is how far off a culture's last predictions were that were made so long after
// the feeding.
type BackTest struct {
	After  time.Duration
	Misses []Miss        // oldest first
	Median time.Duration // of how far off, early or late
	Inside int
}

// Back predicts, of the last 3n feedings, the last n whose peak was seen, each from those before it,
// as it would have been done so long after the feeding: with nothing but what had been
// written down by that moment, so with no reading and no temperature that came later.
// There is one answer for each of after; a feeding that had peaked by then does not
// count in it. Courses are oldest first.
func Back(a Assumptions, courses []Course, n int, after ...time.Duration) []BackTest {
	f := NewForecaster(a, nil)
	tests := make([]BackTest, len(after))
	for k, d := range after {
		tests[k].After = d
	}
	for i, c := range courses {
		if i >= len(courses)-3*n { // of more there is no need to look for n that were followed
			if top, ok := f.hourless().seen(c); ok {
				for k := range tests {
					tests[k].try(f, c, top)
				}
			}
		}
		f.Learn(c)
	}
	for k := range tests {
		t := &tests[k]
		t.Misses = t.Misses[max(0, len(t.Misses)-n):]
		t.sum()
	}
	return tests
}

// try predicts one feeding whose top is known.
func (t *BackTest) try(f *Forecaster, c Course, top Span) {
	now := c.Feeding.At.Add(t.After)
	if !top.Mid.After(now) {
		return
	}
	p, err := f.predict(c.known(now), now, false)
	if err != nil {
		return
	}
	t.Misses = append(t.Misses, Miss{
		ID: c.Feeding.ID, Fed: c.Feeding.At, Predicted: p.Peak, Actual: top, Off: top.Mid.Sub(p.Peak.Mid),
		Inside: !top.Mid.Before(p.Peak.Low) && !top.Mid.After(p.Peak.High), Basis: p.Basis,
	})
}

// hourless is a forecaster that keeps what was learned of the form of the rise and forgets
// what was learned of its hours, so that what it makes of a feeding's readings does not
// lean towards what was foretold.
func (f *Forecaster) hourless() *Forecaster {
	out := *f
	out.filters = nil
	for _, w := range f.filters {
		fresh := f.assume.newFilter(w.family, 10, w.pace, math.Sqrt(w.day[xTop]))
		next := *w
		next.turned, next.turns = fresh.turned, fresh.turns
		for k := range sRise {
			next.mean[k] = fresh.mean[k]
			for m := range commons {
				next.cov[k][m], next.cov[m][k] = fresh.cov[k][m], fresh.cov[m][k]
			}
		}
		out.filters = append(out.filters, &next)
	}
	return &out
}

func (t *BackTest) sum() {
	if len(t.Misses) == 0 {
		return
	}
	var off []float64
	for _, m := range t.Misses {
		off = append(off, math.Abs(m.Off.Hours()))
		if m.Inside {
			t.Inside++
		}
	}
	slices.Sort(off)
	t.Median = hours((off[(len(off)-1)/2] + off[len(off)/2]) / 2)
}

// wellSeen is the width of the interval of a top, as a share of the hours until it,
// from which on it does not count as seen (our own choice).
const wellSeen = 0.4

// seen says when a feeding that is over stood highest, from all that was written down
// of it; false if that does not settle it. The forecaster's past goes into it: one
// that has learned nothing gives what the feeding's own readings tell.
func (f *Forecaster) seen(c Course) (Span, bool) {
	last := time.Time{}
	told := false
	for _, r := range c.after() {
		if r.Rise > 0 || r.Trend != TrendUnnoted {
			last = r.At
		}
		told = told || r.Trend == TrendTop
	}
	if last.IsZero() || c.Feeding.Dilution() == 0 {
		return Span{}, false
	}
	end := last.Add(24 * time.Hour) // what was known only later counts as well
	p, err := f.predict(c, end, false)
	if err != nil {
		return Span{}, false
	}
	width := p.Peak.High.Sub(p.Peak.Low).Hours()
	ok := told || width < wellSeen*p.Peak.Mid.Sub(c.Feeding.At).Hours() && !last.Before(p.Peak.Mid)
	return p.Peak, ok
}
