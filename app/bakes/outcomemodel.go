package bakes

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// attribute is one thing that a bread is judged by, with the words at both ends of
// its scale.
type attribute struct{ key, name, low, high string }

// usualAttributes are those that every bake is asked about.
func usualAttributes() []attribute {
	return []attribute{
		{journal.Overall, lang.L("Overall"), lang.L("dislike extremely"), lang.L("like extremely")},
		{"crust", lang.L("Crust"), lang.L("soft"), lang.L("crisp")},
		{"openness", lang.L("Openness of the crumb"), lang.L("tight"), lang.L("open")},
		{"sourness", lang.L("Sourness"), lang.L("none"), lang.L("very sour")},
		{"chew", lang.L("Chew"), lang.L("tender"), lang.L("chewy")},
		{"aroma", lang.L("Aroma"), lang.L("faint"), lang.L("strong")},
	}
}

// attributesOf gives what a bake is judged by: the usual things, and then those
// that the baker has added.
func attributesOf(scores []journal.AttributeScore) []attribute {
	out := usualAttributes()
	for _, s := range scores {
		if s.Attribute == "" || slices.ContainsFunc(out, func(a attribute) bool { return a.key == s.Attribute }) {
			continue
		}
		out = append(out, attribute{s.Attribute, s.Attribute, lang.L("little"), lang.L("much")})
	}
	return out
}

// attributeKey finds the attribute that a typed word means: a usual one by its
// name, or the word itself.
func attributeKey(typed string) string {
	typed = strings.Join(strings.Fields(typed), " ")
	for _, a := range usualAttributes() {
		if strings.EqualFold(a.name, typed) || strings.EqualFold(a.key, typed) {
			return a.key
		}
	}
	return strings.ToLower(typed)
}

// scoreOf finds the judgement of an attribute, writing one when it is not there.
func scoreOf(o *journal.Outcome, key string) *journal.AttributeScore {
	for i := range o.Scores {
		if o.Scores[i].Attribute == key {
			return &o.Scores[i]
		}
	}
	o.Scores = append(o.Scores, journal.AttributeScore{Attribute: key})
	return &o.Scores[len(o.Scores)-1]
}

// metric is a derived metric as the page shows it.
type metric struct {
	value, unit string
	derived     string
}

// lossView is the bake loss as the page shows it.
func lossView(o journal.Outcome, u measure.Units) metric {
	out := metric{value: "–", derived: dough.Define(formula.FigureLoss, "")}
	switch p := o.BakeLoss(); {
	case p != nil:
		out.value, out.unit = u.FormatNumber(float64(*p), 1), "%"
		out.derived = dough.Define(formula.FigureLoss, lang.L("Here {{.Lost}} of {{.Dough}} was lost.", map[string]any{
			"Lost": u.Grams(*o.DoughWeight - *o.LoafWeight), "Dough": u.Grams(*o.DoughWeight)}))
	case o.DoughWeight != nil && o.LoafWeight != nil && *o.LoafWeight > *o.DoughWeight:
		out.derived = lang.L("The loaf cannot weigh more than the dough: one of the two weights is off.")
	}
	return out
}

// volumeView is the specific volume as the page shows it.
func volumeView(o journal.Outcome, u measure.Units) metric {
	out := metric{value: "–",
		derived: lang.L("The loaf's volume by its weight when cooled: both are needed.")}
	if v := o.SpecificVolume(); v != nil {
		out.value, out.unit = u.FormatNumber(*v, 2), "ml/g"
		out.derived = lang.L("{{.Volume}} of bread, measured by what it displaced, by {{.Weight}} after cooling.", map[string]any{
			"Volume": u.Volume().Write(*o.VolumeML), "Weight": u.Grams(*o.LoafWeight)})
	}
	return out
}
