package measure

import (
	"twinloaf/assets/words"
	"twinloaf/journal/say"
	"twinloaf/journal/shorthand"
)

// Locale is the language of the window, with numbers and times written in these units.
func (u Units) Locale() say.Locale {
	return say.Locale{Find: words.Find, Comma: u.DecimalComma, TwelveHour: u.TwelveHour, MonthFirst: u.MonthFirst}
}

// Shorthand is how the baker writes by hand, with these units and in the language of
// the window.
func (u Units) Shorthand() shorthand.Style {
	return shorthand.Style{
		Comma: u.DecimalComma, MonthFirst: u.MonthFirst, Fahrenheit: u.Fahrenheit, Ounces: u.Ounces, Word: u.Locale().Word,
	}
}

// FormatNumber writes v with at most the given decimals, without trailing zeros,
// with the decimal mark of the units. What is not finite is written "?".
func (u Units) FormatNumber(v float64, decimals int) string { return u.Locale().Number(v, decimals) }

// FixedNumber writes v as FormatNumber does, but with all the decimals: figures of one
// column line up by their decimal marks.
func (u Units) FixedNumber(v float64, decimals int) string { return u.Locale().Fixed(v, decimals) }

// ParseNumber reads a number as a person types it.
func (u Units) ParseNumber(text string) (float64, error) { return u.Shorthand().Number(text) }
