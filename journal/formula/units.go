package formula

// The units in which the journal keeps what it knows. A face in ounces, cups or
// degrees Fahrenheit is put on by the window and never stored.
type (
	// Grams is a weight in grams.
	Grams float64
	// Millilitres is a volume in millilitres.
	Millilitres float64
	// Celsius is a temperature in degrees Celsius.
	Celsius float64
	// CelsiusDiff is a difference of two temperatures in degrees Celsius. It
	// is a type apart because it turns into Fahrenheit without the 32.
	CelsiusDiff float64
	// Percent is a number per hundred: 75 is 75 %.
	Percent float64
)

// The faces that a window may put on them.
type (
	// Fahrenheit is a temperature in degrees Fahrenheit.
	Fahrenheit float64
	// FahrenheitDiff is a difference of two temperatures in degrees Fahrenheit.
	FahrenheitDiff float64
)

// The international pound of 1959 is exactly 453.59237 g; an ounce is a
// sixteenth of it.
const (
	GramsPerPound Grams = 453.59237
	GramsPerOunce Grams = GramsPerPound / 16
)

// Fahrenheit gives the temperature in degrees Fahrenheit.
func (c Celsius) Fahrenheit() Fahrenheit { return Fahrenheit(c*9/5 + 32) }

// Celsius gives the temperature in degrees Celsius.
func (f Fahrenheit) Celsius() Celsius { return Celsius(f-32) * 5 / 9 }

// Fahrenheit gives the difference in degrees Fahrenheit, without the 32.
func (d CelsiusDiff) Fahrenheit() FahrenheitDiff { return FahrenheitDiff(d * 9 / 5) }

// Celsius gives the difference in degrees Celsius, without the 32.
func (d FahrenheitDiff) Celsius() CelsiusDiff { return CelsiusDiff(d * 5 / 9) }

// Of gives that many per hundred of a weight.
func (p Percent) Of(g Grams) Grams { return Grams(p) * g / 100 }

// PercentOf gives the weight g per hundred of whole, and 0 when there is no
// whole to compare it with.
func (g Grams) PercentOf(whole Grams) Percent {
	if whole == 0 {
		return 0
	}
	return Percent(g / whole * 100)
}
