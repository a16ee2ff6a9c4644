package scene

import (
	"image"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"twinloaf/assets"
)

// The strip of tape on a jar, in units.
const (
	tapeTop    = 0.39
	tapeBottom = 0.56
	tapeLeft   = -0.62 // as shares of the jar's half width
	tapeRight  = 0.70
)

// write sets the jar's label in the program's own heading face.
func (g *jar) write(c *canvas) {
	if g.Label == "" {
		return
	}
	face, err := opentype.Parse(assets.Heading)
	if err != nil {
		return // a jar without a name is still a jar
	}
	drawn, err := opentype.NewFace(face, &opentype.FaceOptions{Size: float64(0.105 / c.pixel), DPI: 72})
	if err != nil {
		return
	}
	defer drawn.Close()
	wide := font.MeasureString(drawn, g.Label).Ceil()
	high := int((tapeBottom - tapeTop) / c.pixel)
	g.label = image.NewAlpha(image.Rect(0, 0, wide, high))
	pen := font.Drawer{Dst: g.label, Src: image.Opaque, Face: drawn, Dot: fixed.P(0, high*7/10)}
	pen.DrawString(g.Label)
	g.labelW = wide
}

// tape lays the strip and the writing on it over the glass.
func (g *jar) tape(c *canvas, p rgb, i, j int, t, y float32) rgb {
	if g.label == nil || y < tapeTop-0.01 || y > tapeBottom+0.01 || t < tapeLeft-0.02 || t > tapeRight+0.02 {
		return p
	}
	torn := 0.014 * (g.p.fine.at(y*220+g.ox, 9) - 0.5)
	on := step(tapeLeft+torn-0.004, tapeLeft+torn+0.004, t) * step(tapeRight+torn+0.004, tapeRight+torn-0.004, t) *
		step(tapeTop-c.pixel, tapeTop+c.pixel, y) * step(tapeBottom+c.pixel, tapeBottom-c.pixel, y)
	paper := rgb{238, 229, 204}.times(0.80 + 0.22*sqrt(1-t*t) - 0.07*t + 0.04*(g.p.fine.at(t*120, y*120)-0.5))
	u := float32(i) - float32(c.w)/2 - (tapeLeft+tapeRight)/2*jarHalf/c.pixel + float32(g.labelW)/2
	v := j - int((tapeTop+1)/c.pixel)
	if a := g.label.AlphaAt(int(u), v).A; a > 0 && u >= 0 {
		paper = paper.mix(rgb{58, 50, 62}, float32(a)/255*0.88)
	}
	return p.mix(paper, on)
}
