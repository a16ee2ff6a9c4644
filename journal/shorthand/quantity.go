package shorthand

import (
	"strings"
	"unicode"

	"twinloaf/journal/formula"
)

// Exact sizes of customary units: NIST Handbook 44 (2023), appendix C.
const (
	GramsPerOunce       = float64(formula.GramsPerOunce)
	GramsPerPound       = float64(formula.GramsPerPound)
	MillimetresPerInch  = 25.4
	MillilitresPerOunce = 29.5735295625 // US fluid ounce
	millilitresPerCup   = 236.5882365   // US cup
)

// The units of each kind of figure, in its base unit.
var (
	weights = map[string]float64{
		"g": 1, "gr": 1, "gm": 1, "gms": 1, "gram": 1, "grams": 1, "gramme": 1, "grammes": 1, "gramm": 1,
		"kg": 1000, "kilo": 1000, "kilos": 1000, "kilogram": 1000, "kilograms": 1000, "kilogramm": 1000, "kilogrammes": 1000, "mg": 0.001,
		"oz": GramsPerOunce, "ounce": GramsPerOunce, "ounces": GramsPerOunce, "unze": GramsPerOunce, "unzen": GramsPerOunce,
		"lb": GramsPerPound, "lbs": GramsPerPound, "pound": GramsPerPound, "pounds": GramsPerPound, "pfund": 500,
	}
	lengths = map[string]float64{
		"mm": 1, "cm": 10, "m": 1000, "in": MillimetresPerInch, "inch": MillimetresPerInch, "inches": MillimetresPerInch, "\"": MillimetresPerInch, "zoll": MillimetresPerInch,
	}
	volumes = map[string]float64{
		"ml": 1, "cl": 10, "dl": 100, "l": 1000, "litre": 1000, "litres": 1000, "liter": 1000, "liters": 1000,
		"fl oz": MillilitresPerOunce, "floz": MillilitresPerOunce, "oz": MillilitresPerOunce,
		"cup": millilitresPerCup, "cups": millilitresPerCup,
	}
	spans = map[string]float64{
		"min": 1, "mins": 1, "m": 1, "minute": 1, "minutes": 1, "minuten": 1,
		"h": 60, "hr": 60, "hrs": 60, "hour": 60, "hours": 60, "std": 60, "stunde": 60, "stunden": 60,
		"d": 1440, "day": 1440, "days": 1440, "tag": 1440, "tage": 1440, "tagen": 1440,
		"week": 10080, "weeks": 10080, "woche": 10080, "wochen": 10080,
		"s": 1.0 / 60, "sec": 1.0 / 60, "sek": 1.0 / 60, "seconds": 1.0 / 60, "sekunden": 1.0 / 60,
	}
)

// Weight reads grams: "300", "300 g", "1.5 kg", "1 lb 2 oz", "ein Pfund".
func (s Style) Weight(text string) (float64, error) {
	usual := "g"
	if s.Ounces {
		usual = "oz"
	}
	return s.Sum(text, usual, weights)
}

// Length reads millimetres; a bare number is of the usual unit.
func (s Style) Length(text, usual string) (float64, error) { return s.Sum(text, usual, lengths) }

// Volume reads millilitres; a bare number is of the usual unit.
func (s Style) Volume(text, usual string) (float64, error) { return s.Sum(text, usual, volumes) }

// Plain reads a number that may have a unit of its own beside it.
func (s Style) Plain(text, unit string) (float64, error) {
	table := map[string]float64{strings.ToLower(unit): 1}
	if unit == "%" {
		table["percent"], table["per cent"], table["prozent"] = 1, 1, 1
	}
	return s.Sum(text, unit, table)
}

// Sum reads one or more numbers, each with a unit of the table, and adds them: "1 lb 4
// oz". A number may go without its unit only when it stands alone; it then takes the
// usual one.
func (s Style) Sum(text, usual string, table map[string]float64) (float64, error) {
	if len(text) > longest {
		return 0, ErrNumber
	}
	sum, rest := 0.0, numeral(text, table)
	for n := 0; ; n++ {
		v, after, err := s.leading(rest)
		if err != nil || v < 0 && n > 0 { // "300 g-250 g" is a stretch
			return 0, ErrNumber
		}
		word, tail := takeWord(after)
		switch {
		case word == "" && n > 0:
			return 0, ErrBareLast
		case word == "" && tail != "":
			return 0, ErrNumber
		case word == "":
			word = strings.ToLower(usual)
		}
		factor, ok := table[word]
		if !ok {
			return 0, unknownUnit(word, usual)
		}
		sum += v * factor
		if rest = strings.TrimSpace(tail); rest == "" {
			return sum, nil
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

// numeral writes a first word that is a number in digits, before a unit of the table: "a
// pound", "ein Pfund".
func numeral(text string, table map[string]float64) string {
	first, rest, ok := strings.Cut(strings.TrimSpace(text), " ")
	if !ok {
		return text
	}
	of := strings.TrimPrefix(strings.TrimPrefix(strings.ToLower(rest), "a "), "an ")
	if unit, _, _ := strings.Cut(of, " "); table[strings.Trim(unit, ".,")] == 0 {
		return text
	}
	switch low := strings.ToLower(first); low {
	case "a", "an", "ein", "eine", "einen", "einem", "einer":
		return "1 " + rest
	case "half", "halbe", "halbes", "halber", "halben":
		return "½ " + of
	case "anderthalb", "eineinhalb":
		return "1½ " + rest
	default:
		if n, ok := numbers[low]; ok {
			return strings.TrimSpace(itoa(n) + " " + rest)
		}
	}
	return text
}

// Temperature reads degrees Celsius: "24", "24 °C", "75F", "24 Grad".
func (s Style) Temperature(text string) (float64, error) {
	v, rest, err := s.leading(text)
	if err != nil || len(text) > longest {
		return 0, ErrNumber
	}
	unit := strings.ToLower(rest)
	for _, word := range []string{"degrees", "degree", "deg", "grad"} {
		unit = strings.Replace(unit, word, "", 1)
	}
	unit = strings.Trim(unit, " .\u00a0\u202f°º")
	if unit == "" {
		unit = map[bool]string{false: "c", true: "f"}[s.Fahrenheit]
	}
	switch unit {
	case "c", "celsius", "℃":
	case "f", "fahrenheit", "℉":
		v = (v - 32) * 5 / 9
	default:
		return 0, unknownUnit(rest, "°C, °F")
	}
	if v < -273.15 {
		return 0, ErrCold
	}
	return v, nil
}
