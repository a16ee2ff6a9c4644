package cultures

import (
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// The figures of an entry that the list of everything has columns for.
const (
	keptFigure = iota
	flourFigure
	waterFigure
	riseFigure
	warmthFigure
	acidFigure
	figureCount
)

// entryFigures are figures as they are written, without their units; empty: not recorded.
type entryFigures [figureCount]string

// figureUnits are the units of the columns.
func figureUnits(u measure.Units) [figureCount]string {
	w := u.Weight().Unit
	return [figureCount]string{keptFigure: w, flourFigure: w, waterFigure: w, warmthFigure: u.Temperature().Unit}
}

// figuresOfFeeding are what a feeding weighed and how warm the room was.
func figuresOfFeeding(f *journal.Feeding, u measure.Units) entryFigures {
	form := formOf(f)
	var out entryFigures
	if f.Kept > 0 {
		out[keptFigure] = bareGrams(u, form.kept)
	}
	if !histories.Taking(f) {
		out[flourFigure], out[waterFigure] = bareGrams(u, form.flour), bareGrams(u, form.water)
	}
	out[warmthFigure] = warmth(f.RoomC, u)
	return out
}

// figuresOfReading are what was read; the rise is against the feeding f.
func figuresOfReading(r *journal.Reading, f *journal.Feeding, u measure.Units) entryFigures {
	var out entryFigures
	if rise, ok := histories.Rise(r, f); ok {
		out[riseFigure] = u.Times().Write(rise)
	}
	if r.PH != nil {
		out[acidFigure] = u.FixedNumber(*r.PH, 2)
	}
	out[warmthFigure] = warmth(r.Temp, u)
	return out
}

// warmth writes a temperature to the tenth, so that a column of them lines up.
func warmth(c *formula.Celsius, u measure.Units) string {
	if c == nil {
		return ""
	}
	return u.FixedNumber(u.Temperature().Shown(float64(*c)), 1)
}

// bareGrams writes a weight as grams does, without its unit and with the decimals of its
// column.
func bareGrams(u measure.Units, g float64) string {
	if u.Ounces {
		return u.FixedNumber(u.Weight().Shown(g), 2)
	}
	return u.FixedNumber(roundGrams(g), 0)
}
