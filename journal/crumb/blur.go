package crumb

import "math"

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
	bands(h, func(from, to int) {
		for y := from; y < to; y++ {
			src := v[y*w : (y+1)*w]
			for x := range src {
				var s float32
				lo, hi := max(0, x-r), min(w, x+r+1)
				weights := k[lo-x+r:]
				for j, u := range src[lo:hi] {
					s += weights[j] * u
				}
				tmp[y*w+x] = s
			}
		}
	})
	bands(h, func(from, to int) {
		for y := from; y < to; y++ {
			dst := v[y*w : (y+1)*w]
			clear(dst)
			for j := max(0, y-r); j <= min(h-1, y+r); j++ {
				weight := k[j-y+r]
				for x, u := range tmp[j*w : (j+1)*w] {
					dst[x] += weight * u
				}
			}
		}
	})
}
