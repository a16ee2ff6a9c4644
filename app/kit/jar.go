package kit

import (
	"image"
	"image/color"

	"twinloaf/app/look"
)

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
