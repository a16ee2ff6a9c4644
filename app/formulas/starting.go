package formulas

import (
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/plan"
)

// starting is the formula that a new one begins with: two loaves of 1000 g of
// flour, a tenth of it wholegrain, 72 percent of water and 2 of salt, from a levain
// built overnight. Common practice, no source, and meant to be changed.
func starting(j *journal.Journal) (*journal.Formula, error) {
	names, err := dough.KnowNames(j)
	if err != nil {
		return nil, err
	}
	culture := lang.L("Ripe culture")
	cultures, err := journal.All[journal.Culture](j)
	if err != nil {
		return nil, err
	}
	for _, c := range cultures {
		if c.Ended.IsZero() {
			culture = c.Name
			break
		}
	}
	line := func(name string, role formula.Role, g formula.Grams) (in journal.Ingredient) {
		if in.ID, err = j.NewID(); err == nil {
			names.Name(&in, name)
			in.Role, in.Grams = role, g
		}
		return in
	}
	f := &journal.Formula{
		Name: lang.L("A new bread"), Loaves: 2, Wanted: new(formula.Celsius(25)),
		Ingredients: []journal.Ingredient{
			line(lang.L("Strong white wheat flour"), formula.Flour, 800),
			line(lang.L("Wholemeal wheat flour"), formula.Flour, 100),
			line(lang.L("Water"), formula.Water, 620),
			line(lang.L("Salt"), formula.Salt, 20),
		},
		Levains: []journal.LevainBuild{{Name: lang.L("Levain"), Hours: 8, Lines: []journal.Ingredient{
			line(culture, formula.Culture, 20),
			line(lang.L("Strong white wheat flour"), formula.Flour, 90),
			line(lang.L("Water"), formula.Water, 90),
		}}},
	}
	if err != nil {
		return nil, err
	}
	f.Steps, err = j.TemplateSteps(dough.Advised(append([]plan.Step{plan.LevainBuild()}, plan.CountryLoaf()...)))
	return f, err
}
