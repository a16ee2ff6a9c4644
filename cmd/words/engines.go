package main

import (
	"twinloaf/journal/crumb"
	"twinloaf/journal/formula"
)

// addEngines adds what the computing rooms say in data and the window shows through
// the catalogue: names of allergens, definitions of figures and measures, reasons.
func (w words) addEngines() {
	add := func(said ...string) {
		for _, s := range said {
			if _, known := w[s]; s != "" && !known {
				w[s] = forms{}
			}
		}
	}
	for _, a := range formula.Allergens() {
		add(string(a))
	}
	for _, f := range []formula.Figure{
		formula.FigureDough, formula.FigureFlour, formula.FigureHydration, formula.FigureWeighed, formula.FigureSalt,
		formula.FigurePrefermented, formula.FigureInoculation, formula.FigureWholegrain, formula.FigurePercent,
		formula.FigureFriction, formula.FigureLoss,
	} {
		d := formula.Define(f)
		add(d.Name, d.What, d.Usual)
	}
	for _, d := range crumb.Definitions() {
		add(d.Name, d.Means, d.Defined)
	}
}
