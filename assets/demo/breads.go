package demo

import (
	"fmt"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// A share is a share of the flour, or of the flour's weight for an add-in.
type share struct {
	name  string
	share float64 // percent
	role  formula.Role
}

// A bread is one that the cook bakes again and again.
type bread struct {
	name    string
	flours  []share
	adds    []share
	flour   float64 // grams, the culture's own counted in
	loaves  int
	hyd     float64 // percent, around which it varies
	pre     float64 // percent of the flour that is prefermented
	built   bool    // from a levain built for it, rather than from the jar
	cold    bool    // rests in the cold
	often   int     // how often among all
	version int     // of its formula, 0 for none
	change  string
	notes   string
	dough   string // what its dough looks like in the bowl: see cmd/demopictures
}

const ferryLoaf = "Ferry loaf"

var breads = []bread{
	{
		name: ferryLoaf, version: 1, often: 9,
		flours: []share{{strongWhite, 75, ""}, {wholeWheat, 15, ""}, {darkRye, 10, ""}},
		flour:  1000, loaves: 2, hyd: 71, pre: 14, built: true, cold: true,
		notes: "Two round loaves for the crew's mess. Out of the oven before the first sailing.",
		dough: "White dough",
	},
	{
		name: ferryLoaf, version: 2, often: 16, change: "More water, more levain, a longer night in the cold.",
		flours: []share{{strongWhite, 72, ""}, {wholeWheat, 18, ""}, {darkRye, 10, ""}},
		flour:  1000, loaves: 2, hyd: 76, pre: 17, built: true, cold: true,
		notes: "As version 1, but wetter. Fold gently after the fourth fold.",
		dough: "White dough",
	},
	{
		name: "Deck rye", version: 1, often: 8,
		flours: []share{{darkRye, 65, ""}, {strongWhite, 35, ""}},
		flour:  900, loaves: 1, hyd: 82, pre: 30, built: true,
		notes: "A tin loaf that keeps a week. Leave it a day before it is cut.",
		dough: "Dark dough",
	},
	{
		name: "Spelt and oats", version: 1, often: 9,
		flours: []share{{lightSpelt, 60, ""}, {wholeSpelt, 40, ""}},
		adds:   []share{{"Rolled oats", 8, formula.Seeds}, {"Water for the oats", 14, formula.SoakWater}},
		flour:  800, loaves: 1, hyd: 68, pre: 15, cold: true,
		notes: "Scald the oats and let them cool before they go in.",
		dough: "Brown dough",
	},
	{
		name: "Seeded loaf", version: 1, often: 9,
		flours: []share{{strongWhite, 80, ""}, {wholeWheat, 20, ""}},
		adds:   []share{{"Sesame seeds", 5, formula.Seeds}, {"Sunflower seeds", 8, formula.Seeds}},
		flour:  900, loaves: 2, hyd: 74, pre: 15, built: true, cold: true,
		notes: "Toast the seeds until they smell; let them cool. Roll the loaf in sesame.",
		dough: "White dough",
	},
	{
		name: "Emmer and walnut", version: 1, often: 7,
		flours: []share{{strongWhite, 55, ""}, {wholeEmmer, 45, ""}},
		adds:   []share{{"Walnuts", 14, formula.Seeds}},
		flour:  750, loaves: 1, hyd: 72, pre: 18, cold: true,
		notes: "Walnuts in at the second fold.",
		dough: "Brown dough",
	},
	{
		name: "Crossing tin", often: 7,
		flours: []share{{strongWhite, 85, ""}, {fineWhite, 15, ""}},
		flour:  600, loaves: 1, hyd: 65, pre: 12,
		dough: "White dough",
	},
	{
		name: "Slipper loaves", often: 5,
		flours: []share{{strongWhite, 60, ""}, {fineWhite, 40, ""}},
		adds:   []share{{"Olive oil", 3, formula.Fat}},
		flour:  700, loaves: 3, hyd: 82, pre: 20, cold: true,
		dough: "White dough",
	},
}

// find gives a bread by its name and version.
func find(name string, version int) *bread {
	for i := range breads {
		if breads[i].name == name && breads[i].version == version {
			return &breads[i]
		}
	}
	return nil
}

// key is the name under which a bread's formula is remembered, and its pictures.
func (d *bread) key() string { return fmt.Sprint(d.name, " ", d.version) }

// formulas writes the formulas, each version as it was when it was first made.
func (s *story) formulas() {
	families := map[string]journal.ID{}
	for i := range breads {
		d := &breads[i]
		if d.version == 0 {
			continue
		}
		at := s.day(121-i, 11)
		if d.version > 1 {
			at = s.day(64, 14)
		}
		if families[d.name] == "" {
			families[d.name] = s.id(at)
		}
		f := &journal.Formula{
			Family: families[d.name], Number: d.version, Name: d.name, Change: d.change, Loaves: d.loaves,
			Wanted: new(celsius(25)), Notes: d.notes,
		}
		f.Ingredients, f.Levains = s.mixture(d, s.harbourID, "Harbour", d.hyd, at, false)
		f.Steps = s.template(d, at)
		put(s, at, f)
		s.formulaOf[d.key()] = f.ID
	}
}

// template is the day of a bread, without times.
func (s *story) template(d *bread, at time.Time) []journal.Step {
	out := s.steps(d, at, 12)
	for i := range out {
		out[i].PlannedAt = time.Time{}
	}
	return out
}
