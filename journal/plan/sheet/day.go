package sheet

import (
	"time"

	"twinloaf/journal/paper"
	"twinloaf/journal/plan"
)

func (p *typesetter) moments() {
	if len(p.sheet.Moments) == 0 {
		return
	}
	p.heading(p.sheet.PlanTitle, 4)
	var last time.Time
	for i := 0; i < len(p.sheet.Moments); {
		m := p.sheet.Moments[i]
		if i == 0 || !sameDay(last, m.Due) {
			p.day(m.Due)
		}
		last = m.Due
		n := 1
		if m.Turn == 0 {
			p.moment(m)
		} else {
			for i+n < len(p.sheet.Moments) && p.sheet.Moments[i+n].Turn > 0 && sameDay(last, p.sheet.Moments[i+n].Due) {
				n++
			}
			p.turns(p.sheet.Moments[i : i+n])
		}
		i += n
	}
}

func sameDay(a, b time.Time) bool {
	ay, am, ad := a.Date()
	by, bm, bd := b.Date()
	return ay == by && am == bm && ad == bd
}

// day says which day it is for what stands below.
func (p *typesetter) day(t time.Time) {
	p.page.Need(3 * rowHigh * p.size)
	p.page.Gap(1)
	p.page.Row(paper.Cell{Text: p.look.Day(t), Bold: true})
	p.page.Rule()
}

// moment writes one thing to do, with its note.
func (p *typesetter) moment(m plan.Moment) {
	p.page.Row(paper.Cell{Text: p.look.Clock(m.Due), Width: timeCol, Bold: true},
		paper.Cell{Tick: true, Text: p.look.Say(m.Title), Note: m.Note})
}

// turns writes the turns of a step side by side, each with its box and time.
func (p *typesetter) turns(ms []plan.Moment) {
	perLine := max(1, int((p.page.Width()/p.size-timeCol)/turnCol))
	for len(ms) > 0 {
		n := min(perLine, len(ms))
		cells := []paper.Cell{{Width: timeCol}}
		for _, m := range ms[:n] {
			cells = append(cells, paper.Cell{Tick: true, Text: p.look.Clock(m.Due), Bold: true, Width: turnCol})
		}
		p.page.Row(cells...)
		ms = ms[n:]
	}
}
