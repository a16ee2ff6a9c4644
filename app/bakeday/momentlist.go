package bakeday

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// momentList is the schedule of a day under way: what is past, what is next, what is to
// come. It scrolls by itself.
type momentList struct {
	object *container.Scroll
	rows   *kit.Schedule
}

func newMomentList() *momentList {
	l := &momentList{rows: kit.NewSchedule(look.TextLead, kit.ScheduleHeads{})}
	l.object = container.NewVScroll(l.rows)
	return l
}

// follow scrolls so that what is next stands a third from the top.
func (l *momentList) follow(v dayView) {
	if v.Next < 0 {
		return
	}
	y := l.rows.Top(v.Next) - l.object.Size().Height/3
	l.object.ScrollToOffset(fyne.NewPos(0, max(0, min(y, l.rows.MinSize().Height-l.object.Size().Height))))
}
