package kit

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"unicode"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal/limit"
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
		return errors.New(m.units.Why(err))
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

// Exact sizes of customary units: NIST Handbook 44 (2023), appendix C.
const (
	GramsPerOunce    = 28.349523125
	GramsPerPound    = 453.59237
	MillimetresPerIn = 25.4
	MillilitresPerOz = 29.5735295625 // US fluid ounce
	MillilitresCup   = 236.5882365   // US cup
)

// Weight is the face of grams.
func (u Units) Weight() Measure {
	m := Measure{Unit: "g", Within: limit.Weight, units: u, Format: func(v float64) string { return u.FormatNumber(v, 1) }}
	if u.Ounces {
		m.Unit = "oz"
		m.Format = func(v float64) string { return u.FormatNumber(v/GramsPerOunce, 2) }
	}
	m.Parse = u.parser(m.Unit, map[string]float64{
		"g": 1, "gr": 1, "gram": 1, "grams": 1, "kg": 1000, "mg": 0.001,
		"oz": GramsPerOunce, "ounce": GramsPerOunce, "ounces": GramsPerOunce,
		"lb": GramsPerPound, "lbs": GramsPerPound, "pound": GramsPerPound, "pounds": GramsPerPound,
	})
	return m
}

// Length is the face of millimetres: a loaf is measured in centimetres or inches.
func (u Units) Length() Measure {
	m := Measure{Unit: "cm", Within: limit.Length, units: u, Format: func(v float64) string { return u.FormatNumber(v/10, 1) }}
	if u.Ounces {
		m.Unit = "in"
		m.Format = func(v float64) string { return u.FormatNumber(v/MillimetresPerIn, 2) }
	}
	m.Parse = u.parser(m.Unit, map[string]float64{
		"mm": 1, "cm": 10, "m": 1000, "in": MillimetresPerIn, "inch": MillimetresPerIn, "inches": MillimetresPerIn, "\"": MillimetresPerIn,
	})
	return m
}

// Volume is the face of millilitres.
func (u Units) Volume() Measure {
	m := Measure{Unit: "ml", Within: limit.Volume, units: u, Format: func(v float64) string { return u.FormatNumber(v, 0) }}
	if u.Ounces {
		m.Unit = "fl oz"
		m.Format = func(v float64) string { return u.FormatNumber(v/MillilitresPerOz, 1) }
	}
	m.Parse = u.parser(m.Unit, map[string]float64{
		"ml": 1, "cl": 10, "dl": 100, "l": 1000, "litre": 1000, "litres": 1000,
		"fl oz": MillilitresPerOz, "floz": MillilitresPerOz, "oz": MillilitresPerOz, "cup": MillilitresCup, "cups": MillilitresCup,
	})
	return m
}

// Temperature is the face of degrees Celsius.
func (u Units) Temperature() Measure {
	m := Measure{Unit: "°C", Within: limit.Temperature, units: u, Format: func(v float64) string { return u.FormatNumber(v, 1) }}
	if u.Fahrenheit {
		m.Unit = "°F"
		m.Format = func(v float64) string { return u.FormatNumber(v*9/5+32, 1) }
	}
	m.Parse = func(text string) (float64, error) {
		v, rest, err := u.leadingNumber(text)
		if err != nil {
			return 0, errors.New(problemNoNumber())
		}
		unit := strings.ToLower(strings.Trim(rest, " \u00a0°º"))
		if unit == "" {
			unit = map[bool]string{false: "c", true: "f"}[u.Fahrenheit]
		}
		switch unit {
		case "c", "celsius":
		case "f", "fahrenheit":
			v = (v - 32) * 5 / 9
		default:
			return 0, unknownUnit(rest, "°C, °F")
		}
		if v < -273.15 {
			return 0, errors.New(lang.L("Nothing is as cold as that."))
		}
		return v, nil
	}
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
	m.Parse = u.parser(unit, map[string]float64{strings.ToLower(unit): 1, strings.ToLower(said): 1})
	return m
}

// Duration is the face of minutes: "45 min", "4 h 30 min". It also reads "4:30".
func (u Units) Duration() Measure {
	m := Measure{Within: limit.Minutes, units: u, Format: func(v float64) string { return writeMinutes(u, v) }}
	table := map[string]float64{
		"min": 1, "m": 1, "minute": 1, "minutes": 1, "h": 60, "hr": 60, "hrs": 60, "hour": 60, "hours": 60,
		"d": 1440, "day": 1440, "days": 1440, "s": 1.0 / 60, "sec": 1.0 / 60,
	}
	for minutes, words := range map[float64][]string{
		1: {lang.L("min"), lang.L("minute"), lang.L("minutes")}, 60: {lang.L("h"), lang.L("hour"), lang.L("hours")}, 1440: {lang.L("day"), lang.L("days")},
	} {
		for _, word := range words {
			table[strings.Trim(strings.ToLower(word), ".")] = minutes
		}
	}
	parse := u.parser("min", table)
	m.Parse = func(text string) (float64, error) {
		var h, min int
		if n, err := fmt.Sscanf(strings.TrimSpace(text), "%d:%d", &h, &min); n == 2 && err == nil && h >= 0 && min >= 0 && min < 60 {
			return float64(h)*60 + float64(min), nil
		}
		return parse(text)
	}
	return m
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

// parser reads one or more numbers, each with a unit of the table, and adds them:
// "1 lb 4 oz". A number may go without its unit only when it stands alone; it then
// takes the default one.
func (u Units) parser(def string, table map[string]float64) func(string) (float64, error) {
	return func(text string) (float64, error) {
		sum, rest := 0.0, text
		for n := 0; ; n++ {
			v, after, err := u.leadingNumber(rest)
			if err != nil {
				return 0, errors.New(problemNoNumber())
			}
			word, tail := takeWord(after)
			if word == "" {
				if n > 0 {
					return 0, errors.New(lang.L("The last number has no unit beside it."))
				}
				word = strings.ToLower(def)
			}
			factor, ok := table[word]
			if !ok {
				return 0, unknownUnit(word, def)
			}
			sum += v * factor
			if rest = strings.TrimSpace(tail); rest == "" {
				return sum, nil
			}
		}
	}
}

// takeWord takes a unit: letters and signs up to the next digit, in lower case.
func takeWord(s string) (word, rest string) {
	end := strings.IndexFunc(s, func(r rune) bool {
		_, fraction := fractionRunes[r]
		return unicode.IsDigit(r) || r == '-' || r == '−' || fraction
	})
	if end < 0 {
		end = len(s)
	}
	word = strings.ToLower(strings.Trim(strings.ReplaceAll(s[:end], "\u00a0", " "), " .,"))
	return word, s[end:]
}

func unknownUnit(typed, usual string) error {
	return errors.New(lang.L("“{{.Unit}}” is no unit known here; try {{.Usual}}.",
		map[string]any{"Unit": strings.TrimSpace(typed), "Usual": usual}))
}
