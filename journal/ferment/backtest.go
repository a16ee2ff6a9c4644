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

// BackTest is how far off a culture's last predictions were.
type BackTest struct {
	Misses []Miss        // oldest first
	Median time.Duration // of how far off, early or late
	Inside int
}

// Back predicts each of the last n feedings whose peak was seen from those before it,
// as it would have been done at the feeding: with nothing of the feeding itself but
// what was known at that moment, so with no reading and no temperature that came
// later. Courses are oldest first.
func Back(a Assumptions, courses []Course, n int) BackTest {
	judge := NewForecaster(a, nil)
	tops := make([]Span, len(courses))
	seen := make([]bool, len(courses))
	left := n
	for i := len(courses) - 1; i >= 0 && left > 0; i-- {
		if tops[i], seen[i] = judge.Seen(courses[i]); seen[i] {
			left--
		}
	}
	f := NewForecaster(a, nil)
	var test BackTest
	for i, c := range courses {
		if seen[i] {
			if p, err := f.Predict(c.known(c.Feeding.At), c.Feeding.At); err == nil {
				test.Misses = append(test.Misses, Miss{
					ID: c.Feeding.ID, Fed: c.Feeding.At, Predicted: p.Peak, Actual: tops[i], Off: tops[i].Mid.Sub(p.Peak.Mid),
					Inside: !tops[i].Mid.Before(p.Peak.Low) && !tops[i].Mid.After(p.Peak.High), Basis: p.Basis,
				})
			}
		}
		f.Learn(c)
	}
	test.sum()
	return test
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
// from which on it does not count as seen.
const wellSeen = 0.3

// Seen says when a feeding that is over stood highest, from all that was written down
// of it; false if that does not settle it. The forecaster's past goes into it: one
// that has learned nothing gives what the feeding's own readings tell.
func (f *Forecaster) Seen(c Course) (Span, bool) {
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
	p, err := f.Predict(c, end)
	if err != nil {
		return Span{}, false
	}
	width := p.Peak.High.Sub(p.Peak.Low).Hours()
	ok := told || width < wellSeen*p.Peak.Mid.Sub(c.Feeding.At).Hours() && !last.Before(p.Peak.Mid)
	return p.Peak, ok
}
