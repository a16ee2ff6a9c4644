package bakes

import (
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// A part of a dough is the final dough, or one of the levains built for it.
const finalDough = formula.Final

// linesOf gives the lines of a part; nil if there is no such part.
func linesOf(b *journal.Bake, part int) *[]journal.Ingredient {
	switch {
	case part == finalDough:
		return &b.Ingredients
	case part >= 0 && part < len(b.Levains):
		return &b.Levains[part].Lines
	}
	return nil
}

// lineOf finds a line by its ID, writing a new one when it is not there. It gives
// a line that belongs to nothing when the part is gone.
func lineOf(b *journal.Bake, part int, id journal.ID) *journal.Ingredient {
	lines := linesOf(b, part)
	if lines == nil {
		return new(journal.Ingredient)
	}
	for i := range *lines {
		if (*lines)[i].ID == id {
			return &(*lines)[i]
		}
	}
	*lines = append(*lines, journal.Ingredient{ID: id})
	return &(*lines)[len(*lines)-1]
}

// lineView is a line of a dough as the page shows it.
type lineView struct {
	journal.Ingredient
	// Percent is the baker's percentage; empty while there is no flour.
	Percent string
	Derived string
}

// viewLines gives the lines of a part with their baker's percentages: of all the
// flour in the dough, or for a levain of its own, the culture's counted in.
func viewLines(b *journal.Bake, part int, u kit.Units) []lineView {
	lines := linesOf(b, part)
	if lines == nil {
		return nil
	}
	dough := b.Dough()
	out := make([]lineView, len(*lines))
	for i, in := range *lines {
		out[i] = lineView{Ingredient: in}
		if p, err := dough.Percent(formula.Cell{Levain: part, Line: i}, formula.WithCulture); err == nil && in.Grams > 0 {
			out[i].Percent = u.Percent(1).Write(float64(p))
			out[i].Derived = formula.Define(formula.FigurePercent).What
		}
	}
	return out
}

// figure is a derived figure as the page shows it.
type figure struct {
	name, value, unit string
	derived           string
}

// figures are what a dough comes to.
type figures struct {
	known     bool // there is flour
	hydration figure
	weighed   figure // the hydration by the other count
	salt      figure
	saltNote  string // where the salt is unusual
	pre       figure
	whole     figure
	dough     figure
	loaf      string // the weight of one loaf of several
}

// viewFigures works the figures of a bake out and says how.
func viewFigures(b *journal.Bake, u kit.Units) figures {
	f := b.Dough().Figures()
	g := func(w formula.Grams) string { return u.Weight().Write(float64(w)) }
	p := func(v formula.Percent) string { return u.FormatNumber(float64(v), 1) }
	ratio := func(of formula.Figure, part, whole formula.Grams) string {
		return derived(of, lang.L("Here {{.Part}} to {{.Whole}} of flour.", map[string]any{"Part": g(part), "Whole": g(whole)}))
	}
	salt, pre, whole := f.Salt.Of(f.Flour), f.Prefermented.Of(f.Flour), f.Wholegrain.Of(f.Flour)
	out := figures{
		known:     f.Defined(),
		hydration: figure{lang.L("Hydration"), p(f.Hydration), "%", ratio(formula.FigureHydration, f.Water, f.Flour)},
		weighed: figure{lang.L("without the culture"), p(f.HydrationWeighed), "%",
			ratio(formula.FigureWeighed, f.WaterWeighed, f.FlourWeighed)},
		salt: figure{lang.L("Salt"), p(f.Salt), "%", ratio(formula.FigureSalt, salt, f.Flour)},
		pre: figure{lang.L("Prefermented flour"), p(f.Prefermented), "%",
			ratio(formula.FigurePrefermented, pre, f.Flour)},
		whole: figure{lang.L("Wholegrain"), p(f.Wholegrain), "%",
			derived(formula.FigureWholegrain, lang.L("Here {{.Part}} of {{.Whole}} of flour.", map[string]any{"Part": g(whole), "Whole": g(f.Flour)}))},
		dough: figure{lang.L("Dough"), u.Weight().Format(float64(f.Dough)), u.Weight().Unit,
			derived(formula.FigureDough, lang.L("Here {{.Flour}} of it is flour.", map[string]any{"Flour": g(f.Flour)}))},
	}
	if f.Defined() && salt > 0 && (f.Salt < formula.UsualSaltLeast/2 || f.Salt > 2*formula.UsualSaltMost) {
		out.saltNote = lang.L("That is unusual: {{.Usual}} is common.", map[string]any{"Usual": strings.TrimSuffix(formula.Define(formula.FigureSalt).Usual, ".")})
	}
	if b.Loaves > 1 && f.Dough > 0 {
		out.loaf = lang.L("{{.N}} loaves of {{.Each}}", map[string]any{"N": b.Loaves, "Each": g(f.Dough / formula.Grams(b.Loaves))})
	}
	return out
}

// derived says what a figure is and how it was come by here.
func derived(of formula.Figure, here string) string {
	d := formula.Define(of)
	words := []string{d.What, here}
	if d.Usual != "" {
		words = append(words, lang.L("Usual: {{.Usual}} ({{.Source}})", map[string]any{"Usual": d.Usual, "Source": d.Source}))
	}
	return strings.Join(words, " ")
}
