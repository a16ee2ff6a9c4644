package journal

import (
	"cmp"
	"slices"

	"twinloaf/journal/formula"
)

// FlourParts gives the flours of a dough by their shares, those of its cultures left out.
func FlourParts(ingredients []Ingredient, levains []LevainBuild) []formula.FlourPart {
	var out []formula.FlourPart
	all := formula.Grams(0)
	for _, in := range (&Bake{Ingredients: ingredients, Levains: levains}).everyLine() {
		if in.Role != formula.Flour || in.Grams <= 0 {
			continue
		}
		facts := deref(in.Flour)
		part := formula.FlourPart{FlourTraits: Traits(in.Name, facts), Share: float64(in.Grams)}
		all += in.Grams
		if i := slices.IndexFunc(out, func(p formula.FlourPart) bool { return p.Key == part.Key }); i >= 0 {
			out[i].Share += part.Share
			continue
		}
		out = append(out, part)
	}
	for i := range out {
		out[i].Share /= float64(all)
	}
	return out
}

// Traits gives what tells how much water a flour of a name wants.
func Traits(name string, f FlourFacts) formula.FlourTraits {
	rye := slices.Contains(formula.FindAllergens(f.Grain+" "+name).Allergens, formula.Rye)
	return formula.FlourTraits{Key: FlourKey(name), Protein: f.Protein, Ash: f.Ash, Wholegrain: f.Wholegrain, Rye: rye}
}

// WetDoughs gives the doughs of all bakes that were begun, for what their flours want. The
// facts of a flour in the larder count before those that a bake has of it.
func WetDoughs(r Reader) ([]formula.WetDough, error) {
	bakes, err := All[Bake](r)
	if err != nil {
		return nil, err
	}
	flours, err := All[Flour](r)
	if err != nil {
		return nil, err
	}
	larder := map[string]FlourFacts{}
	for _, f := range flours {
		larder[FlourKey(f.Name)] = f.Facts
	}
	families, err := All[Formula](r)
	if err != nil {
		return nil, err
	}
	family := map[ID]ID{}
	for _, f := range families {
		family[f.ID] = f.Family
	}
	var out []formula.WetDough
	for _, b := range bakes {
		if b.State == Planned {
			continue
		}
		d := formula.WetDough{Style: string(family[b.Formula]), Flours: FlourParts(b.Ingredients, b.Levains),
			Hydration: b.Dough().Metrics().Hydration, Score: b.Overall()}
		d.Style = cmp.Or(d.Style, "name "+FlourKey(b.Name))
		for i, f := range d.Flours {
			if facts, ok := larder[f.Key]; ok {
				d.Flours[i].FlourTraits = Traits(f.Key, facts)
			}
		}
		out = append(out, d)
	}
	return out, nil
}

// UsualFlour is the flour that most doughs have, the one given left out; false if there
// is none.
func UsualFlour(doughs []formula.WetDough, but string) (formula.FlourTraits, bool) {
	count := map[string]int{}
	var best formula.FlourTraits
	for _, d := range doughs {
		for _, f := range d.Flours {
			if f.Key == but {
				continue
			}
			if count[f.Key]++; best.Key == f.Key || best.Key == "" || count[f.Key] > count[best.Key] {
				best = f.FlourTraits
			}
		}
	}
	return best, best.Key != ""
}
