package bakes

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// figurePanel shows what the dough comes to, beside its lines.
type figurePanel struct {
	units    measure.Units
	box      *fyne.Container
	readouts map[formula.Metric]*kit.Readout
	salt     *kit.Text // where the salt is unusual
	loaf     *kit.Text // the weight of one loaf of several
	note     *dough.AllergenNote
}

func newFigurePanel(u measure.Units) *figurePanel {
	f := &figurePanel{units: u, salt: kit.Small(""), loaf: kit.Small(""), note: dough.NewAllergenNote()}
	f.readouts = map[formula.Metric]*kit.Readout{
		formula.FigureHydration:    kit.NewReadout(lang.L("Hydration (culture included)"), true),
		formula.FigureWeighed:      kit.NewReadout(lang.L("Hydration (culture left out)"), false),
		formula.FigureSalt:         kit.NewReadout(lang.L("Salt"), false),
		formula.FigurePrefermented: kit.NewReadout(lang.L("Prefermented flour"), false),
		formula.FigureWholegrain:   kit.NewReadout(lang.L("Wholegrain"), false),
		formula.FigureDough:        kit.NewReadout(lang.L("Dough"), false),
	}
	r := f.readouts
	pair := func(a, b formula.Metric) fyne.CanvasObject { return kit.Columns(look.Space(25), r[a], r[b]) }
	f.box = kit.Stack(3, kit.Section(lang.L("What it comes to")), r[formula.FigureHydration], r[formula.FigureWeighed],
		pair(formula.FigureSalt, formula.FigurePrefermented), f.salt,
		pair(formula.FigureWholegrain, formula.FigureDough), f.loaf,
		kit.Rule(), f.note.Object)
	return f
}

// sync works the figures out anew, and shows what a report has found in the dough.
func (f *figurePanel) sync(m dough.Mix, r formula.AllergenReport) {
	for _, fig := range dough.MetricsOf(m, f.units) {
		if r := f.readouts[fig.Of]; r != nil {
			r.Set(fig.Value, fig.Unit, "", fig.Derived)
		}
	}
	f.salt.Say(dough.SaltNote(m))
	loaf := ""
	if m.Loaves > 1 && m.EachLoaf() > 0 {
		loaf = lang.N("{{.N}} loaves of {{.Each}}", m.Loaves, map[string]any{"N": m.Loaves, "Each": m.Loaf(f.units)})
	}
	f.loaf.Say(loaf)
	f.note.Show(m, r)
	f.box.Refresh()
}
