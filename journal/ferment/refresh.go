package ferment

import (
	"fmt"
	"math"

	"twinloaf/journal/say"
)

// Mix is flour and water together.
type Mix struct {
	Flour Grams
	Water Grams
}

// MixOf is a weight of culture at a hydration (water over flour, 1 is 100 %),
// parted into its flour and its water.
func MixOf(total Grams, hydration float64) Mix {
	flour := Grams(float64(total) / (1 + hydration))
	return Mix{Flour: flour, Water: total - flour}
}

// Total is the weight of the mix.
func (m Mix) Total() Grams { return m.Flour + m.Water }

// Hydration is water over flour, 1 for 100 %. It is 0 without flour.
func (m Mix) Hydration() float64 {
	if m.Flour <= 0 {
		return 0
	}
	return float64(m.Water / m.Flour)
}

// part is a weight taken from the mix, of the same composition.
func (m Mix) part(g Grams) Mix {
	if m.Total() <= 0 {
		return Mix{}
	}
	share := g / m.Total()
	return Mix{Flour: m.Flour * share, Water: m.Water * share}
}

// State is what is in the jar, and how much of it is left of the culture that
// the count began with.
type State struct {
	Mix      Mix
	Original float64 // share of the weight, 1 at the beginning
}

// NewState begins the count with a mix.
func NewState(m Mix) State { return State{Mix: m, Original: 1} }

// Refreshment is one feeding by weight.
type Refreshment struct {
	Kept  Grams
	Flour Grams
	Water Grams
}

// ErrNothingKept tells that a feeding keeps nothing of the culture: what
// stands in the jar after it is a new mix of flour and water.
var ErrNothingKept = say.NewError("nothing of the culture is kept")

// Feed keeps a part of what is in the jar and adds flour and water. What is not
// kept is off; the error says so if more is to be kept than there is.
func (s State) Feed(r Refreshment) (State, error) {
	for _, g := range []Grams{r.Kept, r.Flour, r.Water, s.Mix.Flour, s.Mix.Water} {
		if g < 0 || math.IsNaN(float64(g)) || math.IsInf(float64(g), 0) {
			return s, fmt.Errorf("feeding by weight: %w", say.NewError("{{.Weight}} is not a weight", say.With{"Weight": say.Grams(g, say.AsNeeded)}))
		}
	}
	if r.Kept == 0 {
		return s, ErrNothingKept
	}
	// A thousandth of a gram is forgiven: weights added up in binary are not exact.
	if r.Kept > s.Mix.Total()+0.001 {
		return s, say.NewError("{{.Kept}} cannot be kept: there are only {{.Have}} in the jar",
			say.With{"Kept": say.Grams(r.Kept, 0), "Have": say.Grams(s.Mix.Total(), 0)})
	}
	kept := s.Mix.part(r.Kept)
	next := Mix{Flour: kept.Flour + r.Flour, Water: kept.Water + r.Water}
	return State{Mix: next, Original: s.Original * float64(r.Kept/next.Total())}, nil
}

// Taking is what a withdrawal, for a bake or a gift, leaves in the jar.
type Taking struct {
	Left    Grams
	Short   Grams // asked for, but not there
	AllGone bool  // nothing would be kept back: the culture ends here
}

// Take works out what is left after taking a weight. A window warns before it
// carries out a taking that is AllGone.
func (m Mix) Take(g Grams) Taking {
	left := m.Total() - g
	if left < 0 {
		return Taking{Short: -left, AllGone: true}
	}
	return Taking{Left: left, AllGone: left < 1} // what clings to a spoon is no culture
}
