package histories

import (
	"sync"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/ferment"
)

// learnFrom is how many past feedings a forecaster learns from, the latest.
const learnFrom = 40

// testOn is how many past forecasts a back-test looks at.
const testOn = 10

// fewOwn is up to how many feedings of its own a culture leans on those kept beside it.
const fewOwn = 8

// A learner keeps the forecaster that was asked for last.
type learner struct {
	mu     sync.Mutex
	n      int // courses learned from
	known  *ferment.Forecaster
	beside []*CultureHistory // other cultures of the kitchen
}

// Forecaster has learned from the feedings that were made before the given time.
func (l *CultureHistory) Forecaster(before time.Time) *ferment.Forecaster {
	n := len(l.courses)
	for n > 0 && !l.courses[n-1].Feeding.At.Before(before) {
		n--
	}
	l.learner.mu.Lock()
	defer l.learner.mu.Unlock()
	if l.learner.known == nil || l.learner.n != n {
		l.learner.known, l.learner.n = ferment.NewForecaster(l.assumptions(n, before), l.courses[max(0, n-learnFrom):n]), n
	}
	return l.learner.known
}

// Planner has learned from all that was fed by the given time, for feedings yet to come: the
// one made just then, a first mix too, is among what is known.
func (l *CultureHistory) Planner(by time.Time) *ferment.Forecaster {
	return l.Forecaster(by.Add(time.Nanosecond))
}

// assumptions are those of a culture with n feedings: with few of its own it leans on
// the cultures kept beside it.
func (l *CultureHistory) assumptions(n int, before time.Time) ferment.Assumptions {
	a := ferment.UsualAssumptions()
	if n > fewOwn {
		return a
	}
	var others []*ferment.Forecaster
	for _, o := range l.learner.beside {
		if o != l && len(others) < mostBeside {
			others = append(others, ferment.NewForecaster(a, o.before(before)))
		}
	}
	return a.Pooled(others)
}

// before gives the latest courses that began before a time.
func (l *CultureHistory) before(t time.Time) []ferment.Course {
	n := len(l.courses)
	for n > 0 && !l.courses[n-1].Feeding.At.Before(t) {
		n--
	}
	return l.courses[max(0, n-learnFrom):n]
}

// Forecast is what is expected of the feeding that the culture is in. The error is
// [ErrNoFeeding] or one of [ferment.Forecaster.Predict].
func (l *CultureHistory) Forecast(now time.Time) (ferment.Forecast, error) {
	c, ok := l.Current(now)
	if !ok {
		return ferment.Forecast{}, ErrNoFeeding
	}
	return l.Forecaster(c.Feeding.At).Predict(c, now)
}

// Due is when the next feeding is wanted; false if the culture has ended or was
// never fed. A rhythm that the baker set for the culture comes before what the
// readings say, but for a danger.
func (l *CultureHistory) Due(now time.Time) (ferment.Due, bool) {
	if !l.Culture.Ended.IsZero() {
		return ferment.Due{}, false
	}
	c, ok := l.Current(now)
	due, known := ferment.NextFeeding(l.Forecaster(c.Feeding.At), l.At(now))
	if !ok {
		return due, known
	}
	if every := l.Culture.FeedEvery; every > 0 && due.Reason != ferment.DueNever && due.Reason != ferment.DueSigns {
		due = ferment.Due{By: c.Feeding.At.Add(every), Reason: ferment.DueRhythm}
	}
	return due, true
}

// BackTest is how far off the culture's last ten forecasts were: those made at the feeding,
// and those made two and four hours later.
func (l *CultureHistory) BackTest() []ferment.BackTest {
	return ferment.Back(ferment.UsualAssumptions(), l.courses[max(0, len(l.courses)-learnFrom):], testOn, 0, 2*time.Hour, 4*time.Hour)
}

// Told is what all readings of a feeding that is over tell of its rise, with what the
// feedings before it showed. The error is [ErrNoFeeding] or one of
// [ferment.Forecaster.Predict].
func (l *CultureHistory) Told(id journal.ID) (ferment.Forecast, error) {
	c, ok := l.Course(id)
	if !ok {
		return ferment.Forecast{}, ErrNoFeeding
	}
	return l.Forecaster(c.Feeding.At).Predict(c, longAfter)
}

// longAfter is a time by which everything is known.
var longAfter = time.Date(9999, 1, 1, 0, 0, 0, 0, time.UTC)

// Peak is the greatest rise that was read after a feeding.
type Peak struct {
	Feeding journal.ID
	Fed     time.Time
	Rise    float64
	Reading journal.ID // the reading of it
}

// Peaks gives the greatest rise after each feeding that was read, oldest first.
func (l *CultureHistory) Peaks(now time.Time) []Peak {
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
