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
// distance to the wall. What comes out is that of a flooding from the deepest pixels
// outwards (Vincent & Soille 1991, IEEE Transactions on Pattern Analysis and Machine
// Intelligence 13:583); but since each pixel falls to the deepest of its neighbours that the
// flood reaches before it, which the depths alone decide, only where basins meet is gone through
// in the flood's order. They are joined if the neck there is at least neckShare of the smaller
// basin's own depth, or hardly narrower than it. Labels run from 1 in reading order.
func watershed(d2 []uint16, w, h int) ([]int32, int) {
	f := flood{d2: d2, w: w, h: h, labels: make([]int32, len(d2)), near: [8]int{-1, 1, -w, w, -w - 1, -w + 1, w - 1, w + 1}}
	f.fall()
	f.settle()
	set := make(disjoint, len(f.peak))
	for l := range set {
		set[l] = int32(l)
	}
	slices.Sort(f.meetings)
	for _, m := range slices.Compact(f.meetings) {
		joinBasins(set, f.peak, f.reached(m.at()), d2[m.at()])
	}
	to := make([]int32, len(set))
	n := int32(0)
	for i, l := range f.labels {
		if l == 0 {
			continue
		}
		if to[l] == 0 {
			r := set.find(l)
			if to[r] == 0 {
				n++
				to[r] = n
			}
			to[l] = to[r]
		}
		f.labels[i] = to[l]
	}
	return f.labels, int(n)
}

// A flood parts a picture into basins, one round each deepest place.
type flood struct {
	d2       []uint16
	w, h     int
	near     [8]int   // the neighbours of a pixel, as steps
	labels   []int32  // of the basins; before they are known, of a pixel to fall to, as -1 less its place
	peak     []uint16 // squared depth of each basin's deepest place; there is no basin 0
	meetings []meeting
	before   [8]int32
}

// A meeting is a pixel beside which the flood reaches several basins before it. Meetings
// are ordered as the flood comes to them: the deeper first, like ones in reading order.
type meeting int64

func meetingAt(i int, d2 uint16) meeting { return meeting(i) - meeting(d2)<<32 }

func (m meeting) at() int { return int(uint32(m)) }

// fall lets each pixel fall to the neighbour that the flood reaches first of those before it,
// or to itself where it reaches none.
func (f *flood) fall() {
	for y := range f.h {
		for x, d := range f.d2[y*f.w : (y+1)*f.w] {
			if d <= 0 {
				continue
			}
			i := y*f.w + x
			if x == 0 || y == 0 || x == f.w-1 || y == f.h-1 {
				f.labels[i] = -1 - int32(f.fallAtBorder(i))
			} else {
				f.labels[i] = -1 - int32(f.fallFrom(i))
			}
		}
	}
}

// fallFrom finds the deepest of the neighbours of a pixel within the picture, if it is deeper; of
// those as deep as the pixel, one that comes before it in reading order. Beside a neighbour
// reached across a corner stands one reached across a side, which wins a tie.
func (f *flood) fallFrom(i int) int {
	up, mid, low := f.d2[i-f.w-1:i-f.w+2], f.d2[i-1:i+2], f.d2[i+f.w-1:i+f.w+2]
	// Behind its depth stands a neighbour's rank: 7 less its place among them.
	ranked := func(d uint16, rank int64) int64 { return int64(d)<<3 | rank }
	own := int64(mid[1])
	before := max(ranked(mid[0], 7), ranked(up[1], 5), ranked(up[0], 3), ranked(up[2], 2))
	best := max(before, ranked(mid[2], 6), ranked(low[1], 4), ranked(low[0], 1), ranked(low[2], 0))
	if best>>3 <= own {
		if before>>3 < own {
			return i
		}
		best = before
	}
	return i + f.near[7-best&7]
}

func (f *flood) fallAtBorder(i int) int {
	best, at := -1, i
	for k, o := range f.near {
		if f.within(i, k) && f.isBefore(i+o, i) && int(f.d2[i+o]) > best {
			best, at = int(f.d2[i+o]), i+o
		}
	}
	return at
}

// isBefore tells whether the flood reaches pixel j before pixel i.
func (f *flood) isBefore(j, i int) bool {
	return f.d2[j] > f.d2[i] || f.d2[j] == f.d2[i] && j < i
}

// settle numbers the basins and lists where they meet: of two neighbours in different basins,
// it is the one that the flood reaches later which has several beside it.
func (f *flood) settle() {
	f.peak = []uint16{0}
	for i, l := range f.labels {
		if l == 0 {
			continue
		}
		if l < 0 {
			l = f.settleAt(i)
		}
		x := i % f.w
		if x > 0 && f.labels[i-1] != l {
			f.meet(i, i-1)
		}
		if i < f.w {
			continue
		}
		if f.labels[i-f.w] != l {
			f.meet(i, i-f.w)
		}
		if x > 0 && f.labels[i-f.w-1] != l {
			f.meet(i, i-f.w-1)
		}
		if x+1 < f.w && f.labels[i-f.w+1] != l {
			f.meet(i, i-f.w+1)
		}
	}
}

// settleAt follows a pixel down to its deepest place, and gives all on the way that place's number.
func (f *flood) settleAt(i int) int32 {
	end := i
	for f.labels[end] < 0 && -1-int(f.labels[end]) != end {
		end = -1 - int(f.labels[end])
	}
	if f.labels[end] < 0 {
		f.labels[end] = int32(len(f.peak))
		f.peak = append(f.peak, f.d2[end])
	}
	l := f.labels[end]
	for at := i; f.labels[at] < 0; {
		next := -1 - int(f.labels[at])
		f.labels[at] = l
		at = next
	}
	return l
}

func (f *flood) meet(i, j int) {
	if f.labels[j] == 0 {
		return
	}
	if f.isBefore(i, j) {
		i = j
	}
	f.meetings = append(f.meetings, meetingAt(i, f.d2[i]))
}

// reached lists the basins beside a pixel that the flood reaches before it. It is good until the
// next is asked for.
func (f *flood) reached(i int) []int32 {
	out := f.before[:0]
	for k, o := range f.near {
		if f.within(i, k) && f.isBefore(i+o, i) {
			out = append(out, f.labels[i+o])
		}
	}
	return out
}

// within tells whether neighbour k of a pixel lies in the picture.
func (f *flood) within(i, k int) bool {
	x := i%f.w + [8]int{-1, 1, 0, 0, -1, 1, -1, 1}[k]
	y := i/f.w + [8]int{0, 0, -1, 1, -1, -1, 1, 1}[k]
	return x >= 0 && y >= 0 && x < f.w && y < f.h
}

// joinBasins unites the basins of labels that meet at squared depth d when the neck is
// wide enough for the smaller of them.
func joinBasins(set disjoint, peak []uint16, labels []int32, d uint16) {
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
