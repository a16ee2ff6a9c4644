package histories

import (
	"cmp"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/say"
)

// ErrNoFeeding tells that no feeding of the culture has been recorded.
var ErrNoFeeding = say.NewError("no feeding has been recorded yet")

// Jar is what stands in the jar at a time, by the arithmetic of the feedings, and
// how much of it is left of the first mix; false if no feeding tells.
func (l *CultureHistory) Jar(now time.Time) (ferment.State, bool) { return l.JarBut("", now) }

// JarBut is [CultureHistory.Jar] as it would be without one of the feedings.
func (l *CultureHistory) JarBut(without journal.ID, now time.Time) (ferment.State, bool) {
	var s ferment.State
	known := false
	for _, f := range l.Feedings {
		if f.At.After(now) {
			break
		}
		weighed := known || !Taking(f) || f.Kept > 0 // of a jar that nobody weighed what is left is not known
		if f.ID != without && weighed {
			s, known = l.Fed(s, f), true
		}
	}
	return s, known
}

// Hydration is water over flour as the culture is usually kept, 1 for 100 %.
func (l *CultureHistory) Hydration() float64 {
	if h := l.Culture.Hydration; h != nil && *h > 0 {
		return float64(*h) / 100
	}
	return 1
}

// Fed is what stands in the jar after a feeding or a taking. Where the scales say
// that more was kept than the arithmetic has, the scales are right.
func (l *CultureHistory) Fed(s ferment.State, f *journal.Feeding) ferment.State {
	kept, flour, water := f.Kept, max(0, f.Flour), max(0, f.Water)
	if kept <= 0 {
		return ferment.NewState(ferment.Mix{Flour: flour, Water: water})
	}
	hydration := l.Hydration()
	if s.Mix.Flour > 0 {
		hydration = s.Mix.Hydration()
	}
	s.Original = cmp.Or(s.Original, 1)
	s.Mix = ferment.MixOf(max(kept, s.Mix.Total()), hydration)
	next, err := s.Feed(ferment.Refreshment{Kept: kept, Flour: flour, Water: water})
	if err != nil {
		return s // a weight that is none
	}
	return next
}
