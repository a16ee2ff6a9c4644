package kit

import (
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal/shorthand"
)

// FormatNumber writes v with at most the given decimals, without trailing zeros,
// with the decimal mark of the units. What is not finite is written "?".
func (u Units) FormatNumber(v float64, decimals int) string { return u.number(v, decimals, true) }

// FixedNumber writes v as FormatNumber does, but with all the decimals: figures of one
// column line up by their decimal marks.
func (u Units) FixedNumber(v float64, decimals int) string { return u.number(v, decimals, false) }

func (u Units) number(v float64, decimals int, trim bool) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "?"
	}
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if trim && strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if strings.Trim(s, "-0.") == "" { // nothing is not less than nothing
		s = strings.TrimPrefix(s, "-")
	}
	s = strings.Replace(s, "-", "−", 1)
	if u.DecimalComma {
		s = strings.Replace(s, ".", ",", 1)
	}
	return s
}

// ParseNumber reads a number as a person types it.
func (u Units) ParseNumber(text string) (float64, error) { return u.Shorthand().Number(text) }

// Shorthand is how the baker writes by hand, with these units and in the language of
// the catalogue.
func (u Units) Shorthand() shorthand.Style {
	return shorthand.Style{
		Comma: u.DecimalComma, MonthFirst: u.MonthFirst, Fahrenheit: u.Fahrenheit, Ounces: u.Ounces,
		Word: func(english string) string { return lang.L(english) },
	}
}
