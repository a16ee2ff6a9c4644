package charts

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Plain writes a number with as many decimals as it deserves, at most four
// figures that count: "12.5", "0.0041", "1240".
func Plain(v float64) string {
	if !finite(v) {
		return "–"
	}
	if v == 0 {
		return "0"
	}
	places := 3 - int(math.Floor(math.Log10(math.Abs(v))))
	return trimmed(v, min(max(places, 0), 9))
}

// Times writes a ratio: "1.5×".
func Times(v float64) string {
	if !finite(v) {
		return "–"
	}
	return trimmed(v, 2) + "×"
}

// Percent writes a fraction of one in hundredths: "25 %".
func Percent(v float64) string {
	if !finite(v) {
		return "–"
	}
	return trimmed(v*100, 1) + "\u00A0%"
}

// decimals writes numbers with the decimals a step between them needs.
func decimals(step float64) func(float64) string {
	places := min(max(0, -int(math.Floor(math.Log10(step)+1e-9))), 12)
	return func(v float64) string { return minus(strconv.FormatFloat(v, 'f', places, 64)) }
}

func trimmed(v float64, places int) string {
	s := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return minus(s)
}

// minus sets a true minus sign, as wide as a figure.
func minus(s string) string {
	if s == "-0" {
		return "0"
	}
	return strings.Replace(s, "-", "−", 1)
}

// value writes a value of the axis with its unit.
func (a Axis) value(v float64) string {
	switch {
	case !finite(v):
		return "missing"
	case a.Zone != nil:
		return moment(v, a.Zone).Format("Mon 2 Jan 15:04")
	case a.Format != nil:
		return withUnit(a.Format(v), a.Unit)
	}
	return withUnit(Plain(v), a.Unit)
}

// place writes an X value as a reader would name it: "day of age 3".
func (a Axis) place(v float64) string {
	words := a.value(v)
	if a.Zone == nil && a.Unit == "" && a.Title != "" && len(a.Title) <= 24 && !strings.ContainsAny(a.Title, ",·(") {
		return a.Title + " " + words
	}
	return words
}

func withUnit(value, unit string) string {
	if unit == "" {
		return value
	}
	return value + "\u00A0" + unit
}

// sentence begins with a capital and ends with a full stop.
func sentence(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return ""
	}
	s = string(unicode.ToUpper(r)) + s[n:]
	if !strings.ContainsAny(s[len(s)-1:], ".!?") {
		s += "."
	}
	return s
}
