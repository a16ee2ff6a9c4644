package shorthand

import (
	"regexp"
	"slices"
	"strings"

	"twinloaf/journal/say"
)

// A Line is one line of a dough as it was written.
type Line struct {
	// Text is the whole line, its spaces made single.
	Text string
	// Name is what it is of, without the amounts; for a heading, its words.
	Name string
	// Grams is how much of it; 0 where no weight is said.
	Grams float64
	// Bare says that the weight stood there without a unit.
	Bare bool
	// Percent is its share of the flour; 0 where none is said.
	Percent float64
	// Hydration is that of a culture, in percent of its flour; 0 where it is not said.
	Hydration float64
	// Heading says that the line names the part that follows: "For the levain:".
	Heading bool
	// Doubt is why no amount was understood; NoDoubt where one was.
	Doubt Doubt
}

// A Doubt is why the amount of a line is not known.
type Doubt int

// The doubts.
const (
	NoDoubt  Doubt = iota
	NoAmount       // none is said: "salt to taste"
	NoName         // there is only an amount
	ARange         // "500 to 550 g", "2 x 250 g"
	AVolume        // a volume of what is not water: "2 cups flour", "1 EL Honig"
	ACount         // a number of things: "3 eggs"
	TooMuch        // more than a tonne, or nothing
)

// Line says the doubt in a sentence; nothing for NoDoubt.
func (d Doubt) Line() say.Line { return doubtLines[d] }

var doubtLines = map[Doubt]say.Line{
	NoAmount: say.Of("No amount was understood here."),
	NoName:   say.Of("Of what?"),
	ARange:   say.Of("There is more than one amount here: say which."),
	AVolume:  say.Of("A volume, and only water's weight is known by it: weigh it."),
	ACount:   say.Of("A number of pieces: weigh them."),
	TooMuch:  say.Of("Such a weight is no dough's."),
}

// An amount is a number: 500, 1.5, 1,5, 1,250, 1/2, ½ or 1 ½.
const amount = `(\d+\s*[½¼¾⅓⅔⅛⅜⅝⅞]|[½¼¾⅓⅔⅛⅜⅝⅞]|\d+\s+\d+/\d+|\d+/\d+|\d+(?:[.,'’]\d+)*|[1-9] \d{3}|[1-9]\d{0,2}(?:[\x{a0}\x{202f}]\d{3})+)`

// lineUnit is a unit of weight, or of volume for water alone. A fluid ounce is none.
const lineUnit = `(kilograms?|kilogrammes?|kilogramm|kilos?|kg|milligrams?|milligramm|mg|grams?|grammes?|gramm|gms?|gr|g|ounces?|oz|unzen?|pounds?|lbs?|pfund|millilit(?:er|re)s?|ml|centilit(?:er|re)s?|cl|decilit(?:er|re)s?|dl|lit(?:er|re)s?|l)`

var (
	lineWeight = regexp.MustCompile(`(?i)(^|[\s(,;:=~–-])(?:ca\.?\s*|about\s*|approx\.?\s*|etwa\s*)?` + amount + `\s*` + lineUnit + `(?:\.|\b)`)
	// unsure is what makes the weight another one: a range, a multiple.
	unsureBefore = regexp.MustCompile(`(?i)(\d\s*(?:g|kg|ml|%)?\s*(?:-|–|to|bis|or|oder|x|×)\s*$)`)
	unsureAfter  = regexp.MustCompile(`(?i)^\s*(?:-|–|to|or|bis|oder)\s*\d`)

	lineShare = regexp.MustCompile(`(?i)` + amount + `\s*(%|percent|per cent|prozent)`)
	// other are percentages that are no share of the flour.
	otherShare = regexp.MustCompile(`(?i)^\s*(?:protein|eiwei(?:ß|ss)|fat|fett|i\. ?tr|cocoa|kakao|ash\b|extraction|ausmahlung|vol\b|alc|ige)`)
	wetShare   = regexp.MustCompile(`(?i)^\s*(?:hydration|hydratation|hydrat\w*|hyd\b|hydr\b|wet|ta\b)`)
	wetBefore  = regexp.MustCompile(`(?i)(?:hydration|hydratation|hyd\.?)\s*(?:of|von|:|=)?\s*$`)
	yield      = regexp.MustCompile(`(?i)\bTA\s*:?\s*(\d{3})\b`)

	bullet  = regexp.MustCompile(`^(?:[-–—•·*+▪▢☐□✓✔>|]+\s+|[•·▪▢☐□✓✔]\s*|\[[ xX]?\]\s*|\d{1,2}[.)]\s+)`)
	bareEnd = regexp.MustCompile(`^(.*\S)[\s:=,–-]+` + amount + `$`)
	bareAt  = regexp.MustCompile(`^` + amount + `\s+(\D.*)$`)
	// pieces are what is counted or spooned rather than weighed.
	pieces = regexp.MustCompile(`(?i)^(?:large |medium |small |big |gro(?:ß|ss)e?s? |kleine?s? |mittlere?s? |heaped |level |gestrichene?r? |gehäufte?r? )*(eggs?|yolks?|whites?|eier|ei|eigelb|eiwei(?:ß|ss)|apples?|äpfel|apfel|potato(?:es)?|kartoffeln?|bananas?|bananen?|cloves?|zehen?|slices?|scheiben?|pieces?|stück|pinch(?:es)?|prisen?|handfuls?|hände?|handvoll|sachets?|packets?|packs?|päckchen|pck\.?|würfel|cubes?|bunch|bund|dash|sprigs?|sticks?)\b`)
	spoons = regexp.MustCompile(`(?i)^(?:large |small |heaped |level |gestrichene?r? |gehäufte?r? )*(cups?|tassen?|tablespoons?|tbsps?\.?|tbs\.?|teaspoons?|tsps?\.?|el|tl|esslöffel|teelöffel|messerspitzen?|msp\.?|fl\.? ?oz\.?|fluid ounces?|glass(?:es)?|glas|gläser|becher|schuss|splash|pints?|quarts?)(?:\b|\s|$)`)
	// typed are words after which a number is a flour's type, not its weight.
	typed = regexp.MustCompile(`(?i)(?:\b(?:type|typ|tipo|t|w|no|nr|nummer|number)\.?:?|mehl|farine|schrot)$`)

	waterWord    = regexp.MustCompile(`(?i)\b(?:\w*wasser|water|eau|acqua)\b`)
	notWater     = regexp.MustCompile(`(?i)rose|blossom|coconut|kokos|orange|blüten`)
	emptyBracket = regexp.MustCompile(`\(\s*(?:[,;/=~]|ca\.?|about|approx\.?|etwa|TA)*\s*\)`)
	looseEnds    = regexp.MustCompile(`^[\s,;:/+=~–-]+|[\s,;:/+=~–-]+$`)
	leadingOf    = regexp.MustCompile(`(?i)^(?:of|von|de|d'|à|a)\s+`)
	spoonsIn     = regexp.MustCompile(`(?i)\(\s*` + amount + `\s*(?:cups?|tassen?|tablespoons?|tbsps?|teaspoons?|tsps?|el|tl|fl\.? ?oz|ml)\b[^)]*\)`)
	spoonsAt     = regexp.MustCompile(`(?i)^` + amount + `\s*(?:large |small |heaped |level )?(?:cups?|tassen?|tablespoons?|tbsps?|teaspoons?|tsps?|el|tl|fl\.? ?oz|ml)\b\.?`)
)

// germanTypes are the types of flour by DIN 10355: numbers beside a flour that are most
// likely its type.
var germanTypes = []string{"405", "550", "630", "812", "815", "997", "1050", "1150", "1370", "1600", "1740", "1800"}

// mostGrams is the heaviest line that is taken for one.
const mostGrams = 1e6

// Line reads one line of a dough: "whole rye 300", "300 g rye", "rye 20 %", "salt: 2%",
// "1 lb 2 oz flour", "2 cups (240 g) flour", "Roggenmehl Type 1150 300 g", "75 % Wasser".
// Where several weights stand for the same, grams are taken. A volume is a weight for
// water alone: 1 ml is 1 g as common practice has it (0.998 g at 20 °C). A number without
// a unit is a weight in grams, or in ounces by the style, unless it is a flour's type or
// counts pieces.
func (s Style) Line(text string) Line {
	text = strings.Join(strings.Fields(strings.ToValidUTF8(text, "")), " ")
	out := Line{Text: text, Name: text}
	if len(text) > longest {
		out.Doubt = NoAmount
		return out
	}
	rest := bullet.ReplaceAllString(text, "")
	if head, ok := strings.CutSuffix(rest, ":"); ok && !strings.ContainsAny(head, "0123456789") && head != "" {
		out.Name, out.Heading = head, true
		return out
	}
	rest = emptyBracket.ReplaceAllString(out.takeHydration(s, rest), " ")
	rest = out.takeShare(s, rest)
	if rest = out.takeWeight(s, rest); out.Grams == 0 && out.Percent == 0 && out.Doubt == NoDoubt {
		rest = out.takeBare(s, rest)
	}
	out.Name = tidyName(rest)
	switch {
	case out.Doubt != NoDoubt:
		out.Name = looseEnds.ReplaceAllString(bullet.ReplaceAllString(text, ""), "")
		out.Grams, out.Percent = 0, 0
	case out.Grams > mostGrams || out.Percent > 1e4:
		out = Line{Text: text, Name: text, Doubt: TooMuch}
	case out.Grams == 0 && out.Percent == 0:
		out.Doubt = NoAmount
	case out.Name == "":
		out.Doubt = NoName
	}
	return out
}

// takeHydration takes "(100 % hydration)" and "TA 200" out of a line.
func (l *Line) takeHydration(s Style, rest string) string {
	for _, m := range lineShare.FindAllStringSubmatchIndex(rest, -1) {
		after := wetShare.FindStringIndex(rest[m[1]:])
		before := wetBefore.FindStringIndex(rest[:m[0]])
		if after == nil && before == nil {
			continue
		}
		v, err := s.lineNumber(rest[m[2]:m[3]])
		if err != nil || v <= 0 || v > 400 {
			return rest
		}
		l.Hydration = v
		from, to := m[0], m[1]
		if after != nil {
			to += after[1]
		} else {
			from = before[0]
		}
		return rest[:from] + rest[to:]
	}
	// The Teigausbeute of the German trade: the dough's weight per 100 of flour.
	if m := yield.FindStringSubmatchIndex(rest); m != nil {
		if v, err := s.lineNumber(rest[m[2]:m[3]]); err == nil && v > 100 && v <= 500 {
			l.Hydration = v - 100
			return rest[:m[0]] + rest[m[1]:]
		}
	}
	return rest
}

// takeShare takes a percentage of the flour out of a line.
func (l *Line) takeShare(s Style, rest string) string {
	for _, m := range lineShare.FindAllStringSubmatchIndex(rest, -1) {
		if otherShare.MatchString(rest[m[1]:]) {
			continue
		}
		if unsureBefore.MatchString(rest[:m[2]]) || unsureAfter.MatchString(rest[m[1]:]) {
			l.Doubt = ARange
			return rest
		}
		v, err := s.lineNumber(rest[m[2]:m[3]])
		if err != nil || v <= 0 {
			l.Doubt = TooMuch
			return rest
		}
		l.Percent = v
		return rest[:m[0]] + " " + rest[m[1]:]
	}
	return rest
}

// takeWeight takes the weights out of a line.
func (l *Line) takeWeight(s Style, rest string) string {
	found := lineWeight.FindAllStringSubmatchIndex(rest, -1)
	if len(found) == 0 {
		return rest
	}
	best, volume := -1, false
	for i, m := range found {
		factor, vol := lineFactor(rest[m[6]:m[7]])
		if unsureBefore.MatchString(rest[:m[4]]) || unsureAfter.MatchString(rest[m[1]:]) {
			l.Doubt = ARange
			return rest
		}
		if vol && !isWater(rest) {
			volume = true
			continue
		}
		// The first weight in grams; else the first of any.
		if best < 0 || factor == 1 && !vol && !inGrams(rest, found[best]) {
			best = i
		}
	}
	if best < 0 {
		if volume {
			l.Doubt = AVolume
		}
		return rest
	}
	m := found[best]
	v, err := s.lineNumber(rest[m[4]:m[5]])
	factor, _ := lineFactor(rest[m[6]:m[7]])
	if err != nil || v <= 0 {
		l.Doubt = TooMuch
		return rest
	}
	// A weight of three decimals of a gram is no kitchen's: 1.250 g are thousands.
	if factor == 1 && threeDecimals.MatchString(rest[m[4]:m[5]]) {
		v *= 1000
	}
	l.Grams = v * factor
	// A pound and some ounces are one weight.
	if best+1 < len(found) && factor == GramsPerPound {
		next := found[best+1]
		if f, _ := lineFactor(rest[next[6]:next[7]]); f == GramsPerOunce && strings.TrimSpace(rest[m[1]:next[4]]) == "" {
			if n, err := s.lineNumber(rest[next[4]:next[5]]); err == nil {
				l.Grams += n * f
			}
		}
	}
	var b strings.Builder
	at := 0
	for _, m := range found {
		b.WriteString(rest[at:m[2]] + strings.Trim(rest[m[2]:m[3]], ":=~–-") + " ")
		at = m[1]
	}
	b.WriteString(rest[at:])
	return b.String()
}

var threeDecimals = regexp.MustCompile(`^[1-9]\d{0,2}\.\d{3}$`)

// takeBare takes a number without a unit: the last word, or else the first.
func (l *Line) takeBare(s Style, rest string) string {
	rest = looseEnds.ReplaceAllString(rest, "")
	unit := 1.0
	if s.Ounces {
		unit = GramsPerOunce
	}
	if m := bareAt.FindStringSubmatch(rest); m != nil {
		switch {
		case pieces.MatchString(m[2]):
			l.Doubt = ACount
			return rest
		case spoons.MatchString(m[2]):
			l.Doubt = AVolume
			return rest
		case unsureAfter.MatchString(rest[len(m[1]):]) || rangeWord.MatchString(m[2]):
			l.Doubt = ARange
			return rest
		}
	}
	if m := bareEnd.FindStringSubmatch(rest); m != nil && !leadingZero(m[2]) {
		lead := bareAt.FindStringSubmatch(rest)
		isType := typed.MatchString(strings.TrimSpace(m[1])) && (lead != nil || slices.Contains(germanTypes, m[2]) || !flourEnd.MatchString(m[1]))
		switch {
		case unsureBefore.MatchString(m[1] + " " + m[2][:0]), rangeEnd.MatchString(m[1]):
			l.Doubt = ARange
			return rest
		case !isType:
			if v, err := s.lineNumber(m[2]); err == nil && v > 0 {
				l.Grams, l.Bare = v*unit, true
				return m[1]
			}
		}
	}
	if m := bareAt.FindStringSubmatch(rest); m != nil && !leadingZero(m[1]) {
		if v, err := s.lineNumber(m[1]); err == nil && v > 0 {
			l.Grams, l.Bare = v*unit, true
			return m[2]
		}
	}
	return rest
}

var (
	rangeWord = regexp.MustCompile(`(?i)^(?:to|or|bis|oder|x|×)\s*\d|^x\s`)
	rangeEnd  = regexp.MustCompile(`(?i)\d\s*(?:-|–|to|or|bis|oder|x|×)$`)
	flourEnd  = regexp.MustCompile(`(?i)(?:mehl|farine|schrot)$`)
)

// leadingZero tells the "00" and "0" of Italian flours from amounts.
func leadingZero(s string) bool {
	return strings.Trim(s, "0") == "" || len(s) > 1 && s[0] == '0' && isDigit(rune(s[1]))
}

// lineFactor is what one of a unit weighs in grams; a millilitre is one of water.
func lineFactor(unit string) (grams float64, volume bool) {
	unit = strings.ToLower(unit)
	switch {
	case strings.HasPrefix(unit, "millil"), unit == "ml":
		return 1, true
	case strings.HasPrefix(unit, "centil"), unit == "cl":
		return 10, true
	case strings.HasPrefix(unit, "decil"), unit == "dl":
		return 100, true
	case strings.HasPrefix(unit, "lit"), unit == "l":
		return 1000, true
	case strings.HasPrefix(unit, "milligram"):
		return 0.001, false
	}
	return weights[unit], false
}

func inGrams(text string, m []int) bool {
	f, volume := lineFactor(text[m[6]:m[7]])
	return f == 1 && !volume
}

// isWater leaves what is only called after water: rose water is none.
func isWater(text string) bool { return waterWord.MatchString(text) && !notWater.MatchString(text) }

// lineNumber reads the amount of a line. Between digits and exactly three more a comma
// parts thousands, whatever the style: no scale shows thousandths of a gram.
func (s Style) lineNumber(text string) (float64, error) {
	one := Style{Comma: false}
	if s.Comma && !strings.Contains(text, ",") {
		one.Comma = strings.Count(text, ".") > 1
	}
	return one.Number(text)
}

func tidyName(s string) string {
	for range 3 {
		s = emptyBracket.ReplaceAllString(spoonsIn.ReplaceAllString(s, " "), " ")
		s = looseEnds.ReplaceAllString(s, "")
		s = spoonsAt.ReplaceAllString(s, "")
		s = leadingOf.ReplaceAllString(s, "")
	}
	s = strings.NewReplacer("( ", "(", " )", ")").Replace(strings.Join(strings.Fields(s), " "))
	return strings.NewReplacer(" , ,", ",", ", ,", ",", " ,", ",", ",)", ")", "(, ", "(").Replace(s)
}
