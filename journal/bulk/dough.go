package bulk

import (
	"cmp"
	"slices"
	"time"
)

// Temp is a temperature in °C at a time.
type Temp struct {
	At time.Time
	C  float64
}

// Rise is how far a dough had risen at a time, as a multiple of its start.
type Rise struct {
	At    time.Time
	Times float64
	SD    float64 // its standard deviation, of one read from pictures; 0 where it was read by eye
}

// Dough is one dough from mixing to shaping. What is not known is left zero.
type Dough struct {
	ID      string
	Culture string // doughs with one culture have something in common
	Style   string // and so have those of one formula or name

	Inoculation float64 // % of the flour that came in with culture or levain
	Salt        float64 // % of the flour
	Wholegrain  float64 // % of the flour
	Grams       float64 // of the dough: a large one keeps its temperature longer

	Began time.Time // when culture and flour came together
	Ended time.Time // when it was shaped or chilled; zero while it rises
	Dough []Temp    // of the dough
	Air   []Temp    // of what is around it
	Rises []Rise

	Score int // of the bread, 1 to 9; 0 if it was not judged
}

// Over says that the bulk is over and can be learned from.
func (d Dough) Over() bool { return d.Ended.After(d.Began) && d.Ended.Sub(d.Began) < horizon }

// known gives the dough as it was known at a time: nothing that came later, and running.
func (d Dough) known(now time.Time) Dough {
	d.Dough = until(d.Dough, now, func(t Temp) time.Time { return t.At })
	d.Air = until(d.Air, now, func(t Temp) time.Time { return t.At })
	d.Rises = until(d.Rises, now, func(r Rise) time.Time { return r.At })
	d.Ended, d.Score = time.Time{}, 0
	return d
}

// until gives what was noted up to a time, in order.
func until[T any](all []T, now time.Time, at func(T) time.Time) []T {
	out := slices.DeleteFunc(slices.Clone(all), func(v T) bool { return at(v).After(now) })
	slices.SortStableFunc(out, func(a, b T) int { return at(a).Compare(at(b)) })
	return out
}

// EndRise is how far the dough had risen when its bulk ended, if that was noted within
// half an hour of it, before or after.
func (d Dough) EndRise() (float64, bool) {
	const near = 30 * time.Minute
	best, found := Rise{}, false
	for _, r := range d.Rises {
		away := r.At.Sub(d.Ended).Abs()
		if away <= near && r.Times > 1 && (!found || away < best.At.Sub(d.Ended).Abs()) {
			best, found = r, true
		}
	}
	return best.Times, found
}

// latest gives the last n doughs that are over, by when they began.
func latest(doughs []Dough, n int) []Dough {
	out := slices.DeleteFunc(slices.Clone(doughs), func(d Dough) bool { return !d.Over() })
	slices.SortStableFunc(out, func(a, b Dough) int { return cmp.Or(a.Began.Compare(b.Began), cmp.Compare(a.ID, b.ID)) })
	return out[max(0, len(out)-n):]
}
