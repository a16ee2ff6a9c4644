package formula

import (
	"fmt"
	"math"
)

// Scale multiplies every weight; the percentages stay.
func (f Formula) Scale(factor float64) (Formula, error) {
	if !usable(factor) || factor == 0 {
		return f, fmt.Errorf("scale by %g: %w", factor, ErrNotAWeight)
	}
	out := f.Clone()
	for i := range out.Lines {
		out.Lines[i].Grams *= Grams(factor)
	}
	for i := range out.Levains {
		l := &out.Levains[i]
		l.KeptBack *= Grams(factor)
		for j := range l.Lines {
			l.Lines[j].Grams *= Grams(factor)
		}
	}
	return out, nil
}

// ScaleToDough makes the dough weigh what is asked.
func (f Formula) ScaleToDough(dough Grams) (Formula, error) {
	return f.scaleFrom(f.Metrics().Dough, dough, "dough")
}

// ScaleToLoaves makes dough for n loaves of so much dough each.
func (f Formula) ScaleToLoaves(n int, each Grams) (Formula, error) {
	return f.scaleFrom(f.Metrics().Dough, Grams(n)*each, "dough")
}

// ScaleToFlour makes the flour by the basis given weigh what is asked.
func (f Formula) ScaleToFlour(flour Grams, b Basis) (Formula, error) {
	return f.scaleFrom(f.FlourIn(b), flour, "flour")
}

// ScaleToCulture makes the formula use just the culture there is.
func (f Formula) ScaleToCulture(have Grams) (Formula, error) {
	return f.scaleFrom(f.CultureIn(), have, "culture")
}

func (f Formula) scaleFrom(from, to Grams, what string) (Formula, error) {
	if from <= 0 {
		return f, fmt.Errorf("scale to %g g of %s: %w", float64(to), what, ErrNothing)
	}
	out, err := f.Scale(float64(to / from))
	if err != nil {
		return f, fmt.Errorf("scale to %g g of %s: %w", float64(to), what, err)
	}
	return out, nil
}

// DoughForBread is the dough needed for a weight of cooled bread when loss of
// the dough's weight is lost on the way; loss is per hundred of dough. Usual
// loaves lose 10 to 13 % (W. Gisslen, Professional Baking).
func DoughForBread(bread Grams, loss Percent) (Grams, error) {
	if !usable(float64(bread)) || !usable(float64(loss)) || loss >= 100 {
		return 0, fmt.Errorf("dough for %g g of bread at %g %% loss: %w", float64(bread), float64(loss), ErrNotAWeight)
	}
	return bread / (1 - Grams(loss)/100), nil
}

// Refreshment is one feeding by weight: so much is kept, so much flour and
// water are added. Only the proportions matter.
type Refreshment struct {
	Keep, Flour, Water Grams
}

// OriginalLeft is the part, 0 to 1, of the culture's mass that was there
// before n equal refreshments.
func (r Refreshment) OriginalLeft(n int) float64 {
	all := r.Keep + r.Flour + r.Water
	if all <= 0 {
		return 0
	}
	return math.Pow(float64(r.Keep/all), float64(n))
}

// Hydration is the culture's hydration after n equal refreshments, begun at
// start. It drifts toward Water per Flour, and is that at once when nothing is
// kept.
func (r Refreshment) Hydration(start Percent, n int) Percent {
	for range n {
		flour := r.Keep * 100 / Grams(100+start)
		water := r.Keep - flour
		start = (water + r.Water).PercentOf(flour + r.Flour)
	}
	return start
}
