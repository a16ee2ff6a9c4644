// Package shorthand reads what bakers write by hand, in English and in German: a weight
// ("1 lb 2 oz", "500 Gramm"), a line of a dough ("whole rye 300", "300 g rye", "salt 2 %"),
// ten such lines pasted from a mail, the ratio of a feeding ("1:2:2"), a rise ("20 %",
// "1.2", "92 mm"), a moment ("half past seven", "in 40 min", "halb acht"), a span and a
// temperature ("75F"). It is the one place that does so.
//
// It knows no screen, no record and no clock: what the present is, it is told. What is not
// understood is refused with a sentence, never guessed at.
//
// The words of both languages, and what they mean, are common usage, no source; a German
// pound is the 500 g of the markets.
package shorthand

import (
	"strings"

	"twinloaf/journal/say"
)

// Style says how the one who writes is used to write. The zero value is metric, with a
// decimal point and the day before the month.
type Style struct {
	Comma      bool // the decimal mark is a comma
	MonthFirst bool // 11/24 is in November
	Fahrenheit bool // of a bare temperature
	Ounces     bool // of a bare weight
	// Word puts an English word of the calendar ("March", "Mar", "Tuesday", "pm") into
	// the language that dates are written in. Nil leaves it English; English and German
	// are always understood.
	Word func(english string) string
}

func (s Style) word(english string) string {
	if s.Word == nil {
		return english
	}
	return s.Word(english)
}

// What a text may not be. Each is a sentence.
var (
	ErrNumber   = say.NewError("This is not a number yet; what you typed is kept.")
	ErrBareLast = say.NewError("The last number has no unit beside it.")
	ErrCold     = say.NewError("Nothing is as cold as that.")
	ErrRatio    = say.NewError("Parts kept, of flour, of water: 1:2:2.")
	ErrHeight   = say.NewError("A ratio such as 1.8, a rise such as 80 %, or a height such as 92 mm.")
	ErrNoTime   = say.NewError("There is no time here yet.")
	ErrTime     = say.NewError("This is not a time that can be read; try “24 Nov 07:30”, “half past seven” or “-20 min”.")
	ErrWeekday  = say.NewError("That date is another weekday.")
	ErrNoSuch   = say.NewError("That month has no such day.")
)

func unknownUnit(typed, usual string) error {
	return say.NewError("“{{.Unit}}” is no unit known here; try {{.Usual}}.",
		say.With{"Unit": strings.TrimSpace(typed), "Usual": usual})
}

// longest is how long a text may be that holds one figure, in bytes.
const longest = 200
