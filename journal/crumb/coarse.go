package crumb

import (
	"math"
)

// A coarse picture holds block averages of the working picture, about four to
// the millimetre: fine enough for a crust, too coarse for its grain.
type coarse struct {
	w, h, block int
	rgb         [][3]float32
	in          []bool // block lies mostly in the slice
}

func newCoarse(rgb []uint8, mask []bool, w, h, block int) *coarse {
	c := &coarse{w: (w + block - 1) / block, h: (h + block - 1) / block, block: block}
	c.rgb = make([][3]float32, c.w*c.h)
	c.in = make([]bool, c.w*c.h)
	bands(c.h, func(from, to int) {
		for y := from; y < to; y++ {
			for x := range c.w {
				c.average(rgb, mask, w, h, x, y)
			}
		}
	})
	return c
}

// average takes a block's mean colour over the pixels in the mask, or over
// all of them where there are none.
func (c *coarse) average(rgb []uint8, mask []bool, w, h, cx, cy int) {
	var in, all [3]float32
	n, total := 0, 0
	for y := cy * c.block; y < min(h, (cy+1)*c.block); y++ {
		for x := cx * c.block; x < min(w, (cx+1)*c.block); x++ {
			i := y*w + x
			total++
			for k := range 3 {
				v := float32(rgb[3*i+k])
				all[k] += v
				if mask[i] {
					in[k] += v
				}
			}
			if mask[i] {
				n++
			}
		}
	}
	i := cy*c.w + cx
	c.in[i] = 2*n > total
	if n == 0 {
		in, n = all, total
	}
	for k := range 3 {
		c.rgb[i][k] = in[k] / float32(n)
	}
}

// chroma is a colour without its brightness: the shares of red and blue. A
// cell is the wall's colour in the shade, so it keeps the wall's chroma; crust
// does not.
func chroma(c [3]float32) [2]float32 {
	sum := c[0] + c[1] + c[2] + 6 // the 6 calms what is nearly black
	return [2]float32{(c[0] + 2) / sum, (c[2] + 2) / sum}
}

func chromaGap(a, b [2]float32) float64 {
	return math.Hypot(float64(a[0]-b[0]), float64(a[1]-b[1]))
}

// signed is a field that is negative in the crumb and positive in the crust,
// nought where a colour lies half-way. Read between the blocks it draws the edge
// finer than they are, so that it does not hang on where they happen to lie.
func (c *coarse) signed(inner []bool, crumb [2]float32, half float64) *field {
	f := &field{w: c.w, h: c.h, block: float64(c.block), v: make([]float32, len(inner))}
	for i, in := range inner {
		v := chromaGap(chroma(c.rgb[i]), crumb)/half - 1
		if in {
			v = math.Min(v, -0.1)
		} else {
			v = math.Max(v, 0.1)
		}
		f.v[i] = float32(math.Max(-1, math.Min(1, v)))
	}
	return f
}
