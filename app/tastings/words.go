package tastings

import (
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// question is what a tasting asks, before how it asks it.
type question int

const (
	toldApart question = iota
	likedBetter
	moreOf
	attributesOf
)

func questions() []string {
	return []string{
		lang.L("Can they be told apart?"), lang.L("Which is liked better?"),
		lang.L("Which has more of something?"), lang.L("How does each score?"),
	}
}

// questionOf tells what a plan asks.
func questionOf(p blind.Plan) question {
	switch {
	case p.Method == blind.Scaling:
		return attributesOf
	case p.Method.Directional() && p.Attribute != "":
		return moreOf
	case p.Method == blind.Paired:
		return likedBetter
	}
	return toldApart
}

// methodsFor are the methods that can answer a question.
func methodsFor(q question) []blind.Method {
	switch q {
	case toldApart:
		return []blind.Method{blind.Triangle, blind.DuoTrio, blind.Tetrad, blind.TwoOutOfFive}
	case moreOf:
		return []blind.Method{blind.Paired, blind.ThreeAFC}
	case attributesOf:
		return []blind.Method{blind.Scaling}
	}
	return []blind.Method{blind.Paired}
}

// ask changes a plan to ask a question, by the first method that can answer it
// unless it has one that does.
func ask(p *blind.Plan, q question) {
	if ms := methodsFor(q); !slices.Contains(ms, p.Method) {
		p.Method = ms[0]
	}
	switch {
	case q == moreOf && p.Attribute == "":
		p.Attribute = lang.L("sour")
	case q != moreOf:
		p.Attribute, p.Expected = "", 0
	}
	by(p, p.Method)
	switch {
	case q == attributesOf && len(p.Attributes) == 0:
		p.Attributes = usualAttributes()
	case q != attributesOf:
		p.Attributes = nil
	}
}

// by changes a plan to a method that answers the same question. A 3-AFC has to
// expect one of the loaves to have more.
func by(p *blind.Plan, m blind.Method) {
	p.Method = m
	if m == blind.ThreeAFC && p.Expected == 0 {
		p.Expected = 1
	}
}

// usualAttributes are offered for scaling; the ends of the scales are common
// practice, liking's are those of Peryam and Pilgrim (1957).
func usualAttributes() []blind.Attribute {
	liking := blind.Liking()
	liking.Name, liking.Low, liking.High = lang.L("Liking"), lang.L("dislike extremely"), lang.L("like extremely")
	return []blind.Attribute{
		{Name: lang.L("Sour"), Low: lang.L("not at all"), High: lang.L("extremely")},
		{Name: lang.L("Crust crispness"), Low: lang.L("soft"), High: lang.L("shattering")},
		{Name: lang.L("Crumb chew"), Low: lang.L("tender"), High: lang.L("chewy")},
		{Name: lang.L("Wheaty aroma"), Low: lang.L("faint"), High: lang.L("strong")},
		liking,
	}
}

// instruction tells a taster what a round is about.
func instruction(p blind.Plan) string {
	switch p.Method {
	case blind.Triangle:
		return lang.L("One of the three differs from the other two.")
	case blind.DuoTrio:
		return lang.L("One of the two is the same bread as R.")
	case blind.Tetrad:
		return lang.L("The four are two of one bread and two of another.")
	case blind.TwoOutOfFive:
		return lang.L("Two of the five are one bread, three the other.")
	case blind.ThreeAFC:
		return lang.L("Which of the three is the most {{.What}}?", map[string]any{"What": p.Attribute})
	case blind.Scaling:
		return lang.L("Score this sample for itself.")
	}
	if p.Attribute == "" {
		return lang.L("Which of the two do you like better?")
	}
	return lang.L("Which of the two is more {{.What}}?", map[string]any{"What": p.Attribute})
}

// choosing asks for the answer of a round.
func choosing(p blind.Plan) string {
	switch p.Method {
	case blind.Triangle:
		return lang.L("Which one differs?")
	case blind.DuoTrio:
		return lang.L("Which one is the same as R?")
	case blind.Tetrad:
		return lang.L("Which two belong together?")
	case blind.TwoOutOfFive:
		return lang.L("Which are the two?")
	case blind.Scaling:
		return lang.L("Both samples are scored.")
	}
	return instruction(p)
}

// allergensOf gathers the allergens of both loaves: as they were when the
// tasting was sealed, and as their bakes say now.
func allergensOf(r journal.Reader, p blind.Plan) []string {
	var all []string
	add := func(a string) {
		if !slices.Contains(all, a) {
			all = append(all, a)
		}
	}
	for _, l := range p.Loaves {
		for _, a := range l.Allergens {
			add(a)
		}
		for _, a := range reportOf(r, l).Found {
			add(string(a.Allergen))
		}
	}
	return all
}

// unknownIn names the ingredients of both loaves of which nothing certain can
// be said, in an order that belongs to neither.
func unknownIn(r journal.Reader, p blind.Plan) []string {
	var all []string
	for _, l := range p.Loaves {
		for _, name := range reportOf(r, l).Unknown {
			name = named(name, lang.L("a line without a name"))
			if !slices.Contains(all, name) {
				all = append(all, name)
			}
		}
	}
	slices.Sort(all)
	return all
}

// reportOf reads the allergens of a loaf's bake; where that is gone, all of the loaf is
// unknown.
func reportOf(r journal.Reader, l blind.Loaf) (report formula.AllergenReport) {
	b, err := journal.Get[journal.Bake](r, journal.ID(l.ID))
	if err == nil {
		report, err = journal.Allergens(r, b)
	}
	if err != nil {
		return formula.AllergenReport{Unknown: []string{l.Name}}
	}
	return report
}

// usual are allergens that one expects of bread; the others stand out.
var usual = []string{"wheat", "rye"}

// contains writes allergens as spans: those not expected of bread are bold.
func contains(allergens []string) []kit.Span {
	if len(allergens) == 0 {
		return []kit.Span{{Text: lang.L("no known allergens"), Color: look.ColorFaint}}
	}
	sorted := slices.Clone(allergens)
	slices.SortStableFunc(sorted, func(a, b string) int {
		rank := func(s string) int {
			if i := slices.Index(usual, s); i >= 0 {
				return i
			}
			return len(usual)
		}
		return rank(a) - rank(b)
	})
	spans := []kit.Span{{Text: lang.L("contains") + " ", Color: look.ColorFaint}}
	for i, a := range sorted {
		s := kit.Span{Text: allergenWord(a), Color: look.ColorFaint}
		if !slices.Contains(usual, a) {
			s.Bold, s.Color = true, look.ColorInk
		}
		spans = append(spans, s)
		if i < len(sorted)-1 {
			spans = append(spans, kit.Span{Text: ", ", Color: look.ColorFaint})
		}
	}
	return spans
}

// containing is the sentence that says which allergens there are.
func containing(allergens []string) *kit.Text {
	spans := contains(allergens)
	if len(allergens) == 0 {
		spans[0].Text = lang.L("No allergens are known.")
		return kit.NewText(spans...)
	}
	spans[0].Text = lang.L("Contains") + " "
	return kit.NewText(append(spans, kit.Span{Text: ".", Color: look.ColorFaint})...)
}

// cleanser says what the cracker between two samples holds (common practice, no source).
func cleanser() string {
	return lang.L("A cracker has allergens too: usually wheat, often milk, soya or sesame (common practice, no source). Read its label.")
}

// allergyWords are the sentences that stand below the allergens of both loaves.
func allergyWords(allergens []string) []string {
	words := []string{cleanser()}
	if slices.ContainsFunc(allergens, func(a string) bool { return formula.Allergen(a).Gluten() }) {
		words = append(words, dough.Coeliac())
	}
	return words
}

// named gives a name, or a word in its place.
func named(name, instead string) string {
	if strings.TrimSpace(name) == "" {
		return instead
	}
	return name
}

// roundsEach says how many rounds each taster tastes.
func roundsEach(n int) string { return lang.N("{{.N}} rounds each", n, map[string]any{"N": n}) }

// tastersOf says how many taste.
func tastersOf(p blind.Plan) string {
	return lang.N("{{.N}} tasters", len(p.Tasters), map[string]any{"N": len(p.Tasters)})
}

// shortSeal is the beginning of a commitment, enough to know it again.
func shortSeal(commitment string) string {
	if len(commitment) < 8 {
		return commitment
	}
	return commitment[:8]
}

// dayOf writes the day of a moment.
func dayOf(u measure.Units, t, now time.Time) string {
	if t.IsZero() {
		return lang.L("no day yet")
	}
	return u.When(t, now)
}

// allergenWord says an allergen in the baker's language.
func allergenWord(a string) string { return dough.AllergenWord(formula.Allergen(a)) }

// allergenWords says several.
func allergenWords(all []string) []string {
	out := make([]string, len(all))
	for i, a := range all {
		out[i] = allergenWord(a)
	}
	return out
}
