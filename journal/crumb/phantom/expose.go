package phantom

import (
	"image"
	"math"
)

// expose turns the evenly lit slice into the photo: blur of the lens, light,
// white balance, noise of the sensor, in that order.
func expose(img *image.RGBA, s Slice, f *form) {
	if s.Light.Blur > 0 {
		blur(img, s.Light.Blur)
	}
	l := s.Light
	sin, cos := math.Sincos(l.Direction * math.Pi / 180)
	half := math.Hypot(float64(s.Width), float64(s.Height)) / 2
	rows(s.Height, func(y int) {
		dy := (float64(y) + 0.5 - float64(s.Height)/2) / half
		for x := range s.Width {
			dx := (float64(x) + 0.5 - float64(s.Width)/2) / half
			k := l.Gain * (1 - l.Gradient*0.5*(1+dx*cos+dy*sin)) * (1 - l.Vignette*(dx*dx+dy*dy))
			if l.Shadow > 0 {
				// A straight edge from the upper right to the lower left, 3 mm soft.
				d := (dx*0.8 + dy*0.6) * half / f.pxPerMM
				k *= 1 - l.Shadow/(1+math.Exp(-d/0.8))
			}
			o := y*img.Stride + 4*x
			for ch := range 3 {
				v := float32(img.Pix[o+ch]) * float32(k*l.Balance[ch])
				if l.Noise > 0 {
					v += float32(l.Noise) * gauss(s.Seed^0xa015e, uint64(y*s.Width+x)*3+uint64(ch))
				}
				img.Pix[o+ch] = clamp8(v)
			}
		}
	})
}

// blur is a separable Gaussian, cut at three standard deviations.
func blur(img *image.RGBA, sigma float64) {
	r := int(math.Ceil(3 * sigma))
	k := make([]float32, 2*r+1)
	var sum float32
	for i := range k {
		d := float64(i-r) / sigma
		k[i] = float32(math.Exp(-d * d / 2))
		sum += k[i]
	}
	for i := range k {
		k[i] /= sum
	}
	w, h := img.Rect.Dx(), img.Rect.Dy()
	tmp := make([]uint8, len(img.Pix))
	rows(h, func(y int) { blurLine(tmp[y*img.Stride:], img.Pix[y*img.Stride:], w, 4, k) })
	rows(w, func(x int) { blurLine(img.Pix[4*x:], tmp[4*x:], h, img.Stride, k) })
}

func blurLine(dst, src []uint8, n, step int, k []float32) {
	r := len(k) / 2
	for i := range n {
		var a, b, c float32
		for j, wgt := range k {
			o := min(n-1, max(0, i+j-r)) * step
			a += wgt * float32(src[o])
			b += wgt * float32(src[o+1])
			c += wgt * float32(src[o+2])
		}
		o := i * step
		dst[o], dst[o+1], dst[o+2], dst[o+3] = clamp8(a), clamp8(b), clamp8(c), 255
	}
}
