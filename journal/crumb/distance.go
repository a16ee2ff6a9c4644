package crumb

import (
	"math"
	"slices"
)

// far stands for "no background in this column": its square still leaves room
// for another square in an int32.
const far = 1 << 15

// mostReach is how far distanceWithin reaches at most: its square still fits 16 bits.
const mostReach = 255

// distanceSquared returns for each pixel of the mask the squared Euclidean
// distance, in pixels, to the nearest pixel outside it, exactly. Outside the
// picture nothing is known, so nothing counts as background there. Felzenszwalb
// & Huttenlocher 2012, Theory of Computing 8:415, on columns then rows.
func distanceSquared(mask []bool, w, h int) []int32 {
	return distances[int32](mask, w, h, far)
}

// distanceWithin is distanceSquared as far as reach, whose square all has that lies as
// deep or deeper, in half the memory.
func distanceWithin(mask []bool, w, h int, reach int) []uint16 {
	return distances(mask, w, h, uint16(min(reach, mostReach)))
}

// A depth counts pixels, or their square.
type depth interface{ int32 | uint16 }

func distances[D depth](mask []bool, w, h int, reach D) []D {
	d := make([]D, w*h)
	bands(w, func(from, to int) { columnDistances(d, mask, w, h, from, to, reach) })
	bands(h, func(from, to int) {
		e := newEnvelope(w, reach)
		for y := from; y < to; y++ {
			e.row(d[y*w : (y+1)*w])
		}
	})
	return d
}

// columnDistances leaves in d the plain distance along each column. It goes
// row by row, which a cache likes better than column by column.
func columnDistances[D depth](d []D, mask []bool, w, h, from, to int, reach D) {
	before := make([]D, to-from)
	for x := range before {
		before[x] = reach
	}
	for y := range h {
		row := d[y*w+from : y*w+to]
		for x, in := range mask[y*w+from : y*w+to] {
			v := min(reach, before[x]+1)
			if !in {
				v = 0
			}
			row[x] = v
		}
		before = row
	}
	for y := h - 2; y >= 0; y-- {
		row := d[y*w+from : y*w+to]
		for x, v := range row {
			row[x] = min(v, before[x]+1)
		}
		before = row
	}
}

// An envelope finds the lowest of many parabolas along a row.
type envelope[D depth] struct {
	reach D
	lines []parabola
	half  []float64 // 1/(2n)
}

// A parabola stands at a place of the row, at a height.
type parabola struct {
	at, g  int32
	square float64 // g + at²
	from   float64 // where it begins to be the lowest
}

func newEnvelope[D depth](w int, reach D) *envelope[D] {
	e := &envelope[D]{reach, make([]parabola, w+2), make([]float64, w+2)}
	for n := 1; n < len(e.half); n++ {
		e.half[n] = 1 / float64(2*n)
	}
	return e
}

// row turns column distances into squared distances. Each run of mask pixels
// is done with the two background pixels beside it: nothing beyond them can be
// nearer.
func (e *envelope[D]) row(d []D) {
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

func (e *envelope[D]) run(d []D, start, end int) {
	lines, k := e.lines, -1
	for x := max(0, start-1); x < min(len(d), end+1); x++ {
		if d[x] >= e.reach {
			continue
		}
		g := int32(d[x]) * int32(d[x])
		square := float64(g) + float64(x)*float64(x)
		from := math.Inf(-1)
		for ; k >= 0; k-- {
			q := &lines[k]
			if s := (square - q.square) * e.half[int32(x)-q.at]; s > q.from {
				from = s
				break
			}
		}
		k++
		lines[k] = parabola{int32(x), g, square, from}
	}
	most := int32(e.reach) * int32(e.reach)
	if k < 0 {
		for x := range d[start:end] {
			d[start+x] = D(most)
		}
		return
	}
	lines[k+1].from = math.Inf(1)
	x := start
	for j, q := range lines[:k+1] {
		until := end
		if next := lines[j+1].from; next < float64(end) {
			until = int(math.Max(next+1, float64(start)))
		}
		for ; x < until; x++ {
			dx := int32(x) - q.at
			d[x] = D(min(most, dx*dx+q.g))
		}
	}
}

// medianDepth returns the squared depth that parts the crumb into two halves
// of equal area, the middle and the edge.
func medianDepth(depth []int32, crumb []bool) int32 {
	bins := make([]int, int(math.Sqrt(float64(slices.Max(depth))))*4+5)
	for i, in := range crumb {
		if in {
			bins[int(4*math.Sqrt(float64(depth[i])))]++
		}
	}
	return int32(math.Pow(float64(quantile(bins, 0.5)+1)/4, 2))
}
