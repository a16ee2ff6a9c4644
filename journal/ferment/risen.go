package ferment

import (
	"slices"
	"time"

	"twinloaf/journal/say"
)

// Reasons why nothing is foretold.
var (
	ErrNoDilution = say.NewError("a first mix of flour and water has no usual course")
	ErrAsleep     = say.NewError("at this temperature the culture is as good as asleep")
	ErrNotYet     = say.NewError("it has not been seen to rise since it was begun, and until it does there is no peak to forecast")
	ErrNotRising  = say.NewError("it hardly rose when it was last watched, and until it does there is no peak to forecast")
)

// A rise below leastRisen is none; a feeding that was read after watched hours and never
// stood as high has not risen (our own choice).
const (
	leastRisen Rise    = 1.2
	watched    float64 = 6 // hours
)

// rises says that a reading tells of a rise.
func (r Reading) rises() bool {
	return r.Rise >= leastRisen || r.Trend == TrendTop || r.Trend == TrendFallen
}

// risen says that a rise was read by a time; a zero time is without end.
func (c Course) risen(by time.Time) bool {
	return slices.ContainsFunc(c.after(), func(r Reading) bool { return r.rises() && (by.IsZero() || !r.At.After(by)) })
}

// lay says that a feeding that is over was watched for long enough and did not rise.
// In the cold it takes longer.
func (c Course) lay(points []TempPoint) bool {
	wait := watched
	if len(points) > 0 && points[0].Temp < coldestShared {
		wait *= 4
	}
	seen := false
	for _, r := range c.after() {
		if r.rises() {
			return false
		}
		seen = seen || r.Rise > 0 && c.Feeding.hoursSince(r.At) >= wait
	}
	return seen
}

// youth is how long a culture may take from its first mix until it rises of itself (7 to 14 days
// in home practice: common practice, no source). Published rates are those of grown cultures.
const youth = 14 * 24 * time.Hour

// young says that a culture was mixed from flour and water so lately that it may not live by
// the rates of a grown one.
func (f *Forecaster) young(at time.Time) bool {
	return !f.mixed.IsZero() && at.Sub(f.mixed) < youth
}

// still says why nothing is foretold of a feeding in which no rise was read yet: a young culture
// has never risen, or it did not in its last watched feeding; a grown one did not in the last
// two, or in the only one.
func (f *Forecaster) still(at time.Time) error {
	switch young := f.young(at); {
	case f.flat >= 2 || f.flat == 1 && (young || f.feedings == 0):
		return ErrNotRising
	case young && !f.rose:
		return ErrNotYet
	}
	return nil
}
