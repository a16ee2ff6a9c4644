package gather

import (
	"strings"

	"twinloaf/journal/blind"
	"twinloaf/journal/crumb"
	"twinloaf/journal/formula"
	"twinloaf/journal/plan"
)

// addEngines adds what the computing rooms say in data and the window shows through
// the catalogue: names of allergens, definitions of figures and measures, reasons.
func (w Words) addEngines() {
	add := func(said ...string) {
		for _, s := range said {
			if _, known := w[s]; s != "" && !known {
				w[s] = Forms{}
			}
		}
	}
	for _, a := range formula.Allergens() {
		add(string(a))
		for _, l := range []formula.List{formula.USNine, formula.EUFourteen} {
			if entry, on := a.On(l); on {
				add(entry)
			}
		}
	}
	for _, f := range []formula.Metric{
		formula.FigureDough, formula.FigureFlour, formula.FigureHydration, formula.FigureWeighed, formula.FigureSalt,
		formula.FigurePrefermented, formula.FigureInoculation, formula.FigureWholegrain, formula.FigurePercent,
		formula.FigureFriction, formula.FigureLoss,
	} {
		d := formula.Define(f)
		add(d.Name, d.What, d.Usual, d.Source)
	}
	for _, m := range blind.Methods() {
		add(m.Title(), m.Question(), m.Standard())
	}
	add(blind.PairedPreference)
	add(string(blind.WithHelper), string(blind.Alone))
	for _, k := range plan.Kinds() {
		add(strings.ToLower(plan.Step{Kind: k}.Title())) // in the middle of a sentence
	}
	for _, t := range formula.FlourTypes() {
		add(t.Source, t.Grain, t.Note)
	}
	add("g", "ml", "mm", "min", "°C", "%", "% of flour")
	for _, d := range crumb.Definitions() {
		add(d.Name, d.Means, d.Defined, d.Source, d.BesideFigure(false), d.BesideFigure(true))
	}
}
