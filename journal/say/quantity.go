package say

import (
	"math"
	"strconv"
	"strings"
	"time"
)

// A Number stands in a line as a figure. The zero Decimals writes a whole
// number; AsNeeded writes as many digits as the value has.
type Number struct {
	Value    float64
	Decimals int
}

// AsNeeded writes a Number with no more digits than it takes to read it back.
const AsNeeded = -1

// Round gives a Number with at most so many decimals: 2.50 reads 2.5.
func Round[T ~int | ~float64](v T, most int) Number {
	scale := math.Pow10(most)
	return Number{Value: math.Round(float64(v)*scale) / scale, Decimals: AsNeeded}
}

// String writes the number with a decimal point.
func (n Number) String() string { return strconv.FormatFloat(n.Value, 'f', n.Decimals, 64) }

// A Quantity stands in a line as a figure with its unit, in metric: "g", "°C",
// "mm", "ml", or another unit that is the same everywhere. The window may write
// it in ounces or degrees Fahrenheit.
type Quantity struct {
	Number
	Unit string
	// Difference marks the difference of two temperatures, which has no zero to
	// count from.
	Difference bool
}

// Grams is a weight with so many decimals.
func Grams[T ~int | ~float64](g T, decimals int) Quantity {
	return Quantity{Number: Number{float64(g), decimals}, Unit: "g"}
}

// Celsius is a temperature with so many decimals.
func Celsius[T ~int | ~float64](c T, decimals int) Quantity {
	return Quantity{Number: Number{float64(c), decimals}, Unit: "°C"}
}

// Percent is a share of a hundred with so many decimals.
func Percent[T ~int | ~float64](p T, decimals int) Quantity {
	return Quantity{Number: Number{float64(p), decimals}, Unit: "%"}
}

// String writes figure and unit with a space between.
func (q Quantity) String() string {
	if q.Unit == "" {
		return q.Number.String()
	}
	return q.Number.String() + " " + q.Unit
}

// A Form says how much of a moment is told.
type Form int

// The forms, with their English.
const (
	Clock        Form = iota // 15:04
	WeekdayClock             // Mon 15:04
	Day                      // 2 January
	DayClock                 // 2 January 15:04
	Date                     // 2 January 2006
)

var layouts = [...]string{Clock: "15:04", WeekdayClock: "Mon 15:04", Day: "2 January", DayClock: "2 January 15:04", Date: "2 January 2006"}

// A Moment stands in a line as a time.
type Moment struct {
	At time.Time
	As Form
}

// String writes the moment in English with a day of 24 hours.
func (m Moment) String() string { return m.At.Format(layouts[m.As]) }

// Thousands writes a whole number in groups of three with narrow gaps.
func Thousands(n float64) string {
	digits := strconv.FormatFloat(math.Round(n), 'f', 0, 64)
	var groups []string
	for len(digits) > 3 {
		groups = append([]string{digits[len(digits)-3:]}, groups...)
		digits = digits[:len(digits)-3]
	}
	return strings.Join(append([]string{digits}, groups...), "\u202f")
}
