package dough

import (
	"cmp"
	"errors"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// line holds the widgets of one line of a table.
type line struct {
	table *Table
	id    journal.ID
	shown journal.Ingredient

	name           *kit.SuggestField
	role           *kit.ChoiceField
	grams, percent *kit.QuantityField
	more, drop     *kit.Link
}

func newLine(t *Table, id journal.ID) *line {
	l := &line{table: t, id: id}
	l.name = kit.NewSuggestField("", lang.L("flour, water, salt, culture …"), t.names.suggest)
	l.name.OnChanged = l.rename
	l.name.OnDone = l.readName
	l.name.OnPaste(l.pasted)
	l.name.OnEnter(l.enter)
	l.grams = kit.NewQuantityField(kit.QuantityOptions{
		Measure: t.units.Weight(), Hint: "–", Ends: figureEnds,
		Keep: func(v *float64) {
			if g := kit.OrZero(v); g >= 0 {
				l.weigh(formula.Grams(g))
			}
		},
	})
	l.percent = kit.NewQuantityField(kit.QuantityOptions{
		Measure: t.units.Percent(1), Hint: "–", Ends: figureEnds, Derived: Define(formula.FigurePercent, ""),
		Keep: func(v *float64) {
			if v != nil && *v >= 0 {
				l.share(formula.Percent(*v))
			}
		},
	})
	words := make([]string, 0, len(formula.Roles()))
	for _, r := range formula.Roles() {
		words = append(words, pages.RoleWord(r))
	}
	l.role = kit.NewChoiceField("", pages.RoleWord(formula.Other), words, func(i int) {
		role := formula.Roles()[i]
		t.holder.Do(lang.L("what {{.Name}} counts as", map[string]any{"Name": l.called()}), func(m *Mix) {
			if in := m.Line(id); in != nil {
				in.Role = role
			}
		})
	})
	l.more = kit.NewLinkSpan(kit.Span{Text: "⋯", Bold: true, Color: look.ColorFaint}, func() { t.openFacts(l.id) })
	l.drop = kit.NewLinkSpan(kit.Span{Text: "×", Bold: true, Color: look.ColorFaint}, func() { t.remove(l) })
	return l
}

// called is what the line is called in a sentence.
func (l *line) called() string {
	if name := strings.TrimSpace(l.name.Text()); name != "" {
		return name
	}
	return lang.L("a line")
}

// rename keeps the name as it is typed, and what the name tells while the baker
// has not said otherwise.
func (l *line) rename(text string) {
	l.table.edit(l, lang.L("line {{.N}} of the dough", map[string]any{"N": l.table.place(l)}), l.naming(text))
}

// naming is the change that gives the line a name, and what the name tells.
func (l *line) naming(name string) func(*Mix) {
	old := ""
	if mix := l.table.holder.Mix(); mix.Line(l.id) != nil {
		old = mix.Line(l.id).Name
	}
	named := l.table.names.naming(old, name)
	return func(m *Mix) {
		if in := m.Line(l.id); in != nil {
			named(in)
		}
	}
}

func (l *line) weigh(g formula.Grams) {
	if l == l.table.spare && g == 0 {
		return
	}
	l.table.edit(l, lang.L("weight of {{.Name}}", map[string]any{"Name": l.called()}), l.table.holder.Mix().SetGrams(l.id, g))
}

// share makes the line the percentage typed; what cannot be is said beneath.
func (l *line) share(p formula.Percent) {
	m := l.table.holder.Mix()
	change, err := m.setPercent(l.id, p, l.table.basis)
	switch {
	case errors.Is(err, formula.ErrNoFlour):
		l.percent.SetProblem(lang.L("Percent of what? Weigh some flour first."))
		return
	case errors.Is(err, formula.ErrTooMuch):
		l.percent.SetProblem(lang.L("That leaves no room for the rest of the flour."))
		return
	case err != nil:
		return
	}
	l.table.holder.Edit(lang.L("percent of {{.Name}}", map[string]any{"Name": l.called()}), change)
}

// set shows a line; percent is nil while there is no flour.
func (l *line) set(in journal.Ingredient, percents map[journal.ID]formula.Percent) {
	l.shown = in
	l.name.SetText(in.Name)
	l.grams.Set(positive(float64(in.Grams)))
	if p, ok := percents[in.ID]; ok && in.Grams > 0 {
		l.percent.Set(new(float64(p)))
	} else {
		l.percent.Set(nil)
	}
	role := cmp.Or(in.Role, formula.Other)
	for i, r := range formula.Roles() {
		if r == role && l.role.Chosen() != i {
			l.role.SetChosen(i)
		}
	}
}

// positive is a figure of which zero is none.
func positive(v float64) *float64 {
	if v <= 0 {
		return nil
	}
	return &v
}
