package crumb

import (
	"math"
)

// gaussian blurs in place, separably, with zero beyond the border, as
// normalised convolution wants it.
func gaussian(v []float32, w, h int, sigma float64) {
	r := int(math.Ceil(3 * sigma))
	k := make([]float32, 2*r+1)
	for i := range k {
		d := float64(i-r) / sigma
		k[i] = float32(math.Exp(-d * d / 2))
	}
	tmp := make([]float32, len(v))
	pass := func(dst, src []float32, n, step int) {
		for i := range n {
			var s float32
			for j := max(0, i-r); j <= min(n-1, i+r); j++ {
				s += k[j-i+r] * src[j*step]
			}
			dst[i*step] = s
		}
	}
	bands(h, func(from, to int) {
		for y := from; y < to; y++ {
			pass(tmp[y*w:], v[y*w:], w, 1)
		}
	})
	bands(w, func(from, to int) {
		for x := from; x < to; x++ {
			pass(v[x:], tmp[x:], h, w)
		}
	})
}
