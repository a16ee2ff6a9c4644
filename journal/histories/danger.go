package histories

import (
	"errors"
	"slices"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/say"
)

// deepest is how many splits back a danger is looked for.
const deepest = 20

// inherited are the dangers that a culture brought from the one it was split from, and
// that one from its own. A parent that is gone for good tells nothing.
func inherited(r journal.Reader, c *journal.Culture, depth int) ([]ferment.Reading, error) {
	if c.Parent == "" || depth == deepest || c.Born.IsZero() {
		return nil, nil
	}
	parent, err := journal.Get[journal.Culture](r, c.Parent)
	if errors.Is(err, journal.ErrNotFound) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	readings, err := journal.Linked[journal.Reading](r, parent.ID)
	if err != nil {
		return nil, err
	}
	life := ferment.Life{Born: parent.Born, Cleared: parent.Cleared}
	if life.Inherited, err = inherited(r, parent, depth+1); err != nil {
		return nil, err
	}
	var all ferment.Course
	for _, rec := range readings {
		all.Readings = append(all.Readings, reading(rec, nil))
	}
	life.Courses = []ferment.Course{all}
	return life.Passes(c.Born), nil
}

// Condemned says whether the culture is to be thrown away, and since when that was seen.
func (l *CultureHistory) Condemned(now time.Time) (since time.Time, yes bool) {
	bad := l.At(now).Dangers()
	if len(bad) == 0 {
		return time.Time{}, false
	}
	first := slices.MinFunc(bad, func(a, b ferment.Reading) int { return a.At.Compare(b.At) })
	return first.At, true
}

// Barred gives the reason why nothing is to be made of a culture now: it is to be thrown
// away. It is nil for one that is not, and for no culture. It reads the culture's whole
// life, which takes tens of milliseconds after some years.
func Barred(r journal.Reader, id journal.ID, now time.Time) error {
	if id == "" {
		return nil
	}
	l, err := read(r, id)
	if errors.Is(err, journal.ErrNotFound) {
		return nil
	}
	if err != nil {
		return err
	}
	return l.Barred(now)
}

// Barred is as the function, of a life that was read already.
func (l *CultureHistory) Barred(now time.Time) error {
	if _, yes := l.Condemned(now); yes {
		return barred(l)
	}
	return nil
}

// BarredDough gives the reason why a bake is not to be gone on with: a culture in its dough
// is to be thrown away.
func BarredDough(r journal.Reader, b *journal.Bake, now time.Time) error {
	cultures, err := journal.CulturesIn(r, b)
	if err != nil {
		return err
	}
	for _, c := range cultures {
		if err := Barred(r, c.ID, now); err != nil {
			return err
		}
	}
	return nil
}

// BarredLoaf gives the reason why a loaf is not to be eaten: a culture in its dough
// was to be thrown away when it was baked, or within the days after in which mould may
// have been there unseen.
func BarredLoaf(r journal.Reader, b *journal.Bake) error {
	cultures, err := journal.CulturesIn(r, b)
	if err != nil {
		return err
	}
	for _, c := range cultures {
		l, err := read(r, c.ID)
		if err != nil {
			return err
		}
		if l.At(longAfter).TaintedAt(b.At) {
			return barred(l)
		}
	}
	return nil
}

// BarredLoaves gives the reason why one of some loaves is not to be eaten, if there is one.
// A bake that is gone says nothing.
func BarredLoaves(r journal.Reader, bakes ...journal.ID) error {
	for _, id := range bakes {
		b, err := journal.Get[journal.Bake](r, id)
		if errors.Is(err, journal.ErrNotFound) {
			continue
		}
		if err != nil {
			return err
		}
		if err := BarredLoaf(r, b); err != nil {
			return err
		}
	}
	return nil
}

func barred(l *CultureHistory) error {
	return say.NewError("Throw {{.Name}} away: mould, or pink or orange, was seen on it. Do not feed it, bake with it or taste it.", say.With{"Name": l.Culture.Name})
}
