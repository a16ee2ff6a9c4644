package sheet

import (
	"time"

	"twinloaf/journal/plan"
	"twinloaf/journal/typeset"
)

func (p *press) moments() {
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
func (p *press) day(t time.Time) {
	p.room(3 * p.line)
	p.pdf.Ln(1.2 * p.size)
	p.font("text", "B", sizeSmall)
	p.pdf.CellFormat(p.width, small*p.size, p.fit(p.look.Day(t), p.width), "", 1, "L", false, 0, "")
	p.rule()
}

// moment draws one thing to do, with its note beside it, or below where there
// is no room for it.
func (p *press) moment(m plan.Moment) {
	left := p.width - timeCol - box - gap
	p.font("text", "", sizeText)
	title := p.fit(p.look.Say(m.Title), left)
	used := p.pdf.GetStringWidth(title) + 2*gap
	p.font("text", "", sizeSmall)
	note := typeset.Clean(m.Note)
	beside := note == "" || p.pdf.GetStringWidth(note) <= left-used
	height := p.line
	if !beside {
		height += small * p.size
	}
	p.room(height)

	p.font("text", "B", sizeText)
	p.pdf.CellFormat(timeCol, p.line, typeset.Clean(p.look.Clock(m.Due)), "", 0, "L", false, 0, "")
	p.tick()
	p.font("text", "", sizeText)
	if !beside {
		p.pdf.CellFormat(left, p.line, title, "", 1, "L", false, 0, "")
		p.pdf.SetX(margin + timeCol + box + gap)
		used = 0
	} else {
		p.pdf.CellFormat(used, p.line, title, "", 0, "L", false, 0, "")
	}
	p.font("text", "", sizeSmall)
	rest := p.line
	if !beside {
		rest = small * p.size
	}
	p.pdf.CellFormat(left-used, rest, p.fit(note, left-used), "", 1, "L", false, 0, "")
}

// turns draws the turns of a step side by side, each with its box and time.
func (p *press) turns(ms []plan.Moment) {
	start := margin + timeCol + box + gap
	perLine := max(1, int((p.width-timeCol-box-gap)/turnCol))
	for i, m := range ms {
		if i%perLine == 0 {
			p.room(p.line)
			p.pdf.SetX(start)
		}
		p.tick()
		ln := 0
		if i%perLine == perLine-1 || i == len(ms)-1 {
			ln = 1
		}
		p.font("text", "B", sizeText)
		p.pdf.CellFormat(turnCol-box-gap, p.line, typeset.Clean(p.look.Clock(m.Due)), "", ln, "L", false, 0, "")
	}
}
