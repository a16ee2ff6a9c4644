package dough

import (
	"slices"
	"strings"

	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// A Mix is what goes into a dough, and how many loaves it makes.
type Mix struct {
	Loaves      int
	Ingredients []journal.Ingredient
	Levains     []journal.LevainBuild
	Culture     journal.ID // of the bake
}

// A Holder is a record whose dough is shown and edited.
type Holder interface {
	Mix() Mix
	// Edit alters the dough as it is typed. The change may be made again on
	// a fresher copy, so it only sets what it sets.
	Edit(label string, change func(*Mix))
	// Do makes a change at once, and reports whether it was made.
	Do(label string, change func(*Mix)) bool
}

// Formula gives the dough for its arithmetic.
func (m Mix) Formula() formula.Formula {
	return (&journal.Bake{Ingredients: m.Ingredients, Levains: m.Levains}).Dough()
}

// Allergens tells what the dough holds, its cultures by the flours that they are
// fed with.
func (m Mix) Allergens(j *journal.Journal) (formula.AllergenReport, error) {
	return journal.Allergens(j, &journal.Bake{Ingredients: m.Ingredients, Levains: m.Levains, Culture: m.Culture})
}

// written reports whether any line of the dough has a name.
func (m Mix) written() bool {
	return slices.ContainsFunc(m.everyLine(), func(in journal.Ingredient) bool { return strings.TrimSpace(in.Name) != "" })
}

// everyLine gives the lines of all parts, the final dough's first.
func (m Mix) everyLine() []journal.Ingredient {
	lines := slices.Clone(m.Ingredients)
	for _, l := range m.Levains {
		lines = append(lines, l.Lines...)
	}
	return lines
}

// Lines gives the lines of a part: [formula.Final] or the index of a levain.
// It is nil when there is no such part.
func (m *Mix) Lines(part int) *[]journal.Ingredient {
	switch {
	case part == formula.Final:
		return &m.Ingredients
	case part >= 0 && part < len(m.Levains):
		return &m.Levains[part].Lines
	}
	return nil
}

// Line finds a line by its ID in whatever part it is; nil when it is gone.
func (m *Mix) Line(id journal.ID) *journal.Ingredient {
	if c, ok := m.cell(id); ok {
		return &(*m.Lines(c.Levain))[c.Line]
	}
	return nil
}

// cell is where the formula has the line.
func (m *Mix) cell(id journal.ID) (formula.Cell, bool) {
	for part := formula.Final; part < len(m.Levains); part++ {
		lines := *m.Lines(part)
		if i := slices.IndexFunc(lines, func(in journal.Ingredient) bool { return in.ID == id }); i >= 0 {
			return formula.Cell{Levain: part, Line: i}, true
		}
	}
	return formula.Cell{}, false
}

// weigh gives a change that sets the weights to those of f, a formula with the
// lines of m. Lines are found by ID, so that it does what it should on a record
// that has changed in the meantime.
func (m Mix) weigh(f formula.Formula) func(*Mix) {
	grams := map[journal.ID]formula.Grams{}
	kept := make([]formula.Grams, len(f.Levains))
	for i, in := range m.Ingredients {
		grams[in.ID] = f.Lines[i].Grams
	}
	for i, l := range m.Levains {
		kept[i] = f.Levains[i].KeptBack
		for k, in := range l.Lines {
			grams[in.ID] = f.Levains[i].Lines[k].Grams
		}
	}
	return func(m *Mix) {
		for part := formula.Final; part < len(m.Levains); part++ {
			lines := *m.Lines(part)
			for i := range lines {
				if g, ok := grams[lines[i].ID]; ok {
					lines[i].Grams = g
				}
			}
			if part >= 0 && part < len(kept) {
				m.Levains[part].Kept = kept[part]
			}
		}
	}
}

// SetGrams gives the change that puts a weight on a line.
func (m Mix) SetGrams(id journal.ID, g formula.Grams) func(*Mix) {
	return func(m *Mix) {
		if in := m.Line(id); in != nil {
			in.Grams = g
		}
	}
}

// setPercent gives the change that makes a line's baker's percentage p; see
// [formula.Formula.SetPercent].
func (m Mix) setPercent(id journal.ID, p formula.Percent, b formula.Basis) (func(*Mix), error) {
	c, ok := m.cell(id)
	if !ok {
		return nil, formula.ErrNoSuchLine
	}
	f, err := m.Formula().SetPercent(c, p, b)
	if err != nil {
		return nil, err
	}
	return m.weigh(f), nil
}

// scaled gives the change that scales the dough by one of formula's scalings.
func (m Mix) scaled(scale func(formula.Formula) (formula.Formula, error)) (func(*Mix), error) {
	f, err := scale(m.Formula())
	if err != nil {
		return nil, err
	}
	return m.weigh(f), nil
}

// EachLoaf is the weight of one loaf's dough.
func (m Mix) EachLoaf() formula.Grams {
	return m.Formula().Metrics().Dough / formula.Grams(max(1, m.Loaves))
}

// Loaf writes the weight of one loaf's dough.
func (m Mix) Loaf(u measure.Units) string {
	return Weights(m.Formula(), u).Write(float64(m.EachLoaf()))
}

// percents gives the percentage of each line of a part; nil without flour.
func (m *Mix) percents(part int, b formula.Basis) map[journal.ID]formula.Percent {
	f := m.Formula()
	out := map[journal.ID]formula.Percent{}
	for i, in := range *m.Lines(part) {
		p, err := f.Percent(formula.Cell{Levain: part, Line: i}, b)
		if err != nil {
			return nil
		}
		out[in.ID] = p
	}
	return out
}

// CultureNamed is the culture that a line of the dough is named after.
func CultureNamed(cultures []*journal.Culture, m Mix) journal.ID {
	for _, in := range m.everyLine() {
		if c := journal.CultureNamed(cultures, in.Name); in.Role == formula.Culture && c != nil {
			return c.ID
		}
	}
	return ""
}
