package cut

import (
	"image"
	"math/rand/v2"

	"golang.org/x/image/draw"
)

// develop is what a small camera makes of the light: darker corners, held-back whites and some noise.
func (v View) develop(img image.Image) *image.RGBA {
	small := image.NewRGBA(image.Rect(0, 0, v.W, v.H))
	draw.CatmullRom.Scale(small, small.Rect, img, img.Bounds(), draw.Src, nil)
	rng := rand.New(rand.NewPCG(v.Seed, 0x0de5))
	out := image.NewRGBA(small.Rect)
	w, h := out.Rect.Dx(), out.Rect.Dy()
	for j := range h {
		for i := range w {
			r, g, b, _ := small.At(i, j).RGBA()
			x, y := 2*float64(i)/float64(w)-1, 2*float64(j)/float64(h)-1
			k := 1 - 0.045*(x*x+y*y)
			grain := 1.5 * rng.NormFloat64()
			p := out.Pix[j*out.Stride+4*i:]
			for c, v := range []uint32{r, g, b} {
				p[c] = uint8(max(0, min(255, shoulder(float64(v)/257*k)+grain+0.7*rng.NormFloat64()+0.5)))
			}
			p[3] = 255
		}
	}
	return out
}

// shoulder holds back what is bright, as cameras do.
func shoulder(v float64) float64 {
	const from = 190
	if v <= from {
		return v
	}
	return from + 0.72*(v-from)
}
