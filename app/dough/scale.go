package dough

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal/formula"
	"twinloaf/journal/limit"
	"twinloaf/journal/measure"
)

// Scale is the row in which a dough is made larger or smaller: by loaves and
// their weight, by the dough, the flour, or the culture there is. Each follows the
// others while one is typed.
type Scale struct {
	Object fyne.CanvasObject

	holder                              Holder
	units                               measure.Units
	loaves, each, dough, flour, culture *kit.QuantityField
	cultureCell                         fyne.CanvasObject
}

// newScale makes the row.
func newScale(h Holder, u measure.Units) *Scale {
	s := &Scale{holder: h, units: u}
	weight := func(label, derived string, scale func(g formula.Grams) func(formula.Formula) (formula.Formula, error)) *kit.QuantityField {
		return kit.NewQuantityField(kit.QuantityOptions{
			Label: label, Measure: u.Weight(), Derived: derived,
			Keep: func(v *float64) {
				if v != nil {
					s.scale(label, scale(formula.Grams(*v)))
				}
			},
		})
	}
	s.loaves = kit.NewQuantityField(kit.QuantityOptions{
		Label: lang.L("Loaves"), Measure: u.Number("", 0).In(limit.Loaves), Hint: "1",
		Keep: func(v *float64) {
			if v != nil {
				s.makeLoaves(*v)
			}
		},
	})
	s.each = weight(lang.L("Each"), lang.L("The dough of one loaf. It weighs less when it is baked: see bake loss."),
		func(g formula.Grams) func(formula.Formula) (formula.Formula, error) {
			n := max(1, h.Mix().Loaves)
			return func(f formula.Formula) (formula.Formula, error) { return f.ScaleToLoaves(n, g) }
		})
	s.dough = weight(lang.L("Dough"), Define(formula.FigureDough, ""),
		func(g formula.Grams) func(formula.Formula) (formula.Formula, error) {
			return func(f formula.Formula) (formula.Formula, error) { return f.ScaleToDough(g) }
		})
	s.flour = weight(lang.L("Flour"), Define(formula.FigureFlour, ""),
		func(g formula.Grams) func(formula.Formula) (formula.Formula, error) {
			return func(f formula.Formula) (formula.Formula, error) { return f.ScaleToFlour(g, formula.WithCulture) }
		})
	s.culture = weight(lang.L("Culture available"), lang.L("All the culture that the dough and its levains ask for. Write what you have, and the rest follows."),
		func(g formula.Grams) func(formula.Formula) (formula.Formula, error) {
			return func(f formula.Formula) (formula.Formula, error) { return f.ScaleToCulture(g) }
		})
	s.cultureCell = kit.Labelled(lang.L("Culture available"), s.culture)
	s.Object = kit.Flow(7, s.loaves, s.each, s.dough, s.flour, s.cultureCell)
	return s
}

// Show shows the measures of a dough.
func (s *Scale) Show(m Mix) {
	f := m.Formula()
	s.loaves.SetValue(float64(max(1, m.Loaves)))
	each, culture, whole := float64(m.EachLoaf()), float64(f.CultureIn()), f.Metrics()
	weights := Weights(f, s.units)
	for field, g := range map[*kit.QuantityField]float64{s.each: each, s.dough: float64(whole.Dough), s.flour: float64(whole.Flour), s.culture: culture} {
		field.Set(positive(g))
		field.SetMeasure(weights)
	}
	kit.SetVisible(s.cultureCell, f.CultureIn() > 0 || s.culture.Editing())
}

// scale makes the dough by a scaling. What cannot be done yet, such as while only
// a zero stands there, is left.
func (s *Scale) scale(label string, by func(formula.Formula) (formula.Formula, error)) {
	change, err := s.holder.Mix().scaled(by)
	if err != nil {
		return
	}
	s.holder.Edit(lang.L("how much: {{.What}}", map[string]any{"What": label}), change)
}

// makeLoaves changes the number of loaves and leaves each what it weighs.
func (s *Scale) makeLoaves(v float64) {
	m, n := s.holder.Mix(), int(v)
	each := m.EachLoaf()
	weigh, err := m.scaled(func(f formula.Formula) (formula.Formula, error) { return f.ScaleToLoaves(n, each) })
	if err != nil {
		weigh = func(*Mix) {} // nothing in it yet: the number alone
	}
	s.holder.Edit(lang.L("how many loaves"), func(m *Mix) {
		weigh(m)
		m.Loaves = n
	})
}
