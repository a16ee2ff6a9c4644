package crumb

import "slices"

// A disjoint set of labels, with the smaller label as the representative
// (Tarjan 1975, Journal of the ACM 22:215).
type disjoint []int32

func (s disjoint) find(a int32) int32 {
	for s[a] != a {
		s[a] = s[s[a]]
		a = s[a]
	}
	return a
}

func (s disjoint) union(a, b int32) int32 {
	a, b = s.find(a), s.find(b)
	if b < a {
		a, b = b, a
	}
	s[b] = a
	return a
}

// A run is a stretch of a row of pixels, with the label of its component.
type run struct{ y, from, to, label int32 }

// components are the connected parts of a mask as runs in reading order, numbered from 1
// in the order of their first pixels.
type components struct {
	w, h int
	runs []run
	size []int // pixels of each; of label 0 none
}

// componentsOf finds the components of the pixels that are in a mask, or of those that are
// not. diagonal says whether pixels that meet at a corner belong together
// (8-connectivity). Two scans with a disjoint set (Rosenfeld & Pfaltz 1966, Journal of the ACM
// 13:471), the second over runs alone (He, Chao & Suzuki 2008, IEEE Transactions on Image
// Processing 17:749, from memory).
func componentsOf(mask []bool, w, h int, in, diagonal bool) components {
	c := components{w: w, h: h, runs: make([]run, 0, 32*h)}
	set := disjoint{0}
	reach := int32(b2i(diagonal))
	above := 0 // first run of the row above that may meet this one
	for y := range h {
		last := len(c.runs) // where the runs of the row above end
		row := mask[y*w : (y+1)*w]
		for x := 0; x < w; x++ {
			if row[x] != in {
				continue
			}
			r := run{y: int32(y), from: int32(x)}
			for x < w && row[x] == in {
				x++
			}
			r.to = int32(x)
			for above < last && c.runs[above].to+reach <= r.from {
				above++
			}
			for k := above; k < last && c.runs[k].from < r.to+reach; k++ {
				if l := set.find(c.runs[k].label); r.label == 0 {
					r.label = l
				} else if l != r.label {
					r.label = set.union(l, r.label)
				}
			}
			if r.label == 0 {
				r.label = int32(len(set))
				set = append(set, r.label)
			}
			c.runs = append(c.runs, r)
		}
		above = last
	}
	c.number(set)
	return c
}

// number gives the sets of labels consecutive numbers in order of their first pixel, and
// counts pixels.
func (c *components) number(set disjoint) {
	to := make([]int32, len(set))
	c.size = append(c.size, 0)
	for i := range c.runs {
		r := &c.runs[i]
		root := set.find(r.label)
		if to[root] == 0 {
			to[root] = int32(len(c.size))
			c.size = append(c.size, 0)
		}
		r.label = to[root]
		c.size[r.label] += int(r.to - r.from)
	}
}

// paint sets the pixels of a mask that belong to components which are told to.
func (c *components) paint(mask []bool, value bool, which func(label int32) bool) {
	for _, r := range c.runs {
		if which(r.label) {
			row := mask[int(r.y)*c.w:]
			for x := r.from; x < r.to; x++ {
				row[x] = value
			}
		}
	}
}

// removeSpecks clears components of fewer than least pixels. They are as
// likely grain of the wall or noise of the camera as cells.
func removeSpecks(mask []bool, w, h, least int) {
	c := componentsOf(mask, w, h, true, false)
	c.paint(mask, false, func(l int32) bool { return c.size[l] < least })
}

// fillHoles sets the parts outside the mask that are enclosed by it and have
// fewer than limit pixels: a glint on a cell's floor is no wall, but a wide
// piece of crumb in a ring of cells is.
func fillHoles(mask []bool, w, h, limit int) {
	c := componentsOf(mask, w, h, false, true)
	for _, r := range c.runs {
		if r.y == 0 || int(r.y) == h-1 || r.from == 0 || int(r.to) == w {
			c.size[r.label] = limit // it is open to the border
		}
	}
	c.paint(mask, true, func(l int32) bool { return c.size[l] < limit })
}

// largest keeps only the largest component of a mask and returns how many
// pixels it has, with its first pixel.
func largest(mask []bool, w, h int) (px, first int) {
	c := componentsOf(mask, w, h, true, false)
	best := int32(slices.Index(c.size, slices.Max(c.size)))
	c.paint(mask, false, func(l int32) bool { return l != best })
	for _, r := range c.runs {
		if r.label == best {
			return c.size[best], int(r.y)*w + int(r.from)
		}
	}
	return 0, 0
}
