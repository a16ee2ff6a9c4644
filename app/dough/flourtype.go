package dough

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// typeWords says what a flour is called by the systems, and, for the hover, what
// ash each of them asks for. A type name that is known tells the others that are
// nearest; without one, the ash does.
func typeWords(f *journal.FlourFacts, u measure.Units) (words, derived string) {
	types := typesOf(f)
	if len(types) == 0 {
		return "–", lang.L("Write the type that stands on the bag, or the ash in percent of dry matter, and the nearest types of the other systems stand here.")
	}
	var names, ranges []string
	for _, t := range types {
		names = append(names, t.Name)
		ranges = append(ranges, typeRange(t, u))
	}
	return strings.Join(slices.Compact(names), ", "), strings.Join(ranges, "\n")
}

// typesOf lists the type itself first, then the nearest of the other systems.
func typesOf(f *journal.FlourFacts) []formula.FlourType {
	if f == nil {
		return nil
	}
	grain := strings.ToLower(strings.TrimSpace(f.Grain))
	name := strings.ToLower(strings.TrimSpace(strings.TrimPrefix(strings.ToLower(f.Type), "type")))
	for _, t := range formula.FlourTypes() {
		if strings.ToLower(t.Name) == name && (t.Grain == grain || grain == "") {
			return append([]formula.FlourType{t}, t.Neighbours()...)
		}
	}
	if f.Ash != nil && grain != "" {
		return formula.TypesByAsh(grain, *f.Ash)
	}
	return nil
}

// typeRange says what a type promises.
func typeRange(t formula.FlourType, u measure.Units) string {
	data := map[string]any{
		"System": string(t.System), "Grain": pages.GrainWord(t.Grain), "Name": t.Name, "Source": lang.L("from memory"),
		"Least": u.FormatNumber(float64(t.AshMin), 2), "Most": u.FormatNumber(float64(t.AshMax), 2),
	}
	if !t.FromMemory {
		data["Source"] = lang.L(t.Source)
	}
	switch {
	case t.AshMin == 0:
		return lang.L("{{.System}}, {{.Grain}} {{.Name}}: ash at most {{.Most}} % ({{.Source}})", data)
	case t.AshMax == 0:
		return lang.L("{{.System}}, {{.Grain}} {{.Name}}: ash at least {{.Least}} % ({{.Source}})", data)
	}
	return lang.L("{{.System}}, {{.Grain}} {{.Name}}: ash {{.Least}} to {{.Most}} % ({{.Source}})", data)
}
