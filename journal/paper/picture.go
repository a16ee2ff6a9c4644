package paper

import (
	"bytes"
	"image/color"
	"strconv"

	"codeberg.org/go-pdf/fpdf"
)

// Photo is a picture with words beneath it. Its bytes are a JPEG or a PNG; they go
// into the file as they stand, so hand in only what may leave.
type Photo struct {
	Data          []byte
	PNG           bool
	Width, Height int // in pixels
	Caption       string
}

// gutter lies between photos of one row, in millimetres.
const gutter = 5.0

// Photos writes photos in rows of so many, each row as high as its tallest.
func (d *Document) Photos(photos []Photo, columns int) {
	if d.err != nil || columns < 1 {
		return
	}
	width := (d.width - gutter*float64(columns-1)) / float64(columns)
	for len(photos) > 0 && d.err == nil {
		n := min(columns, len(photos))
		d.photoRow(photos[:n], width)
		photos = photos[n:]
	}
}

func (d *Document) photoRow(photos []Photo, width float64) {
	d.font("text", "", small)
	_, page := d.pdf.GetPageSize()
	most := (page - 2*margin) * 0.44 // two rows of tall ones on a page
	height, under := 0.0, 0
	for _, p := range photos {
		if p.Width < 1 || p.Height < 1 {
			continue
		}
		height = max(height, min(most, width*float64(p.Height)/float64(p.Width)))
		under = max(under, len(d.lines(p.Caption, width)))
	}
	d.Need(height + float64(under)*line*0.75*d.scale + 4)
	y := d.pdf.GetY()
	for i, p := range photos {
		if p.Width < 1 || p.Height < 1 {
			continue
		}
		x := margin + float64(i)*(width+gutter)
		h := width * float64(p.Height) / float64(p.Width)
		w := width
		if h > height {
			w, h = width*height/h, height
		}
		d.image(p, x, y, w, h)
		d.font("text", "", small)
		d.ink(softColor)
		for n, words := range d.lines(p.Caption, width) {
			d.pdf.SetXY(x, y+height+1+float64(n)*line*0.75*d.scale)
			d.pdf.CellFormat(width, line*0.75*d.scale, words, "", 0, "L", false, 0, "")
		}
		d.ink(inkColor)
	}
	d.pdf.SetXY(margin, y+height+float64(under)*line*0.75*d.scale+4)
}

func (d *Document) image(p Photo, x, y, w, h float64) {
	o := fpdf.ImageOptions{ImageType: "JPEG"}
	if p.PNG {
		o.ImageType = "PNG"
	}
	d.images++
	name := strconv.Itoa(d.images)
	if info := d.pdf.RegisterImageOptionsReader(name, o, bytes.NewReader(p.Data)); info == nil || d.pdf.Err() {
		d.err = d.pdf.Error()
		return
	}
	d.pdf.ImageOptions(name, x, y, w, h, false, o, 0, "")
}

// Drawing leaves room across the page for a drawing of so many units and has draw
// fill it. Unit for unit it is as large as it can be.
func (d *Document) Drawing(width, height float64, draw func(*Canvas) error) {
	if d.err != nil || width <= 0 || height <= 0 {
		return
	}
	unit := d.width / width
	_, page := d.pdf.GetPageSize()
	unit = min(unit, (page-2*margin)/height)
	d.Need(height * unit)
	c := &Canvas{d: d, x: margin, y: d.pdf.GetY(), unit: unit}
	if err := draw(c); err != nil {
		d.err = err
		return
	}
	d.pdf.SetAlpha(1, "Normal")
	d.pdf.SetDashPattern(nil, 0)
	d.pdf.SetLineWidth(0.3)
	d.pen(lineColor)
	d.ink(inkColor)
	d.pdf.SetXY(margin, c.y+height*unit+2)
}

// Canvas takes lines, shapes and words. Places and lengths are in the drawing's units
// from its upper left corner; a colour that is wholly transparent draws nothing.
type Canvas struct {
	d    *Document
	x, y float64
	unit float64 // in millimetres
}

// Trail draws a line through points, or a shape when it is closed.
func (c *Canvas) Trail(points [][2]float64, closed bool, fill, stroke color.NRGBA, width float64, dash []float64) {
	pdf := c.d.pdf
	how := c.look(fill, stroke, width, dash)
	if how == "" || len(points) < 2 {
		return
	}
	for i, p := range points {
		x, y := c.x+p[0]*c.unit, c.y+p[1]*c.unit
		if i == 0 {
			pdf.MoveTo(x, y)
		} else {
			pdf.LineTo(x, y)
		}
	}
	if closed {
		pdf.ClosePath()
	}
	pdf.DrawPath(how)
}

// Circle draws a circle.
func (c *Canvas) Circle(x, y, radius float64, fill, stroke color.NRGBA, width float64) {
	if how := c.look(fill, stroke, width, nil); how != "" {
		c.d.pdf.Circle(c.x+x*c.unit, c.y+y*c.unit, radius*c.unit, how)
	}
}

// Words sets a text on a line: anchor 0 begins at x, 0.5 is centred on it, 1 ends there.
func (c *Canvas) Words(words string, x, y, anchor, size float64, bold bool, ink color.NRGBA) {
	const points = 72 / 25.4 // to a millimetre
	pdf := c.d.pdf
	style := ""
	if bold {
		style = "B"
	}
	words = Clean(words)
	pdf.SetFont("text", style, size*c.unit*points)
	pdf.SetAlpha(float64(ink.A)/255, "Normal")
	pdf.SetTextColor(int(ink.R), int(ink.G), int(ink.B))
	pdf.Text(c.x+x*c.unit-anchor*pdf.GetStringWidth(words), c.y+y*c.unit, words)
}

// look sets pen and brush, and says which of the two draw.
func (c *Canvas) look(fill, stroke color.NRGBA, width float64, dash []float64) string {
	pdf, how := c.d.pdf, ""
	alpha := fill.A
	if fill.A > 0 {
		how = "F"
		pdf.SetFillColor(int(fill.R), int(fill.G), int(fill.B))
	}
	if stroke.A > 0 && width > 0 {
		if how += "D"; how == "D" {
			alpha = stroke.A
		}
		pdf.SetDrawColor(int(stroke.R), int(stroke.G), int(stroke.B))
		pdf.SetLineWidth(width * c.unit)
		pdf.SetLineJoinStyle("round")
		scaled := make([]float64, len(dash))
		for i, v := range dash {
			scaled[i] = v * c.unit
		}
		pdf.SetDashPattern(scaled, 0)
		pdf.SetLineCapStyle("round")
		if len(dash) > 0 {
			pdf.SetLineCapStyle("butt")
		}
	}
	if how != "" {
		pdf.SetAlpha(float64(alpha)/255, "Normal")
	}
	return how
}
