package dough

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal/formula"
)

// AllergenWord says an allergen in the baker's language.
func AllergenWord(a formula.Allergen) string { return lang.L(string(a)) }

// AllergenWords says what a dough holds, list by list, where the lists differ,
// and of what nothing certain can be said: a sentence each. Of a dough in which
// nothing is written yet there is nothing to say.
func AllergenWords(m Mix, r formula.AllergenReport) []string {
	var out []string
	if len(r.Found) == 0 && len(r.Unknown) == 0 {
		if !m.written() {
			return nil
		}
		return []string{lang.L("None on the European list (Regulation (EU) 1169/2011, Annex II) or the American (FALCPA 2004 and FASTER Act 2021), as far as the names show.")}
	}
	if on := entries(r, formula.EUFourteen); on != "" {
		out = append(out, lang.L("On the European list of fourteen (Regulation (EU) 1169/2011, Annex II): {{.What}}.", map[string]any{"What": on}))
	}
	if on := entries(r, formula.USNine); on != "" {
		out = append(out, lang.L("On the American list of nine (FALCPA 2004 and FASTER Act 2021): {{.What}}.", map[string]any{"What": on}))
	}
	if only := r.OnlyOn(formula.EUFourteen); len(only) > 0 {
		out = append(out, lang.L("Only on the European list: {{.What}}.", map[string]any{"What": join(only)}))
	}
	if only := r.OnlyOn(formula.USNine); len(only) > 0 {
		out = append(out, lang.L("Only on the American list: {{.What}}.", map[string]any{"What": join(only)}))
	}
	if len(r.Unknown) > 0 {
		var names []string
		for _, n := range r.Unknown {
			if n = strings.TrimSpace(n); n == "" {
				n = lang.L("a line without a name")
			}
			names = append(names, n)
		}
		out = append(out, lang.L("Unknown: {{.What}}.", map[string]any{"What": strings.Join(names, ", ")}))
	}
	if r.Gluten() {
		out = append(out, Coeliac())
	}
	return out
}

// Coeliac says what no fermentation changes. It stands wherever a bread of wheat, rye,
// barley or oats is offered to others.
func Coeliac() string {
	return lang.L("Long fermentation does not make wheat or rye bread safe for people with coeliac disease (FDA, 85 FR 49240, 2020). Spelt, emmer, einkorn and khorasan are wheat (Geisslitz and Scherf 2020).")
}

// entries lists the entries of a law's list, with what of them is in the dough.
func entries(r formula.AllergenReport, l formula.List) string {
	var out []string
	for _, e := range r.On(l) {
		name, of := lang.L(e.Entry), join(e.Allergens)
		if name != of {
			name = lang.L("{{.Entry}} ({{.Of}})", map[string]any{"Entry": name, "Of": of})
		}
		out = append(out, name)
	}
	return strings.Join(out, ", ")
}

func join(all []formula.Allergen) string {
	words := make([]string, len(all))
	for i, a := range all {
		words[i] = AllergenWord(a)
	}
	return strings.Join(words, ", ")
}

// AllergenNote shows what a dough holds.
type AllergenNote struct {
	Object fyne.CanvasObject
	text   *kit.Text
}

// NewAllergenNote makes an empty note.
func NewAllergenNote() *AllergenNote {
	n := &AllergenNote{text: kit.Body("")}
	n.Object = kit.Stack(1, kit.Section(lang.L("Allergens")), n.text,
		kit.Small(lang.L("A guide, not a label: names cannot reveal cross-contact at the mill or in a kitchen. Ask who will eat it, read the bags, and follow local rules when you give bread away.")))
	return n
}

// Show says what a report has found in a dough, or that it waits for the dough.
func (n *AllergenNote) Show(m Mix, r formula.AllergenReport) {
	words := AllergenWords(m, r)
	if words == nil {
		words = []string{lang.L("Shown once the dough has ingredients.")}
	}
	if len(r.Unknown) > 0 { // on paper there is nowhere to set it
		words = append(words, lang.L("What is unknown is set under ⋯ beside its line."))
	}
	n.text.SetText(strings.Join(words, "\n"))
}
