package sheet

import (
	"slices"
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"twinloaf/journal/formula"
	"twinloaf/journal/typeset"
)

// Measures of the page in millimetres, and of type in points, at full size.
const (
	margin  = 16.0
	line    = 7.6
	small   = 5.6
	box     = 4.6
	gap     = 3.0
	timeCol = 19.0
	turnCol = 24.0

	sizeTitle   = 26.0
	sizeHeading = 17.0
	sizeText    = 14.5
	sizeSmall   = 11.0

	boxInk  = 80  // grey of the boxes
	ruleInk = 200 // grey of the rules, light enough not to be read as anything
)

// The sizes that are tried, the largest first, to get the sheet on one page.
var sizes = []float64{1, 0.94, 0.88, 0.82}

// press draws a sheet from top to bottom.
type press struct {
	pdf   *fpdf.Fpdf
	sheet Sheet
	look  Look
	size  float64 // of type and lines, 1 for full
	line  float64 // height of a line of text
	width float64 // between the margins
}

// lay draws the sheet at the largest size at which it fits one page; what
// does not fit at any is printed at full size on as many as it needs.
func lay(s Sheet, l Look) *press {
	for _, size := range sizes {
		p := newPress(s, l, size)
		p.all()
		if p.pdf.Err() || p.pdf.PageCount() == 1 {
			return p
		}
	}
	p := newPress(s, l, 1)
	p.all()
	return p
}

func (p *press) all() {
	p.title()
	for _, t := range p.sheet.Tables {
		p.table(t)
	}
	p.figures()
	p.moments()
	p.notes()
}

// font sets the font at a size that is scaled with the page.
func (p *press) font(family, style string, size float64) {
	p.pdf.SetFont(family, style, size*p.size)
}

func newPress(s Sheet, l Look, size float64) *press {
	pdf := fpdf.New("P", "mm", string(l.Paper), "")
	// The fonts are cut down to the letters used; a copy keeps the originals whole.
	pdf.AddUTF8FontFromBytes("text", "", slices.Clone(l.Fonts.Text))
	pdf.AddUTF8FontFromBytes("text", "B", slices.Clone(l.Fonts.Bold))
	pdf.AddUTF8FontFromBytes("heading", "", slices.Clone(l.Fonts.Heading))
	pdf.SetMargins(margin, margin, margin)
	pdf.SetAutoPageBreak(true, margin)
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(l.Made)
	pdf.SetModificationDate(l.Made)
	pdf.SetTitle(typeset.Clean(s.Title), true)
	pdf.SetCreator("Twinloaf", true)
	pdf.SetDrawColor(boxInk, boxInk, boxInk)
	pdf.SetTextColor(42, 33, 26)
	pdf.SetLineWidth(0.35)
	pdf.SetCellMargin(0)
	pdf.AddPage()
	w, _ := pdf.GetPageSize()
	return &press{pdf: pdf, sheet: s, look: l, size: size, line: line * size, width: w - 2*margin}
}

func (p *press) title() {
	p.font("heading", "", sizeTitle)
	p.pdf.MultiCell(p.width, 11*p.size, typeset.Clean(p.sheet.Title), "", "L", false)
	if p.sheet.Subtitle != "" {
		p.font("text", "", sizeText)
		p.pdf.MultiCell(p.width, p.line, typeset.Clean(p.sheet.Subtitle), "", "L", false)
	}
}

// heading starts a section, on a new page when less than some lines are left.
func (p *press) heading(s string, lines int) {
	p.room(11*p.size + float64(lines)*p.line)
	p.pdf.Ln(gap * p.size)
	if s == "" {
		return
	}
	p.font("heading", "", sizeHeading)
	p.pdf.CellFormat(p.width, 8.5*p.size, p.fit(s, p.width), "", 1, "L", false, 0, "")
}

func (p *press) table(t formula.Table) {
	p.heading(t.Name, min(len(t.Rows), 5))
	for _, r := range t.Rows {
		p.room(p.line)
		p.tick()
		p.row(r, "", sizeText)
		p.rule()
	}
	total := t.Total
	total.Name = p.sheet.Total
	p.room(p.line)
	p.pdf.SetX(margin + box + gap)
	p.row(total, "B", sizeText)
}

// row draws name, weight and percentage, the weight bold: it is what is read
// from the scale.
func (p *press) row(r formula.Row, style string, size float64) {
	const weightCol, percentCol = 34.0, 30.0
	name := p.width - box - gap - weightCol - percentCol
	p.font("text", style, size)
	p.pdf.CellFormat(name, p.line, p.fit(r.Name, name-2), "", 0, "L", false, 0, "")
	p.font("text", "B", size)
	p.pdf.CellFormat(weightCol, p.line, typeset.Clean(p.look.Weight(r.Grams)), "", 0, "R", false, 0, "")
	p.font("text", style, size)
	p.pdf.CellFormat(percentCol, p.line, typeset.Clean(p.look.Percent(r.Percent)), "", 1, "R", false, 0, "")
}

func (p *press) figures() {
	if len(p.sheet.Figures) == 0 {
		return
	}
	var parts []string
	for _, f := range p.sheet.Figures {
		// What belongs together stays on one line.
		parts = append(parts, strings.ReplaceAll(typeset.Clean(f.Name+" "+f.Value), " ", "\u00a0"))
	}
	p.room(2 * p.line)
	p.pdf.Ln(1.5 * p.size)
	p.font("text", "", sizeSmall)
	p.pdf.MultiCell(p.width, small*p.size, strings.Join(parts, "   "), "", "L", false)
}

func (p *press) notes() {
	if len(p.sheet.Notes) == 0 {
		return
	}
	p.room(2 * p.line)
	p.pdf.Ln(gap)
	p.font("text", "", sizeSmall)
	for _, n := range p.sheet.Notes {
		p.pdf.MultiCell(p.width, small*p.size, typeset.Clean(n), "", "L", false)
	}
}

// tick draws an empty box where the next text would begin, and moves past it.
func (p *press) tick() {
	x, y := p.pdf.GetXY()
	p.pdf.Rect(x, y+(p.line-box)/2, box, box, "D")
	p.pdf.SetX(x + box + gap)
}

func (p *press) rule() {
	y := p.pdf.GetY()
	p.pdf.SetDrawColor(ruleInk, ruleInk, ruleInk)
	p.pdf.Line(margin, y, margin+p.width, y)
	p.pdf.SetDrawColor(boxInk, boxInk, boxInk)
}

// room begins a new page when less than so much is left of this one.
func (p *press) room(height float64) {
	_, page := p.pdf.GetPageSize()
	if p.pdf.GetY()+height > page-margin {
		p.pdf.AddPage()
	}
}

// fit cleans the text and shortens it to a width in the present font.
func (p *press) fit(s string, width float64) string {
	return typeset.Fit(s, width, p.pdf.GetStringWidth)
}
