package recipe

import (
	"strings"

	"twinloaf/journal/formula"
	"twinloaf/journal/shorthand"
)

// ParseLine reads an ingredient: "500 g strong white flour", "water, 350 g", "1 lb 2 oz
// flour", "2 cups (240 g) flour". A volume is a weight for water alone. What states no
// weight with its unit, or a range of them, is not Weighed.
func ParseLine(text string) Line {
	text = strings.Join(strings.Fields(text), " ")
	out := Line{Name: text, Text: text}
	l := shorthand.Style{}.Line(text)
	if l.Doubt != shorthand.NoDoubt || l.Bare || l.Heading || l.Grams <= 0 {
		return out
	}
	out.Name, out.Grams, out.Weighed = l.Name, formula.Grams(l.Grams), true
	return out
}
