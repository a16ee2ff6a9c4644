package formula

import (
	"fmt"
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
	return f.scaleFrom(f.flourIn(b), flour, "flour")
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
