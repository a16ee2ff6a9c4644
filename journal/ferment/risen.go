package ferment

import (
	"time"

	"twinloaf/journal/say"
)

// Reasons why nothing is foretold.
var (
	ErrNoDilution = say.NewError("a first mix of flour and water has no usual course")
	ErrAsleep     = say.NewError("at this temperature the culture is as good as asleep")
	ErrNotRising  = say.NewError("it hardly rose after its last feedings, and until it does there is no peak to forecast")
)

// A rise below leastRisen is none; a feeding that was read after watched hours and never
// stood as high has not risen (our own choice).
const (
	leastRisen Rise    = 1.2
	watched    float64 = 6 // hours
)

// risen says that a height was read by a time that is a rise.
func (c Course) risen(by time.Time) bool {
	for _, r := range c.after() {
		if r.Rise >= leastRisen && !r.At.After(by) {
			return true
		}
	}
	return false
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
		if r.Rise >= leastRisen || r.Trend == TrendTop || r.Trend == TrendFallen {
			return false
		}
		seen = seen || r.Rise > 0 && c.Feeding.hoursSince(r.At) >= wait
	}
	return seen
}

// idle says that the culture does not rise: its last two watched feedings did not, or
// the last one of a culture that never has.
func (f *Forecaster) idle() bool { return f.flat >= 2 || f.flat == 1 && f.feedings == 0 }
