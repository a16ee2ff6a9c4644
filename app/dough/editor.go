package dough

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// Editor is a whole dough: its figures, how much of it, its tables, and its
// allergens.
type Editor struct {
	Object fyne.CanvasObject

	env    *pages.Env
	holder Holder
	units  measure.Units
	panel  *panel
	scale  *Scale
	parts  *Parts
	note   *AllergenNote
}

// NewEditor makes the editor of a dough.
func NewEditor(env *pages.Env, h Holder) (*Editor, error) {
	names, err := KnowNames(env.Journal)
	if err != nil {
		return nil, err
	}
	e := &Editor{env: env, holder: h, units: env.Units(), panel: newPanel(), parts: NewParts(env, h, names), note: NewAllergenNote()}
	e.scale = newScale(h, e.units)
	percent := kit.NewSegments(lang.L("Percentages of"), []string{lang.L("all flour, culture included"), lang.L("flour weighed only")}, 0, e.setBasis)
	tin := kit.NewLink(lang.L("From a tin…"), func() { askTin(env.Window, e.scale, e.units) })
	e.Object = kit.Stack(5, e.panel.Object, kit.Rule(), kit.Stack(1, e.scale.Object, kit.Row(0, tin)),
		kit.Stack(2, kit.Section(lang.L("Final dough")), percent, e.parts.Object),
		kit.Rule(), e.note.Object)
	e.Show()
	return e, nil
}

// Show shows the dough as it is now. What is being typed in stays.
func (e *Editor) Show() {
	m := e.holder.Mix()
	e.panel.Show(m, e.units)
	e.scale.Show(m)
	e.parts.Show()
	r, err := m.Allergens(e.env.Journal)
	e.env.Fail(err)
	e.note.Show(m, r)
}

func (e *Editor) setBasis(i int) {
	basis := []formula.Basis{formula.WithCulture, formula.WithoutCulture}[i]
	for _, t := range e.parts.Tables() {
		t.setBasis(basis)
	}
	e.Show()
}
