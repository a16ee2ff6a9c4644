package crumb

import (
	"math"
	"slices"
)

// A coarse picture holds block averages of the working picture, about four to
// the millimetre: fine enough for a crust, too coarse for its grain.
type coarse struct {
	w, h, block int
	rgb         [][3]float32
	in          []bool // block lies mostly in the slice
}

// newCoarse takes each block's mean colour over the pixels in the mask, or over
// all of them where there are none.
func newCoarse(rgb []uint8, mask []bool, w, h, block int) *coarse {
	c := &coarse{w: (w + block - 1) / block, h: (h + block - 1) / block, block: block}
	c.rgb = make([][3]float32, c.w*c.h)
	c.in = make([]bool, c.w*c.h)
	bands(c.h, func(from, to int) {
		sums := make([]blockSum, c.w)
		for cy := from; cy < to; cy++ {
			clear(sums)
			high := min(h, (cy+1)*block) - cy*block
			for y := cy * block; y < cy*block+high; y++ {
				addBlocks(sums, rgb[3*y*w:3*(y+1)*w], mask[y*w:(y+1)*w], block)
			}
			for cx, s := range sums {
				i := cy*c.w + cx
				n := high * (min(w, (cx+1)*block) - cx*block)
				c.in[i] = 2*s.n > n
				sum := s.in
				if s.n != 0 {
					n = s.n
				} else {
					sum = s.out
				}
				for k := range 3 {
					c.rgb[i][k] = float32(sum[k]) / float32(n)
				}
			}
		}
	})
	return c
}

// A blockSum adds up a block's colours, in the mask and beyond it.
type blockSum struct {
	in, out [3]int32
	n       int // pixels in the mask
}

func addBlocks(sums []blockSum, rgb []uint8, mask []bool, block int) {
	x := 0
	for b := range sums {
		s := &sums[b]
		for range block {
			if x == len(mask) {
				return
			}
			p := rgb[3*x : 3*x+3]
			if mask[x] {
				s.in[0] += int32(p[0])
				s.in[1] += int32(p[1])
				s.in[2] += int32(p[2])
				s.n++
			} else {
				s.out[0] += int32(p[0])
				s.out[1] += int32(p[1])
				s.out[2] += int32(p[2])
			}
			x++
		}
	}
}

// calm gives each block of the slice the mean colour of itself and its neighbours there.
func (c *coarse) calm() {
	calm := slices.Clone(c.rgb)
	for y := range c.h {
		for x := range c.w {
			if !c.in[y*c.w+x] {
				continue
			}
			var sum [3]float32
			n := float32(0)
			for j := max(0, y-1); j <= min(c.h-1, y+1); j++ {
				for i := max(0, x-1); i <= min(c.w-1, x+1); i++ {
					if at := j*c.w + i; c.in[at] {
						for k, v := range c.rgb[at] {
							sum[k] += v
						}
						n++
					}
				}
			}
			for k, v := range sum {
				calm[y*c.w+x][k] = v / n
			}
		}
	}
	c.rgb = calm
}

// chroma is a colour without its brightness: the shares of red and blue. A
// cell is the wall's colour in the shade, so it keeps the wall's chroma; crust
// does not.
func chroma(c [3]float32) [2]float32 {
	sum := c[0] + c[1] + c[2] + 6 // the 6 calms what is nearly black
	return [2]float32{(c[0] + 2) / sum, (c[2] + 2) / sum}
}

// chromas are many, for their median: the shares of red, and those of blue.
type chromas [2][]float32

func newChromas(most int) chromas {
	return chromas{make([]float32, 0, most), make([]float32, 0, most)}
}

func (c *chromas) add(v [2]float32) { c[0], c[1] = append(c[0], v[0]), append(c[1], v[1]) }

// median puts them into another order.
func (c chromas) median() [2]float32 { return [2]float32{median(c[0]), median(c[1])} }

func colourAt(rgb []uint8, i int) [3]float32 {
	return [3]float32{float32(rgb[3*i]), float32(rgb[3*i+1]), float32(rgb[3*i+2])}
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
