package shelf

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/past"
	"twinloaf/journal/shelf"
)

// filterLine is the line below the heading: how many bakes are seen, the filter in
// words that can be taken off, the order, and the views kept under a name.
type filterLine struct {
	p      *shelfPage
	box    *fyne.Container
	count  *kit.Text
	order  *kit.Link // says the order; a tap turns it round
	by     *kit.ChoiceField
	group  *kit.ChoiceField
	keep   *kit.Link
	kept   *kit.ChoiceField
	said   []string // the pills that are there
	orders []shelf.Metric
	pills  []fyne.CanvasObject
}

func newFilterLine(p *shelfPage) *filterLine {
	l := &filterLine{p: p, box: kit.Flow(2), count: kit.NewLine(kit.Span{Color: look.ColorFaint})}
	l.order = kit.NewLink("", l.flip)
	l.by = kit.NewChoiceField("", lang.L("sorted by"), nil, func(i int) {
		p.state.Order = shelf.Order{By: l.orders[i]}
		p.again()
	})
	var words []string
	for _, g := range shelf.Groupings() {
		words = append(words, groupingWord(g))
	}
	l.group = kit.NewChoiceField("", "", words, func(i int) {
		p.state.GroupBy = shelf.Groupings()[i]
		p.again()
	})
	l.keep = kit.NewLink("", func() {
		if v := l.p.viewShown(); v != nil {
			l.p.forgetView(v)
			return
		}
		l.keepView()
	})
	l.kept = kit.NewChoiceField("", lang.L("saved views"), nil, func(i int) { p.showView(p.views[i]) })
	return l
}

// flip turns the order round.
func (l *filterLine) flip() {
	l.p.state.Order.Upwards = !l.p.state.Order.Upwards
	l.p.again()
}

// show brings the line up to the page.
func (l *filterLine) show() {
	p, s := l.p, l.p.speaker()
	seen, all := s.count(len(p.rows)), s.count(p.record.Len())
	l.count.SetText(lang.N("{{.Seen}} of {{.All}} bakes", p.record.Len(), map[string]any{"Seen": seen, "All": all}))
	if p.state.Filter.Empty() {
		l.count.SetText(lang.L("all bakes"))
	}
	l.order.SetText(orderWords(p.state.Order))
	l.showOrders()
	l.group.SetChosen(slices.Index(shelf.Groupings(), p.state.GroupBy))
	l.showViews()
	l.showPills(s.pills(p.state.Filter))
	l.box.Objects = append([]fyne.CanvasObject{l.count}, l.pills...)
	for _, o := range []fyne.CanvasObject{l.by, l.order, l.group, l.keep, l.kept} {
		l.box.Add(o)
	}
	kit.SetVisible(l.kept, len(p.views) > 0)
	l.box.Refresh()
}

// showOrders offers the figures to sort by.
func (l *filterLine) showOrders() {
	u := l.p.env.Units()
	orders, words := []shelf.Metric{""}, []string{lang.L("by date")}
	for _, list := range [][]past.Described{l.p.record.Outcomes(u), l.p.record.Factors(u)} {
		for _, d := range list {
			if _, share := d.Key.Flour(); share {
				continue
			}
			orders = append(orders, d.Key)
			words = append(words, lang.L("by {{.Figure}}", map[string]any{"Figure": d.Name}))
		}
	}
	l.orders = orders
	l.by.SetOptions(words)
	l.by.SetChosen(slices.Index(orders, l.p.state.Order.By))
}

func (l *filterLine) showViews() {
	var names []string
	for _, v := range l.p.views {
		names = append(names, v.Name)
	}
	l.kept.SetOptions(names)
	shown := l.p.viewShown()
	l.kept.SetChosen(slices.Index(l.p.views, shown))
	if shown != nil {
		l.keep.SetText(lang.L("forget this view"))
	} else {
		l.keep.SetText(lang.L("save this view"))
	}
}

// showPills keeps the pills while they say the same. After one was taken off by the
// keyboard, the next one has the keyboard.
func (l *filterLine) showPills(pills []pill) {
	var said []string
	for _, w := range pills {
		said = append(said, w.words)
	}
	if slices.Equal(said, l.said) {
		return
	}
	c := l.p.env.Window.Canvas()
	at := slices.IndexFunc(l.pills, func(o fyne.CanvasObject) bool { return c != nil && c.Focused() == o.(fyne.Focusable) })
	l.said, l.pills = said, nil
	for _, w := range pills {
		l.pills = append(l.pills, kit.NewPill(w.words, func() { l.p.narrow(w.off) }))
	}
	if at >= 0 && len(l.pills) > 0 {
		c.Focus(l.pills[min(at, len(l.pills)-1)].(fyne.Focusable))
	}
}

// keepView asks for a name and keeps the view under it.
func (l *filterLine) keepView() {
	if l.p.record == nil {
		return
	}
	name := kit.NewTextField("", lang.L("a name for this view"))
	var sheet *kit.Dialog
	keep := func() {
		if l.p.keepView(name.Text()) {
			sheet.Close()
		}
	}
	sheet = kit.ShowDialog(l.p.env.Window, kit.DialogOptions{
		Title: lang.L("Save this view"), OnEnter: keep,
		Content: kit.Stack(3, kit.Faint(l.p.speaker().heading(l.p.state.Filter, len(l.p.rows), l.p.record.Len())), name),
		Buttons: []fyne.CanvasObject{kit.PrimaryButton(lang.L("Save"), keep).WithKey(lang.L("Enter"))},
	})
	name.OnEnter(keep)
	name.Focus()
}
