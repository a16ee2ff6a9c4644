package ferment

import (
	"fmt"
	"time"

	"twinloaf/journal/say"
)

// Followed is a past feeding whose rise was followed to its peak: what a
// forecast learns from.
type Followed struct {
	ID       string
	Fed      time.Time
	Dilution float64 // weight after the feeding over weight kept
	Fit      RiseFit

	PeakHours   float64 // by the clock
	PeakThermal float64 // hours at ReferenceTemp
	LagThermal  float64
	RipeThermal float64 // length of the ripe window; 0 when its end was not seen
	PeakRise    float64 // over the mark
	Warmth      Thermal // from the feeding to the peak
}

// Reasons why a feeding teaches a forecast nothing.
var (
	ErrPeakNotSeen = say.Wrong("the readings end before the peak")
	ErrNoDilution  = say.Wrong("a first mix of flour and water has no usual course")
	ErrAsleep      = say.Wrong("at this temperature the culture is as good as asleep")
)

// Follow fits one past feeding and weighs its hours by temperature.
//
// Errors: those of [FitRise], [ErrPeakNotSeen], [ErrNoDilution], [ErrAsleep].
func Follow(m GrowthModel, c Course) (Followed, error) {
	what := func(err error) error {
		return fmt.Errorf("following the feeding of %s: %w", c.Feeding.At.Format("2 January 15:04"), err)
	}
	if c.Feeding.Dilution() == 0 {
		return Followed{}, what(ErrNoDilution)
	}
	fit, err := FitRise(RisePoints(c), BaselineMark)
	if err != nil {
		return Followed{}, what(err)
	}
	if !fit.PeakSeen {
		return Followed{}, what(ErrPeakNotSeen)
	}
	w := Warmth{Log: c.warmth(), Room: c.Feeding.Room}
	peakAt := c.Feeding.At.Add(hours(fit.PeakTime.Value))
	line := w.timeline(m, c.Feeding.At, c.Feeding.At.Add(hours(max(fit.RipeTo, fit.PeakTime.Value))))
	f := Followed{
		ID: c.Feeding.ID, Fed: c.Feeding.At, Dilution: c.Feeding.Dilution(), Fit: fit,
		PeakHours:   fit.PeakTime.Value,
		PeakThermal: line.thermalAt(fit.PeakTime.Value),
		LagThermal:  line.thermalAt(fit.Lag.Value),
		PeakRise:    fit.Peak.Value,
		Warmth:      ThermalTime(m, w, c.Feeding.At, peakAt),
	}
	if !fit.RipeOpen {
		f.RipeThermal = line.thermalAt(fit.RipeTo) - line.thermalAt(fit.RipeFrom.Value)
	}
	if f.PeakHours <= 0 || f.PeakThermal <= 0.05*f.PeakHours {
		// So cold that a small error of the model would move the answer by days.
		return Followed{}, what(ErrAsleep)
	}
	return f, nil
}

// FollowAll follows what can be followed, oldest first as given, and passes over
// the rest.
func FollowAll(m GrowthModel, courses []Course) []Followed {
	var out []Followed
	for _, c := range courses {
		if f, err := Follow(m, c); err == nil {
			out = append(out, f)
		}
	}
	return out
}

// warmth is the temperature log of a course, or where there is none, the
// temperatures noted with its readings.
func (c Course) warmth() []TempPoint {
	if len(c.Temps) > 0 {
		return c.Temps
	}
	var out []TempPoint
	for _, r := range c.after() {
		if r.Temp.Known {
			out = append(out, TempPoint{r.At, r.Temp.C})
		}
	}
	return out
}
