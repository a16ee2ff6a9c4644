package jar

import (
	"image"
	"math"

	"gonum.org/v1/gonum/mat"
)

// A backdrop is what is seen around a jar in the first picture, ready for others to be laid
// over it: the logarithms of its light, less what is usual around each sample, how they change
// across and down, and which samples lie outside of the jar.
type backdrop struct {
	detail []float64
	slopes [][4]float64 // by sample that counts: across, down, outwards, and the detail itself
	places []int
}

// The samples that are laid over each other.
const (
	alignWide = 160
	alignHigh = 200
)

// backdropOf leaves the jar out, with what is close to its sides, since what is in it changes.
func backdropOf(img *image.RGBA, m Marks) backdrop {
	b := backdrop{detail: detailOf(img)}
	wide := (m.Right - m.Left) * besideFrom
	for y := 2; y < alignHigh-2; y++ {
		for x := 2 + y%2; x < alignWide-2; x += 2 { // neighbours say the same
			u, v := (float64(x)+0.5)/alignWide, (float64(y)+0.5)/alignHigh
			if u > m.Left-wide && u < m.Right+wide {
				continue
			}
			i := y*alignWide + x
			dx := (b.detail[i+1] - b.detail[i-1]) / 2 * alignWide
			dy := (b.detail[i+alignWide] - b.detail[i-alignWide]) / 2 * alignHigh
			b.places = append(b.places, i)
			b.slopes = append(b.slopes, [4]float64{dx, dy, (u-0.5)*dx + (v-0.5)*dy, b.detail[i]})
		}
	}
	return b
}

// detailOf samples a whole picture, a little smoothed.
func detailOf(img *image.RGBA) []float64 {
	out := boxed(img, alignWide, alignHigh, 0, 1)
	for i, v := range out {
		out[i] = math.Log(8 + v)
	}
	around := smoothed(smoothed(out, 6), 6)
	out = smoothed(out, 1)
	for i := range out {
		out[i] -= around[i]
	}
	return out
}

// smoothed is the mean of the samples up to so many away, across and down.
func smoothed(v []float64, by int) []float64 {
	run := func(v, out []float64, from, step, n int) {
		sum, count := 0.0, 0
		for k := -by; k < n; k++ {
			if in := k + by; in < n {
				sum, count = sum+v[from+in*step], count+1
			}
			if gone := k - by - 1; gone >= 0 {
				sum, count = sum-v[from+gone*step], count-1
			}
			if k >= 0 {
				out[from+k*step] = sum / float64(count)
			}
		}
	}
	across, out := make([]float64, len(v)), make([]float64, len(v))
	for y := range alignHigh {
		run(v, across, y*alignWide, 1, alignWide)
	}
	for x := range alignWide {
		run(across, out, x, alignWide, alignHigh)
	}
	return out
}

// align lays a picture more exactly over the first, from a move that is near: the shift and the
// scale that leave the least difference around the jar (Lucas & Kanade 1981, Proc. IJCAI, 674;
// with the slopes of the first picture, Baker & Matthews 2004, Int. J. Comput. Vision 56:221),
// each sample weighed by how well it fits (Cauchy's weights), for there may be an arm.
// A scale is taken for 1 as far as nothing shows another. What ends far from where it began is
// not believed.
func (b *backdrop) align(now []float64, near Move) Move {
	const rounds, enough, usualZoom, far = 5, 2e-5, 0.02, 0.02
	m := near
	rest := make([]float64, len(b.places))
	for range rounds {
		var sizes []float64
		n := 0
		for k, i := range b.places {
			u := (float64(i%alignWide) + 0.5) / alignWide
			v := (float64(i/alignWide) + 0.5) / alignHigh
			x := (0.5+(u-0.5)*m.Zoom+m.DX)*alignWide - 0.5
			y := (0.5+(v-0.5)*m.Zoom+m.DY)*alignHigh - 0.5
			rest[k] = math.NaN()
			if x < 1 || y < 1 || x >= alignWide-2 || y >= alignHigh-2 {
				continue
			}
			ix, iy := int(x), int(y)
			fx, fy := x-float64(ix), y-float64(iy)
			p := now[iy*alignWide+ix:]
			rest[k] = (p[0]*(1-fx)+p[1]*fx)*(1-fy) + (p[alignWide]*(1-fx)+p[alignWide+1]*fx)*fy - b.detail[i]
			if n++; n%4 == 0 { // enough to tell what is usual
				sizes = append(sizes, math.Abs(rest[k]))
			}
		}
		if n < len(b.places)/2 {
			return near
		}
		scale := 1.48*median(sizes) + 1e-4
		var sums [4][4]float64
		var right [4]float64
		for k, r := range rest {
			if math.IsNaN(r) {
				continue
			}
			w := 1 / (1 + sq(r/(2*scale))) / sq(scale)
			s := &b.slopes[k]
			for i := range s {
				right[i] -= w * s[i] * r
				for j := range i + 1 {
					sums[i][j] += w * s[i] * s[j]
				}
			}
		}
		sums[2][2] += 1 / sq(usualZoom)
		right[2] += (1 - m.Zoom) / sq(usualZoom)
		a := mat.NewSymDense(4, nil)
		for i := range sums {
			for j := range i + 1 {
				a.SetSym(i, j, sums[i][j])
			}
			a.SetSym(i, i, sums[i][i]+1)
		}
		var c mat.Cholesky
		if !c.Factorize(a) {
			return near
		}
		var step mat.VecDense
		if err := c.SolveVecTo(&step, mat.NewVecDense(4, right[:])); err != nil {
			return near
		}
		m.DX, m.DY, m.Zoom = m.DX+step.AtVec(0), m.DY+step.AtVec(1), m.Zoom+step.AtVec(2)
		if mat.Norm(&step, math.Inf(1)) < enough {
			break
		}
	}
	if math.Abs(m.DX-near.DX) > far || math.Abs(m.DY-near.DY) > far || math.Abs(m.Zoom-near.Zoom) > 2*far {
		return near
	}
	return m
}
