package kit

import (
	"errors"
	"math"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal/limit"
	"twinloaf/journal/shorthand"
)

// Measure is the face of one kind of quantity: how it is written and read.
type Measure struct {
	// Unit is written small beside the figure. It may be empty.
	Unit string
	// Format writes the figure alone, without the unit.
	Format func(v float64) string
	// Parse reads what was typed, with or without a unit, into the base unit. Its
	// error is a sentence to show to the user.
	Parse func(text string) (float64, error)
	// Within says which figures can be.
	Within limit.Kind

	units Units // that its sentences are written in
}

// In gives the measure for figures of another kind: u.Number("", 2).In(limit.PH).
func (m Measure) In(k limit.Kind) Measure {
	m.Within = k
	return m
}

// possible refuses a figure that cannot be, in a sentence in the baker's units.
func (m Measure) possible(v float64) error {
	if err := limit.Check(m.Within, v); err != nil {
		return errors.New(m.units.ErrorText(err))
	}
	return nil
}

// Write gives figure and unit together, with a no-break space between.
func (m Measure) Write(v float64) string {
	if m.Unit == "" {
		return m.Format(v)
	}
	return m.Format(v) + "\u00a0" + m.Unit
}

// The sizes of customary units that figures are written in.
const (
	GramsPerOunce    = shorthand.GramsPerOunce
	GramsPerPound    = shorthand.GramsPerPound
	millimetresPerIn = shorthand.MillimetresPerInch
	millilitresPerOz = shorthand.MillilitresPerOunce
)

// Weight is the face of grams.
func (u Units) Weight() Measure {
	m := Measure{Unit: "g", Within: limit.Weight, units: u, Format: func(v float64) string { return u.FormatNumber(v, 1) }}
	if u.Ounces {
		m.Unit = "oz"
		m.Format = func(v float64) string { return u.FormatNumber(v/GramsPerOunce, 2) }
	}
	m.Parse = u.sentence(u.Shorthand().Weight)
	return m
}

// Length is the face of millimetres: a loaf is measured in centimetres or inches.
func (u Units) Length() Measure {
	m := Measure{Unit: "cm", Within: limit.Length, units: u, Format: func(v float64) string { return u.FormatNumber(v/10, 1) }}
	if u.Ounces {
		m.Unit = "in"
		m.Format = func(v float64) string { return u.FormatNumber(v/millimetresPerIn, 2) }
	}
	usual := m.Unit
	m.Parse = u.sentence(func(text string) (float64, error) { return u.Shorthand().Length(text, usual) })
	return m
}

// Volume is the face of millilitres.
func (u Units) Volume() Measure {
	m := Measure{Unit: "ml", Within: limit.Volume, units: u, Format: func(v float64) string { return u.FormatNumber(v, 0) }}
	if u.Ounces {
		m.Unit = "fl oz"
		m.Format = func(v float64) string { return u.FormatNumber(v/millilitresPerOz, 1) }
	}
	usual := m.Unit
	m.Parse = u.sentence(func(text string) (float64, error) { return u.Shorthand().Volume(text, usual) })
	return m
}

// Temperature is the face of degrees Celsius.
func (u Units) Temperature() Measure {
	m := Measure{Unit: "°C", Within: limit.Temperature, units: u, Format: func(v float64) string { return u.FormatNumber(v, 1) }}
	if u.Fahrenheit {
		m.Unit = "°F"
		m.Format = func(v float64) string { return u.FormatNumber(v*9/5+32, 1) }
	}
	m.Parse = u.sentence(u.Shorthand().Temperature)
	return m
}

// Percent is the face of a percentage, kept as the number of percent (72, not 0.72).
func (u Units) Percent(decimals int) Measure {
	return u.Number("%", decimals).In(limit.Percent)
}

// Number is the face of a plain number with a unit of its own, which may be typed.
func (u Units) Number(unit string, decimals int) Measure {
	said := unit
	if unit != "" {
		said = lang.L(unit)
	}
	m := Measure{Unit: said, units: u, Format: func(v float64) string { return u.FormatNumber(v, decimals) }}
	m.Parse = u.sentence(func(text string) (float64, error) {
		v, err := u.Shorthand().Plain(text, said)
		if err != nil && said != unit {
			return u.Shorthand().Plain(text, unit)
		}
		return v, err
	})
	return m
}

// Duration is the face of minutes: "45 min", "4 h 30 min". It also reads "4:30".
func (u Units) Duration() Measure {
	return Measure{Within: limit.Minutes, units: u, Format: func(v float64) string { return writeMinutes(u, v) },
		Parse: u.sentence(u.Shorthand().Span)}
}

// sentence has a refusal said in the baker's language.
func (u Units) sentence(parse func(string) (float64, error)) func(string) (float64, error) {
	return func(text string) (float64, error) {
		v, err := parse(text)
		if err != nil {
			return 0, errors.New(u.ErrorText(err))
		}
		return v, nil
	}
}

func writeMinutes(u Units, v float64) string {
	v = math.Round(v)
	h, min := math.Floor(v/60), math.Mod(v, 60)
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return "?"
	case v < 60:
		return u.FormatNumber(v, 0) + "\u00a0" + lang.L("min")
	case min == 0:
		return u.FormatNumber(h, 0) + "\u00a0" + lang.L("h")
	}
	return u.FormatNumber(h, 0) + "\u00a0" + lang.L("h") + " " + u.FormatNumber(min, 0) + "\u00a0" + lang.L("min")
}
