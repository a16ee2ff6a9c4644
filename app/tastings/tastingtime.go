package tastings

import (
	"time"

	"twinloaf/journal"
)

// A loaf is not cut for tasting before it has cooled for so long (common practice, no source);
// and a tasting is in the evening where the baker says nothing else.
const (
	cooling = 2 * time.Hour
	evening = 18
)

// readyAt is when a loaf that is to come is out of the oven by its plan; zero for one that
// is baked, or has no plan.
func readyAt(b *journal.Bake) time.Time {
	if !b.State.Over() {
		if day, ok := b.Day(); ok {
			return day.ReadyAt()
		}
	}
	return time.Time{}
}

// proposedTime is the first evening on which both loaves of a tasting have cooled.
func proposedTime(r journal.Reader, bakes [2]journal.ID, now time.Time) time.Time {
	from := now
	for _, id := range bakes {
		b, err := journal.Get[journal.Bake](r, id)
		if err != nil {
			continue // one that is gone, or not chosen yet
		}
		if at := readyAt(b); !at.IsZero() && at.Add(cooling).After(from) {
			from = at.Add(cooling)
		}
	}
	y, m, d := from.In(now.Location()).Date()
	at := time.Date(y, m, d, evening, 0, 0, 0, now.Location())
	if at.Before(from) {
		at = time.Date(y, m, d+1, evening, 0, 0, 0, now.Location())
	}
	return at
}
