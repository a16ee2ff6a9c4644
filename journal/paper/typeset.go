package paper

import "strings"

// Clean keeps what the PDF library can set: valid text of the basic plane
// without control characters but the new line. What lies beyond is shown as a
// white square.
func Clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r < ' ' || r == 0x7f:
			return ' '
		case r > 0xFFFF:
			return '□'
		}
		return r
	}, strings.ToValidUTF8(s, "□"))
}

// Fit cleans a text, puts it on one line and shortens it to a width by the
// measure of the font that it is set in. Width and measure are in the same unit.
func Fit(s string, width float64, measure func(string) float64) string {
	s = strings.ReplaceAll(Clean(s), "\n", " ")
	if measure(s) <= width {
		return s
	}
	runes := []rune(s)
	for len(runes) > 0 && measure(string(runes)+"…") > width {
		runes = runes[:len(runes)-1]
	}
	return string(runes) + "…"
}
