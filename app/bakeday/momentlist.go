package bakeday

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// momentList lists the moments of a day: what is past, what is next, what is to come.
type momentList struct {
	object *container.Scroll
	column *fyne.Container
	rows   []*momentRow
}

func newMomentList() *momentList {
	l := &momentList{column: kit.Stack(1)}
	l.object = container.NewVScroll(l.column)
	return l
}

// show writes the rows in place.
func (l *momentList) show(v dayView, now time.Time, u measure.Units) {
	changed := false
	for i, row := range v.Rows {
		if i == len(l.rows) {
			l.rows = append(l.rows, newMomentRow())
			l.column.Add(l.rows[i].object)
		}
		changed = l.rows[i].show(row) || changed
		if row.Late {
			l.rows[i].late.Set("", v.Until, now, u)
		}
	}
	if len(l.rows) > len(v.Rows) {
		l.rows = l.rows[:len(v.Rows)]
		l.column.Objects = l.column.Objects[:len(v.Rows)]
		changed = true
	}
	if changed {
		l.column.Refresh() // a row may have grown
	}
}

// follow scrolls so that what is next stands a third from the top.
func (l *momentList) follow(v dayView) {
	if v.Next < 0 || v.Next >= len(l.rows) {
		return
	}
	y := l.rows[v.Next].object.Position().Y - l.object.Size().Height/3
	l.object.ScrollToOffset(fyne.NewPos(0, max(0, min(y, l.column.MinSize().Height-l.object.Size().Height))))
}

// momentRow is one moment: the clock, its name, and what is to be said of it.
type momentRow struct {
	object       *fyne.Container
	clock, title *kit.Text
	aside        *kit.Text
	late         *kit.Due // by how much, where it is overdue
	row          dayRow
}

func newMomentRow() *momentRow {
	r := &momentRow{clock: kit.NewLine(), title: kit.NewText(), aside: kit.Small(""), late: kit.NewDue(look.TextSmall)}
	r.late.Hide()
	r.object = &fyne.Container{Layout: momentLayout{}, Objects: []fyne.CanvasObject{r.clock, kit.Stack(0, r.title, r.late, r.aside)}}
	return r
}

// show writes a row, and tells whether there was anything to write.
func (r *momentRow) show(row dayRow) bool {
	if r.row == row {
		return false
	}
	r.row = row
	span := kit.Span{Size: look.TextLead}
	switch {
	case row.Next:
		span.Bold, span.Color = true, look.ColorCrust
		if row.Late {
			span.Color = look.ColorEmber
		}
	case row.State != plan.Pending:
		span.Color = look.ColorFaint
	}
	mark := map[plan.State]string{plan.Done: "✓ ", plan.Skipped: "– "}[row.State]
	clock := span
	clock.Text, span.Text = row.Clock, mark+row.Title
	r.clock.SetSpans(clock)
	r.title.SetSpans(span)
	r.aside.SetText(row.Aside)
	kit.SetVisible(r.aside, row.Aside != "")
	kit.SetVisible(r.late, row.Late)
	r.object.Refresh()
	return true
}

// momentLayout gives the clock a column of its own.
type momentLayout struct{}

const clockWidth = 84

func (momentLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	m := things[1].MinSize()
	return fyne.NewSize(clockWidth+m.Width, max(things[0].MinSize().Height, m.Height))
}

func (momentLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	things[0].Resize(fyne.NewSize(clockWidth, things[0].MinSize().Height))
	things[1].Move(fyne.NewPos(clockWidth, 0))
	things[1].Resize(fyne.NewSize(size.Width-clockWidth, size.Height))
}
