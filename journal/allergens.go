package journal

import (
	"fmt"
	"slices"
	"strings"

	"twinloaf/journal/blind"
	"twinloaf/journal/formula"
)

// Allergens tells what a bake holds, as far as the names of its ingredients
// tell. The name of a culture tells nothing: in its place the flours are read
// that it is fed with.
func Allergens(r Reader, b *Bake) (formula.AllergenReport, error) {
	cultures, err := everyCulture(r)
	if err != nil {
		return formula.AllergenReport{}, fmt.Errorf("reading the allergens of bake %s: %w", b.ID, err)
	}
	d := b.Dough()
	read := func(lines []formula.Ingredient) {
		for i := range lines {
			if lines[i].Role != formula.Culture {
				continue
			}
			if c := b.CultureOf(cultures, lines[i].Name); c != nil {
				lines[i].Allergens = c.allergens(lines[i].Allergens)
			}
		}
	}
	read(d.Lines)
	for i := range d.Levains {
		read(d.Levains[i].Lines)
	}
	return d.Allergens(), nil
}

// allergens adds what a culture's flours hold to what the baker said of it.
func (c *Culture) allergens(said formula.Corrections) formula.Corrections {
	said.Add = slices.Clone(said.Add)
	known := len(c.Flours) > 0
	for _, f := range c.Flours {
		found := formula.FindAllergens(strings.TrimSpace(f.Name + " " + f.Grain))
		known = known && found.Known
		for _, a := range found.Allergens {
			if !slices.Contains(said.Remove, a) {
				said.Add = append(said.Add, a)
			}
		}
	}
	said.Checked = said.Checked || known
	return said
}

// LoavesOf gives two bakes as a tasting knows them: what they are called, and their
// allergens.
func LoavesOf(r Reader, bakes [2]*Bake) (out [2]blind.Loaf, err error) {
	names := PairNames(r, bakes[0], bakes[1])
	for i, b := range bakes {
		report, err := Allergens(r, b)
		if err != nil {
			return out, err
		}
		out[i] = blind.Loaf{ID: string(b.ID), Name: names[i]}
		for _, a := range report.Found {
			out[i].Allergens = append(out[i].Allergens, string(a.Allergen))
		}
	}
	return out, nil
}
