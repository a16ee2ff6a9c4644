package cultures

import (
	"regexp"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// young is the day of age up to which a culture is spoken of by its days.
const young = 42

func sortByTime[T any](s []T, at func(T) time.Time) {
	slices.SortStableFunc(s, func(a, b T) int { return at(a).Compare(at(b)) })
}

// headingOf names a culture with its age.
func headingOf(l *histories.CultureHistory, now time.Time) string {
	name := nameOf(l.Culture)
	if age := ageWords(l, now); age != "" {
		return lang.L("{{.Name}}, {{.Age}}", map[string]any{"Name": name, "Age": age})
	}
	return name
}

// nameOf is a culture's name, or what stands in for one.
func nameOf(c *journal.Culture) string {
	if strings.TrimSpace(c.Name) == "" {
		return lang.L("A culture without a name")
	}
	return c.Name
}

// ageWords is "day 12" for a young culture, "11 months old" for one that is not.
func ageWords(l *histories.CultureHistory, now time.Time) string {
	if !l.Culture.Ended.IsZero() && l.Culture.Ended.Before(now) {
		return lang.L("retired")
	}
	day := l.Day(now)
	past := day - 1 // whole days that have gone by
	data := map[string]any{"N": day}
	switch {
	case day <= 0:
		return ""
	case day <= young:
		return lang.L("day {{.N}}", data)
	case past < 61:
		data["N"] = past / 7
		return lang.L("{{.N}} weeks old", data)
	case past < 731:
		data["N"] = int(float64(past) / 30.44)
		return lang.L("{{.N}} months old", data)
	}
	data["N"] = int(float64(past) / 365.25)
	return lang.L("{{.N}} years old", data)
}

// eyebrowOf says what a culture is made of and where it comes from.
func eyebrowOf(p *portrait, u measure.Units) string {
	c := p.life.Culture
	var parts []string
	if s := floursText(c.Flours); s != "" {
		parts = append(parts, s)
	}
	if c.Hydration != nil {
		words := lang.L("{{.N}} % hydration", map[string]any{"N": u.FormatNumber(float64(*c.Hydration), 0)})
		if u.DoughYield {
			words = lang.L("{{.Hydration}} (TA {{.Yield}})", map[string]any{"Hydration": words, "Yield": u.FormatNumber(100+float64(*c.Hydration), 0)})
		}
		parts = append(parts, words)
	}
	if !c.Born.IsZero() {
		parts = append(parts, bornWords(c, p.now, u))
	}
	if p.parent != nil {
		parts = append(parts, lang.L("split from {{.Name}}", map[string]any{"Name": nameOf(p.parent)}))
	}
	if c.Ended.IsZero() {
		parts = append(parts, homeWord(p.life.Home(p.now)))
	}
	return strings.Join(parts, " · ")
}

// bornWords say when a culture was begun.
func bornWords(c *journal.Culture, now time.Time, u measure.Units) string {
	day := map[string]any{"Day": u.Day(c.Born, now)}
	if c.BornAbout {
		return lang.L("begun about {{.Day}}", day)
	}
	return lang.L("begun {{.Day}}", day)
}

// homeWord says where a culture lives.
func homeWord(h journal.Home) string {
	switch h {
	case journal.Refrigerator:
		return lang.L("in the refrigerator")
	case journal.WarmSpot:
		return lang.L("in a warm spot")
	}
	return lang.L("on the counter")
}

// floursText writes flours with their shares, as [parseFlours] reads them; the share
// of a single flour goes without saying.
func floursText(flours []journal.FlourShare) string {
	if len(flours) == 1 && (flours[0].Share == 100 || flours[0].Share == 0) {
		return flours[0].Name
	}
	var parts []string
	for _, f := range flours {
		parts = append(parts, strings.TrimSpace(f.Name+" "+measure.Units{}.FormatNumber(float64(f.Share), 1)))
	}
	return strings.Join(parts, ", ")
}

// decimalComma is a comma within a figure, which parts no two flours.
var decimalComma = regexp.MustCompile(`(\d),(\d)`)

// parseFlours reads flours with their shares in percent as they are typed: "strong
// white 80, whole rye 20". Shares left out are shared among those without one.
func parseFlours(text string) []journal.FlourShare {
	var out []journal.FlourShare
	left, bare := 100.0, 0
	for part := range strings.FieldsFuncSeq(decimalComma.ReplaceAllString(text, "$1.$2"), func(r rune) bool { return r == ',' || r == ';' || r == '\n' || r == '+' }) {
		name := strings.TrimSpace(part)
		if name == "" {
			continue
		}
		f := journal.FlourShare{Name: name, Share: -1}
		words := strings.Fields(strings.ReplaceAll(name, "%", " "))
		for _, i := range []int{len(words) - 1, 0} {
			if len(words) < 2 {
				break
			}
			if v, err := (measure.Units{}).ParseNumber(words[i]); err == nil && v >= 0 && v <= 100 {
				f.Share = formula.Percent(v)
				f.Name = strings.Join(slices.Delete(words, i, i+1), " ")
				break
			}
		}
		if f.Share < 0 {
			bare++
		} else {
			left -= float64(f.Share)
		}
		out = append(out, f)
	}
	for i := range out {
		if out[i].Share < 0 {
			out[i].Share = formula.Percent(max(0, left) / float64(bare))
		}
		grain, whole := formula.GuessGrain(out[i].Name)
		out[i].Grain = grain
		if whole {
			out[i].Wholegrain = 100
		}
	}
	return out
}

// smellWord says a smell in the baker's language.
func smellWord(s ferment.Smell) string {
	switch s {
	case ferment.SmellMilky:
		return lang.L("milky")
	case ferment.SmellFruity:
		return lang.L("fruity")
	case ferment.SmellSour:
		return lang.L("sour")
	case ferment.SmellSolvent:
		return lang.L("solvent")
	case ferment.SmellFoul:
		return lang.L("foul")
	}
	return lang.L("hardly any")
}

// smellsText says the smells of a reading, strongest first: "sour, a little fruity".
func smellsText(scores map[string]int) string {
	type one struct {
		smell ferment.Smell
		score int
	}
	var all []one
	for _, smell := range ferment.Smells() {
		if n := scores[string(smell)]; n > 0 {
			all = append(all, one{smell, n})
		}
	}
	slices.SortStableFunc(all, func(a, b one) int { return b.score - a.score })
	var parts []string
	for _, s := range all {
		word := smellWord(s.smell)
		switch {
		case s.score == 1 && s.smell != ferment.SmellNone:
			word = lang.L("a little {{.Smell}}", map[string]any{"Smell": word})
		case s.score >= 3:
			word = lang.L("strongly {{.Smell}}", map[string]any{"Smell": word})
		}
		parts = append(parts, word)
	}
	return strings.Join(parts, ", ")
}

// bubbleWords are the five steps of the journal's bubble scale.
func bubbleWords() []string {
	return []string{lang.L("none"), lang.L("few"), lang.L("some"), lang.L("many"), lang.L("foam")}
}
