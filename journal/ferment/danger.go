package ferment

import (
	"slices"
	"time"
)

// A culture on which mould, or pink or orange, was seen is to be thrown away, whatever
// was done with it since: fed, taken from, split, left unread. Only the baker's own word
// that it was something else lifts that (Life.Cleared). This is the one place where it is
// decided; whatever feeds, takes, splits, builds, bakes or reminds asks it.

// hidden is for how long mould is taken to have been in a culture before it was seen, so
// that what was split off or baked in that time is to be thrown away as well (common
// practice, no source: it is there before it is seen).
const hidden = 3 * 24 * time.Hour

// dangerous says that a reading has a sign to throw the culture away.
func (r Reading) dangerous() bool {
	return slices.Contains(r.Signs, SignMould) || slices.Contains(r.Signs, SignPinkOrange)
}

// noted is when a reading was written down.
func (r Reading) noted() time.Time {
	if r.Told.After(r.At) {
		return r.Told
	}
	return r.At
}

// Dangers are the readings for which the culture is to be thrown away, oldest first;
// none if it is not. Those of the culture that it was split from come first.
func (l Life) Dangers() []Reading {
	out := slices.Clone(l.Inherited)
	for _, c := range l.sorted() {
		for _, r := range c.Readings {
			if r.dangerous() {
				out = append(out, r)
			}
		}
	}
	return slices.DeleteFunc(out, func(r Reading) bool {
		return r.At.After(l.Now) || !l.Cleared.IsZero() && !r.noted().After(l.Cleared)
	})
}

// Passes gives the dangers that a culture split off at a time takes with it: what was
// seen until then and shortly after.
func (l Life) Passes(split time.Time) []Reading {
	l.Now = split.Add(hidden)
	return l.Dangers()
}

// TaintedAt says whether what was taken from the culture at a time is to be thrown away.
func (l Life) TaintedAt(t time.Time) bool { return len(l.Passes(t)) > 0 }
