package ferment

import (
	"errors"
	"slices"
	"time"

	"twinloaf/journal/say"
)

// DueReason says why a feeding is due when it is.
type DueReason string

// The reasons.
const (
	DueFirst  DueReason = "first mix" // common practice, no source
	DueRipe   DueReason = "ripe"      // from the forecast
	DueWeekly DueReason = "weekly"    // common practice, no source
	DueAsleep DueReason = "asleep"    // common practice, no source
	DueSigns  DueReason = "signs"     // from the readings
	DueNever  DueReason = "never"     // no feeding mends that
	DueYoung  DueReason = "young"     // common practice, no source
	DueRhythm DueReason = "rhythm"    // set by the baker, not by [NextFeeding]
)

// Line is the reason in words, as a part of a sentence.
func (r DueReason) Line() say.Line { return dueReasons[r] }

var dueReasons = map[DueReason]say.Line{
	DueFirst:  say.Of("a first mix is fed after a day"),
	DueRipe:   say.Of("the end of its ripe window"),
	DueWeekly: say.Of("once a week in the refrigerator"),
	DueAsleep: say.Of("twice a day is usual; no forecast"),
	DueYoung:  say.Of("until a new culture rises it is fed once a day"),
	DueSigns:  say.Of("grey liquid or solvent: it is hungry"),
	DueNever:  say.Of("throw it away: mould, pink or orange"),
	DueRhythm: say.Of("the rhythm you have set"),
}

// Due is when the next feeding is wanted.
type Due struct {
	By     time.Time // zero for DueNever
	Reason DueReason
}

// NextFeeding is when a culture wants its next feeding, from the latest course and
// what is known now.
// In the refrigerator it is a week after the feeding (common practice, no
// source); elsewhere the end of the ripe window. A sign of hunger makes it due at
// the time it was seen. A culture to be thrown away is never due;
// false if it was never fed. The forecaster has learned from the feedings before it.
func NextFeeding(f *Forecaster, l Life) (Due, bool) {
	if len(l.Dangers()) > 0 {
		return Due{Reason: DueNever}, true
	}
	courses := l.sorted()
	if len(courses) == 0 {
		return Due{}, false
	}
	return f.nextAfter(courses[len(courses)-1], l.Now), true
}

func (f *Forecaster) nextAfter(c Course, now time.Time) Due {
	due := f.unhurried(c, now)
	for _, r := range c.after() {
		hungry := r.Smell == SmellSolvent || slices.Contains(r.Signs, SignGreyLiquid)
		if hungry && r.At.Before(due.By) {
			return Due{By: r.At, Reason: DueSigns}
		}
	}
	return due
}

func (f *Forecaster) unhurried(c Course, now time.Time) Due {
	switch {
	case c.Feeding.Place == Refrigerator:
		return Due{By: c.Feeding.At.AddDate(0, 0, 7), Reason: DueWeekly}
	case c.Feeding.Dilution() == 0:
		return Due{By: c.Feeding.At.AddDate(0, 0, 1), Reason: DueFirst}
	}
	forecast, err := f.Predict(c, now)
	if errors.Is(err, ErrNotYet) || errors.Is(err, ErrNotRising) && f.young(now) {
		return Due{By: c.Feeding.At.AddDate(0, 0, 1), Reason: DueYoung}
	}
	if err != nil {
		return Due{By: c.Feeding.At.Add(12 * time.Hour), Reason: DueAsleep}
	}
	return Due{By: forecast.RipeTo.Mid, Reason: DueRipe}
}
