package bakes

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// lineFacts is what more can be said of a line: a flour's facts, a culture's
// hydration, a liquid's water, and what the baker knows of its allergens.
type lineFacts struct {
	line   *doughLine
	box    *fyne.Container
	fields *fyne.Container
	role   formula.Role
	fill   []func(journal.Ingredient) // show a figure each
	first  interface{ Entry() fyne.Focusable }
	holds  *kit.Text
	pills  map[formula.Allergen]*kit.Pill
	right  *kit.Pill
}

func newLineFacts(l *doughLine) *lineFacts {
	f := &lineFacts{line: l, fields: kit.Flow(6), holds: kit.Small(""), pills: map[formula.Allergen]*kit.Pill{}}
	f.role = "?" // none yet: set builds the fields
	row := kit.Flow(1)
	for _, a := range formula.Allergens() {
		p := kit.NewChoicePill(lang.L(string(a)), false, func() { f.flip(a) })
		f.pills[a] = p
		row.Add(p)
	}
	f.right = kit.NewChoicePill(lang.L("I have checked this line"), false, f.check)
	f.box = kit.Stack(2, f.fields, f.holds, row, kit.Row(0, f.right), kit.Gap(1))
	return f
}

// set shows the facts of the line as they are.
func (f *lineFacts) set(in journal.Ingredient) {
	if f.role != in.Role {
		f.role = in.Role
		f.build()
	}
	for _, fill := range f.fill {
		fill(in)
	}
	found := in.Line().AllergensIn()
	for a, p := range f.pills {
		p.SetChosen(slices.Contains(found.Allergens, a))
	}
	f.right.SetChosen(in.Allergens.Checked)
	switch {
	case len(found.Allergens) > 0:
		f.holds.SetText(lang.L("It holds, as far as the name tells and you correct it:"))
	case found.Known:
		f.holds.SetText(lang.L("Nothing on the lists of allergens is in it, as far as its name tells. Correct that here:"))
	default:
		f.holds.SetText(lang.L("Its name does not tell what is in it. Say so here:"))
	}
}

// build makes the fields that matter to the role.
func (f *lineFacts) build() {
	f.fields.Objects, f.fill, f.first = nil, nil, nil
	u := f.line.table.page.units
	switch f.role {
	case formula.Flour:
		f.word(lang.L("Grain"), lang.L("wheat, rye …"), func(in *journal.Ingredient) *string { return &facts(in).Grain })
		f.figure(lang.L("Wholegrain"), u.Percent(0), func(in *journal.Ingredient, v *float64) {
			facts(in).Wholegrain = formula.Percent(min(100, deref(v)))
		}, func(in journal.Ingredient) *float64 { return wholegrain(in) })
		f.word(lang.L("Type on the bag"), lang.L("550, T65, 00 …"), func(in *journal.Ingredient) *string { return &facts(in).Type })
		f.figure(lang.L("Protein"), u.Percent(1), func(in *journal.Ingredient, v *float64) { facts(in).Protein = percent(v) },
			func(in journal.Ingredient) *float64 { return number(facts(&in).Protein) })
		f.figure(lang.L("Ash, of dry matter"), u.Percent(2), func(in *journal.Ingredient, v *float64) { facts(in).Ash = percent(v) },
			func(in journal.Ingredient) *float64 { return number(facts(&in).Ash) })
		f.word(lang.L("Lot"), lang.L("mark on the bag"), func(in *journal.Ingredient) *string { return &in.Lot })
	case formula.Culture:
		f.figure(lang.L("Water per 100 of its flour"), u.Percent(0), func(in *journal.Ingredient, v *float64) { in.Hydration = percent(v) },
			func(in journal.Ingredient) *float64 { return number(in.Hydration) })
		f.figure(lang.L("Wholegrain, of its flour"), u.Percent(0), func(in *journal.Ingredient, v *float64) {
			facts(in).Wholegrain = formula.Percent(min(100, deref(v)))
		}, func(in journal.Ingredient) *float64 { return wholegrain(in) })
	case formula.SoakWater:
		f.fields.Add(f.counts())
	case formula.Water, formula.Salt, formula.Seeds, formula.Yeast:
	default:
		f.figure(lang.L("Share of water"), u.Percent(0), func(in *journal.Ingredient, v *float64) { in.WaterShare = percent(v) },
			func(in journal.Ingredient) *float64 { return number(in.WaterShare) })
	}
	setVisible(f.fields, len(f.fields.Objects) > 0)
	f.fields.Refresh()
}

// counts asks whether a soaker's water counts toward hydration.
func (f *lineFacts) counts() fyne.CanvasObject {
	p := kit.NewChoicePill(lang.L("Counts toward hydration"), false, nil)
	p.OnTapped = func() {
		yes := !f.line.shown.CountsAsWater
		f.change(lang.L("soaking water"), func(in *journal.Ingredient) { in.CountsAsWater = yes })
	}
	f.fill = append(f.fill, func(in journal.Ingredient) { p.SetChosen(in.CountsAsWater) })
	return p
}

func (f *lineFacts) word(label, hint string, of func(*journal.Ingredient) *string) {
	field := kit.NewTextField(label, hint)
	field.OnChanged = func(text string) {
		f.line.table.edit(f.named(label), f.line.id, func(in *journal.Ingredient) { *of(in) = strings.TrimSpace(text) })
	}
	f.fill = append(f.fill, func(in journal.Ingredient) {
		in.Flour = cloneFacts(in.Flour)
		field.SetText(*of(&in))
	})
	f.fields.Add(wide(field, look.Space(30)))
	f.firstIs(field)
}

func (f *lineFacts) figure(label string, m kit.Measure, set func(*journal.Ingredient, *float64), get func(journal.Ingredient) *float64) {
	keep := func(v *float64) {
		f.line.table.edit(f.named(label), f.line.id, func(in *journal.Ingredient) { set(in, v) })
	}
	field := kit.NewFigureField(kit.FigureOptions{Label: label, Hint: lang.L("not known"), Measure: m,
		OnChanged: func(v float64, ok bool) {
			if ok {
				keep(new(max(0, v)))
			}
		},
		OnCleared: func() { keep(nil) },
	})
	f.fill = append(f.fill, func(in journal.Ingredient) {
		in.Flour = cloneFacts(in.Flour)
		showFigure(field, get(in))
	})
	f.fields.Add(field)
	f.firstIs(field)
}

func (f *lineFacts) firstIs(field interface{ Entry() fyne.Focusable }) {
	if f.first == nil {
		f.first = field
	}
}

// named names a change of a fact to the baker.
func (f *lineFacts) named(fact string) string {
	return lang.L("{{.Fact}} of {{.Name}}", map[string]any{"Fact": strings.ToLower(fact), "Name": f.line.called()})
}

func (f *lineFacts) change(label string, set func(*journal.Ingredient)) {
	t := f.line.table
	t.page.rec.do(label, func(b *journal.Bake) { set(lineOf(b, t.part, f.line.id)) })
}

// flip says that an allergen is in the line, or that it is not.
func (f *lineFacts) flip(a formula.Allergen) {
	f.change(lang.L("allergens of {{.Name}}", map[string]any{"Name": f.line.called()}), func(in *journal.Ingredient) {
		correct(in, a)
	})
}

// correct turns round what is said of an allergen: the correction that stands is
// dropped where the name alone says the same.
func correct(in *journal.Ingredient, a formula.Allergen) {
	c := &in.Allergens
	held := slices.Contains(in.Line().AllergensIn().Allergens, a)
	byName := slices.Contains(formula.FindAllergens(in.Name).Allergens, a)
	is := func(x formula.Allergen) bool { return x == a }
	c.Add, c.Remove = slices.DeleteFunc(c.Add, is), slices.DeleteFunc(c.Remove, is)
	switch {
	case held && byName:
		c.Remove = append(c.Remove, a)
	case !held && !byName:
		c.Add = append(c.Add, a)
	}
}

func (f *lineFacts) check() {
	yes := !f.line.shown.Allergens.Checked
	f.change(lang.L("allergens of {{.Name}}", map[string]any{"Name": f.line.called()}), func(in *journal.Ingredient) {
		in.Allergens.Checked = yes
	})
}

// facts gives the facts of a line's flour, writing a blank set where there is none.
func facts(in *journal.Ingredient) *journal.FlourFacts {
	if in.Flour == nil {
		in.Flour = &journal.FlourFacts{}
	}
	return in.Flour
}

func cloneFacts(f *journal.FlourFacts) *journal.FlourFacts {
	if f == nil {
		return nil
	}
	return new(*f)
}

// wholegrain is the share of wholegrain, where anything is known of the flour.
func wholegrain(in journal.Ingredient) *float64 {
	if in.Flour == nil {
		return nil
	}
	return new(float64(in.Flour.Wholegrain))
}
