package charts

import (
	"fmt"
	"image/color"
	"math"
	"strings"
	"unicode"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/math/fixed"

	"twinloaf/journal/say"
)

type point struct{ x, y float64 }

type rect struct{ x, y, w, h float64 }

func (r rect) right() float64  { return r.x + r.w }
func (r rect) bottom() float64 { return r.y + r.h }

func (r rect) overlaps(o rect) bool {
	return r.x < o.right() && o.x < r.right() && r.y < o.bottom() && o.y < r.bottom()
}

func (r rect) grown(by float64) rect { return rect{r.x - by, r.y - by, r.w + 2*by, r.h + 2*by} }

// A drawList is a list of things to draw, in layout units. It is laid out once and
// then played to a surface of pixels or of vectors, so both show the same.
type drawList struct {
	style Style
	w, h  float64
	scale float64 // device pixels to one unit; lines are snapped to it
	items []item
	marks []mark
}

// An item is a polygon, a line, a circle or a text.
type item struct {
	pts    []point
	closed bool
	radius float64 // a circle around pts[0] when positive

	fill, stroke color.NRGBA // not done when fully transparent
	width        float64
	dash         []float64

	words  string
	font   lettering
	anchor float64 // 0 the words begin at pts[0], 0.5 they centre on it, 1 they end there
}

// lettering is how a text is set.
type lettering struct {
	size   float64
	bold   bool
	colour color.NRGBA
}

// A surface is what a sheet is played to.
type surface interface {
	shape(it item) // a polygon, a line or a circle
	text(it item) error
}

// play draws every item of the sheet in turn.
func (s *drawList) play(to surface) error {
	for _, it := range s.items {
		if it.words == "" {
			to.shape(it)
			continue
		}
		if err := to.text(it); err != nil {
			return fmt.Errorf("drawing the text %q: %w", it.words, err)
		}
	}
	return nil
}

func newDrawList(style Style, w, h, scale float64) *drawList {
	return &drawList{style: style, w: w, h: h, scale: scale}
}

// The three ways text is set in every figure.
func (s *drawList) label() lettering { return lettering{size: s.style.size(), colour: s.style.Faint} }
func (s *drawList) name() lettering {
	return lettering{size: s.style.size(), bold: true, colour: s.style.Ink}
}
func (s *drawList) title() lettering {
	return lettering{size: s.style.size() * 7 / 6, bold: true, colour: s.style.Ink}
}

// named sets a series' name in its own colour.
func (s *drawList) named(l SeriesStyle) lettering {
	return lettering{size: s.style.size(), bold: true, colour: s.style.readable(s.style.colour(l.Hue))}
}

// snap moves a coordinate to the edge of a device pixel.
func (s *drawList) snap(v float64) float64 { return math.Round(v*s.scale) / s.scale }

// hair is a line width rounded to whole device pixels, at least one.
func (s *drawList) hair(width float64) float64 { return max(1, math.Round(width*s.scale)) / s.scale }

// block fills a rectangle whose edges fall on device pixels.
func (s *drawList) block(r rect, fill color.NRGBA) {
	x, y := s.snap(r.x), s.snap(r.y)
	x1, y1 := max(s.snap(r.right()), x+1/s.scale), max(s.snap(r.bottom()), y+1/s.scale)
	s.polygon([]point{{x, y}, {x1, y}, {x1, y1}, {x, y1}}, fill)
}

func (s *drawList) across(x0, x1, y, width float64, c color.NRGBA) {
	w := s.hair(width)
	s.block(rect{x0, s.snap(y - w/2), x1 - x0, w}, c)
}

func (s *drawList) upright(x, y0, y1, width float64, c color.NRGBA) {
	w := s.hair(width)
	s.block(rect{s.snap(x - w/2), y0, w, y1 - y0}, c)
}

func (s *drawList) polygon(pts []point, fill color.NRGBA) {
	if len(pts) > 2 {
		s.items = append(s.items, item{pts: pts, closed: true, fill: fill})
	}
}

func (s *drawList) outline(pts []point, fill, stroke color.NRGBA, width float64) {
	s.items = append(s.items, item{pts: pts, closed: true, fill: fill, stroke: stroke, width: width})
}

func (s *drawList) line(pts []point, c color.NRGBA, width float64, dashed bool) {
	if len(pts) < 2 {
		return
	}
	it := item{pts: pts, stroke: c, width: width}
	if dashed {
		it.dash = []float64{width * 3, width * 2.5}
	}
	s.items = append(s.items, it)
}

func (s *drawList) disc(at point, radius float64, fill, stroke color.NRGBA, width float64) {
	s.items = append(s.items, item{pts: []point{at}, radius: radius, fill: fill, stroke: stroke, width: width})
}

// write sets words with their baseline at p.
func (s *drawList) write(p point, words string, f lettering, anchor float64) {
	words = clean(words)
	if words == "" {
		return
	}
	p.y = s.snap(p.y)
	s.items = append(s.items, item{pts: []point{p}, words: words, font: f, anchor: anchor})
}

// middle sets words centred on p.y by the height of their capitals.
func (s *drawList) middle(p point, words string, f lettering, anchor float64) {
	p.y += capital * f.size / 2
	s.write(p, words, f, anchor)
}

// Proportions of text to its size. They hold for common text faces, and only
// place lines of text: widths are measured.
const (
	capital = 0.67
	ascent  = 0.78
	leading = 1.3
)

// bounds is the box a text written at p takes up.
func (s *drawList) bounds(p point, words string, f lettering, anchor float64) rect {
	w := s.measure(words, f)
	return rect{p.x - w*anchor, p.y - ascent*f.size, w, f.size}
}

// measure is the width of a text. It adds up the advances of its glyphs at
// pixel size, just as the rasteriser sets them.
func (s *drawList) measure(words string, f lettering) float64 {
	face := s.style.face(f)
	size := fixed.Int26_6(f.size * s.scale * 64)
	var sum fixed.Int26_6
	var last truetype.Index
	for i, r := range clean(words) {
		glyph := face.Index(r)
		if i > 0 {
			sum += face.Kern(size, last, glyph)
		}
		sum += face.HMetric(size, glyph).AdvanceWidth
		last = glyph
	}
	return float64(sum) / 64 / s.scale
}

// fit shortens words with an ellipsis until they are no wider than room.
func (s *drawList) fit(words string, f lettering, room float64) string {
	words = clean(words)
	if s.measure(words, f) <= room {
		return words
	}
	runes := []rune(words)
	for n := len(runes) - 1; n > 0; n-- {
		if short := strings.TrimRight(string(runes[:n]), " ") + "…"; s.measure(short, f) <= room {
			return short
		}
	}
	return ""
}

// longest is how many characters of a text are looked at; no label is longer.
const longest = 200

// clean makes one line of a text and takes out what no font can show.
func clean(words string) string {
	n := 0
	return strings.Map(func(r rune) rune {
		if n++; n > longest {
			return -1
		}
		switch {
		case r == '\n' || r == '\t' || r == '\r':
			return ' '
		case r == unicode.ReplacementChar || !unicode.IsPrint(r) && !unicode.Is(unicode.Zs, r):
			return -1
		}
		return r
	}, words)
}

// cramped is what a figure looks like when the picture is too small for it.
func (s *drawList) cramped() {
	s.items, s.marks = nil, nil
	s.blank(s.style.Words.Say(say.Of("There is no room to draw this here.")))
}

// blank is what a figure with nothing to show looks like.
func (s *drawList) blank(sentence string) {
	f := s.label()
	f.size *= 7.0 / 6
	s.middle(point{s.w / 2, s.h / 2}, s.fit(sentence, f, s.w-16), f, 0.5)
}
