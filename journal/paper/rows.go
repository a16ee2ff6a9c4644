package paper

import "slices"

// Cell is a part of a row.
type Cell struct {
	Text string
	// Width in millimetres at scale 1; 0 takes what the others leave, in equal parts.
	Width float64
	Bold  bool
	Right bool   // set against the right edge
	Tick  bool   // a box to tick stands before the text
	Note  string // small words beside the text, or beneath it where there is no room
}

// Row writes cells side by side, each on one line: words that are too long for their
// cell are shortened.
func (d *Document) Row(cells ...Cell) {
	if d.err != nil {
		return
	}
	free, wide := d.width, 0
	for _, c := range cells {
		free -= c.Width * d.scale
		if c.Width == 0 {
			wide++
		}
	}
	height, below := line*1.03*d.scale, false
	widths := make([]float64, len(cells))
	beside := make([]float64, len(cells)) // how much the text takes before its note
	for i, c := range cells {
		widths[i] = c.Width * d.scale
		if c.Width == 0 {
			widths[i] = free / float64(max(1, wide))
		}
		if c.Note == "" {
			continue
		}
		room := widths[i] - d.ticked(c)
		d.font("text", styleOf(c), size)
		beside[i] = d.pdf.GetStringWidth(d.fit(c.Text, room)) + 2*gap*d.scale
		d.font("text", "", small)
		if beside[i]+d.pdf.GetStringWidth(Clean(c.Note)) > room {
			beside[i], below = 0, true
		}
	}
	if below {
		d.Need(height + line*0.75*d.scale)
	} else {
		d.Need(height)
	}
	x, y := margin, d.pdf.GetY()
	for i, c := range cells {
		d.cell(c, x, y, widths[i], height, beside[i])
		x += widths[i]
	}
	if below {
		height += line * 0.75 * d.scale
	}
	d.pdf.SetXY(margin, y+height)
}

// ticked is how much of a cell its box takes.
func (d *Document) ticked(c Cell) float64 {
	if c.Tick {
		return (box + gap) * d.scale
	}
	return 0
}

func styleOf(c Cell) string {
	if c.Bold {
		return "B"
	}
	return ""
}

func (d *Document) cell(c Cell, x, y, width, height, beside float64) {
	if c.Tick {
		side := box * d.scale
		d.pdf.Rect(x, y+(height-side)/2, side, side, "D")
	}
	x, width = x+d.ticked(c), width-d.ticked(c)
	align := "L"
	if c.Right {
		align = "R"
	}
	d.font("text", styleOf(c), size)
	d.pdf.SetXY(x, y)
	d.pdf.CellFormat(width, height, d.fit(c.Text, width), "", 0, align, false, 0, "")
	if c.Note == "" {
		return
	}
	d.font("text", "", small)
	if beside > 0 {
		d.pdf.SetXY(x+beside, y)
		d.pdf.CellFormat(width-beside, height, Clean(c.Note), "", 0, "L", false, 0, "")
		return
	}
	d.pdf.SetXY(x, y+height)
	d.pdf.CellFormat(width, line*0.75*d.scale, d.fit(c.Note, width), "", 0, "L", false, 0, "")
}

// mostLines is how many lines a cell of a table may have: one that is too long to be
// read in a table is shortened.
const mostLines = 12

// Table writes rows in columns whose widths stand to each other as weights do; words
// that are too long for their column go on beneath. The columns that figures lists, by
// their place, are set against their right edge, so that their digits stand beneath each
// other. The head, which may be empty, is said again on each page.
func (d *Document) Table(weights []float64, head []string, rows [][]string, figures ...int) {
	if d.err != nil {
		return
	}
	sum := 0.0
	for _, w := range weights {
		sum += w
	}
	widths := make([]float64, len(weights))
	for i, w := range weights {
		widths[i] = w / sum * d.width
	}
	if len(head) > 0 {
		d.Need(3 * line * d.scale)
		d.tableRow(widths, head, "B", figures)
	}
	for _, r := range rows {
		page := d.pdf.PageNo()
		d.Need(d.rowHeight(widths, r, ""))
		if len(head) > 0 && d.pdf.PageNo() != page {
			d.tableRow(widths, head, "B", figures)
		}
		d.tableRow(widths, r, "", figures)
	}
}

// lines parts a cell's words into lines of its width.
func (d *Document) lines(words string, width float64) []string {
	out := d.pdf.SplitText(Clean(words), width-2)
	if len(out) > mostLines {
		out = out[:mostLines]
		out[mostLines-1] = d.fit(out[mostLines-1]+" …", width-2)
	}
	return out
}

func (d *Document) rowHeight(widths []float64, cells []string, style string) float64 {
	d.font("text", style, size)
	most := 1
	for i, w := range widths {
		if i < len(cells) {
			most = max(most, len(d.lines(cells[i], w)))
		}
	}
	return (float64(most)*line*0.9 + 2) * d.scale
}

func (d *Document) tableRow(widths []float64, cells []string, style string, figures []int) {
	height := d.rowHeight(widths, cells, style)
	x, y := margin, d.pdf.GetY()
	for i, w := range widths {
		align := "L"
		if slices.Contains(figures, i) {
			align = "R"
		}
		if i < len(cells) {
			for n, words := range d.lines(cells[i], w) {
				d.pdf.SetXY(x, y+(1+float64(n)*line*0.9)*d.scale)
				d.pdf.CellFormat(w, line*0.9*d.scale, words, "", 0, align, false, 0, "")
			}
		}
		x += w
	}
	d.pdf.SetXY(margin, y+height)
	d.Rule()
}
