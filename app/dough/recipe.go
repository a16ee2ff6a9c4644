package dough

import (
	"cmp"
	"fmt"
	"io"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
	"twinloaf/journal/recipe"
)

// WriteRecipe writes a dough and its steps as a schema.org Recipe, for other programs.
func WriteRecipe(w io.Writer, name, notes string, s Side, u measure.Units) error {
	r := recipe.Recipe{Name: name, Description: notes, Loaves: s.Mix.Loaves}
	r.Name = cmp.Or(r.Name, lang.L("A bread without a name"))
	if n := s.Mix.Loaves; n > 0 {
		r.Yield = lang.N("{{.N}} loaves of {{.Each}}", n, map[string]any{"N": n, "Each": s.Mix.Loaf(u)})
	}
	line := func(in journal.Ingredient, part string) {
		switch {
		case in.Name == "" && in.Grams == 0:
		case in.Grams == 0:
			r.Lines = append(r.Lines, recipe.Line{Text: in.Name})
		default:
			r.Lines = append(r.Lines, recipe.Line{Name: in.Name, Grams: in.Grams, Part: part, Weighed: true})
		}
	}
	for i, l := range s.Mix.Levains {
		part := cmp.Or(l.Name, lang.L("Levain"))
		if i > 0 && part == r.Lines[len(r.Lines)-1].Part {
			part = fmt.Sprintf("%s %d", part, i+1)
		}
		for _, in := range l.Lines {
			line(in, part)
		}
		text := lang.L("Mix its ingredients and let it ripen.")
		if l.Kept > 0 {
			text += " " + lang.L("Keep {{.Kept}} of it back.", map[string]any{"Kept": u.Grams(l.Kept)})
		}
		r.Steps = append(r.Steps, recipe.Step{Part: part, Name: part, Text: text, Length: time.Duration(l.Hours * float64(time.Hour))})
	}
	for _, in := range s.Mix.Ingredients {
		line(in, "")
	}
	for _, st := range s.Steps {
		if st.Skipped {
			continue
		}
		step := recipe.Step{Name: pages.StepTitle(plan.Kind(st.Kind), st.Name), Text: st.Advice, Length: cmp.Or(st.Planned, st.Length())}
		r.Total += step.Length
		r.Steps = append(r.Steps, step)
	}
	return recipe.Write(w, r)
}

// ReadRecipe makes a formula, not in the journal yet, of a recipe that was read. What
// states no weight and what has no place in a formula stands in its notes; left is how
// many ingredients do.
func ReadRecipe(j *journal.Journal, r recipe.Recipe) (f *journal.Formula, left int, err error) {
	names, err := KnowNames(j)
	if err != nil {
		return nil, 0, err
	}
	f = &journal.Formula{Name: r.Name, Loaves: r.Loaves, Change: lang.L("as it was imported")}
	f.Name = cmp.Or(f.Name, lang.L("An imported bread"))
	notes := []string{}
	add := func(s string) {
		if s != "" {
			notes = append(notes, s)
		}
	}
	add(r.Description)
	if r.Yield != "" {
		add(lang.L("Yield: {{.What}}", map[string]any{"What": r.Yield}))
	}
	parts := map[string]int{}
	for _, l := range r.Lines {
		if !l.Weighed {
			left++
			add(lang.L("Not weighed: {{.What}}", map[string]any{"What": l.Text}))
			continue
		}
		in := journal.Ingredient{Grams: l.Grams}
		if in.ID, err = j.NewID(); err != nil {
			return nil, 0, err
		}
		names.Name(&in, l.Name)
		if l.Part == "" {
			f.Ingredients = append(f.Ingredients, in)
			continue
		}
		at, ok := parts[l.Part]
		if !ok {
			at = len(f.Levains)
			parts[l.Part] = at
			f.Levains = append(f.Levains, journal.LevainBuild{Name: l.Part})
		}
		f.Levains[at].Lines = append(f.Levains[at].Lines, in)
	}
	for _, s := range r.Steps {
		if at, ok := parts[s.Part]; ok && s.Part != "" {
			f.Levains[at].Hours += s.Length.Hours()
			add(s.Part + ": " + strings.TrimSpace(s.Text))
			continue
		}
		step := journal.Step{Kind: string(plan.Other), Name: s.Name, Advice: s.Text, Planned: s.Length}
		if step.ID, err = j.NewID(); err != nil {
			return nil, 0, err
		}
		for _, k := range plan.Kinds() {
			if strings.EqualFold(pages.StepWord(k), strings.TrimSpace(s.Name)) {
				step.Kind, step.Name = string(k), ""
			}
		}
		if s.Name == "" && s.Text != "" { // its first words name it
			step.Name = firstWords(s.Text)
		}
		if s.Part != "" {
			step.Advice = strings.TrimSpace(s.Part + ": " + step.Advice)
		}
		f.Steps = append(f.Steps, step)
	}
	for _, n := range r.Notes {
		add(n)
	}
	if r.Left > 0 {
		add(lang.L("The file says {{.N}} more things that are not kept here.", map[string]any{"N": r.Left}))
	}
	f.Notes = strings.Join(notes, "\n")
	return f, left, nil
}

// firstWords is as much of a text as names a step.
func firstWords(s string) string {
	s, _, _ = strings.Cut(s, ".")
	words := strings.Fields(s)
	return strings.Join(words[:min(5, len(words))], " ")
}
