package charts

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/color"
	"io"
	"math"
	"strings"

	"github.com/golang/freetype/truetype"
	chart "github.com/wcharczuk/go-chart/v2"
)

// fine is how many units of the SVG go to one unit of layout. go-chart's SVG
// writer takes whole numbers only; at ten they are fine enough.
const fine = 10

// vectorise plays a sheet to go-chart's SVG writer. Looks are put in its place of CSS
// classes: by itself it would round line widths and could not anchor text. In the
// file they stand in line with what they are for, since many programs that show
// drawings know no style sheets, and show all of it black.
func vectorise(w io.Writer, s *sheet, width, height int, about string) error {
	looks := newClasses(s.style)
	names := make([]string, len(s.items))
	for i, it := range s.items {
		names[i] = looks.name(it)
	}
	r, err := chart.SVGWithCSS("", "")(width*fine, height*fine)
	if err != nil {
		return fmt.Errorf("drawing the chart as SVG: %w", err)
	}
	at := func(p point) (x, y int) {
		return int(math.Round(p.x * fine)), int(math.Round(p.y * fine))
	}
	r.SetClassName(looks.named(paint("fill", s.style.Paper) + ";stroke:none"))
	trail(r, []point{{0, 0}, {s.w, 0}, {s.w, s.h}, {0, s.h}}, at, true)
	for i, it := range s.items {
		r.SetClassName(names[i])
		x, y := at(it.pts[0])
		switch {
		case it.words != "":
			r.Text(escape(it.words), x, y)
		case it.radius > 0:
			r.Circle(it.radius*fine, x, y)
		default:
			trail(r, it.pts, at, it.closed)
		}
	}
	var buf bytes.Buffer
	if err := r.Save(&buf); err != nil {
		return fmt.Errorf("drawing the chart as SVG: %w", err)
	}
	return frame(w, looks.inline(buf.Bytes()), width, height, about)
}

func trail(r chart.Renderer, pts []point, at func(point) (int, int), closed bool) {
	for i, p := range pts {
		x, y := at(p)
		if i == 0 {
			r.MoveTo(x, y)
			continue
		}
		r.LineTo(x, y)
	}
	if closed {
		r.Close()
	}
	r.FillStroke()
}

// frame gives the drawing a size and a description, which go-chart leaves out.
func frame(w io.Writer, svg []byte, width, height int, about string) error {
	const opening = "<svg "
	end := bytes.IndexByte(svg, '>')
	if !bytes.HasPrefix(svg, []byte(opening)) || end < 0 {
		return fmt.Errorf("drawing the chart as SVG: the writer began with %.20q", svg)
	}
	_, err := fmt.Fprintf(w, "<svg width=\"%d\" height=\"%d\" role=\"img\" %s<desc>%s</desc>%s\n",
		width, height, svg[len(opening):end+1], escape(about), svg[end+1:])
	return err
}

// escape makes text safe inside an element. The writer of go-chart puts it in
// as it comes.
func escape(words string) string {
	var b strings.Builder
	// A strings.Builder does not fail, and bad characters become U+FFFD.
	_ = xml.EscapeText(&b, []byte(words))
	return b.String()
}

// classes gives each look on a sheet a short name.
type classes struct {
	style Style
	names map[string]string
	rules []string
}

func newClasses(style Style) *classes {
	return &classes{style: style, names: map[string]string{}}
}

func (c *classes) name(it item) string { return c.named(c.rule(it)) }

func (c *classes) named(rule string) string {
	if n, ok := c.names[rule]; ok {
		return n
	}
	n := fmt.Sprintf("k%d", len(c.rules))
	c.names[rule] = n
	c.rules = append(c.rules, rule)
	return n
}

func (c *classes) rule(it item) string {
	if it.words != "" {
		face, weight := c.style.Regular, 400
		if it.font.bold {
			face, weight = c.style.Bold, 600
		}
		anchor := "start"
		switch {
		case it.anchor >= 1:
			anchor = "end"
		case it.anchor > 0:
			anchor = "middle"
		}
		return fmt.Sprintf("font-family:%s;font-size:%gpx;font-weight:%d;text-anchor:%s;stroke:none;%s", family(face), it.font.size*fine, weight, anchor, paint("fill", it.font.colour))
	}
	out := paint("fill", it.fill)
	if it.stroke.A == 0 || it.width <= 0 {
		out += ";stroke:none"
	} else {
		out += ";" + paint("stroke", it.stroke) + fmt.Sprintf(";stroke-width:%g;stroke-linejoin:round", it.width*fine)
		if len(it.dash) == 2 {
			out += fmt.Sprintf(";stroke-dasharray:%g %g", it.dash[0]*fine, it.dash[1]*fine)
		} else {
			out += ";stroke-linecap:round"
		}
	}
	return out
}

// inline puts the looks in place of their classes, and takes the empty style sheet
// away. No text can be taken for either: its quotes and angles are escaped.
func (c *classes) inline(svg []byte) []byte {
	pairs := []string{emptySheet, ""}
	for i, rule := range c.rules {
		pairs = append(pairs, fmt.Sprintf("class=%q", fmt.Sprintf("k%d", i)), `style="`+rule+`"`)
	}
	return []byte(strings.NewReplacer(pairs...).Replace(string(svg)))
}

// emptySheet is what go-chart writes for a style sheet without rules.
const emptySheet = `<style type="text/css"><![CDATA[]]></style>`

// family names the typeface, and any plain one where it is not installed.
func family(f *truetype.Font) string {
	name := strings.TrimSuffix(f.Name(truetype.NameIDFontFamily), " SemiBold")
	name = strings.Map(func(r rune) rune {
		if strings.ContainsRune(`'"\<>&;{}]`, r) {
			return -1
		}
		return r
	}, name)
	if name == "" {
		return "sans-serif"
	}
	return "'" + name + "',sans-serif"
}

func paint(what string, c color.NRGBA) string {
	if c.A == 0 {
		return what + ":none"
	}
	out := fmt.Sprintf("%s:#%02x%02x%02x", what, c.R, c.G, c.B)
	if c.A < 255 {
		out += fmt.Sprintf(";%s-opacity:%.3g", what, float64(c.A)/255)
	}
	return out
}
