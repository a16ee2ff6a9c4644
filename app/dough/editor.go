package dough

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/room"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// Editor is a whole dough: its figures, how much of it, the table of the final
// dough, a build table for each levain, and its allergens.
type Editor struct {
	Object fyne.CanvasObject

	env     *room.Env
	holder  Holder
	names   *Names
	units   kit.Units
	basis   formula.Basis
	panel   *Panel
	scale   *Scale
	final   *Table
	levains []*build
	parts   *fyne.Container
	note    *AllergenNote
}

// NewEditor makes the editor of a dough.
func NewEditor(env *room.Env, h Holder) (*Editor, error) {
	names, err := KnowNames(env.Journal)
	if err != nil {
		return nil, err
	}
	e := &Editor{env: env, holder: h, names: names, units: env.Units(), panel: NewPanel(), parts: kit.Stack(5), note: NewAllergenNote()}
	e.scale = NewScale(h, e.units)
	e.final = NewTable(env, h, names, formula.Final)
	percent := kit.NewSegments(lang.L("100 % is"), []string{lang.L("all flour, the culture's too"), lang.L("the flour as weighed")}, 0, e.setBasis)
	add := kit.NewLink(lang.L("Add a levain built beforehand"), e.addLevain)
	e.Object = kit.Stack(5, e.panel.Object, kit.Rule(), e.scale.Object,
		kit.Stack(2, kit.Section(lang.L("Final dough")), percent, e.final.Object),
		e.parts, add, kit.Rule(), e.note.Object)
	e.Show()
	return e, nil
}

// Show shows the dough as it is now. What is being typed in stays.
func (e *Editor) Show() {
	m := e.holder.Mix()
	e.panel.Show(m, e.units)
	e.scale.Show(m)
	e.final.Show(m)
	e.note.Show(m)
	if len(e.levains) != len(m.Levains) {
		e.levains, e.parts.Objects = nil, nil
		for i := range m.Levains {
			b := newBuild(e, i)
			e.levains = append(e.levains, b)
			e.parts.Add(b.object)
		}
		setVisible(e.parts, len(m.Levains) > 0)
		e.parts.Refresh()
	}
	for _, b := range e.levains {
		b.show(m)
	}
}

func (e *Editor) setBasis(i int) {
	e.basis = []formula.Basis{formula.WithCulture, formula.WithoutCulture}[i]
	e.final.SetBasis(e.basis)
	for _, b := range e.levains {
		b.table.SetBasis(e.basis)
	}
	e.Show()
}

// addLevain adds a levain, empty but for a line of culture.
func (e *Editor) addLevain() {
	id, err := e.env.Journal.NewID()
	if err != nil {
		e.env.Fail(err)
		return
	}
	e.holder.Do(lang.L("a levain built beforehand"), func(m *Mix) {
		seed := journal.Ingredient{ID: id, Role: formula.Culture, Name: lang.L("Ripe culture")}
		if len(e.names.cultures) > 0 {
			e.names.Name(&seed, e.names.cultures[0])
		}
		m.Levains = append(slices.Clone(m.Levains), journal.LevainBuild{Name: lang.L("Levain"), Lines: []journal.Ingredient{seed}})
	})
}

// build is a levain's part of the editor.
type build struct {
	object fyne.CanvasObject
	editor *Editor
	index  int
	name   *kit.TextField
	kept   *kit.FigureField
	hours  *kit.FigureField
	comes  *kit.Text
	table  *Table
}

func newBuild(e *Editor, index int) *build {
	b := &build{editor: e, index: index, comes: kit.Small(""), table: NewTable(e.env, e.holder, e.names, index)}
	b.table.SetBasis(e.basis)
	b.name = kit.NewTextField("", lang.L("Levain"))
	b.name.OnChanged = func(text string) {
		b.edit(lang.L("name of the levain"), func(l *journal.LevainBuild) { l.Name = text })
	}
	b.kept = b.figure(lang.L("Kept back for next time"), e.units.Weight(), func(l *journal.LevainBuild, v float64) { l.Kept = formula.Grams(v) })
	b.hours = b.figure(lang.L("Ripens for"), e.units.Number("h", 1), func(l *journal.LevainBuild, v float64) { l.Hours = v })
	drop := kit.NewLinkSpan(kit.Span{Text: lang.L("Take this levain out"), Size: look.TextSmall, Color: look.ColorFaint}, func() {
		done := e.holder.Do(lang.L("taking a levain out"), func(m *Mix) {
			if index < len(m.Levains) {
				m.Levains = slices.Delete(slices.Clone(m.Levains), index, index+1)
			}
		})
		if done {
			e.env.Say(lang.L("The levain is taken out."), true)
		}
	})
	b.object = kit.Stack(2, kit.Section(lang.L("Built beforehand")), wide(b.name, 40), b.table.Object,
		kit.Flow(7, b.kept, b.hours), b.comes, kit.Row(0, drop))
	return b
}

func (b *build) figure(label string, m kit.Measure, set func(*journal.LevainBuild, float64)) *kit.FigureField {
	return kit.NewFigureField(kit.FigureOptions{Label: label, Measure: m, Hint: "–", Check: notBelowZero,
		OnChanged: func(v float64, ok bool) {
			if ok && v >= 0 {
				b.edit(label, func(l *journal.LevainBuild) { set(l, v) })
			}
		},
		OnCleared: func() { b.edit(label, func(l *journal.LevainBuild) { set(l, 0) }) },
	})
}

func (b *build) edit(label string, set func(*journal.LevainBuild)) {
	b.editor.holder.Edit(label, func(m *Mix) {
		if b.index < len(m.Levains) {
			set(&m.Levains[b.index])
		}
	})
}

func (b *build) show(m Mix) {
	l := m.Levains[b.index]
	b.name.SetText(l.Name)
	showOr(b.kept, float64(l.Kept), l.Kept > 0)
	showOr(b.hours, l.Hours, l.Hours > 0)
	b.table.Show(m)
	part := m.Formula().Levains[b.index]
	f, u := part.Figures(), b.editor.units
	b.comes.SetText(lang.L("It comes to {{.Built}}, of which {{.Used}} go into the dough; hydration {{.Hydration}}, inoculation {{.Inoculation}}.", map[string]any{
		"Built": u.Weight().Write(float64(f.Built)), "Used": u.Weight().Write(float64(part.Used())),
		"Hydration": u.Percent(0).Write(float64(f.Hydration)), "Inoculation": u.Percent(0).Write(float64(f.Inoculation)),
	}))
}
