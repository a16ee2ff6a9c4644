package sheet

import (
	"strings"

	"twinloaf/journal/formula"
	"twinloaf/journal/paper"
)

// typesetter writes a sheet from top to bottom.
type typesetter struct {
	page  *paper.Document
	sheet Sheet
	look  Style
	size  float64
}

// Columns of the tables and of the day, in millimetres at scale 1.
const (
	tickCol    = 6.1
	weightCol  = 27.0
	percentCol = 24.0
	timeCol    = 15.0
	turnCol    = 19.0
	// rowHigh is about how high a row is, to keep a heading with its first rows.
	rowHigh = 6.2
)

func lay(s Sheet, l Style, size float64) *typesetter {
	l.Paper.Scale = size
	p := &typesetter{page: paper.New(s.Title, l.Paper), sheet: s, look: l, size: size}
	p.page.Title(s.Title)
	p.page.Words(s.Subtitle)
	for _, t := range s.Tables {
		p.table(t)
	}
	p.figures()
	p.moments()
	p.notes()
	return p
}

// heading starts a section, on a new page when less than some rows are left.
func (p *typesetter) heading(s string, rows int) {
	p.page.Need((10 + float64(rows)*rowHigh) * p.size)
	p.page.Section(s)
}

func (p *typesetter) table(t formula.Table) {
	p.heading(t.Name, min(len(t.Rows), 5))
	for _, r := range t.Rows {
		p.row(r, paper.Cell{Tick: true, Text: r.Name})
		p.page.Rule()
	}
	total := t.Total
	total.Name = p.sheet.Total
	p.row(total, paper.Cell{}, paper.Cell{Text: total.Name, Bold: true})
}

// row writes name, weight and percentage, the weight bold: it is what is read
// from the scale.
func (p *typesetter) row(r formula.Row, name ...paper.Cell) {
	bold := len(name) > 1
	if bold {
		name[0].Width = tickCol
	}
	p.page.Row(append(name,
		paper.Cell{Text: p.look.Weight(r.Grams), Width: weightCol, Bold: true, Right: true},
		paper.Cell{Text: p.look.Percent(r.Percent), Width: percentCol, Bold: bold, Right: true})...)
}

func (p *typesetter) figures() {
	if len(p.sheet.Figures) == 0 {
		return
	}
	var parts []string
	for _, f := range p.sheet.Figures {
		// What belongs together stays on one line.
		parts = append(parts, strings.ReplaceAll(f.Name+" "+f.Value, " ", "\u00a0"))
	}
	p.page.Gap(1.5)
	p.page.Small(strings.Join(parts, "   "))
}

func (p *typesetter) notes() {
	if len(p.sheet.Notes) > 0 {
		p.page.Need(2 * rowHigh * p.size)
		p.page.Gap(2.4)
	}
	for _, n := range p.sheet.Notes {
		p.page.Small(n)
	}
}
