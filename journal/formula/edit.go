package formula

import (
	"fmt"
	"math"

	"twinloaf/journal/say"
)

// Cell points at one line: of the final dough when Levain is [Final], of that
// levain otherwise.
type Cell struct {
	Levain int
	Line   int
}

// Final is the Levain of a [Cell] in the final dough.
const Final = -1

// The reasons why an edit or a scaling cannot be done.
var (
	ErrNoSuchLine = say.NewError("there is no such line")
	ErrNotAWeight = say.NewError("this is not a weight or percentage that can be used")
	ErrNoFlour    = say.NewError("there is no flour to reckon percentages from")
	ErrNothing    = say.NewError("there is nothing to scale from")
	ErrTooMuch    = say.NewError("the percentages leave no room for the rest of the flour")
)

// lines gives the lines that the cell's column belongs to.
func (f Formula) lines(c Cell) ([]Ingredient, error) {
	lines := f.Lines
	if c.Levain != Final {
		if c.Levain < 0 || c.Levain >= len(f.Levains) {
			return nil, fmt.Errorf("levain %d: %w", c.Levain+1, ErrNoSuchLine)
		}
		lines = f.Levains[c.Levain].Lines
	}
	if c.Line < 0 || c.Line >= len(lines) {
		return nil, fmt.Errorf("line %d: %w", c.Line+1, ErrNoSuchLine)
	}
	return lines, nil
}

// base is the flour that percentages in the cell's column are of.
func (f Formula) base(c Cell, b Basis) Grams {
	if c.Levain == Final {
		return f.flourIn(b)
	}
	return flourOf(f.Levains[c.Levain].Lines, b)
}

// Percent gives the baker's percentage in the cell, as its table shows it.
func (f Formula) Percent(c Cell, b Basis) (Percent, error) {
	lines, err := f.lines(c)
	if err != nil {
		return 0, err
	}
	base := f.base(c, b)
	if base <= 0 {
		return 0, ErrNoFlour
	}
	return lines[c.Line].Grams.PercentOf(base), nil
}

// setGrams gives the formula with that weight in the cell; nothing else
// changes but the percentages.
func (f Formula) setGrams(c Cell, g Grams) (Formula, error) {
	if !usable(float64(g)) {
		return f, fmt.Errorf("weight %g: %w", float64(g), ErrNotAWeight)
	}
	if _, err := f.lines(c); err != nil {
		return f, err
	}
	out := f.Clone()
	lines, _ := out.lines(c)
	lines[c.Line].Grams = g
	return out, nil
}

// SetPercent gives the formula with the weight that makes the cell's baker's
// percentage p.
//
// A flour among other flours of the same table takes from them or gives to
// them, in proportion, so that their sum stays what it is. Any other line
// changes alone. A line that is itself counted as flour (a culture, or a flour
// with no other beside it) also moves the hundred it is measured by; that is
// allowed for.
func (f Formula) SetPercent(c Cell, p Percent, b Basis) (Formula, error) {
	if !usable(float64(p)) {
		return f, fmt.Errorf("percentage %g: %w", float64(p), ErrNotAWeight)
	}
	lines, err := f.lines(c)
	if err != nil {
		return f, err
	}
	base := f.base(c, b)
	if base <= 0 {
		return f, ErrNoFlour
	}
	in := lines[c.Line]
	if in.Role == Flour {
		if others := otherFlour(lines, c.Line); others > 0 {
			return f.shareFlour(c, p.Of(base), others)
		}
	}
	// g is p of (rest + share*g): the flour elsewhere and the line's own.
	share := in.flourShare(b)
	rest := base - in.Grams*share
	room := 1 - Grams(p)/100*share
	if share > 0 && (room <= 1e-12 || rest <= 0) {
		if rest <= 0 && math.Abs(float64(in.Grams.PercentOf(base)-p)) < 1e-9 {
			return f.Clone(), nil
		}
		return f, fmt.Errorf("%g %% of %s: %w", float64(p), in.Name, ErrTooMuch)
	}
	return f.setGrams(c, p.Of(rest)/room)
}

// shareFlour sets a flour's weight and lets the table's other flours make up
// the difference.
func (f Formula) shareFlour(c Cell, g, others Grams) (Formula, error) {
	out := f.Clone()
	lines, err := out.lines(c)
	if err != nil {
		return f, err
	}
	left := others + lines[c.Line].Grams - g
	if left < -1e-9*(others+g) {
		return f, fmt.Errorf("%.1f g of %s: %w", float64(g), lines[c.Line].Name, ErrTooMuch)
	}
	factor := max(0, left) / others
	for i := range lines {
		if lines[i].Role == Flour {
			lines[i].Grams *= factor
		}
	}
	lines[c.Line].Grams = g
	return out, nil
}

func otherFlour(lines []Ingredient, but int) Grams {
	var sum Grams
	for i, in := range lines {
		if i != but && in.Role == Flour {
			sum += in.Grams
		}
	}
	return sum
}

// usable says whether x can be a weight or a percentage.
func usable(x float64) bool {
	return x >= 0 && !math.IsInf(x, 0) && !math.IsNaN(x)
}
