package paper

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

// Fonts are TrueType files.
type Fonts struct{ Text, Bold, Heading []byte }

// Style is how the paper looks.
type Style struct {
	Fonts  Fonts
	Letter bool // US letter instead of A4
	// Scale makes type and lines larger, for what is read from a distance; 0 means 1.
	Scale float64
	// Made is when the file was made, for its properties.
	Made time.Time
}

// ErrNoFonts is returned when a font is missing or is no TrueType font: without
// its own fonts a PDF could not hold every letter.
var ErrNoFonts = errors.New("a font is missing or is no TrueType font")

// Measures of the page in millimetres, and of type in points, at scale 1.
const (
	margin  = 17.0
	line    = 6.0
	box     = 3.7 // the side of a box to tick
	gap     = 2.4
	sizeTop = 22.0
	sizeSub = 14.5
	size    = 11.5
	small   = 9.0
)

// The colours of the page.
var (
	inkColor  = [3]int{42, 33, 26}
	lineColor = [3]int{110, 104, 97}
	ruleColor = [3]int{215, 208, 198} // light enough not to be read as anything
	softColor = [3]int{107, 94, 80}
	white     = [3]int{255, 255, 255}
)

// Document is a document that is written from top to bottom. Make one with New;
// it is not for use by several goroutines at once.
type Document struct {
	pdf    *fpdf.Fpdf
	title  string
	scale  float64
	width  float64 // between the margins
	images int
	err    error
}

// New begins a document with a title, which stands in its properties and at the foot
// of every page but the first. What is wrong with the fonts is told by Write.
func New(title string, s Style) *Document {
	format := "A4"
	if s.Letter {
		format = "Letter"
	}
	d := &Document{pdf: fpdf.New("P", "mm", format, ""), title: title, scale: s.Scale}
	if d.scale <= 0 {
		d.scale = 1
	}
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
	d.pdf.SetTitle(Clean(title), true)
	d.pdf.SetCreator("Twinloaf", true)
	d.ink(inkColor)
	d.pen(lineColor)
	d.pdf.SetLineWidth(0.3)
	d.pdf.SetCellMargin(0)
	w, _ := d.pdf.GetPageSize()
	d.width = w - 2*margin
	d.pdf.SetFooterFunc(d.footer)
	d.pdf.AddPage()
	return d
}

// footer tells pages that were printed together from others.
func (d *Document) footer() {
	if d.pdf.PageNo() < 2 {
		return
	}
	_, page := d.pdf.GetPageSize()
	d.pdf.SetXY(margin, page-margin+4)
	d.pdf.SetFont("text", "", small)
	d.ink(softColor)
	d.pdf.CellFormat(d.width-12, 5, d.fit(d.title, d.width-12), "", 0, "L", false, 0, "")
	d.pdf.CellFormat(12, 5, strconv.Itoa(d.pdf.PageNo()), "", 0, "R", false, 0, "")
	d.ink(inkColor)
}

// Write ends the document and writes it.
func (d *Document) Write(w io.Writer) error {
	if d.err == nil {
		d.err = d.pdf.Output(w)
	}
	if d.err != nil {
		return fmt.Errorf("printing %q: %w", d.title, d.err)
	}
	return nil
}

// Pages is how many pages there are so far.
func (d *Document) Pages() int { return d.pdf.PageCount() }

// OK reports whether all went well so far.
func (d *Document) OK() bool { return d.err == nil && !d.pdf.Err() }

// Width is how wide the page is between its margins, in millimetres.
func (d *Document) Width() float64 { return d.width }

func (d *Document) ink(c [3]int) { d.pdf.SetTextColor(c[0], c[1], c[2]) }
func (d *Document) pen(c [3]int) { d.pdf.SetDrawColor(c[0], c[1], c[2]) }

// font sets the font at a size that grows with the page.
func (d *Document) font(family, style string, points float64) {
	d.pdf.SetFont(family, style, points*d.scale)
}

func (d *Document) text(family, style string, points, height float64, words string) {
	if d.err != nil || words == "" {
		return
	}
	d.font(family, style, points)
	d.pdf.MultiCell(d.width, height*d.scale, Clean(words), "", "L", false)
}

// Title writes the heading of the document.
func (d *Document) Title(words string) { d.text("heading", "", sizeTop, 10, words) }

// Section writes the heading of a part, never alone at the foot of a page.
func (d *Document) Section(words string) {
	d.Need(4 * line * d.scale)
	d.Gap(3)
	d.text("heading", "", sizeSub, 7.6, words)
}

// Words writes a paragraph.
func (d *Document) Words(words string) { d.text("text", "", size, line, words) }

// Strong writes a bold paragraph.
func (d *Document) Strong(words string) { d.text("text", "B", size, line, words) }

// Small writes a small paragraph.
func (d *Document) Small(words string) { d.text("text", "", small, line*0.75, words) }

// Gap leaves room, in millimetres.
func (d *Document) Gap(mm float64) {
	if d.err == nil {
		d.pdf.Ln(mm * d.scale)
	}
}

// NewPage goes to the next page, unless nothing stands on this one.
func (d *Document) NewPage() {
	if d.err == nil && d.pdf.GetY() > margin+1 {
		d.pdf.AddPage()
	}
}

// Need begins a new page when less than so many millimetres are left of this one.
func (d *Document) Need(height float64) {
	if d.err == nil && height > d.left() && d.pdf.GetY() > margin+1 {
		d.pdf.AddPage()
	}
}

// left is how much of the page is left, in millimetres.
func (d *Document) left() float64 {
	_, page := d.pdf.GetPageSize()
	return page - margin - d.pdf.GetY()
}

// Rule draws a light line across.
func (d *Document) Rule() {
	if d.err != nil {
		return
	}
	y := d.pdf.GetY()
	d.pen(ruleColor)
	d.pdf.Line(margin, y, margin+d.width, y)
	d.pen(lineColor)
}

// Blank writes a name and a line to write on.
func (d *Document) Blank(name string) {
	if d.err != nil {
		return
	}
	d.Need(12)
	d.font("text", "", size)
	d.pdf.CellFormat(d.pdf.GetStringWidth(Clean(name))+3, 9, Clean(name), "", 0, "L", false, 0, "")
	x, y := d.pdf.GetXY()
	d.pdf.Line(x, y+7, margin+d.width, y+7)
	d.pdf.Ln(10)
}

// Circles writes a line to answer on: its name, and a circle for each choice,
// with the words at both ends beneath (may be empty). The circles of the choices
// that marked lists are filled.
func (d *Document) Circles(name string, choices []string, low, high string, marked ...int) {
	if d.err != nil {
		return
	}
	d.Need(16)
	d.font("text", "B", size)
	d.pdf.CellFormat(d.width*0.3, 9, d.fit(name, d.width*0.3-2), "", 0, "L", false, 0, "")
	x, y := d.pdf.GetXY()
	pitch := min(16, d.width*0.7/float64(max(1, len(choices))))
	r := min(4.2, pitch*0.42)
	if len(choices) > 0 && len([]rune(choices[0])) > 2 {
		r = 7
		pitch = max(pitch, 24)
	}
	d.font("text", "", size)
	for i, c := range choices {
		cx := x + pitch*float64(i) + r
		style, words := "D", inkColor
		if slices.Contains(marked, i) {
			style, words = "FD", white
			d.pdf.SetFillColor(inkColor[0], inkColor[1], inkColor[2])
		}
		d.pdf.Ellipse(cx, y+4.5, r, min(r, 4.6), 0, style)
		d.ink(words)
		d.pdf.SetXY(cx-pitch/2, y)
		d.pdf.CellFormat(pitch, 9, Clean(c), "", 0, "C", false, 0, "")
	}
	d.ink(inkColor)
	d.pdf.SetXY(margin, y+9.5)
	if low != "" || high != "" {
		d.font("text", "", small)
		d.pdf.SetX(x)
		d.pdf.CellFormat(pitch*4.5, 4, Clean(low), "", 0, "L", false, 0, "")
		d.pdf.CellFormat(pitch*float64(len(choices))-pitch*4.5-pitch+2*r, 4, Clean(high), "", 0, "R", false, 0, "")
		d.pdf.Ln(5)
	}
	d.pdf.Ln(1.5)
}

// fit cleans the text and shortens it to a width in the present font.
func (d *Document) fit(s string, width float64) string {
	return Fit(s, width, d.pdf.GetStringWidth)
}
