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
	rows(h, func(y int) { blurAlong(tmp[y*img.Stride:], img.Pix[y*img.Stride:], w, k) })
	rows(h, func(y int) { blurDown(img.Pix, tmp, y, h, img.Stride, k) })
}

// blurAlong blurs one row of w pixels; beyond its ends they are repeated.
func blurAlong(dst, src []uint8, w int, k []float32) {
	r := len(k) / 2
	for i := range w {
		var a, b, c float32
		for j, wgt := range k {
			o := 4 * min(w-1, max(0, i+j-r))
			p := src[o : o+3 : o+3]
			a += wgt * float32(p[0])
			b += wgt * float32(p[1])
			c += wgt * float32(p[2])
		}
		q := dst[4*i : 4*i+4 : 4*i+4]
		q[0], q[1], q[2], q[3] = clamp8(a), clamp8(b), clamp8(c), 255
	}
}

// blurDown writes row y, blurred with the rows above and below it.
func blurDown(dst, src []uint8, y, h, stride int, k []float32) {
	r := len(k) / 2
	sum := make([]float32, stride)
	for j, wgt := range k {
		o := min(h-1, max(0, y+j-r)) * stride
		for i, v := range src[o : o+stride] {
			sum[i] += wgt * float32(v)
		}
	}
	for i, v := range sum {
		dst[y*stride+i] = clamp8(v)
	}
}
