package charts

import (
	"math"

	"github.com/wcharczuk/go-chart/v2/drawing"
	"golang.org/x/image/math/fixed"
)

// outliner hands outlines to go-chart's path as straight lines: those of
// freetype's stroker (raster.Adder) and those of glyphs (drawing.PathBuilder).
//
// Curves are cut into lines here because go-chart's own cutting never ends on a
// curve that begins where it ends, and such curves are common: the round cap of
// a short line, a glyph at a small size.
type outliner struct {
	gc   *drawing.RasterGraphicContext
	x, y float64
}

// LastPoint is where the outline has got to.
func (o *outliner) LastPoint() (x, y float64) { return o.x, o.y }

// MoveTo begins a contour.
func (o *outliner) MoveTo(x, y float64) {
	o.x, o.y = x, y
	o.gc.MoveTo(x, y)
}

// LineTo adds a straight line.
func (o *outliner) LineTo(x, y float64) {
	o.x, o.y = x, y
	o.gc.LineTo(x, y)
}

// QuadCurveTo adds a quadratic curve with the control point (cx, cy).
func (o *outliner) QuadCurveTo(cx, cy, x, y float64) {
	x0, y0 := o.x, o.y
	n := pieces(math.Hypot(x0-2*cx+x, y0-2*cy+y))
	for i := 1; i < n; i++ {
		t := float64(i) / float64(n)
		a, b, c := (1-t)*(1-t), 2*t*(1-t), t*t
		o.LineTo(a*x0+b*cx+c*x, a*y0+b*cy+c*y)
	}
	o.LineTo(x, y)
}

// CubicCurveTo adds a cubic curve with two control points.
func (o *outliner) CubicCurveTo(cx1, cy1, cx2, cy2, x, y float64) {
	x0, y0 := o.x, o.y
	n := pieces(3 * max(math.Hypot(x0-2*cx1+cx2, y0-2*cy1+cy2), math.Hypot(cx1-2*cx2+x, cy1-2*cy2+y)))
	for i := 1; i < n; i++ {
		t := float64(i) / float64(n)
		a, b, c, d := (1-t)*(1-t)*(1-t), 3*t*(1-t)*(1-t), 3*t*t*(1-t), t*t*t
		o.LineTo(a*x0+b*cx1+c*cx2+d*x, a*y0+b*cy1+c*cy2+d*y)
	}
	o.LineTo(x, y)
}

// pieces is how many lines stand for a curve, from its second difference: the
// lines stay within a twentieth of a pixel of it.
func pieces(bend float64) int {
	const near = 0.05
	return int(min(max(1, math.Ceil(math.Sqrt(bend/(4*near)))), 64))
}

// ArcTo is part of go-chart's PathBuilder; glyphs have no arcs.
func (o *outliner) ArcTo(_, _, _, _, _, _ float64) {}

// Close is part of go-chart's PathBuilder; filling closes every contour.
func (o *outliner) Close() {}

// Start, Add1, Add2 and Add3 are freetype's names for the same.
func (o *outliner) Start(a fixed.Point26_6) { o.MoveTo(unfix(a)) }

// Add1 adds a straight line.
func (o *outliner) Add1(b fixed.Point26_6) { o.LineTo(unfix(b)) }

// Add2 adds a quadratic curve.
func (o *outliner) Add2(b, c fixed.Point26_6) {
	bx, by := unfix(b)
	cx, cy := unfix(c)
	o.QuadCurveTo(bx, by, cx, cy)
}

// Add3 adds a cubic curve.
func (o *outliner) Add3(b, c, d fixed.Point26_6) {
	bx, by := unfix(b)
	cx, cy := unfix(c)
	dx, dy := unfix(d)
	o.CubicCurveTo(bx, by, cx, cy, dx, dy)
}

func unfix(p fixed.Point26_6) (x, y float64) { return float64(p.X) / 64, float64(p.Y) / 64 }
