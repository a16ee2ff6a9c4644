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
	// Ounces is a weight in avoirdupois ounces.
	Ounces float64
	// Pounds is a weight in avoirdupois pounds.
	Pounds float64
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

// Kitchen volumes. The US measures follow from the gallon of 231 cubic inches
// and are exact; the metric ones are conventions (NIST SP 430 for 240, 15 and
// 5 mL; the cup of 250 mL, used in Australia and Canada, from memory).
const (
	USGallon            Millilitres = 3785.411784
	USCup               Millilitres = USGallon / 16
	USFluidOunce        Millilitres = USGallon / 128
	USTablespoon        Millilitres = USGallon / 256
	USTeaspoon          Millilitres = USGallon / 768
	ImperialPint        Millilitres = 568.26125
	MetricCup           Millilitres = 250
	HouseholdCup        Millilitres = 240
	HouseholdTablespoon Millilitres = 15
	HouseholdTeaspoon   Millilitres = 5
)

// Ounces gives the weight in ounces.
func (g Grams) Ounces() Ounces { return Ounces(g / GramsPerOunce) }

// Pounds gives the weight in pounds.
func (g Grams) Pounds() Pounds { return Pounds(g / GramsPerPound) }

// Grams gives the weight in grams.
func (o Ounces) Grams() Grams { return Grams(o) * GramsPerOunce }

// Grams gives the weight in grams.
func (p Pounds) Grams() Grams { return Grams(p) * GramsPerPound }

// Fahrenheit gives the temperature in degrees Fahrenheit.
func (c Celsius) Fahrenheit() Fahrenheit { return Fahrenheit(c*9/5 + 32) }

// Celsius gives the temperature in degrees Celsius.
func (f Fahrenheit) Celsius() Celsius { return Celsius(f-32) * 5 / 9 }

// Minus gives the difference c - d.
func (c Celsius) Minus(d Celsius) CelsiusDiff { return CelsiusDiff(c - d) }

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
