// Package paper prints what a tasting needs on paper, as PDF with embedded
// fonts and real text: the plating card, score sheets for guests, the verdict.
// Every word is handed in, so that it is in the baker's language.
package paper

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"twinloaf/journal/typeset"
)

// Fonts are TrueType files.
type Fonts struct{ Text, Bold, Heading []byte }

// Style is how the paper looks.
type Style struct {
	Fonts  Fonts
	Letter bool // US letter instead of A4
	// Made is when the file was made, for its properties.
	Made time.Time
}

// ErrNoFonts is returned when a font is missing or is no TrueType font.
var ErrNoFonts = errors.New("a font is missing or is no TrueType font")

// Measures of the page in millimetres, and of type in points.
const (
	margin  = 18.0
	sizeTop = 24.0
	sizeSub = 15.0
	size    = 11.5
	small   = 9.0
	line    = 6.0
)

// Sheet is a document that is written from top to bottom. Make one with New;
// it is not for use by several goroutines at once.
type Sheet struct {
	pdf   *fpdf.Fpdf
	title string
	width float64
	err   error
}

// New begins a document with a title. What is wrong with the fonts is told by
// Write.
func New(title string, s Style) *Sheet {
	format := "A4"
	if s.Letter {
		format = "Letter"
	}
	d := &Sheet{pdf: fpdf.New("P", "mm", format, ""), title: title}
	for _, f := range []struct {
		family, style string
		data          []byte
	}{{"text", "", s.Fonts.Text}, {"text", "B", s.Fonts.Bold}, {"heading", "", s.Fonts.Heading}} {
		if !bytes.HasPrefix(f.data, []byte{0, 1, 0, 0}) {
			d.err = ErrNoFonts
			return d
		}
		// The fonts are cut down to the letters used; a copy keeps the originals whole.
		d.pdf.AddUTF8FontFromBytes(f.family, f.style, slices.Clone(f.data))
	}
	d.pdf.SetMargins(margin, margin, margin)
	d.pdf.SetAutoPageBreak(true, margin)
	d.pdf.SetCatalogSort(true)
	d.pdf.SetCreationDate(s.Made)
	d.pdf.SetModificationDate(s.Made)
	d.pdf.SetTitle(typeset.Clean(title), true)
	d.pdf.SetCreator("Twinloaf", true)
	d.pdf.SetTextColor(42, 33, 26)
	d.pdf.SetDrawColor(120, 120, 120)
	d.pdf.SetLineWidth(0.25)
	d.pdf.SetCellMargin(0)
	d.pdf.AddPage()
	w, _ := d.pdf.GetPageSize()
	d.width = w - 2*margin
	return d
}

// Write ends the document and writes it.
func (d *Sheet) Write(w io.Writer) error {
	if d.err == nil {
		d.err = d.pdf.Output(w)
	}
	if d.err != nil {
		return fmt.Errorf("printing %q: %w", d.title, d.err)
	}
	return nil
}

func (d *Sheet) text(family, style string, points, height float64, words string) {
	if d.err != nil || words == "" {
		return
	}
	d.pdf.SetFont(family, style, points)
	d.pdf.MultiCell(d.width, height, typeset.Clean(words), "", "L", false)
}

// Title writes the heading of the document.
func (d *Sheet) Title(words string) { d.text("heading", "", sizeTop, 10.5, words) }

// Section writes the heading of a part, never alone at the foot of a page.
func (d *Sheet) Section(words string) {
	d.room(4 * line)
	d.Gap(3)
	d.text("heading", "", sizeSub, 8, words)
}

// Words writes a paragraph.
func (d *Sheet) Words(words string) { d.text("text", "", size, line, words) }

// Strong writes a bold paragraph.
func (d *Sheet) Strong(words string) { d.text("text", "B", size, line, words) }

// Small writes a small paragraph.
func (d *Sheet) Small(words string) { d.text("text", "", small, line*0.75, words) }

// Gap leaves room, in millimetres.
func (d *Sheet) Gap(mm float64) {
	if d.err == nil {
		d.pdf.Ln(mm)
	}
}

// NewPage goes to the next page, unless nothing stands on this one.
func (d *Sheet) NewPage() {
	if d.err == nil && d.pdf.GetY() > margin+1 {
		d.pdf.AddPage()
	}
}

// room begins a new page when less than so much is left of this one.
func (d *Sheet) room(height float64) {
	if d.err != nil {
		return
	}
	_, page := d.pdf.GetPageSize()
	if d.pdf.GetY()+height > page-margin {
		d.pdf.AddPage()
	}
}

// Table writes rows in columns whose widths stand to each other as weights do.
// Words that are too long for their column are shortened.
func (d *Sheet) Table(weights []float64, head []string, rows [][]string) {
	if d.err != nil {
		return
	}
	sum := 0.0
	for _, w := range weights {
		sum += w
	}
	row := func(cells []string, style string) {
		d.room(line + 1.6)
		d.pdf.SetFont("text", style, size)
		for i, w := range weights {
			cell := ""
			if i < len(cells) {
				cell = d.fit(cells[i], w/sum*d.width-2)
			}
			d.pdf.CellFormat(w/sum*d.width, line+1.4, cell, "", 0, "L", false, 0, "")
		}
		d.pdf.Ln(line + 1.4)
		d.rule()
	}
	if len(head) > 0 {
		row(head, "B")
	}
	for _, r := range rows {
		row(r, "")
	}
}

func (d *Sheet) rule() {
	y := d.pdf.GetY()
	d.pdf.SetDrawColor(215, 208, 198)
	d.pdf.Line(margin, y, margin+d.width, y)
	d.pdf.SetDrawColor(120, 120, 120)
}

// Circles writes a line to answer on: its name, and a circle for each choice,
// with the words at both ends beneath (may be empty).
func (d *Sheet) Circles(name string, choices []string, low, high string) {
	if d.err != nil {
		return
	}
	d.room(16)
	d.pdf.SetFont("text", "B", size)
	d.pdf.CellFormat(d.width*0.3, 9, d.fit(name, d.width*0.3-2), "", 0, "L", false, 0, "")
	x, y := d.pdf.GetXY()
	pitch := min(16, d.width*0.7/float64(max(1, len(choices))))
	r := min(4.2, pitch*0.42)
	if len(choices) > 0 && len([]rune(choices[0])) > 2 {
		r = 7
		pitch = max(pitch, 24)
	}
	d.pdf.SetFont("text", "", size)
	for i, c := range choices {
		cx := x + pitch*float64(i) + r
		d.pdf.Ellipse(cx, y+4.5, r, min(r, 4.6), 0, "D")
		d.pdf.SetXY(cx-pitch/2, y)
		d.pdf.CellFormat(pitch, 9, typeset.Clean(c), "", 0, "C", false, 0, "")
	}
	d.pdf.SetXY(margin, y+9.5)
	if low != "" || high != "" {
		d.pdf.SetFont("text", "", small)
		d.pdf.SetX(x)
		d.pdf.CellFormat(pitch*4.5, 4, typeset.Clean(low), "", 0, "L", false, 0, "")
		d.pdf.CellFormat(pitch*float64(len(choices))-pitch*4.5-pitch+2*r, 4, typeset.Clean(high), "", 0, "R", false, 0, "")
		d.pdf.Ln(5)
	}
	d.pdf.Ln(1.5)
}

// Blank writes a name and a line to write on.
func (d *Sheet) Blank(name string) {
	if d.err != nil {
		return
	}
	d.room(12)
	d.pdf.SetFont("text", "", size)
	d.pdf.CellFormat(d.pdf.GetStringWidth(typeset.Clean(name))+3, 9, typeset.Clean(name), "", 0, "L", false, 0, "")
	x, y := d.pdf.GetXY()
	d.pdf.Line(x, y+7, margin+d.width, y+7)
	d.pdf.Ln(10)
}

// Picture puts a PNG of so many millimetres in width on the page.
func (d *Sheet) Picture(name string, png []byte, width float64) {
	if d.err != nil {
		return
	}
	o := fpdf.ImageOptions{ImageType: "PNG"}
	info := d.pdf.RegisterImageOptionsReader(name, o, bytes.NewReader(png))
	if info == nil || d.pdf.Err() {
		d.err = d.pdf.Error()
		return
	}
	width = min(width, d.width)
	height := width * info.Height() / info.Width()
	d.room(height)
	y := d.pdf.GetY()
	d.pdf.ImageOptions(name, margin, y, width, height, false, o, 0, "")
	d.pdf.SetY(y + height + 3)
}

// fit cleans the text and shortens it to a width in the present font.
func (d *Sheet) fit(s string, width float64) string {
	return typeset.Fit(s, width, d.pdf.GetStringWidth)
}
