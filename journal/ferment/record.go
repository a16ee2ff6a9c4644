package ferment

import (
	"slices"
	"time"

	"twinloaf/journal/formula"
)

// Degrees and grams are those of the dough that a culture goes into.
type (
	Celsius = formula.Celsius
	Grams   = formula.Grams
)

// Rise is the height of a culture in its jar over its height just after the
// feeding: 1 is level with the mark, 2 is doubled. 0 means that no height was
// read, since no culture has a height of nothing.
type Rise float64

// Temperature is a temperature that may not have been taken. The zero value is
// an unknown temperature.
type Temperature struct {
	C     Celsius
	Known bool
}

// Measured is a temperature that was taken.
func Measured(c Celsius) Temperature { return Temperature{C: c, Known: true} }

// TempPoint is one row of a temperature log, or one reading of a thermometer.
type TempPoint struct {
	At   time.Time
	Temp Celsius
	Told time.Time // when it was written down or imported; zero if at once
}

// Place is where a culture lives.
type Place string

// The places a culture lives in. The zero value is read as [Counter].
const (
	Counter      Place = "counter"
	Refrigerator Place = "refrigerator"
)

// Smell is a smell in the words of the trade. The zero value is "not noted".
type Smell string

// The smells a baker notes.
const (
	SmellNone    Smell = "none"
	SmellMilky   Smell = "milky"
	SmellFruity  Smell = "fruity"
	SmellSour    Smell = "sour"
	SmellSolvent Smell = "solvent"
	SmellFoul    Smell = "foul"
)

// Smells lists the smells, from hardly any to bad.
func Smells() []Smell {
	return []Smell{SmellNone, SmellMilky, SmellFruity, SmellSour, SmellSolvent, SmellFoul}
}

// Sign is something seen on a culture that calls for words of its own.
type Sign string

// The signs. Mould and pink or orange are reasons to throw a culture away;
// grey liquid is only hunger.
const (
	SignMould      Sign = "mould"
	SignPinkOrange Sign = "pink or orange"
	SignGreyLiquid Sign = "grey liquid"
)

// Trend is which way a jar was going when it was looked at. The zero value is "not
// noted".
type Trend string

// The trends.
const (
	TrendUnnoted Trend = ""
	TrendRising  Trend = "rising" // its top lies ahead
	TrendTop     Trend = "top"    // it stands about at its highest
	TrendFallen  Trend = "fallen" // its top is past
)

// Reading is one look at the jar. Whatever was not noted keeps its zero value.
type Reading struct {
	ID    string // handed back as evidence
	At    time.Time
	Told  time.Time // when it was written down; zero if at once
	Rise  Rise
	SD    float64 // the standard deviation of Rise; 0 if it was read by eye
	Trend Trend
	Temp  Temperature
	Smell Smell
	PH    float64 // 0 if it was not measured
	Acid  Titration
	Signs []Sign
}

// Feeding is one refreshment: what was kept, and what it was fed.
// Kept is 0 for the first mix of flour and water.
type Feeding struct {
	ID    string // handed back as evidence
	At    time.Time
	Kept  Grams
	Flour Grams
	Water Grams
	Room  Temperature // of the place it stands in, as far as known
	Place Place

	// Wholegrain is the share of wholegrain in its flour, 0 to 1; it counts if
	// GrainKnown.
	Wholegrain float64
	GrainKnown bool
	// Steady says that it stands at Room throughout, whatever is usual there.
	Steady bool
}

// total is the weight just after the feeding.
func (f Feeding) total() Grams { return f.Kept + f.Flour + f.Water }

// Dilution is the weight after the feeding over the weight kept: 3 for 1:1:1.
// It is 0 when nothing was kept, as for the first mix.
func (f Feeding) Dilution() float64 {
	if f.Kept <= 0 || f.total() <= f.Kept {
		return 0
	}
	return float64(f.total() / f.Kept)
}

// Course is one feeding and what was seen of it until the next.
type Course struct {
	Feeding  Feeding
	Readings []Reading   // in any order; those before the feeding are passed over
	Temps    []TempPoint // a temperature log, in any order, may reach beyond
}

// known is the course as it had been written down by a time: what was noted or imported
// later is left out.
func (c Course) known(by time.Time) Course {
	c.Readings = slices.DeleteFunc(slices.Clone(c.Readings), func(r Reading) bool { return r.At.After(by) || r.Told.After(by) })
	c.Temps = slices.DeleteFunc(slices.Clone(c.Temps), func(p TempPoint) bool { return p.At.After(by) || p.Told.After(by) })
	return c
}

// after returns the readings from the feeding on, in order of time. They must not be altered.
func (c Course) after() []Reading {
	all := inOrder(c.Readings, func(a, b Reading) int { return a.At.Compare(b.At) })
	first, _ := slices.BinarySearchFunc(all, c.Feeding.At, func(r Reading, t time.Time) int { return r.At.Compare(t) })
	return all[first:]
}

// inOrder sorts a copy, or returns what is in order already, as a journal has it, as it is.
func inOrder[T any](all []T, compare func(a, b T) int) []T {
	if !slices.IsSortedFunc(all, compare) {
		all = slices.Clone(all)
		slices.SortStableFunc(all, compare)
	}
	return all
}

// hoursSince is the time from the feeding in hours.
func (f Feeding) hoursSince(t time.Time) float64 { return t.Sub(f.At).Hours() }

// hours turns a number of hours into a duration, to the nearest second.
func hours(h float64) time.Duration {
	return time.Duration(h * float64(time.Hour)).Round(time.Second)
}
