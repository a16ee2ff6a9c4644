package recipe

import (
	"regexp"
	"strconv"
	"strings"

	"twinloaf/journal/formula"
)

// An amount is a number: 500, 1.5, 1,5, 1,250, 1/2, ½ or 1 ½.
const amount = `(\d+\s*[½¼¾⅓⅔⅛]|[½¼¾⅓⅔⅛]|\d+\s+\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)*)`

// weightUnit is a unit of weight, or of volume for water alone. A fluid ounce is
// none of them.
const weightUnit = `(kilograms?|kilogrammes?|kilos?|kg|milligrams?|mg|grams?|grammes?|gr|g|ounces?|oz|pounds?|lbs?|millilit(?:er|re)s?|ml|lit(?:er|re)s?|l)`

var (
	weight = regexp.MustCompile(`(?i)(^|[\s(,;:–-])` + amount + `\s*` + weightUnit + `(?:\.|\b)`)
	// unsure is what makes the weight another one: a range, a multiple, a share.
	unsure    = regexp.MustCompile(`(?i)(\d\s*(?:-|–|to|x|×)\s*$)`)
	fractions = map[rune]float64{'½': 1. / 2, '¼': 1. / 4, '¾': 3. / 4, '⅓': 1. / 3, '⅔': 2. / 3, '⅛': 1. / 8}
)

// unitGrams is what one of each unit weighs; a millilitre is one of water, as common
// practice has it (0.998 g at 20 °C).
func unitGrams(unit string) (g formula.Grams, volume bool) {
	unit = strings.ToLower(unit)
	switch {
	case strings.HasPrefix(unit, "k"):
		return 1000, false
	case strings.HasPrefix(unit, "millil"), unit == "ml":
		return 1, true
	case strings.HasPrefix(unit, "m"):
		return 0.001, false
	case strings.HasPrefix(unit, "g"):
		return 1, false
	case strings.HasPrefix(unit, "o"):
		return formula.GramsPerOunce, false
	case strings.HasPrefix(unit, "p"), strings.HasPrefix(unit, "lb"):
		return formula.GramsPerPound, false
	}
	return 1000, true // litres
}

// most is the heaviest line that is taken for one.
const most formula.Grams = 1e6

// ParseLine reads an ingredient: "500 g strong white flour", "water, 350 g", "1 lb 2 oz
// flour", "2 cups (240 g) flour". Where several weights stand for the same, grams are
// taken. A volume is a weight for water alone. What states no weight, or a range of
// them, is not Weighed.
func ParseLine(text string) Line {
	text = strings.Join(strings.Fields(text), " ")
	out := Line{Name: text, Text: text}
	found := weight.FindAllStringSubmatchIndex(text, -1)
	if len(found) == 0 {
		return out
	}
	best := -1
	for i, m := range found {
		g, volume := unitGrams(text[m[6]:m[7]])
		if unsure.MatchString(text[:m[4]]) || followedByRange(text[m[1]:]) {
			return out
		}
		if volume && !isWater(text) {
			continue
		}
		// The first weight in grams; else the first of any.
		if best < 0 || (g == 1 && !volume && !inGrams(text, found[best])) {
			best = i
		}
	}
	if best < 0 {
		return out
	}
	m := found[best]
	number, ok := parseAmount(text[m[4]:m[5]])
	unit, _ := unitGrams(text[m[6]:m[7]])
	grams := formula.Grams(number) * unit
	name := nameWithout(text, found)
	// A pound and some ounces are one weight.
	if ok && best+1 < len(found) && unit == formula.GramsPerPound {
		next := found[best+1]
		if u, _ := unitGrams(text[next[6]:next[7]]); u == formula.GramsPerOunce && strings.TrimSpace(text[m[1]:next[4]]) == "" {
			if n, fine := parseAmount(text[next[4]:next[5]]); fine {
				grams += formula.Grams(n) * u
			}
		}
	}
	if !ok || grams <= 0 || grams > most || name == "" {
		return out
	}
	out.Name, out.Grams, out.Weighed = name, grams, true
	return out
}

func inGrams(text string, m []int) bool {
	g, volume := unitGrams(text[m[6]:m[7]])
	return g == 1 && !volume
}

var rangeAfter = regexp.MustCompile(`(?i)^\s*(?:-|–|to|or)\s*\d`)

func followedByRange(rest string) bool { return rangeAfter.MatchString(rest) }

var water = regexp.MustCompile(`(?i)\b(water|wasser|eau|acqua)\b`)

// isWater leaves what is only called after water: rose water is none.
func isWater(text string) bool {
	low := strings.ToLower(text)
	return water.MatchString(text) && !strings.Contains(low, "rose") && !strings.Contains(low, "blossom") && !strings.Contains(low, "coconut")
}

// parseAmount reads a number as kitchens write it.
func parseAmount(s string) (float64, bool) {
	s = strings.TrimSpace(s)
	sum := 0.0
	for r, v := range fractions {
		if before, ok := strings.CutSuffix(s, string(r)); ok {
			sum, s = v, strings.TrimSpace(before)
			break
		}
	}
	if s == "" {
		return sum, sum > 0
	}
	if up, down, ok := strings.Cut(s, "/"); ok {
		whole := 0.0
		if i := strings.LastIndexByte(strings.TrimSpace(up), ' '); i >= 0 {
			n, err := strconv.ParseFloat(up[:i], 64)
			if err != nil {
				return 0, false
			}
			whole, up = n, up[i+1:]
		}
		a, errA := strconv.ParseFloat(strings.TrimSpace(up), 64)
		b, errB := strconv.ParseFloat(strings.TrimSpace(down), 64)
		if errA != nil || errB != nil || b == 0 {
			return 0, false
		}
		return whole + a/b, true
	}
	n, err := strconv.ParseFloat(decimalPoint(s), 64)
	return sum + n, err == nil
}

var thousands = regexp.MustCompile(`^\d{1,3}([.,])\d{3}(?:[.,]\d{3})*$`)

// decimalPoint reads 1,5 as one and a half, 1,250 as more than a thousand and
// 1.250,5 by its last sign. 1.250 stays what English has it be.
func decimalPoint(s string) string {
	if m := thousands.FindStringSubmatch(s); m != nil && (m[1] == "," || strings.Count(s, ".") > 1) {
		return strings.NewReplacer(",", "", ".", "").Replace(s)
	}
	last := strings.LastIndexAny(s, ".,")
	if last < 0 {
		return s
	}
	return strings.NewReplacer(",", "", ".", "").Replace(s[:last]) + "." + s[last+1:]
}

var (
	emptyBrackets = regexp.MustCompile(`\(\s*[,;/]*\s*\)`)
	emptyParts    = regexp.MustCompile(`^[\s,;:/+–-]+|[\s,;:/+–-]+$`)
	volumes       = regexp.MustCompile(`(?i)^` + amount + `\s*(cups?|tablespoons?|tbsps?|teaspoons?|tsps?|fl\.? ?oz|ml)\b\.?`)
)

// nameWithout is the text without its weights, the cups before one, and "of".
func nameWithout(text string, found [][]int) string {
	var b strings.Builder
	at := 0
	for _, m := range found {
		b.WriteString(text[at:m[4]])
		at = m[1]
	}
	b.WriteString(text[at:])
	s := emptyParts.ReplaceAllString(emptyBrackets.ReplaceAllString(b.String(), " "), "")
	s = volumes.ReplaceAllString(s, "")
	s = emptyParts.ReplaceAllString(s, "")
	s = strings.TrimPrefix(s, "of ")
	return strings.Join(strings.Fields(s), " ")
}
