package charts

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/color"
	"math"
	"strconv"
	"strings"

	"github.com/golang/freetype/truetype"
)

// vectors is a surface that writes each item as an element of an SVG picture. Looks
// stand in line with what they are for, since many programs that show drawings know
// no style sheets, and show all of it black. go-chart's own writer is not used: it
// rounds to whole units, cannot anchor text and escapes none.
type vectors struct {
	sheet *drawList
	out   bytes.Buffer
}

// vectorise plays a sheet to an SVG picture of width by height pixels; about says
// what it shows.
func vectorise(s *drawList, width, height int, about string) ([]byte, error) {
	v := &vectors{sheet: s}
	fmt.Fprintf(&v.out, `<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d" viewBox="0 0 %d %d" role="img"><desc>%s</desc>`+"\n",
		width, height, width, height, escape(about))
	v.shape(item{pts: []point{{0, 0}, {s.w, 0}, {s.w, s.h}, {0, s.h}}, closed: true, fill: s.style.Paper})
	if err := s.play(v); err != nil {
		return nil, err
	}
	v.out.WriteString("</svg>\n")
	return v.out.Bytes(), nil
}

func (v *vectors) shape(it item) {
	if it.radius > 0 {
		fmt.Fprintf(&v.out, `<circle cx="%s" cy="%s" r="%s" style="%s"/>`+"\n", units(it.pts[0].x), units(it.pts[0].y), units(it.radius), lines(it))
		return
	}
	v.out.WriteString(`<path d="`)
	for i, p := range it.pts {
		v.out.WriteByte("ML"[min(i, 1)])
		v.out.WriteString(units(p.x) + " " + units(p.y))
	}
	if it.closed {
		v.out.WriteByte('Z')
	}
	fmt.Fprintf(&v.out, `" style="%s"/>`+"\n", lines(it))
}

// text gives the words the length that they were measured to have: another typeface,
// where ours is not installed, then leaves them their place.
func (v *vectors) text(it item) error {
	fmt.Fprintf(&v.out, `<text x="%s" y="%s" textLength="%s" lengthAdjust="spacingAndGlyphs" style="%s">%s</text>`+"\n",
		units(it.pts[0].x), units(it.pts[0].y), units(v.sheet.measure(it.words, it.font)), v.letters(it), escape(it.words))
	return nil
}

// units writes a length to a hundredth, which no eye tells from more.
func units(v float64) string {
	return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64)
}

// escape makes text safe inside an element.
func escape(words string) string {
	var b strings.Builder
	// A strings.Builder does not fail, and bad characters become U+FFFD.
	_ = xml.EscapeText(&b, []byte(words))
	return b.String()
}

// letters is how a text is set, in CSS.
func (v *vectors) letters(it item) string {
	face, weight := v.sheet.style.Regular, 400
	if it.font.bold {
		face, weight = v.sheet.style.Bold, 600
	}
	anchor := "start"
	switch {
	case it.anchor >= 1:
		anchor = "end"
	case it.anchor > 0:
		anchor = "middle"
	}
	return fmt.Sprintf("font-family:%s;font-size:%gpx;font-weight:%d;text-anchor:%s;%s", family(face), it.font.size, weight, anchor, paint("fill", it.font.colour))
}

// lines is how a shape is filled and drawn around, in CSS.
func lines(it item) string {
	fill := paint("fill", it.fill)
	if it.stroke.A == 0 || it.width <= 0 {
		return fill
	}
	out := fmt.Sprintf("%s;%s;stroke-width:%g;stroke-linejoin:round", fill, paint("stroke", it.stroke), it.width)
	if len(it.dash) == 2 {
		return out + fmt.Sprintf(";stroke-dasharray:%g %g", it.dash[0], it.dash[1])
	}
	return out + ";stroke-linecap:round"
}

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
