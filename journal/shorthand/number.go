package shorthand

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// Number reads a number as a person types it: with a decimal comma or point, spaces or
// marks between thousands, a fraction ("1 1/2", "½").
//
// One comma before exactly three digits ("1,200") parts thousands where the decimal mark
// is a point, and one point does where it is a comma; after a leading zero ("0,385") it is
// a decimal mark everywhere.
func (s Style) Number(text string) (float64, error) {
	v, rest, err := s.leading(text)
	if err != nil {
		return 0, err
	}
	if strings.TrimSpace(rest) != "" {
		return 0, ErrNumber
	}
	return v, nil
}

// leading reads the number that text begins with and gives what follows it.
func (s Style) leading(text string) (v float64, rest string, err error) {
	t := strings.TrimLeftFunc(text, unicode.IsSpace)
	sign := 1.0
	for _, minus := range []string{"-", "−", "–"} {
		if after, ok := strings.CutPrefix(t, minus); ok {
			t, sign = after, -1
			break
		}
	}
	t = strings.TrimPrefix(t, "+")
	t = strings.TrimLeftFunc(t, unicode.IsSpace)
	digits, rest := takeDigits(t)
	if digits == "" {
		f, after, ok := takeFraction(t, 0)
		if !ok {
			return 0, text, ErrNumber
		}
		return sign * f, after, nil
	}
	v, err = strconv.ParseFloat(s.plain(digits), 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, text, ErrNumber
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
		case isDigit(r):
		case (r == '.' || r == ',') && i+1 < len(runes) && isDigit(runes[i+1]):
		case groupMark(r) && i > 0 && groupOfThree(runes[i+1:]):
		default:
			return string(runes[:i]), string(runes[i:])
		}
		i++
	}
	return string(runes), ""
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

func groupMark(r rune) bool {
	return r == ' ' || r == '\u00a0' || r == '\u202f' || r == '\'' || r == '’'
}

// groupOfThree says whether exactly three digits come next, and no unit of a
// fraction after them.
func groupOfThree(r []rune) bool {
	if len(r) < 3 || !isDigit(r[0]) || !isDigit(r[1]) || !isDigit(r[2]) {
		return false
	}
	return len(r) == 3 || !isDigit(r[3]) && r[3] != '/'
}

// plain turns digits with any marks into what strconv reads.
func (s Style) plain(digits string) string {
	digits = strings.Map(func(r rune) rune {
		if groupMark(r) {
			return -1
		}
		return r
	}, digits)
	points, commas := strings.Count(digits, "."), strings.Count(digits, ",")
	switch {
	case points > 0 && commas > 0: // the last mark is the decimal one
		i := strings.LastIndexAny(digits, ".,")
		return ungrouped(digits[:i]) + "." + digits[i+1:]
	case points > 1, commas > 1:
		return ungrouped(digits)
	case commas == 1 && !s.Comma && thousands(digits, ","):
		return strings.Replace(digits, ",", "", 1)
	case points == 1 && s.Comma && thousands(digits, "."):
		return strings.Replace(digits, ".", "", 1)
	}
	return strings.Replace(digits, ",", ".", 1)
}

// ungrouped takes the marks between thousands away: three digits come after the last of
// them, as 1.234.567 and 1,00,000 are written. What is no such number stays, and is none.
func ungrouped(s string) string {
	mark := ","
	if strings.Contains(s, ".") {
		mark = "."
	}
	groups := strings.Split(s, mark)
	for i, g := range groups[1:] {
		if len(g) != 3 && (len(g) != 2 || i == len(groups)-2) {
			return s
		}
	}
	return strings.Join(groups, "")
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
