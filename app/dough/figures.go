package dough

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// A Metric is a derived figure as it is shown.
type Metric struct {
	Of                formula.Metric
	Name, Value, Unit string
	// Derived says what the figure is, how it came about here, and what is usual.
	Derived string
}

// MetricsOf works out what a dough comes to and says how.
func MetricsOf(m Mix, u measure.Units) []Metric {
	f := m.Formula().Metrics()
	weights := Weights(m.Formula(), u)
	grams := func(of formula.Metric, g formula.Grams) Metric {
		return Metric{of, metricWord(of), weights.Format(float64(g)), weights.Unit, Define(of, "")}
	}
	percent := func(of formula.Metric, decimals int, p formula.Percent, part, whole formula.Grams) Metric {
		fig := Metric{Of: of, Name: metricWord(of), Value: "–", Unit: "%"}
		here := ""
		if whole > 0 {
			fig.Value = u.FixedNumber(float64(p), decimals)
			if u.DoughYield && (of == formula.FigureHydration || of == formula.FigureWeighed) {
				fig.Unit = yieldWords(p, u)
			}
			here = lang.L("Here {{.Part}} of {{.Whole}}.", map[string]any{"Part": weights.Write(float64(part)), "Whole": weights.Write(float64(whole))})
		}
		fig.Derived = Define(of, here)
		return fig
	}
	return []Metric{
		grams(formula.FigureDough, f.Dough),
		grams(formula.FigureFlour, f.Flour),
		percent(formula.FigureHydration, 1, f.Hydration, f.Water, f.Flour),
		percent(formula.FigureWeighed, 1, f.HydrationWeighed, f.WaterWeighed, f.FlourWeighed),
		percent(formula.FigureSalt, 1, f.Salt, f.Salt.Of(f.Flour), f.Flour),
		percent(formula.FigurePrefermented, 0, f.Prefermented, f.Prefermented.Of(f.Flour), f.Flour),
		{formula.FigureInoculation, metricWord(formula.FigureInoculation), u.FixedNumber(float64(f.Inoculation), 0), "%", Define(formula.FigureInoculation, "")},
		percent(formula.FigureWholegrain, 0, f.Wholegrain, f.Wholegrain.Of(f.Flour), f.Flour),
	}
}

// yieldWords are the unit of a hydration with the Teigausbeute that it is: the weight of
// 100 of flour and their water together.
func yieldWords(hydration formula.Percent, u measure.Units) string {
	return lang.L("% · TA {{.Yield}}", map[string]any{"Yield": u.FormatNumber(100+float64(hydration), 0)})
}

func metricWord(of formula.Metric) string {
	switch of {
	case formula.FigureDough:
		return lang.L("Dough")
	case formula.FigureFlour:
		return lang.L("Flour")
	case formula.FigureHydration:
		return lang.L("Hydration")
	case formula.FigureWeighed:
		return lang.L("without the culture")
	case formula.FigureSalt:
		return lang.L("Salt")
	case formula.FigurePrefermented:
		return lang.L("Prefermented flour")
	case formula.FigureInoculation:
		return lang.L("Inoculation of the dough")
	case formula.FigureWholegrain:
		return lang.L("Wholegrain")
	}
	return string(of)
}

// Define says what a figure is, how it came about here (may be empty) and what
// is usual.
func Define(of formula.Metric, here string) string {
	d := formula.Define(of)
	words := []string{lang.L(d.What)}
	if here != "" {
		words = append(words, here)
	}
	if d.Usual != "" {
		words = append(words, lang.L("Usual: {{.Usual}} ({{.Source}})", map[string]any{"Usual": lang.L(d.Usual), "Source": lang.L(d.Source)}))
	}
	return strings.Join(words, " ")
}

// SaltNote says that there is an unusual amount of salt; empty when there is not.
func SaltNote(m Mix) string {
	f := m.Formula().Metrics()
	switch {
	case !f.Defined() || f.Salt >= formula.UsualSaltLeast && f.Salt <= formula.UsualSaltMost:
		return ""
	case f.Salt == 0:
		return lang.L("There is no salt in it.")
	case f.Salt < formula.UsualSaltLeast:
		return lang.L("Less salt than is usual.")
	}
	return lang.L("More salt than is usual.")
}

// panel shows the figures of a dough: three of them large, the others below, and beside
// them its flours as a bar.
type panel struct {
	Object fyne.CanvasObject

	first, others *fyne.Container
	flours        *fyne.Container
	readouts      []*kit.Readout
	note          *kit.Text
}

// newPanel makes an empty panel.
func newPanel() *panel {
	p := &panel{first: kit.Flow(9), others: kit.Flow(6), flours: container.NewStack(), note: kit.Small("")}
	p.Object = kit.WeightedColumns(look.Space(83), []float32{7, 5}, kit.Stack(3, p.first, p.others, p.note), p.flours)
	return p
}

// leads says that a figure is one of those that are shown large.
func leads(of formula.Metric) bool {
	return of == formula.FigureDough || of == formula.FigureHydration || of == formula.FigurePrefermented
}

// Show shows what a dough comes to.
func (p *panel) Show(m Mix, u measure.Units) {
	figures := MetricsOf(m, u)
	for i, f := range figures {
		if i == len(p.readouts) {
			r, row := kit.NewReadout(f.Name, leads(f.Of)), p.others
			if leads(f.Of) {
				row = p.first
			}
			p.readouts = append(p.readouts, r)
			row.Add(kit.Labelled(f.Name, r))
		}
		p.readouts[i].Set(f.Value, f.Unit, "", f.Derived)
	}
	p.note.SetText(SaltNote(m))
	kit.SetVisible(p.note, p.note.String() != "")
	p.first.Refresh()
	p.others.Refresh()
	shares := FlourShares(m.Formula(), u)
	kit.SetVisible(p.flours, len(shares) > 0)
	if len(shares) > 0 {
		kit.SetOnly(p.flours, kit.Stack(2, kit.Section(FloursHeading(m.Formula())), kit.ShareList(shares)))
	}
}

// Value gives a figure's words as they are shown, for tests and captions.
func (p *panel) Value(of formula.Metric, m Mix, u measure.Units) string {
	for i, f := range MetricsOf(m, u) {
		if f.Of == of && i < len(p.readouts) {
			return p.readouts[i].String()
		}
	}
	return ""
}

// wide gives a thing at least so many steps of the grid.
func wide(o fyne.CanvasObject, steps float32) fyne.CanvasObject {
	return kit.Least(look.Space(steps), o)
}
