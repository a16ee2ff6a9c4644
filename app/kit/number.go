package kit

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"unicode"

	"fyne.io/fyne/v2/lang"
)

// errNoNumber is given for text that holds no number.
var errNoNumber = errors.New("no number")

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

// ParseNumber reads a number as a person types it: with a decimal comma or point,
// spaces or marks between thousands, a fraction ("1 1/2", "½").
//
// One comma before exactly three digits ("1,200") parts thousands where the decimal
// mark is a point, and one point does where it is a comma; after a leading zero
// ("0,385") it is a decimal mark everywhere.
func (u Units) ParseNumber(text string) (float64, error) {
	v, rest, err := u.leadingNumber(text)
	if err != nil {
		return 0, err
	}
	if strings.TrimSpace(rest) != "" {
		return 0, errNoNumber
	}
	return v, nil
}

// leadingNumber reads the number that text begins with and gives what follows it.
func (u Units) leadingNumber(text string) (v float64, rest string, err error) {
	s := strings.TrimLeftFunc(text, unicode.IsSpace)
	sign := 1.0
	for _, minus := range []string{"-", "−", "–"} {
		if t, ok := strings.CutPrefix(s, minus); ok {
			s, sign = t, -1
			break
		}
	}
	s = strings.TrimPrefix(s, "+")
	s = strings.TrimLeftFunc(s, unicode.IsSpace)
	digits, rest := takeDigits(s)
	if digits == "" {
		f, after, ok := takeFraction(s, 0)
		if !ok {
			return 0, text, errNoNumber
		}
		return sign * f, after, nil
	}
	v, err = strconv.ParseFloat(u.plain(digits), 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, text, errNoNumber
	}
	if f, after, ok := takeFraction(rest, v); ok {
		return sign * f, after, nil
	}
	return sign * v, rest, nil
}

// takeDigits takes digits, decimal marks and spaces between groups of three.
func takeDigits(s string) (digits, rest string) {
	runes := []rune(s)
	i := 0
	for i < len(runes) {
		r := runes[i]
		switch {
		case r >= '0' && r <= '9':
		case (r == '.' || r == ',') && i+1 < len(runes) && isDigit(runes[i+1]):
		case (r == ' ' || r == '\u00a0' || r == '\u202f' || r == '\'' || r == '’') && i > 0 && groupOfThree(runes[i+1:]):
		default:
			return string(runes[:i]), string(runes[i:])
		}
		i++
	}
	return string(runes), ""
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

// groupOfThree says whether exactly three digits come next, and no unit of a
// fraction after them.
func groupOfThree(r []rune) bool {
	if len(r) < 3 || !isDigit(r[0]) || !isDigit(r[1]) || !isDigit(r[2]) {
		return false
	}
	return len(r) == 3 || !isDigit(r[3]) && r[3] != '/'
}

// plain turns digits with any marks into what strconv reads.
func (u Units) plain(s string) string {
	s = strings.Map(func(r rune) rune {
		if r == ' ' || r == '\u00a0' || r == '\u202f' || r == '\'' || r == '’' {
			return -1
		}
		return r
	}, s)
	points, commas := strings.Count(s, "."), strings.Count(s, ",")
	switch {
	case points > 0 && commas > 0: // the last mark is the decimal one
		if strings.LastIndex(s, ".") > strings.LastIndex(s, ",") {
			return strings.ReplaceAll(s, ",", "")
		}
		return strings.ReplaceAll(strings.ReplaceAll(s, ".", ""), ",", ".")
	case points > 1:
		return strings.ReplaceAll(s, ".", "")
	case commas > 1:
		return strings.ReplaceAll(s, ",", "")
	case commas == 1 && !u.DecimalComma && thousands(s, ","):
		return strings.Replace(s, ",", "", 1)
	case points == 1 && u.DecimalComma && thousands(s, "."):
		return strings.Replace(s, ".", "", 1)
	}
	return strings.Replace(s, ",", ".", 1)
}

func thousands(s, mark string) bool {
	head, tail, _ := strings.Cut(s, mark)
	return len(tail) == 3 && len(head) >= 1 && len(head) <= 3 && head[0] != '0'
}

var fractionRunes = map[rune]float64{
	'½': 1.0 / 2, '¼': 1.0 / 4, '¾': 3.0 / 4, '⅓': 1.0 / 3, '⅔': 2.0 / 3, '⅛': 1.0 / 8, '⅜': 3.0 / 8, '⅝': 5.0 / 8, '⅞': 7.0 / 8,
}

// takeFraction reads "½", "1/2" or, after a whole number, "/2", and adds it.
func takeFraction(s string, whole float64) (v float64, rest string, ok bool) {
	t := strings.TrimLeft(s, " \u00a0")
	for r, f := range fractionRunes {
		if after, found := strings.CutPrefix(t, string(r)); found {
			return whole + f, after, true
		}
	}
	if after, found := strings.CutPrefix(t, "/"); found { // the whole was a numerator
		n, tail := takePlainDigits(after)
		if n == 0 {
			return 0, s, false
		}
		return whole / n, tail, true
	}
	num, tail := takePlainDigits(t)
	after, found := strings.CutPrefix(tail, "/")
	if num == 0 || !found || s == t && whole != 0 {
		return 0, s, false
	}
	den, tail := takePlainDigits(after)
	if den == 0 {
		return 0, s, false
	}
	return whole + num/den, tail, true
}

func takePlainDigits(s string) (float64, string) {
	i := 0
	for i < len(s) && i < 6 && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	v, err := strconv.ParseFloat(s[:i], 64)
	if err != nil {
		return 0, s
	}
	return v, s[i:]
}

// problemNoNumber is the sentence for text that is no number.
func problemNoNumber() string {
	return lang.L("This is not a number yet; what you typed is kept.")
}
