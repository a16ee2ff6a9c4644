package bakes

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/room"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// doughLine holds the widgets of one line of a dough.
type doughLine struct {
	table    *doughTable
	id       journal.ID
	position int // among the lines, from 0
	shown    journal.Ingredient

	name    *kit.SuggestField
	grams   *kit.FigureField
	role    *kit.ChoiceField
	percent *kit.Readout
	more    *kit.Link
	drop    *kit.Link
	// details are open beneath the line, or nil.
	details fyne.CanvasObject
	facts   *lineFacts
}

func newDoughLine(t *doughTable, id journal.ID) *doughLine {
	l := &doughLine{table: t, id: id}
	page := t.page
	l.name = kit.NewSuggestField("", lang.L("flour, water, salt, culture …"), func(text string) []string { return page.known.suggest(text) })
	l.name.OnChanged = func(text string) {
		known := page.known
		t.edit(l.label(), id, func(in *journal.Ingredient) { known.nameLine(in, text) })
	}
	l.grams = kit.NewFigureField(kit.FigureOptions{
		Measure: page.units.Weight(), Hint: lang.L("weight"),
		OnChanged: func(v float64, ok bool) {
			if ok {
				l.weigh(formula.Grams(max(0, v)))
			}
		},
		OnCleared: func() { l.weigh(0) },
		Check: func(v float64) string {
			if v < 0 {
				return lang.L("A weight is not less than nothing.")
			}
			return ""
		},
	})
	words := make([]string, 0, len(formula.Roles()))
	for _, r := range formula.Roles() {
		words = append(words, room.RoleWord(r))
	}
	l.role = kit.NewChoiceField("", lang.L("other"), words, func(i int) {
		role := formula.Roles()[i]
		page.rec.do(lang.L("what {{.Name}} counts as", map[string]any{"Name": l.called()}), func(b *journal.Bake) {
			lineOf(b, t.part, id).Role = role
		})
	})
	l.percent = kit.NewReadout("", false)
	l.more = kit.NewLinkSpan(kit.Span{Text: "⋯", Bold: true, Color: look.ColorFaint}, l.toggle)
	l.drop = kit.NewLinkSpan(kit.Span{Text: "×", Bold: true, Color: look.ColorFaint}, func() { t.remove(l) })
	return l
}

// label names the change of the line's words to the baker.
func (l *doughLine) label() string {
	return lang.L("line {{.N}} of the dough", map[string]any{"N": l.position + 1})
}

// called is what the line is called in a sentence.
func (l *doughLine) called() string {
	if name := l.name.Text(); name != "" {
		return name
	}
	return l.label()
}

func (l *doughLine) weigh(g formula.Grams) {
	if g == 0 && l.shown.Grams == 0 && l == l.table.spare {
		return
	}
	l.table.edit(lang.L("weight of {{.Name}}", map[string]any{"Name": l.called()}), l.id,
		func(in *journal.Ingredient) { in.Grams = g })
}

// set shows a line of the journal.
func (l *doughLine) set(v lineView, position int) {
	l.position = position
	l.shown = v.Ingredient
	l.name.SetText(v.Name)
	if v.Grams == 0 {
		showFigure(l.grams, nil)
	} else {
		showFigure(l.grams, new(float64(v.Grams)))
	}
	if i := roleIndex(v.Role); l.role.Chosen() != i {
		l.role.SetChosen(i)
	}
	percent := v.Percent
	if percent == "" {
		percent = "–"
	}
	l.percent.Set(percent, "", "", v.Derived)
	if l.facts != nil {
		l.facts.set(v.Ingredient)
	}
}

// busy says whether the line is being typed in.
func (l *doughLine) busy() bool { return l.name.Editing() || l.grams.Editing() }

// toggle opens what more can be said of the line, or closes it.
func (l *doughLine) toggle() {
	if l.details != nil {
		l.details, l.facts = nil, nil
	} else {
		l.facts = newLineFacts(l)
		l.details = l.facts.box
		l.facts.set(l.shown)
	}
	l.table.arrange()
	l.table.box.Refresh()
	if l.facts != nil && l.facts.first != nil {
		l.table.page.focus(l.facts.first)
	}
}
