package charts

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"math"

	"github.com/golang/freetype/raster"
	"github.com/golang/freetype/truetype"
	"github.com/wcharczuk/go-chart/v2/drawing"
	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
)

// pixels is a surface of device pixels, drawn by go-chart's raster context. The
// context is used directly rather than through go-chart's Renderer, which rounds
// coordinates to whole pixels and makes curves wobble.
type pixels struct {
	gc     *drawing.RasterGraphicContext
	sheet  *drawList
	glyphs truetype.GlyphBuf
}

// rasterise plays a sheet to an image of width by height pixels, on the style's paper.
func rasterise(s *drawList, width, height int) (*image.RGBA, error) {
	paper := s.style.Paper
	paper.A = 255
	return rasteriseOn(s, width, height, paper)
}

// rasteriseOn plays a sheet on a ground of any colour.
func rasteriseOn(s *drawList, width, height int, ground color.NRGBA) (*image.RGBA, error) {
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	draw.Draw(img, img.Bounds(), image.NewUniform(ground), image.Point{}, draw.Src)
	gc, err := drawing.NewRasterGraphicContext(img)
	if err != nil {
		return nil, fmt.Errorf("drawing the chart: %w", err)
	}
	gc.SetFillRule(drawing.FillRuleWinding)
	if err := s.play(&pixels{gc: gc, sheet: s}); err != nil {
		return nil, err
	}
	return img, nil
}

// text fills the outlines of a text's glyphs, set as measure measures them.
func (p *pixels) text(it item) error {
	gc, glyphs, s := p.gc, &p.glyphs, p.sheet
	face := s.style.face(it.font)
	size := fixed.Int26_6(it.font.size * s.scale * 64)
	x, y := it.pts[0].x*s.scale, it.pts[0].y*s.scale
	if it.anchor > 0 {
		x -= s.measure(it.words, it.font) * it.anchor * s.scale
	}
	pen := &outliner{gc: gc}
	var last truetype.Index
	for i, r := range it.words {
		glyph := face.Index(r)
		if i > 0 {
			x += float64(face.Kern(size, last, glyph)) / 64
		}
		if err := glyphs.Load(face, size, glyph, font.HintingNone); err != nil {
			return err
		}
		from := 0
		for _, to := range glyphs.Ends {
			drawing.DrawContour(pen, glyphs.Points[from:to], x, y)
			from = to
		}
		x += float64(face.HMetric(size, glyph).AdvanceWidth) / 64
		last = glyph
	}
	gc.SetFillColor(it.font.colour)
	gc.Fill()
	return nil
}

func (p *pixels) shape(it item) {
	gc, scale := p.gc, p.sheet.scale
	pts, closed := it.pts, it.closed
	if it.radius > 0 {
		pts, closed = circle(it.pts[0], it.radius), true
	}
	if it.fill.A > 0 && closed {
		trace(gc, pts, scale)
		gc.SetFillColor(it.fill)
		gc.Fill()
	}
	if it.stroke.A > 0 && it.width > 0 {
		stroke(gc, pts, closed, it, scale)
		gc.SetFillColor(it.stroke)
		gc.Fill()
	}
}

// trace lays a closed contour into the context's path. The rasteriser fills
// nonsense when the last point is not the first.
func trace(gc *drawing.RasterGraphicContext, pts []point, scale float64) {
	for i, p := range pts {
		if i == 0 {
			gc.MoveTo(p.x*scale, p.y*scale)
			continue
		}
		gc.LineTo(p.x*scale, p.y*scale)
	}
	gc.LineTo(pts[0].x*scale, pts[0].y*scale)
}

// stroke lays the outline of a line into the context's path, to be filled.
// go-chart's own stroker knows neither joins nor caps and leaves notches at
// sharp bends; the stroker of its rasteriser, freetype, rounds them.
func stroke(gc *drawing.RasterGraphicContext, pts []point, closed bool, it item, scale float64) {
	width := fixed.Int26_6(math.Round(it.width * scale * 64))
	pen := &outliner{gc: gc}
	if len(it.dash) == 0 {
		raster.Stroke(pen, fixedPath(pts, scale, closed), width, raster.RoundCapper, raster.RoundJoiner)
		return
	}
	for _, piece := range dashes(pts, it.dash) {
		raster.Stroke(pen, fixedPath(piece, scale, false), width, raster.ButtCapper, raster.RoundJoiner)
	}
}

func fixedPath(pts []point, scale float64, closed bool) raster.Path {
	var path raster.Path
	f := func(p point) fixed.Point26_6 {
		return fixed.Point26_6{X: fixed.Int26_6(math.Round(p.x * scale * 64)), Y: fixed.Int26_6(math.Round(p.y * scale * 64))}
	}
	for i, p := range pts {
		if i == 0 {
			path.Start(f(p))
			continue
		}
		path.Add1(f(p))
	}
	if closed && len(pts) > 0 {
		path.Add1(f(pts[0]))
	}
	return path
}

// circle is a round polygon, fine enough for any marker.
func circle(c point, radius float64) []point {
	const sides = 48
	pts := make([]point, sides)
	for i := range pts {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / sides)
		pts[i] = point{c.x + radius*cos, c.y + radius*sin}
	}
	return pts
}

// dashes cuts a line into the pieces that are drawn: pattern is the length of
// a dash and of the space after it.
func dashes(pts []point, pattern []float64) [][]point {
	var out [][]point
	var piece []point
	on, left := true, pattern[0]
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		length := math.Hypot(b.x-a.x, b.y-a.y)
		if on && len(piece) == 0 {
			piece = append(piece, a)
		}
		done := 0.0
		for length-done > left {
			done += left
			at := point{a.x + (b.x-a.x)*done/length, a.y + (b.y-a.y)*done/length}
			if on {
				out, piece = append(out, append(piece, at)), nil
				left = pattern[1]
			} else {
				piece = []point{at}
				left = pattern[0]
			}
			on = !on
		}
		left -= length - done
		if on {
			piece = append(piece, b)
		}
	}
	if len(piece) > 1 {
		out = append(out, piece)
	}
	return out
}
