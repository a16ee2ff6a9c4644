// Package limit says which figures can be: from what to what a weight, a
// temperature or a height in a baker's journal may lie. Outside of that a figure is
// a slip of the hand or of a file, and it is refused in a sentence, at the field as
// it is typed and in the journal whatever the door. The limits are wide: they part
// what can be from what cannot, not what is good from what is odd. They are the
// program's own choice, no source.
package limit

import (
	"math"

	"twinloaf/journal/say"
)

// A Kind is a kind of figure. The zero Kind is a plain number, not below zero.
type Kind int

// The kinds, with the unit in which their figures are counted.
const (
	Number      Kind = iota // anything counted or measured that has no kind of its own
	Weight                  // g
	Temperature             // °C
	Difference              // °C, between two temperatures; may be below zero
	Length                  // mm
	Volume                  // ml
	Percent                 // baker's %, of the flour
	Share                   // % of a whole
	Minutes                 // how long something takes
	Shift                   // minutes by which something is moved; may be below zero
	Hours                   // how long something takes, counted in hours
	Age                     // minutes of how old something is
	Days                    // how old something is, counted in days
	Rise                    // height, as a multiple of that at the start
	PH                      // pH
	Parts                   // one part of a ratio such as 1:2:2
	Count                   // feedings, rounds: whole
	Loaves                  // that one formula makes: whole
	Turns                   // folds in one step: whole
	Score                   // 1 to 9: whole
)

// A Range is from what to what figures of a kind may lie, both included.
type Range struct {
	Low, High float64
	// Unit is in what the figures are counted: "g", "°C", "%"; empty for a number.
	Unit string
	// Whole has no fractions.
	Whole bool
	// Difference marks the difference of two temperatures.
	Difference bool
}

// year is the longest that a step of the work may take, in minutes.
const year = 366 * 24 * 60

// ranges is the one table of limits.
var ranges = [...]Range{
	Number:      {Low: 0, High: 1e6},
	Weight:      {Low: 0, High: 1e6, Unit: "g"},    // a tonne
	Temperature: {Low: -60, High: 600, Unit: "°C"}, // a deep freezer to a wood-fired oven
	Difference:  {Low: -100, High: 100, Unit: "°C", Difference: true},
	Length:      {Low: 0, High: 2000, Unit: "mm"},             // two metres of loaf
	Volume:      {Low: 0, High: 1e6, Unit: "ml"},              // a cubic metre
	Percent:     {Low: 0, High: 10000, Unit: "%"},             // a levain on a spoonful of flour
	Share:       {Low: 0, High: 100, Unit: "%"},               // of a whole
	Minutes:     {Low: 0, High: year, Unit: "min"},            // a year
	Shift:       {Low: -year, High: year, Unit: "min"},        // either way
	Hours:       {Low: 0, High: year / 60, Unit: "h"},         // a year
	Age:         {Low: 0, High: 36600 * 24 * 60, Unit: "min"}, // a century
	Days:        {Low: 0, High: 36600},                        // a century
	Rise:        {Low: 0.1, High: 10},                         // fallen flat to ten times its start
	PH:          {Low: 0, High: 14},                           // the scale of pH
	Parts:       {Low: 0, High: 1000},                         // a crumb of culture to a tub of flour
	Count:       {Low: 0, High: 9999, Whole: true},
	Loaves:      {Low: 1, High: 200, Whole: true}, // more than any oven of a home takes in a day
	Turns:       {Low: 0, High: 100, Whole: true},
	Score:       {Low: 1, High: 9, Whole: true},
}

// names are the words for kinds in the tags of records.
var names = map[string]Kind{
	"number": Number, "weight": Weight, "temperature": Temperature, "difference": Difference, "length": Length,
	"volume": Volume, "percent": Percent, "share": Share, "minutes": Minutes, "shift": Shift, "hours": Hours, "days": Days, "age": Age,
	"rise": Rise, "ph": PH, "parts": Parts, "count": Count, "turns": Turns, "loaves": Loaves, "score": Score,
}

// Named finds a kind by its word: "ph".
func Named(word string) (Kind, bool) {
	k, ok := names[word]
	return k, ok
}

// Check refuses a figure that cannot be, in a sentence that names the limits.
func Check(k Kind, v float64) error {
	r := ranges[k]
	low, high := r.said(r.Low), r.said(r.High)
	switch {
	case math.IsNaN(v) || v < r.Low || v > r.High:
		return say.NewError("This must be between {{.Low}} and {{.High}}.", say.With{"Low": low, "High": high})
	case r.Whole && v != math.Trunc(v):
		return say.NewError("This must be a whole number.")
	}
	return nil
}

// said is a limit as it stands in a sentence.
func (r Range) said(v float64) any {
	n := say.Number{Value: v, Decimals: say.AsNeeded}
	if r.Unit == "" {
		return n
	}
	return say.Quantity{Number: n, Unit: r.Unit, Difference: r.Difference}
}
