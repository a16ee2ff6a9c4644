package bakes

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// levainPart is a levain that was built for the dough.
type levainPart struct {
	page  *bakePage
	index int
	box   *fyne.Container
	name  *kit.TextField
	kept  *kit.FigureField
	goes  *kit.Text
}

func newLevainPart(p *bakePage, i int) *levainPart {
	l := &levainPart{page: p, index: i, goes: kit.Small("")}
	set := func(label string, change func(*journal.LevainBuild)) {
		p.rec.edit(label, func(b *journal.Bake) {
			if i < len(b.Levains) {
				change(&b.Levains[i])
			}
		})
	}
	l.name = kit.NewTextField("", lang.L("Levain"))
	l.name.OnChanged = func(text string) {
		set(lang.L("name of the levain"), func(l *journal.LevainBuild) { l.Name = text })
	}
	keep := func(g formula.Grams) {
		set(lang.L("levain kept back"), func(l *journal.LevainBuild) { l.Kept = g })
	}
	l.kept = kit.NewFigureField(kit.FigureOptions{Label: lang.L("kept back for next time"), Measure: p.units.Weight(), Hint: lang.L("none"),
		OnChanged: func(v float64, ok bool) {
			if ok {
				keep(formula.Grams(max(0, v)))
			}
		},
		OnCleared: func() { keep(0) }})
	drop := kit.NewLinkSpan(kit.Span{Text: lang.L("take it out"), Size: look.TextSmall, Color: look.ColorFaint}, l.remove)
	table := p.doughs[i+1]
	l.box = kit.Stack(1, kit.Row(4, kit.Section(lang.L("Built beforehand")), wide(l.name, look.Space(40)), drop),
		table.box, kit.Row(5, l.kept, l.goes))
	return l
}

func (l *levainPart) sync(rec journal.LevainBuild, levain formula.Levain, flour formula.Grams) {
	l.name.SetText(rec.Name)
	if rec.Kept == 0 {
		showFigure(l.kept, nil)
	} else {
		showFigure(l.kept, new(float64(rec.Kept)))
	}
	u := l.page.units
	words := lang.L("{{.Used}} goes into the dough.", map[string]any{"Used": u.Weight().Write(float64(levain.Used()))})
	if flour > 0 {
		words = lang.L("{{.Used}} goes into the dough, {{.Percent}} of its flour.", map[string]any{
			"Used": u.Weight().Write(float64(levain.Used())), "Percent": u.Percent(1).Write(float64(levain.Used().PercentOf(flour)))})
	}
	l.goes.SetText(words)
}

func (l *levainPart) remove() {
	i := l.index
	if l.page.rec.do(lang.L("taking out a levain"), func(b *journal.Bake) {
		if i < len(b.Levains) {
			b.Levains = append(b.Levains[:i:i], b.Levains[i+1:]...)
		}
	}) {
		l.page.env.Say(lang.L("The levain is taken out."), true)
	}
}
