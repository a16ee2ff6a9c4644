package demo

import (
	"math"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// keptBack of a levain that is built for a dough carries the culture on.
const keptBack = 30

// mixture weighs out a bread at a hydration, to the gram, with the culture's
// own flour and water counted in. Lots are noted when the bag was looked at.
func (s *story) mixture(d *bread, culture journal.ID, cultureName string, hyd float64, at time.Time, lots bool) ([]journal.Ingredient, []journal.LevainBuild) {
	line := func(name string, role formula.Role, grams float64) journal.Ingredient {
		in := journal.Ingredient{ID: s.id(at), Name: name, Role: role, Grams: formula.Grams(math.Round(grams))}
		switch role {
		case formula.Flour:
			in.Flour = s.factsOf(name)
			if lots {
				in.Lot = s.lot(name, at)
			}
		case formula.Culture:
			in.Hydration = new(formula.Percent(100))
		}
		return in
	}
	fermented := d.flour * d.pre / 100
	var out []journal.Ingredient
	var levains []journal.LevainBuild
	for _, f := range d.flours {
		out = append(out, line(f.name, formula.Flour, (d.flour-fermented)*f.share/100))
	}
	out = append(out, line("Water", formula.Water, d.flour*hyd/100-fermented))
	if d.built {
		built := 2*fermented + keptBack
		seed := math.Round(built * 0.16)
		fresh := (built - seed) / 2
		feed := strongWhite
		if d.flours[0].name == darkRye {
			feed = darkRye
		}
		levains = append(levains, journal.LevainBuild{
			Name: "Levain", Kept: keptBack, Hours: 8,
			Lines: []journal.Ingredient{
				line(cultureName, formula.Culture, seed), line(feed, formula.Flour, fresh), line("Water", formula.Water, fresh),
			},
		})
	} else {
		out = append(out, line(cultureName, formula.Culture, 2*fermented))
	}
	out = append(out, line("Sea salt", formula.Salt, d.flour*s.between(1.95, 2.1)/100))
	for _, a := range d.adds {
		out = append(out, line(a.name, a.role, d.flour*a.share/100))
	}
	return out, levains
}

func (s *story) factsOf(name string) *journal.FlourFacts {
	for _, f := range larder {
		if f.name == name {
			return new(f.facts())
		}
	}
	return nil
}

// wholeShare is the percentage of wholegrain in a bread's flours.
func (d *bread) wholeShare() float64 {
	var sum float64
	for _, f := range d.flours {
		for _, l := range larder {
			if l.name == f.name {
				sum += f.share * l.whole / 100
			}
		}
	}
	return sum
}

// ryeShare is the percentage of rye in a bread's flours.
func (d *bread) ryeShare() float64 {
	for _, f := range d.flours {
		if f.name == darkRye {
			return f.share
		}
	}
	return 0
}
