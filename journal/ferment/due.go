package ferment

import (
	"slices"
	"time"
)

// DueReason says why a feeding is due when it is.
type DueReason string

// The reasons.
const (
	DueFirst  DueReason = "a first mix is fed after a day"       // common practice, no source
	DueRipe   DueReason = "the end of its ripe window"           // from the forecast
	DueWeekly DueReason = "once a week in the refrigerator"      // common practice, no source
	DueAsleep DueReason = "twice a day is usual; no forecast"    // common practice, no source
	DueSigns  DueReason = "grey liquid or solvent: it is hungry" // from the readings
	DueNever  DueReason = "throw it away: mould, pink or orange" // no feeding mends that
)

// Due is when the next feeding is wanted.
type Due struct {
	By     time.Time // zero for DueNever
	Reason DueReason
}

// NextFeeding is when a culture wants its next feeding, from the latest course.
// In the refrigerator it is a week after the feeding (common practice, no
// source); elsewhere the end of the ripe window. A sign of hunger makes it due at
// the time it was seen.
func NextFeeding(f *Forecaster, c Course) Due {
	if slices.ContainsFunc(c.Readings, Reading.dangerous) {
		return Due{Reason: DueNever}
	}
	due := f.unhurried(c)
	for _, r := range c.after() {
		hungry := r.Smell == SmellSolvent || slices.Contains(r.Signs, SignGreyLiquid)
		if hungry && r.At.Before(due.By) {
			return Due{By: r.At, Reason: DueSigns}
		}
	}
	return due
}

func (f *Forecaster) unhurried(c Course) Due {
	switch {
	case c.Feeding.Place == Refrigerator:
		return Due{By: c.Feeding.At.AddDate(0, 0, 7), Reason: DueWeekly}
	case c.Feeding.Dilution() == 0:
		return Due{By: c.Feeding.At.AddDate(0, 0, 1), Reason: DueFirst}
	}
	forecast, err := f.Predict(c)
	if err != nil {
		return Due{By: c.Feeding.At.Add(12 * time.Hour), Reason: DueAsleep}
	}
	return Due{By: forecast.RipeTo.Mid, Reason: DueRipe}
}
