package recipe

import (
	"cmp"
	"encoding/json"
	"fmt"
	"io"
	"strconv"

	"twinloaf/journal/formula"
)

// Members of schema.org's Recipe and of what it is made of, in the order in which they
// are written.
type (
	recipeJSON struct {
		Context      string   `json:"@context"`
		Type         string   `json:"@type"`
		Name         string   `json:"name"`
		Description  string   `json:"description,omitempty"`
		Yield        string   `json:"recipeYield,omitempty"`
		Total        string   `json:"totalTime,omitempty"`
		Ingredients  []string `json:"recipeIngredient"`
		Instructions []any    `json:"recipeInstructions"`
	}
	sectionJSON struct {
		Type  string     `json:"@type"`
		Name  string     `json:"name"`
		Steps []stepJSON `json:"itemListElement"`
	}
	stepJSON struct {
		Type   string `json:"@type"`
		Name   string `json:"name,omitempty"`
		Text   string `json:"text"`
		Length string `json:"timeRequired,omitempty"`
	}
)

// Write writes a recipe as JSON-LD. Weights are in grams, whatever the baker reads in
// the window. A line for a levain ends in the levain's name in brackets, and the steps
// of a part stand in a section of that name.
func Write(w io.Writer, r Recipe) error {
	out := recipeJSON{Context: "https://schema.org", Type: "Recipe", Name: r.Name, Description: r.Description, Yield: r.Yield, Total: FormatDuration(r.Total), Ingredients: []string{}, Instructions: []any{}}
	for _, l := range r.Lines {
		out.Ingredients = append(out.Ingredients, l.String())
	}
	var section *sectionJSON
	for _, s := range r.Steps {
		step := stepJSON{Type: "HowToStep", Name: s.Name, Text: s.Text, Length: FormatDuration(s.Length)}
		step.Text = cmp.Or(step.Text, s.Name)
		switch {
		case s.Part == "":
			section = nil
			out.Instructions = append(out.Instructions, step)
			continue
		case section == nil || section.Name != s.Part:
			section = &sectionJSON{Type: "HowToSection", Name: s.Part}
			out.Instructions = append(out.Instructions, section)
		}
		section.Steps = append(section.Steps, step)
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(true) // it may be put into a page as it stands
	if err := e.Encode(out); err != nil {
		return fmt.Errorf("writing the recipe %q: %w", r.Name, err)
	}
	return nil
}

// String is the line as it is written: "500 g strong white flour".
func (l Line) String() string {
	if !l.Weighed {
		return l.Text
	}
	s := grams(l.Grams) + " g " + l.Name
	if l.Part != "" {
		s += " (" + l.Part + ")"
	}
	return s
}

// grams writes a weight to a hundredth of a gram.
func grams(g formula.Grams) string {
	return strconv.FormatFloat(float64(int64(float64(g)*100+0.5))/100, 'f', -1, 64)
}
