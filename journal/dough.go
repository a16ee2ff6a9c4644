package journal

import (
	"cmp"
	"slices"
	"strings"

	"twinloaf/journal/formula"
)

// Dough gives what went into a bake as a formula, for its arithmetic.
func (b *Bake) Dough() formula.Formula { return dough(b.Ingredients, b.Levains) }

// Dough gives a formula record as the formula that it is.
func (f *Formula) Dough() formula.Formula { return dough(f.Ingredients, f.Levains) }

func dough(ingredients []Ingredient, levains []LevainBuild) formula.Formula {
	var out formula.Formula
	for _, in := range ingredients {
		out.Lines = append(out.Lines, in.Line())
	}
	for _, l := range levains {
		part := formula.Levain{Name: l.Name, KeptBack: l.Kept}
		for _, in := range l.Lines {
			part.Lines = append(part.Lines, in.Line())
		}
		out.Levains = append(out.Levains, part)
	}
	return out
}

// everyLine lists what was weighed, for the levains too.
func (b *Bake) everyLine() []Ingredient {
	out := slices.Clone(b.Ingredients)
	for _, l := range b.Levains {
		out = append(out, l.Lines...)
	}
	return out
}

// Line gives an ingredient as a line of a formula.
func (in Ingredient) Line() formula.Ingredient {
	out := formula.Ingredient{
		Name:      in.Name,
		Role:      in.Role,
		Grams:     in.Grams,
		Counts:    in.CountsAsWater,
		Allergens: in.Allergens,
	}
	if f := in.Flour; f != nil {
		out.Wholegrain, out.Type = f.Wholegrain, f.Type
		out.Protein, out.Ash = deref(f.Protein), deref(f.Ash)
		out.Allergens = f.allergens(out.Allergens)
	}
	out.Hydration, out.WaterShare = deref(in.Hydration), deref(in.WaterShare)
	return out
}

// allergens adds what the grain of a flour holds, which its name may not tell, to
// what the baker said of it.
func (f *FlourFacts) allergens(said formula.Corrections) formula.Corrections {
	found := formula.FindAllergens(f.Grain)
	if !found.Known {
		return said
	}
	said.Add = slices.Clone(said.Add)
	for _, a := range found.Allergens {
		if !slices.Contains(said.Remove, a) && !slices.Contains(said.Add, a) {
			said.Add = append(said.Add, a)
		}
	}
	said.Checked = true
	return said
}

// deref gives what p points to, or zero.
func deref[T any](p *T) T {
	if p == nil {
		var zero T
		return zero
	}
	return *p
}

// FlourKey is the name under which a flour is found again: two spellings of
// one name are one flour.
func FlourKey(name string) string {
	return strings.Join(strings.Fields(strings.ToLower(name)), " ")
}

// MixedDough gives the temperatures of a dough that friction can be learned
// from; false when one of them was not written down.
func (b *Bake) MixedDough() (formula.MixedDough, bool) {
	w := b.Water
	if w.Flour == nil || w.Room == nil || w.Water == nil || w.Dough == nil {
		return formula.MixedDough{}, false
	}
	return formula.MixedDough{Factors: w.Factors(b.Dough().Bowl().HasLevain()), Water: *w.Water, Measured: *w.Dough}, true
}

// Measured gives a dough that was mixed and measured, by weight; false when one of its
// temperatures or weights was not written down. A levain of which nothing was noted is
// taken to have been as warm as the room.
func (b *Bake) Measured() (formula.Measured, bool) {
	w := b.Water
	if w.Flour == nil || w.Room == nil || w.Water == nil || w.Dough == nil {
		return formula.Measured{}, false
	}
	m := formula.Measured{Bowl: b.Dough().Bowl(), WaterAt: *w.Water, Dough: *w.Dough}
	m.FlourAt, m.RoomAt, m.LevainAt = *w.Flour, *w.Room, *cmp.Or(w.Levain, w.Room)
	return m, m.Known()
}

// Factors gives the temperatures that meet in the bowl, beside the water's. Those not known
// are zero; a levain that is in the dough and was not measured is as warm as the room.
func (w WaterPlan) Factors(levain bool) formula.Factors {
	out := formula.Factors{Flour: deref(w.Flour), Room: deref(w.Room), HasLevain: levain || w.Levain != nil}
	switch {
	case w.Levain != nil:
		out.Levain = *w.Levain
	case levain:
		out.Levain = out.Room
	}
	return out
}
