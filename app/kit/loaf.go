package kit

import (
	"image"
	"image/color"
	"image/draw"

	"golang.org/x/image/vector"

	"twinloaf/app/look"
)

// LoafTone says how dark the crumb of a loaf is that was not photographed, so that a
// drawing can stand for it.
type LoafTone int

// The tones, from no drawing at all to a loaf of dark rye. [Jar] comes after them.
const (
	NoLoaf LoafTone = iota
	PaleLoaf
	GoldenLoaf
	BrownLoaf
	DarkLoaf
)

// crumbs are the colours of the tones, as by daylight.
var crumbs = [...]color.NRGBA{
	PaleLoaf:   {0xE9, 0xD3, 0xA8, 0xFF},
	GoldenLoaf: {0xD9, 0xB2, 0x78, 0xFF},
	BrownLoaf:  {0xB5, 0x83, 0x50, 0xFF},
	DarkLoaf:   {0x85, 0x5B, 0x3A, 0xFF},
}

// bake is the brown of a crust.
var bake = color.NRGBA{0x6A, 0x38, 0x14, 0xFF}

// paintLoaf draws the cut of a loaf on tinted paper, w by h device pixels large. It
// stands back behind photographs: near to the paper in either look.
func paintLoaf(tone LoafTone, w, h int, p look.Palette) *image.RGBA {
	if tone == Jar {
		return paintJar(w, h, p)
	}
	crumb := crumbs[min(tone, DarkLoaf)]
	b, bed := newLoafBrush(blend(p.Wash, crumb, 0.08), w, h)
	b.oval(blend(bed, color.NRGBA{}, 0.12), 0, 74, 138, 12) // the shade under it
	b.cut(blend(bed, blend(crumb, bake, 0.55), 0.75), 0)
	inside := blend(bed, crumb, 0.72)
	b.cut(inside, 7)
	for i, hole := range loafHoles {
		b.oval(blend(inside, bake, 0.16+0.05*float64(i%3)), hole[0], hole[1], hole[2], hole[2]*0.72)
	}
	return b.img
}

// LoafPicture draws a loaf of a tone, w by h pixels large, in the look of the window:
// for where a large picture stands.
func LoafPicture(tone LoafTone, w, h int) image.Image {
	p, _ := look.Current()
	return paintLoaf(max(tone, PaleLoaf), w, h, p)
}

// loafHoles are a few cells of the crumb: their middles and half widths.
var loafHoles = [...][3]float64{
	{-58, 8, 9}, {-20, -20, 12}, {18, 14, 7}, {52, -4, 10}, {-36, 38, 6}, {74, 30, 6}, {-84, 36, 5}, {30, -42, 6}, {6, 42, 8}, {-2, -52, 4}, {-60, -28, 5}, {88, 6, 4},
}

// loafBrush draws in hundredths of a quarter of the width, or of a third of the height,
// about the middle of the picture.
type loafBrush struct {
	img              *image.RGBA
	unit, midX, midY float64
}

// newLoafBrush draws on a bed of one colour.
func newLoafBrush(bed color.NRGBA, w, h int) (loafBrush, color.NRGBA) {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(img, img.Rect, image.NewUniform(bed), image.Point{}, draw.Src)
	return loafBrush{img: img, unit: min(float64(w)/4, float64(h)/3) / 100, midX: float64(w) / 2, midY: float64(h) / 2}, bed
}

// A loafPen draws one shape, within a box of the picture alone.
type loafPen struct {
	r    *vector.Rasterizer
	x, y func(float64) float32
}

func (p loafPen) move(x, y float64) { p.r.MoveTo(p.x(x), p.y(y)) }

func (p loafPen) line(x, y float64) { p.r.LineTo(p.x(x), p.y(y)) }

func (p loafPen) curve(x1, y1, x2, y2, x, y float64) {
	p.r.CubeTo(p.x(x1), p.y(y1), p.x(x2), p.y(y2), p.x(x), p.y(y))
}

// fill fills the shape that add draws within half a width and half a height of a
// middle.
func (b loafBrush) fill(c color.Color, x, y, rx, ry float64, add func(p loafPen)) {
	left, top := b.midX+(x-rx)*b.unit, b.midY+(y-ry)*b.unit
	box := image.Rect(int(left)-1, int(top)-1, int(left+2*rx*b.unit)+2, int(top+2*ry*b.unit)+2).Intersect(b.img.Rect)
	if box.Empty() {
		return
	}
	p := loafPen{
		r: vector.NewRasterizer(box.Dx(), box.Dy()),
		x: func(v float64) float32 { return float32(b.midX + v*b.unit - float64(box.Min.X)) },
		y: func(v float64) float32 { return float32(b.midY + v*b.unit - float64(box.Min.Y)) },
	}
	add(p)
	p.r.ClosePath()
	p.r.Draw(b.img, box, image.NewUniform(c), image.Point{})
}

// cut fills the slice, drawn in by so much on every side.
func (b loafBrush) cut(c color.Color, in float64) {
	b.fill(c, 0, 0, 140, 90, func(p loafPen) {
		side, top, foot := 128-in, -84+in, 72-in
		p.move(-side+14, foot)
		p.curve(-side-2, foot, -side-3, foot-34, -side+4, foot-62)
		p.curve(-side+20, foot-120, -70, top, 0, top)
		p.curve(70, top, side-20, foot-120, side-4, foot-62)
		p.curve(side+3, foot-34, side+2, foot, side-14, foot)
	})
}

// circle is how far the handles of a cubic curve reach that stands for a quarter of a circle.
const circle = 0.5523

// oval fills an ellipse about a middle.
func (b loafBrush) oval(c color.Color, x, y, rx, ry float64) {
	const k = circle
	b.fill(c, x, y, rx, ry, func(p loafPen) {
		p.move(x-rx, y)
		p.curve(x-rx, y-k*ry, x-k*rx, y-ry, x, y-ry)
		p.curve(x+k*rx, y-ry, x+rx, y-k*ry, x+rx, y)
		p.curve(x+rx, y+k*ry, x+k*rx, y+ry, x, y+ry)
		p.curve(x-k*rx, y+ry, x-rx, y+k*ry, x-rx, y)
	})
}

// blend mixes b into a: 0 is a, 1 is b.
func blend(a, b color.NRGBA, part float64) color.NRGBA {
	mix := func(x, y uint8) uint8 { return uint8(float64(x) + (float64(y)-float64(x))*part + 0.5) }
	return color.NRGBA{mix(a.R, b.R), mix(a.G, b.G), mix(a.B, b.B), 0xFF}
}

// Jar is drawn, as the tones of loaves are, in the place of a picture of a culture.
const Jar = DarkLoaf + 1

// paintJar draws a jar with a culture that has risen past the mark, on tinted paper, w by h
// device pixels large. It stands back behind photographs, as [paintLoaf]'s do.
func paintJar(w, h int, p look.Palette) *image.RGBA {
	crumb := crumbs[PaleLoaf]
	b, bed := newLoafBrush(blend(p.Wash, crumb, 0.08), w, h)
	b.unit *= 1.35                                        // a jar is narrower than a loaf, and may be as high
	b.oval(blend(bed, color.NRGBA{}, 0.12), 0, 84, 62, 8) // the shade under it
	glass := blend(bed, p.Ink, 0.22)
	b.box(glass, 0, 8, 52, 76, 14)
	b.box(glass, 0, -70, 44, 12, 5)
	b.box(blend(bed, p.Ink, 0.06), 0, 6, 47, 70, 11)
	inside := blend(bed, crumb, 0.72)
	b.box(inside, 0, 36, 47, 44, 11)
	b.oval(inside, 0, -6, 45, 9)
	for i, hole := range jarHoles {
		b.oval(blend(inside, bake, 0.16+0.05*float64(i%3)), hole[0], hole[1], hole[2], hole[2])
	}
	b.box(blend(bed, blend(crumb, bake, 0.55), 0.75), 0, 44, 53, 3, 2) // where it stood when it was fed
	return b.img
}

// jarHoles are a few bubbles at the glass: their middles and half widths.
var jarHoles = [...][3]float64{{-30, 8, 5}, {-8, 22, 7}, {20, 6, 6}, {34, 30, 4}, {-24, 60, 5}, {6, 64, 4}, {28, 62, 6}, {-36, 32, 3}, {4, 0, 3}}

// box fills an upright box with round corners about a middle.
func (b loafBrush) box(c color.Color, x, y, rx, ry, corner float64) {
	in := corner * (1 - circle)
	b.fill(c, x, y, rx, ry, func(p loafPen) {
		left, top, right, foot := x-rx, y-ry, x+rx, y+ry
		p.move(left, foot-corner)
		p.line(left, top+corner)
		p.curve(left, top+in, left+in, top, left+corner, top)
		p.line(right-corner, top)
		p.curve(right-in, top, right, top+in, right, top+corner)
		p.line(right, foot-corner)
		p.curve(right, foot-in, right-in, foot, right-corner, foot)
		p.line(left+corner, foot)
		p.curve(left+in, foot, left, foot-in, left, foot-corner)
	})
}
