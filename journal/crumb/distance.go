package crumb

import "math"

// far stands for "no background in this column": its square still leaves room
// for another square in an int32.
const far = 1 << 15

// distanceSquared returns for each pixel of the mask the squared Euclidean
// distance, in pixels, to the nearest pixel outside it, exactly. Outside the
// picture nothing is known, so nothing counts as background there. Felzenszwalb
// & Huttenlocher 2012, Theory of Computing 8:415, on columns then rows.
func distanceSquared(mask []bool, w, h int) []int32 {
	d := make([]int32, w*h)
	bands(w, func(from, to int) { columnDistances(d, mask, w, h, from, to) })
	bands(h, func(from, to int) {
		e := newEnvelope(w)
		for y := from; y < to; y++ {
			e.row(d[y*w : (y+1)*w])
		}
	})
	return d
}

// columnDistances leaves in d the plain distance along each column. It goes
// row by row, which a cache likes better than column by column.
func columnDistances(d []int32, mask []bool, w, h, from, to int) {
	for y := range h {
		for i := y*w + from; i < y*w+to; i++ {
			switch {
			case !mask[i]:
				d[i] = 0
			case y == 0:
				d[i] = far
			default:
				d[i] = min(far, d[i-w]+1)
			}
		}
	}
	for y := h - 2; y >= 0; y-- {
		for i := y*w + from; i < y*w+to; i++ {
			d[i] = min(d[i], d[i+w]+1)
		}
	}
}

// An envelope finds the lowest of many parabolas along a row.
type envelope struct {
	at   []int32   // where each parabola of the envelope stands
	g    []int32   // its height
	from []float64 // where it begins to be the lowest
}

func newEnvelope(w int) *envelope {
	return &envelope{make([]int32, w+1), make([]int32, w+1), make([]float64, w+2)}
}

// row turns column distances into squared distances. Each run of mask pixels
// is done with the two background pixels beside it: nothing beyond them can be
// nearer.
func (e *envelope) row(d []int32) {
	for x := 0; x < len(d); {
		if d[x] == 0 {
			x++
			continue
		}
		end := x
		for end < len(d) && d[end] != 0 {
			end++
		}
		e.run(d, x, end)
		x = end
	}
}

func (e *envelope) run(d []int32, start, end int) {
	k := -1
	add := func(x, g int32) {
		s := math.Inf(-1)
		for k >= 0 {
			s = (float64(g) + float64(x)*float64(x) - float64(e.g[k]) - float64(e.at[k])*float64(e.at[k])) / (2 * float64(x-e.at[k]))
			if s > e.from[k] {
				break
			}
			k--
			s = math.Inf(-1)
		}
		k++
		e.at[k], e.g[k], e.from[k] = x, g, s
	}
	lo, hi := max(0, start-1), min(len(d), end+1)
	for x := lo; x < hi; x++ {
		add(int32(x), d[x]*d[x])
	}
	j := 0
	for x := start; x < end; x++ {
		for j < k && e.from[j+1] < float64(x) {
			j++
		}
		dx := int32(x) - e.at[j]
		d[x] = dx*dx + e.g[j]
	}
}

// medianDepth returns the squared depth that parts the crumb into two halves
// of equal area, the middle and the edge.
func medianDepth(depth []int32, crumb []bool) int32 {
	deepest := int32(0)
	for _, d := range depth {
		deepest = max(deepest, d)
	}
	bins := make([]int, int(math.Sqrt(float64(deepest)))*4+5)
	bin := func(d int32) int { return int(4 * math.Sqrt(float64(d))) }
	total := 0
	for i, in := range crumb {
		if in {
			bins[bin(depth[i])]++
			total++
		}
	}
	seen := 0
	for b, n := range bins {
		seen += n
		if 2*seen >= total {
			return int32(math.Pow(float64(b+1)/4, 2))
		}
	}
	return deepest
}
