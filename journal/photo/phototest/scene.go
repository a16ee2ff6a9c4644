// Package phototest draws and writes pictures for tests: photos with EXIF as
// phones write it, and a file layer that fails where it is told to.
package phototest

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"
)

// Corner colours of a [Scene], far enough apart to be told after any compression.
var (
	TopLeft     = color.RGBA{200, 40, 40, 255}
	TopRight    = color.RGBA{40, 170, 60, 255}
	BottomLeft  = color.RGBA{40, 70, 200, 255}
	BottomRight = color.RGBA{225, 205, 50, 255}
)

// Scene draws a loaf on a board with a patch of another colour in each corner, an
// eighth of the sides large, so that a test can tell how the picture lies. The same
// size always gives the same pixels. Grain as of a camera's sensor keeps a JPEG
// of it as heavy as a photo's.
func Scene(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	grain := rand.New(rand.NewPCG(uint64(w), uint64(h)))
	for y := range h {
		v := (float64(y) + 0.5) / float64(h)
		for x := range w {
			u := (float64(x) + 0.5) / float64(w)
			c, ok := corner(u, v)
			if !ok {
				c = loaf(u, v)
			}
			n := int(grain.Uint32()%13) - 6
			at := img.PixOffset(x, y)
			img.Pix[at+0] = clamp(int(c.R) + n)
			img.Pix[at+1] = clamp(int(c.G) + n)
			img.Pix[at+2] = clamp(int(c.B) + n)
			img.Pix[at+3] = 255
		}
	}
	return img
}

func corner(u, v float64) (color.RGBA, bool) {
	const side = 1.0 / 8
	left, right := u < side, u >= 1-side
	top, bottom := v < side, v >= 1-side
	switch {
	case top && left:
		return TopLeft, true
	case top && right:
		return TopRight, true
	case bottom && left:
		return BottomLeft, true
	case bottom && right:
		return BottomRight, true
	}
	return color.RGBA{}, false
}

// loaf is the colour of a scored round loaf on a wooden board at (u, v), both
// from 0 to 1.
func loaf(u, v float64) color.RGBA {
	dx, dy := (u-0.5)/0.36, (v-0.52)/0.34
	r := math.Hypot(dx, dy)
	if r > 1 {
		shade := 18 * math.Sin(v*90+2*math.Sin(u*7))
		return color.RGBA{clamp(150 + int(shade)), clamp(118 + int(shade)), clamp(86 + int(shade)), 255}
	}
	crust := 1 - r*r
	score := math.Exp(-math.Pow((dx-0.25*math.Sin(dy*2))*14, 2)) * crust
	return color.RGBA{
		clamp(int(105 + 85*crust + 60*score)),
		clamp(int(60 + 62*crust + 80*score)),
		clamp(int(30 + 30*crust + 95*score)),
		255,
	}
}

func clamp(v int) uint8 { return uint8(max(0, min(255, v))) }
