package lives

import (
	"slices"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/ferment"
)

// learnFrom is how many followed feedings a forecaster is given: the most that
// it remembers, and ten more for the back-test's first.
const learnFrom = 40

// testOn is how many past forecasts a back-test looks at.
const testOn = 10

// follow fits the latest feedings that were followed to a peak.
func (l *Life) follow() []ferment.Followed {
	var out []ferment.Followed
	growth := ferment.UsualAssumptions().Growth
	for _, c := range slices.Backward(l.courses) {
		if len(c.Readings) < ferment.FewestPoints {
			continue
		}
		if f, err := ferment.Follow(growth, c); err == nil {
			out = append(out, f)
		}
		if len(out) == learnFrom {
			break
		}
	}
	slices.Reverse(out)
	return out
}

// Followed gives the latest feedings that were followed to a peak, oldest first.
func (l *Life) Followed() []ferment.Followed { return l.followed() }

// Forecaster has learnt from the feedings that were followed to a peak and were
// made before the given time.
func (l *Life) Forecaster(before time.Time) *ferment.Forecaster {
	var past []ferment.Followed
	for _, f := range l.followed() {
		if f.Fed.Before(before) {
			past = append(past, f)
		}
	}
	return ferment.NewForecaster(ferment.UsualAssumptions(), past)
}

// Forecast is what is expected of the feeding that the culture is in. The error is
// [ErrNoFeeding] or one of [ferment.Forecaster.Predict].
func (l *Life) Forecast(now time.Time) (ferment.Forecast, error) {
	c, ok := l.Current(now)
	if !ok {
		return ferment.Forecast{}, ErrNoFeeding
	}
	return l.Forecaster(c.Feeding.At).Predict(c)
}

// Due is when the next feeding is wanted; false if the culture has ended or was
// never fed. A rhythm that the baker set for the culture comes before what the
// readings say, but for a danger.
func (l *Life) Due(now time.Time) (ferment.Due, bool) {
	c, ok := l.Current(now)
	if !ok || !l.Culture.Ended.IsZero() {
		return ferment.Due{}, false
	}
	due := ferment.NextFeeding(l.Forecaster(c.Feeding.At), c)
	if every := l.Culture.FeedEvery; every > 0 && due.Reason != ferment.DueNever && due.Reason != ferment.DueSigns {
		due = ferment.Due{By: c.Feeding.At.Add(every), Reason: ferment.DueRhythm}
	}
	return due, true
}

// BackTest is how far off the culture's last ten forecasts were.
func (l *Life) BackTest() ferment.BackTest {
	known := map[string]bool{}
	for _, f := range l.followed() {
		known[f.ID] = true
	}
	var courses []ferment.Course
	for _, c := range l.courses {
		if known[c.Feeding.ID] {
			courses = append(courses, c)
		}
	}
	return ferment.Back(ferment.UsualAssumptions(), courses, testOn)
}

// Peak is the greatest rise that was read after a feeding.
type Peak struct {
	Feeding journal.ID
	Fed     time.Time
	Rise    float64
	Reading journal.ID // the reading of it
}

// Peaks gives the greatest rise after each feeding that was read, oldest first.
func (l *Life) Peaks(now time.Time) []Peak {
	var out []Peak
	for _, c := range l.Courses(now) {
		p := Peak{Feeding: journal.ID(c.Feeding.ID), Fed: c.Feeding.At}
		for _, r := range c.Readings {
			if float64(r.Rise) > p.Rise && !r.At.After(now) {
				p.Rise, p.Reading = float64(r.Rise), journal.ID(r.ID)
			}
		}
		if p.Rise > 0 {
			out = append(out, p)
		}
	}
	return out
}
