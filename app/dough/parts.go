package dough

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/limit"
	"twinloaf/journal/measure"
)

// Parts are the tables of a dough: the final dough, and a build table for each
// levain.
type Parts struct {
	Object fyne.CanvasObject

	env     *pages.Env
	holder  Holder
	names   *Names
	units   measure.Units
	final   *Table
	levains []*build
	builds  *fyne.Container
}

// NewParts makes the tables of a dough.
func NewParts(env *pages.Env, h Holder, names *Names) *Parts {
	p := &Parts{env: env, holder: h, names: names, units: env.Units(), builds: kit.Stack(5)}
	p.final = newTable(env, h, names, formula.Final)
	add := kit.NewLink(lang.L("Add a levain"), p.addLevain)
	p.Object = kit.Stack(4, p.final.Object, p.builds, kit.Row(0, add))
	return p
}

// Final is the table of the final dough.
func (p *Parts) Final() *Table { return p.final }

// Tables lists the table of the final dough and those of the levains.
func (p *Parts) Tables() []*Table {
	out := []*Table{p.final}
	for _, b := range p.levains {
		out = append(out, b.table)
	}
	return out
}

// SetNames gives the tables what the journal can say by now of names.
func (p *Parts) SetNames(n *Names) { *p.names = *n }

// Show shows the dough as it is now. What is being typed in stays.
func (p *Parts) Show() {
	m := p.holder.Mix()
	p.final.Show(m)
	if len(p.levains) != len(m.Levains) {
		p.levains, p.builds.Objects = nil, nil
		for i := range m.Levains {
			b := newBuild(p, i)
			p.levains = append(p.levains, b)
			p.builds.Add(b.object)
		}
		p.builds.Refresh()
	}
	kit.SetVisible(p.builds, len(m.Levains) > 0)
	for _, b := range p.levains {
		b.show(m)
	}
}

// addLevain adds a levain, empty but for a line of culture.
func (p *Parts) addLevain() {
	id, err := p.env.Journal.NewID()
	if p.env.Failed(err) {
		return
	}
	seed := journal.Ingredient{ID: id, Role: formula.Culture, Name: lang.L("Ripe culture")}
	if c := p.names.cultureOr(p.holder.Mix().Culture); c != "" {
		p.names.Name(&seed, c)
	}
	p.holder.Do(lang.L("a levain built beforehand"), func(m *Mix) {
		m.Levains = append(slices.Clone(m.Levains), journal.LevainBuild{Name: lang.L("Levain"), Lines: []journal.Ingredient{seed}})
	})
}

// build is a levain's part of the editor.
type build struct {
	object fyne.CanvasObject
	parts  *Parts
	index  int
	name   *kit.TextField
	kept   *kit.QuantityField
	hours  *kit.QuantityField
	comes  *kit.Text
	table  *Table
}

func newBuild(p *Parts, index int) *build {
	b := &build{parts: p, index: index, comes: kit.Small(""), table: newTable(p.env, p.holder, p.names, index)}
	b.table.setBasis(p.final.basis)
	if p.final.weights {
		b.table.WeightsFirst()
	}
	b.name = kit.NewTextField("", lang.L("Levain"))
	b.name.OnChanged = func(text string) {
		b.edit(lang.L("name of the levain"), func(l *journal.LevainBuild) { l.Name = text })
	}
	b.kept = b.figure(lang.L("Kept back for next time"), p.units.Weight(), keptBack)
	b.hours = b.figure(lang.L("Ripens for"), p.units.Number("h", 1).In(limit.Hours), ripensFor)
	drop := kit.NewLink(lang.L("Remove this levain"), func() {
		done := p.holder.Do(lang.L("removing a levain"), func(m *Mix) {
			if index < len(m.Levains) {
				m.Levains = slices.Delete(slices.Clone(m.Levains), index, index+1)
			}
		})
		if done {
			p.env.Say(lang.L("The levain is removed."), true)
		}
	})
	b.object = kit.Stack(2, wide(b.name, 40), b.table.Object,
		kit.Columns(look.Space(40), b.kept, b.hours), b.comes, kit.Row(0, drop))
	return b
}

// The figures of a levain beside its lines.
var (
	keptBack  = kit.NonZero(func(l *journal.LevainBuild) *formula.Grams { return &l.Kept }, 1)
	ripensFor = kit.NonZero(func(l *journal.LevainBuild) *float64 { return &l.Hours }, 1)
)

func (b *build) figure(label string, m measure.Measure, bound kit.Bound[journal.LevainBuild]) *kit.QuantityField {
	return kit.NewQuantityField(kit.QuantityOptions{Label: label, Measure: m, Keep: func(v *float64) {
		b.edit(label, func(l *journal.LevainBuild) { bound.Set(l, v) })
	}})
}

func (b *build) edit(label string, set func(*journal.LevainBuild)) {
	b.parts.holder.Edit(label, func(m *Mix) {
		if b.index < len(m.Levains) {
			set(&m.Levains[b.index])
		}
	})
}

func (b *build) show(m Mix) {
	l := m.Levains[b.index]
	b.name.SetText(l.Name)
	b.kept.Set(keptBack.Get(&l))
	b.hours.Set(ripensFor.Get(&l))
	b.table.Show(m)
	part := m.Formula().Levains[b.index]
	f, u := part.Metrics(), b.parts.units
	weights := Weights(m.Formula(), u)
	b.comes.SetText(lang.L("It comes to {{.Built}}, of which {{.Used}} go into the dough; hydration {{.Hydration}}, inoculation of the levain {{.Inoculation}}.", map[string]any{
		"Built": weights.Write(float64(f.Built)), "Used": weights.Write(float64(part.Used())),
		"Hydration": u.Percent(0).Write(float64(f.Hydration)), "Inoculation": u.Percent(0).Write(float64(f.Inoculation)),
	}))
}
