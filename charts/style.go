package charts

import (
	"fmt"
	"image/color"
	"math"

	"github.com/golang/freetype/truetype"
)

// A Palette is the colours a chart is drawn in.
type Palette struct {
	Paper  color.NRGBA   // behind everything; opaque
	Ink    color.NRGBA   // titles and names
	Faint  color.NRGBA   // axis labels and notes
	Rule   color.NRGBA   // grid lines
	Accent color.NRGBA   // what is not a series: bars, bands
	Series []color.NRGBA // in order of use; repeated when they run out
}

// A Style is a palette, the fonts and the size of the text, and how words and
// numbers are written. Make one with NewStyle; a Style may be shared by any
// number of charts.
type Style struct {
	Palette
	Regular, Bold *truetype.Font
	TextSize      float64 // of axis labels, in layout units; 12 when zero
	Words         Words
}

// NewStyle parses a regular and a bold (or semi-bold) TrueType font.
func NewStyle(p Palette, regular, bold []byte) (Style, error) {
	r, err := truetype.Parse(regular)
	if err != nil {
		return Style{}, fmt.Errorf("reading the charts' regular font: %w", err)
	}
	b, err := truetype.Parse(bold)
	if err != nil {
		return Style{}, fmt.Errorf("reading the charts' bold font: %w", err)
	}
	return Style{Palette: p, Regular: r, Bold: b}, nil
}

func (s Style) size() float64 {
	if s.TextSize > 0 && s.TextSize <= 96 {
		return s.TextSize
	}
	return 12
}

func (s Style) face(f lettering) *truetype.Font {
	if f.bold {
		return s.Bold
	}
	return s.Regular
}

// A Hue picks a colour of the palette: zero and up are the series colours, the
// named ones below zero are the others.
type Hue int

// The colours that stand for no series. A tasting whose names are still sealed
// is drawn in Ink alone.
const (
	Ink Hue = -1 - iota
	Faint
	Accent
)

func (s Style) colour(h Hue) color.NRGBA {
	switch {
	case h == Faint:
		return s.Faint
	case h == Accent:
		return s.Accent
	case h < 0 || len(s.Series) == 0:
		return s.Ink
	}
	return s.Series[int(h)%len(s.Series)]
}

// A Shape is the form of a point's marker, so that series can be told apart
// without colour.
type Shape int

// The marker shapes.
const (
	Round Shape = iota
	Square
	Triangle
	Diamond
	Cross
	Wedge // a triangle standing on its point
	shapes
)

// A SeriesStyle is how a series is told from the others. The zero value is the first
// series colour with round, filled markers.
type SeriesStyle struct {
	Hue    Hue
	Shape  Shape
	Hollow bool // markers are outlines filled with paper
	Dashed bool // lines are broken
}

// mix blends a share of b into a; the result is opaque.
func mix(a, b color.NRGBA, share float64) color.NRGBA {
	f := func(x, y uint8) uint8 { return uint8(math.Round(float64(x) + (float64(y)-float64(x))*share)) }
	return color.NRGBA{R: f(a.R, b.R), G: f(a.G, b.G), B: f(a.B, b.B), A: 255}
}

func fade(c color.NRGBA, alpha float64) color.NRGBA {
	c.A = uint8(math.Round(float64(c.A) * alpha))
	return c
}

// readable draws a colour towards ink until text in it stands out from paper
// by 4.5 to 1, the contrast WCAG 2.1 (1.4.3) asks of text.
func (s Style) readable(c color.NRGBA) color.NRGBA {
	for share := 0.0; share <= 1; share += 0.05 {
		if m := mix(c, s.Ink, share); contrast(m, s.Paper) >= 4.5 {
			return m
		}
	}
	return s.Ink
}

// contrast is the contrast ratio of two colours by WCAG 2.1.
func contrast(a, b color.NRGBA) float64 {
	x, y := luminance(a)+0.05, luminance(b)+0.05
	return max(x, y) / min(x, y)
}

// luminance is the relative luminance of an sRGB colour by WCAG 2.1.
func luminance(c color.NRGBA) float64 {
	f := func(v uint8) float64 {
		x := float64(v) / 255
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return 0.2126*f(c.R) + 0.7152*f(c.G) + 0.0722*f(c.B)
}
