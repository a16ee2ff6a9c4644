package blind

import (
	"slices"
	"strconv"
	"strings"

	"twinloaf/journal/blind/draw"
)

// goodCodes is the fixed list that codes are drawn from.
var goodCodes = listCodes()

// listCodes lists the three-digit codes that may be used, least first. Left out
// are codes with a digit twice and runs such as 123, which tasters give a
// meaning to, and codes that read as a code upside down, which a turned slip
// would confuse.
func listCodes() []string {
	var pool []string
	for n := 102; n <= 987; n++ {
		code := strconv.Itoa(n)
		a, b, c := code[0], code[1], code[2]
		switch {
		case a == b || b == c || a == c:
		case b == a+1 && c == b+1 || b+1 == a && c+1 == b:
		case strings.Trim(code, "01689") == "":
		default:
			pool = append(pool, code)
		}
	}
	return pool
}

// drawCodes draws n different codes in random order.
func drawCodes(source *draw.Source, n int) ([]string, error) {
	return draw.Pick(source, slices.Clone(goodCodes), n)
}
