package crumb

import (
	"math"
	"slices"
)

// refineEdges redraws the edge of each cell where the brightness has reached
// that cell's own level. One threshold for all makes shallow cells too small and
// deep ones too large. Edges move by at most reach pixels, and a cell never
// takes another's pixel.
func refineEdges(labels []int32, level []uint16, rel []uint16, crumb []bool, w, h, reach int) {
	found := make([][]redrawn, h)
	bands(h-2, func(from, to int) {
		for y := from + 1; y < to+1; y++ {
			for i := y*w + 1; i < (y+1)*w-1; i++ {
				if c, ok := redrawAt(labels, level, rel, crumb, w, i); ok {
					found[y] = append(found[y], c)
				}
			}
		}
	})
	changes := slices.Concat(found...)
	for range reach - 1 {
		for _, c := range changes {
			labels[c.i] = c.l
		}
		// Only where something has changed, or beside that, there is anything to change again.
		var next []redrawn
		for _, c := range changes {
			for _, o := range [5]int{0, -1, 1, -w, w} {
				i := int(c.i) + o
				if x, y := i%w, i/w; x == 0 || y == 0 || x == w-1 || y == h-1 {
					continue
				}
				if c, ok := redrawAt(labels, level, rel, crumb, w, i); ok {
					next = append(next, c)
				}
			}
		}
		changes = next
	}
	for _, c := range changes {
		labels[c.i] = c.l
	}
}

// A redrawn pixel gets another label.
type redrawn struct{ i, l int32 }

// redrawAt tells what the edges would do at a pixel.
func redrawAt(labels []int32, level []uint16, rel []uint16, crumb []bool, w, i int) (redrawn, bool) {
	if l := labels[i]; l != 0 {
		return redrawn{int32(i), 0}, rel[i] >= level[l] && atRim(labels, i, w)
	}
	if !crumb[i] {
		return redrawn{}, false
	}
	l := readiest(labels, level, i, w, rel[i])
	return redrawn{int32(i), l}, l != 0
}

// atRim tells whether a pixel has a neighbour with another label.
func atRim(labels []int32, i, w int) bool {
	l := labels[i]
	return labels[i-1] != l || labels[i+1] != l || labels[i-w] != l || labels[i+w] != l
}

// readiest returns the neighbouring cell that would take a wall pixel of
// brightness v most readily, or 0.
func readiest(labels []int32, level []uint16, i, w int, v uint16) int32 {
	best := int32(0)
	for _, j := range [4]int{i - 1, i + 1, i - w, i + w} {
		if l := labels[j]; l != 0 && v < level[l] && (best == 0 || level[l] > level[best]) {
			best = l
		}
	}
	return best
}

// cellFloors returns the brightness of each cell's floor: the mean of its
// innermost pixels.
func cellFloors(labels []int32, n int, rel, d2 []uint16) []uint16 {
	peak := make([]uint16, n+1)
	for i, l := range labels {
		if l != 0 {
			peak[l] = max(peak[l], d2[i])
		}
	}
	sum, px := make([]int64, n+1), make([]int64, n+1)
	for i, l := range labels {
		if l != 0 && 3*int(d2[i]) >= int(peak[l]) {
			sum[l] += int64(rel[i])
			px[l]++
		}
	}
	floor := make([]uint16, n+1)
	for l := 1; l <= n; l++ {
		floor[l] = uint16(sum[l] / max(1, px[l]))
	}
	return floor
}

// cellLevels returns the brightness at which each cell's edge is drawn: the
// mean over the band along its edge, each pixel weighted by the fourth power of
// its slope. Where a cell's floor shelves, the steepest place stays the edge, which
// half its depth would not. Kittler, Illingworth & Föglein 1985, Computer
// Vision, Graphics, and Image Processing 30:125 (with the slope itself as
// weight, and one level for a whole picture), from memory. shift moves each
// level by that share of its cell's depth.
//
// No level suits all: where cells shade softly towards their rims, as on the drawings in testdata,
// the open share of fine crumb comes out about 0.02 too low, where they do not, as on those of
// package phantom, about 0.01 too high. Both lie within what is stated.
func cellLevels(labels []int32, n int, rel []uint16, floor []uint16, wall, shift, blur float64, w, h int) []uint16 {
	sum, weight := make([]float64, n+1), make([]float64, n+1)
	px := make([]int, n+1)
	for y := 2; y < h-2; y++ {
		for i := y*w + 2; i < (y+1)*w-2; i++ {
			px[labels[i]]++
			l := nearLabel(labels, i, w)
			if l == 0 {
				continue
			}
			gx, gy := sobel(rel, i, w)
			k := (gx*gx + gy*gy) * (gx*gx + gy*gy)
			sum[l] += k * float64(rel[i])
			weight[l] += k
		}
	}
	level := make([]uint16, n+1)
	for l := 1; l <= n; l++ {
		f := float64(floor[l])
		depth := max(0, wall-f)
		v := f + 0.5*depth
		if weight[l] > 0 {
			v = sum[l] / weight[l]
		}
		// The edge lies between floor and wall whatever the band also held.
		v = min(max(v, f+0.35*depth), f+0.75*depth) + (shift+roundness(px[l], blur))*depth
		level[l] = uint16(max(0, v))
	}
	return level
}

// roundness is how far above half-way a cell's true edge shows. Blurring a disc
// of radius R by sigma leaves 1/2 - sigma/(2√(2π)R) of its depth at its true
// edge (the blurred edge of a half-plane, expanded for small curvature), so that
// the smaller a cell, the more its half-way line would shrink it. The expansion
// ends where blur nears the radius, so the shift is bounded.
func roundness(px int, sigma float64) float64 {
	if px == 0 {
		return 0
	}
	radius := math.Sqrt(float64(px) / math.Pi)
	return math.Min(0.08, sigma/(2*math.Sqrt(2*math.Pi)*radius))
}

// nearLabel returns the cell in whose edge band a pixel lies, or 0: pixels on
// the edge, and wall pixels no more than two from it.
func nearLabel(labels []int32, i, w int) int32 {
	if l := labels[i]; l != 0 {
		if labels[i-2] != l || labels[i+2] != l || labels[i-2*w] != l || labels[i+2*w] != l {
			return l
		}
		return 0
	}
	for _, j := range [8]int{i - 1, i + 1, i - w, i + w, i - 2, i + 2, i - 2*w, i + 2*w} {
		if l := labels[j]; l != 0 {
			return l
		}
	}
	return 0
}
