package dough

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/limit"
	"twinloaf/journal/measure"
)

// facts are what more can be said of a line: a flour's grain, type and ash, a
// culture's hydration, a liquid's water, and what the baker knows of its allergens.
type facts struct {
	table  *Table
	id     journal.ID
	box    *fyne.Container
	fields *fyne.Container
	role   formula.Role
	fill   []func(journal.Ingredient) // show a figure each
	holds  *kit.Text
	pills  map[formula.Allergen]*kit.Pill
	sure   *kit.Pill
}

// noRole is the role of facts that have no fields yet.
const noRole formula.Role = "-"

func newFacts(t *Table, id journal.ID) *facts {
	f := &facts{table: t, id: id, role: noRole, fields: kit.Flow(6), holds: kit.Small(""), pills: map[formula.Allergen]*kit.Pill{}}
	row := kit.Flow(1)
	for _, a := range formula.Allergens() {
		p := kit.NewChoicePill(AllergenWord(a), false, func() { f.flip(a) })
		f.pills[a] = p
		row.Add(p)
	}
	f.sure = kit.NewChoicePill(lang.L("I have checked this line"), false, f.check)
	f.box = kit.Stack(2, f.fields, f.holds, row, kit.Row(0, f.sure), kit.Gap(1))
	return f
}

// show shows the facts as they are; false when the line is gone.
func (f *facts) show(m Mix) bool {
	in := m.Line(f.id)
	if in == nil {
		return false
	}
	if f.role != in.Role {
		f.role = in.Role
		f.build()
	}
	for _, fill := range f.fill {
		fill(*in)
	}
	found := in.Line().AllergensIn()
	for a, p := range f.pills {
		p.SetChosen(slices.Contains(found.Allergens, a))
	}
	f.sure.SetChosen(in.Allergens.Checked)
	switch {
	case len(found.Allergens) > 0:
		f.holds.SetText(lang.L("Contains (from its name, and your corrections):"))
	case found.Known:
		f.holds.SetText(lang.L("Nothing of the two lists is in it, as far as its name tells. Correct that here:"))
	default:
		f.holds.SetText(lang.L("Its name does not tell what is in it. Say so here:"))
	}
	return true
}

// build makes the fields that matter to the role.
func (f *facts) build() {
	f.fields.Objects, f.fill = nil, nil
	percent := func(decimals int) measure.Measure { return f.table.units.Percent(decimals) }
	switch f.role {
	case formula.Flour:
		f.word(lang.L("Grain"), lang.L("wheat, rye …"), func(in *journal.Ingredient) string { return pages.GrainWord(flourOf(in).Grain) },
			func(in *journal.Ingredient, text string) { flourOf(in).Grain = pages.GrainOf(text) })
		f.word(lang.L("Type on the bag"), lang.L("550, T65, 00 …"), func(in *journal.Ingredient) string { return flourOf(in).Type },
			func(in *journal.Ingredient, text string) { flourOf(in).Type = text })
		f.kind()
		f.figure(lang.L("Ash, of dry matter"), percent(2).In(limit.Share), func(in *journal.Ingredient) **formula.Percent { return &flourOf(in).Ash })
		f.figure(lang.L("Protein"), percent(1).In(limit.Share), func(in *journal.Ingredient) **formula.Percent { return &flourOf(in).Protein })
		f.whole(lang.L("Wholegrain"))
		f.word(lang.L("Bag"), lang.L("mark on the bag"), func(in *journal.Ingredient) string { return in.Lot },
			func(in *journal.Ingredient, text string) { in.Lot = text })
	case formula.Culture:
		f.figure(lang.L("Water per 100 of its flour"), percent(0), func(in *journal.Ingredient) **formula.Percent { return &in.Hydration })
		f.whole(lang.L("Wholegrain, of its flour"))
	case formula.SoakWater:
		f.counts()
	case formula.Water, formula.Salt, formula.Seeds, formula.Yeast:
	default:
		f.figure(lang.L("Share of water"), percent(0).In(limit.Share), func(in *journal.Ingredient) **formula.Percent { return &in.WaterShare })
	}
	kit.SetVisible(f.fields, len(f.fields.Objects) > 0)
	f.fields.Refresh()
}

// flourOf gives the flour's facts of a line for altering; they are its own.
func flourOf(in *journal.Ingredient) *journal.FlourFacts {
	if in.Flour == nil {
		in.Flour = new(journal.FlourFacts)
	}
	return in.Flour
}

// edit keeps what is typed of the line.
func (f *facts) edit(label string, set func(*journal.Ingredient)) {
	f.table.holder.Edit(lang.L("{{.What}} of a line", map[string]any{"What": label}), func(m *Mix) {
		if in := m.Line(f.id); in != nil {
			if in.Flour != nil {
				in.Flour = new(*in.Flour)
			}
			set(in)
		}
	})
}

func (f *facts) word(label, hint string, get func(*journal.Ingredient) string, set func(*journal.Ingredient, string)) {
	field := kit.NewTextField(label, hint)
	field.OnChanged = func(text string) {
		f.edit(label, func(in *journal.Ingredient) { set(in, strings.TrimSpace(text)) })
	}
	f.fill = append(f.fill, func(in journal.Ingredient) { field.SetText(get(&in)) })
	f.fields.Add(wide(field, 30))
}

func (f *facts) figure(label string, m measure.Measure, of func(*journal.Ingredient) **formula.Percent) {
	f.bound(label, lang.L("not known"), m, kit.Optional(of))
}

// whole asks for the share of wholegrain.
func (f *facts) whole(label string) {
	f.bound(label, "0", f.table.units.Percent(0).In(limit.Share), kit.NonZero(func(in *journal.Ingredient) *formula.Percent { return &flourOf(in).Wholegrain }, 1))
}

func (f *facts) bound(label, hint string, m measure.Measure, bound kit.Bound[journal.Ingredient]) {
	field := kit.NewQuantityField(kit.QuantityOptions{Label: label, Hint: hint, Measure: m, Keep: func(v *float64) {
		if v == nil || *v >= 0 {
			f.edit(label, func(in *journal.Ingredient) { bound.Set(in, v) })
		}
	}})
	f.fill = append(f.fill, func(in journal.Ingredient) { field.Set(bound.Get(&in)) })
	f.fields.Add(field)
}

// counts asks whether soaking water counts toward the hydration.
func (f *facts) counts() {
	var yes bool
	p := kit.NewChoicePill(lang.L("Counts toward hydration"), false, nil)
	p.OnTapped = func() {
		set := !yes
		f.do(lang.L("soaking water"), func(in *journal.Ingredient) { in.CountsAsWater = set })
	}
	f.fill = append(f.fill, func(in journal.Ingredient) {
		yes = in.CountsAsWater
		p.SetChosen(yes)
	})
	f.fields.Add(p)
}

// kind says by the three systems what flour this is, with the ash on hover.
func (f *facts) kind() {
	r := kit.NewReadout(lang.L("By type"), false)
	f.fill = append(f.fill, func(in journal.Ingredient) {
		words, derived := typeWords(in.Flour, f.table.units)
		r.Set(words, "", "", derived)
	})
	f.fields.Add(r)
}

// do changes the line at once.
func (f *facts) do(label string, set func(*journal.Ingredient)) {
	f.table.holder.Do(label, func(m *Mix) {
		if in := m.Line(f.id); in != nil {
			set(in)
		}
	})
}

// flip corrects whether an allergen is in the line.
func (f *facts) flip(a formula.Allergen) {
	f.do(lang.L("allergens of a line"), func(in *journal.Ingredient) { in.Allergens = flipped(*in, a) })
}

func (f *facts) check() {
	f.do(lang.L("allergens of a line"), func(in *journal.Ingredient) { in.Allergens.Checked = !in.Allergens.Checked })
}

// flipped is the correction by which an allergen that was in a line is not, or
// the other way round.
func flipped(in journal.Ingredient, a formula.Allergen) formula.Corrections {
	not := func(b formula.Allergen) bool { return b == a }
	c := in.Allergens
	held := slices.Contains(in.Line().AllergensIn().Allergens, a)
	c.Add = slices.DeleteFunc(slices.Clone(c.Add), not)
	c.Remove = slices.DeleteFunc(slices.Clone(c.Remove), not)
	byName := slices.Contains(formula.FindAllergens(in.Name).Allergens, a)
	switch {
	case held && byName:
		c.Remove = append(c.Remove, a)
	case !held && !byName:
		c.Add = append(c.Add, a)
	}
	return c
}
