package crumb

import (
	"math"
	"slices"
)

// neckShare is how wide a neck must be, against the narrower of the two
// parts it joins, for both to count as one cell.
const neckShare = 0.82

// neckStep is the least narrowing, in pixels, that is more than the roughness of
// an edge drawn on a grid.
const neckStep = 0.75

// watershed splits a mask into cells at its necks. d2 holds the squared
// distance to the wall. Pixels are flooded from the deepest outwards (Vincent
// & Soille 1991, IEEE Transactions on Pattern Analysis and Machine Intelligence
// 13:583); where two basins meet they are joined if the neck there is at least
// neckShare of the smaller basin's own depth, or hardly narrower than it. Labels run from 1 in reading order.
func watershed(d2 []int32, w, h int) ([]int32, int) {
	labels := make([]int32, len(d2))
	set := disjoint{0}
	peak := []int32{0}
	offsets := [8]int{-1, 1, -w, w, -w - 1, -w + 1, w - 1, w + 1}
	for _, i := range byDepth(d2) {
		x, y := int(i)%w, int(i)/w
		inner := x > 0 && y > 0 && x < w-1 && y < h-1
		var near [8]int32 // labels
		n, mixed := 0, false
		for k, o := range offsets {
			if !inner && !within(x, y, k, w, h) {
				continue
			}
			if l := labels[int(i)+o]; l != 0 {
				near[n] = l
				n++
				mixed = mixed || l != near[0]
			}
		}
		if n == 0 {
			l := int32(len(set))
			set = append(set, l)
			peak = append(peak, d2[i])
			labels[i] = l
			continue
		}
		labels[i] = near[0]
		if !mixed {
			continue
		}
		// Beside a neighbour reached across a corner stands one reached
		// across a side: the first four offsets win ties.
		steepest := int32(-1)
		for k, o := range offsets {
			if !inner && !within(x, y, k, w, h) {
				continue
			}
			if j := int(i) + o; labels[j] != 0 && d2[j] > steepest {
				labels[i], steepest = labels[j], d2[j]
			}
		}
		joinBasins(set, peak, near[:n], d2[i])
	}
	return labels, renumber(labels, set)
}

// joinBasins unites the basins of labels that meet at squared depth d when the neck is
// wide enough for the smaller of them.
func joinBasins(set disjoint, peak []int32, labels []int32, d int32) {
	var all [8]int32
	roots := all[:0]
	for _, l := range labels {
		if r := set.find(l); !slices.Contains(roots, r) {
			roots = append(roots, r)
		}
	}
	for a := range roots {
		for b := range a {
			p, q := set.find(roots[a]), set.find(roots[b])
			if p == q {
				continue
			}
			small := min(peak[p], peak[q])
			neck, own := math.Sqrt(float64(d)), math.Sqrt(float64(small))
			if neck >= neckShare*own || own-neck < neckStep {
				high := max(peak[p], peak[q])
				peak[set.union(p, q)] = high
			}
		}
	}
}

// within tells whether neighbour k of a border pixel lies in the picture; the
// order is that of the offsets in watershed.
func within(x, y, k, w, h int) bool {
	dx := [8]int{-1, 1, 0, 0, -1, 1, -1, 1}[k]
	dy := [8]int{0, 0, -1, 1, -1, -1, 1, 1}[k]
	x, y = x+dx, y+dy
	return x >= 0 && y >= 0 && x < w && y < h
}

// byDepth lists the pixels of positive depth, deepest first, by counting sort.
func byDepth(d2 []int32) []int32 {
	deepest := int32(0)
	n := 0
	for _, d := range d2 {
		if d > 0 {
			n++
			deepest = max(deepest, d)
		}
	}
	start := make([]int32, deepest+2)
	for _, d := range d2 {
		if d > 0 {
			start[deepest-d+1]++
		}
	}
	for i := 1; i < len(start); i++ {
		start[i] += start[i-1]
	}
	order := make([]int32, n)
	for i, d := range d2 {
		if d > 0 {
			k := deepest - d
			order[start[k]] = int32(i)
			start[k]++
		}
	}
	return order
}
