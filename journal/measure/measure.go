package measure

import (
	"errors"
	"math"
	"strings"
	"unicode"

	"twinloaf/journal/formula"
	"twinloaf/journal/limit"
	"twinloaf/journal/say"
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
	// Shown gives a figure in the unit that it is written in; nil where that is the one
	// it is kept in.
	Shown func(v float64) float64
	// Within says which figures can be.
	Within limit.Kind

	units Units // that its sentences are written in
}

// In gives the measure for figures of another kind: u.Number("", 2).In(limit.PH).
func (m Measure) In(k limit.Kind) Measure {
	m.Within = k
	return m
}

// Check refuses a figure that cannot be, in a sentence in the baker's units.
func (m Measure) Check(v float64) error {
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

// WriteDifference writes how far two figures lie apart, without a sign.
func (m Measure) WriteDifference(v float64) string {
	if m.Within == limit.Temperature {
		m = m.units.Warmer()
	}
	return m.Write(math.Abs(v))
}

// Column is the face of figures that stand in one column: each with as many decimals as
// one of them needs. What is no plain number, as "4 h 30 min" and "1.50×", stays as it is.
func (m Measure) Column(figures ...float64) Measure {
	decimals := 0
	for _, v := range figures {
		s := m.Format(v)
		if strings.ContainsFunc(s, unicode.IsLetter) || strings.Contains(s, "×") {
			return m
		}
		if i := strings.LastIndexAny(s, ".,"); i >= 0 {
			decimals = max(decimals, len(s)-i-1)
		}
	}
	return m.Fixed(decimals)
}

// Fixed is the face of figures that have so many decimals wherever they stand.
func (m Measure) Fixed(decimals int) Measure {
	shown := m.Shown
	m.Format = func(v float64) string {
		if shown != nil {
			v = shown(v)
		}
		return m.units.FixedNumber(v, decimals)
	}
	return m
}

// measure is the face of a base unit that stands per of them in one of the unit shown,
// which counts from zero on.
func (u Units) measure(k limit.Kind, unit string, decimals int, per, zero float64, parse func(string) (float64, error)) Measure {
	shown := func(v float64) float64 { return v/per + zero }
	return Measure{Unit: unit, Within: k, units: u, Shown: shown, Parse: u.sentence(parse),
		Format: func(v float64) string { return u.FormatNumber(shown(v), decimals) }}
}

// Weight is the face of grams.
func (u Units) Weight() Measure {
	if u.Ounces {
		return u.measure(limit.Weight, "oz", 2, shorthand.GramsPerOunce, 0, u.Shorthand().Weight)
	}
	return u.measure(limit.Weight, "g", 1, 1, 0, u.Shorthand().Weight)
}

// Grams writes a weight with its unit.
func (u Units) Grams(g formula.Grams) string { return u.Weight().Write(float64(g)) }

// Celsius writes a temperature with its unit.
func (u Units) Celsius(c formula.Celsius) string { return u.Temperature().Write(float64(c)) }

// Length is the face of millimetres: a loaf is measured in centimetres or inches.
func (u Units) Length() Measure {
	unit, decimals, per := "cm", 1, 10.0
	if u.Ounces {
		unit, decimals, per = "in", 2, shorthand.MillimetresPerInch
	}
	return u.measure(limit.Length, unit, decimals, per, 0, func(text string) (float64, error) { return u.Shorthand().Length(text, unit) })
}

// Volume is the face of millilitres.
func (u Units) Volume() Measure {
	unit, decimals, per := "ml", 0, 1.0
	if u.Ounces {
		unit, decimals, per = "fl oz", 1, shorthand.MillilitresPerOunce
	}
	return u.measure(limit.Volume, unit, decimals, per, 0, func(text string) (float64, error) { return u.Shorthand().Volume(text, unit) })
}

// Temperature is the face of degrees Celsius.
func (u Units) Temperature() Measure {
	if u.Fahrenheit {
		return u.measure(limit.Temperature, "°F", 1, 5.0/9, 32, u.Shorthand().Temperature)
	}
	return u.measure(limit.Temperature, "°C", 1, 1, 0, u.Shorthand().Temperature)
}

// Warmer is the face of a difference of temperatures, which has no zero to count from:
// 5 °C are 9 °F, and not 41.
func (u Units) Warmer() Measure {
	unit, per := "°C", 1.0
	if u.Fahrenheit {
		unit, per = "°F", 5.0/9
	}
	return u.measure(limit.Difference, unit, 1, per, 0, func(text string) (float64, error) {
		v, err := u.Shorthand().Plain(text, unit)
		return v * per, err
	})
}

// Percent is the face of a percentage, kept as the number of percent (72, not 0.72).
func (u Units) Percent(decimals int) Measure {
	return u.Number("%", decimals).In(limit.Percent)
}

// Share is the face of a share of a whole, kept from 0 to 1 and written in per cent.
func (u Units) Share(decimals int) Measure {
	return u.measure(limit.Number, "%", decimals, 0.01, 0, func(text string) (float64, error) {
		v, err := u.Shorthand().Plain(text, "%")
		return v / 100, err
	})
}

// Times is the face of a rise: "1.50×", the sign right behind its figure.
func (u Units) Times() Measure {
	m := u.Number("×", 2).In(limit.Rise)
	m.Unit, m.Format = "", u.Locale().Times
	return m
}

// Number is the face of a plain number with a unit of its own, which may be typed.
func (u Units) Number(unit string, decimals int) Measure {
	said := unit
	if unit != "" {
		said = u.Locale().Word(unit)
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
		return u.FormatNumber(v, 0) + "\u00a0" + u.Say(say.Of("min"))
	case min == 0:
		return u.FormatNumber(h, 0) + "\u00a0" + u.Say(say.Of("h"))
	}
	return u.FormatNumber(h, 0) + "\u00a0" + u.Say(say.Of("h")) + " " + u.FormatNumber(min, 0) + "\u00a0" + u.Say(say.Of("min"))
}
