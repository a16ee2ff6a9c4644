package ferment

import (
	"math"
	"slices"
	"time"
)

// Miss is one earlier prediction, made from what was known at that feeding and
// before, beside what happened.
type Miss struct {
	ID        string
	Fed       time.Time
	Predicted Span
	Actual    time.Time
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

// Back predicts each of the last n feedings that were followed to a peak from
// those before it, as it would have been done at the feeding: no readings, and
// the temperature that was noted for the room. Courses are oldest first.
func Back(a Assumptions, courses []Course, n int) BackTest {
	var past []Followed
	var test BackTest
	for _, c := range courses {
		seen, err := Follow(a.Growth, c)
		if err != nil {
			continue
		}
		blind := Course{Feeding: c.Feeding}
		if !blind.Feeding.Room.Known && !seen.Warmth.Assumed {
			// Nobody wrote down the room, but the log knows what a glance at a
			// thermometer would have said.
			blind.Feeding.Room = Measured(seen.Warmth.Mean)
		}
		if f, err := NewForecaster(a, past).Predict(blind); err == nil {
			test.Misses = append(test.Misses, miss(f, seen))
		}
		past = append(past, seen)
	}
	if n > 0 && len(test.Misses) > n {
		test.Misses = test.Misses[len(test.Misses)-n:]
	}
	test.sum()
	return test
}

func miss(f Forecast, seen Followed) Miss {
	actual := seen.Fed.Add(hours(seen.PeakHours))
	return Miss{
		ID: seen.ID, Fed: seen.Fed, Predicted: f.Peak, Actual: actual, Off: actual.Sub(f.Peak.Mid),
		Inside: !actual.Before(f.Peak.Low) && !actual.After(f.Peak.High), Basis: f.Basis,
	}
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
