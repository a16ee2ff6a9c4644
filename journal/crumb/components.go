package crumb

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

// labelComponents numbers the connected components of a mask from 1 in reading
// order and returns the labels (0 outside the mask) with their number. diagonal
// says whether pixels that meet at a corner belong together (8-connectivity).
// Two passes with a disjoint set: Rosenfeld & Pfaltz 1966, Journal of the ACM
// 13:471.
func labelComponents(mask []bool, w, h int, diagonal bool) ([]int32, int) {
	labels := make([]int32, w*h)
	set := disjoint{0}
	for y := range h {
		for x := range w {
			i := y*w + x
			if !mask[i] {
				continue
			}
			var l int32
			join := func(n int32) {
				if n != 0 && l == 0 {
					l = set.find(n)
				} else if n != 0 && n != l {
					l = set.union(l, n)
				}
			}
			if x > 0 {
				join(labels[i-1])
			}
			if y > 0 {
				join(labels[i-w])
				if diagonal && x > 0 {
					join(labels[i-w-1])
				}
				if diagonal && x+1 < w {
					join(labels[i-w+1])
				}
			}
			if l == 0 {
				l = int32(len(set))
				set = append(set, l)
			}
			labels[i] = l
		}
	}
	return labels, renumber(labels, set)
}

// renumber gives the sets of labels consecutive numbers in order of their
// first pixel.
func renumber(labels []int32, set disjoint) int {
	to := make([]int32, len(set))
	n := int32(0)
	for i, l := range labels {
		if l == 0 {
			continue
		}
		r := set.find(l)
		if to[r] == 0 {
			n++
			to[r] = n
		}
		labels[i] = to[r]
	}
	return int(n)
}

// removeSpecks clears components of fewer than least pixels. They are as
// likely grain of the wall or noise of the camera as cells.
func removeSpecks(mask []bool, w, h, least int) {
	labels, n := labelComponents(mask, w, h, false)
	small := smaller(labels, n, least)
	for i, l := range labels {
		if small[l] {
			mask[i] = false
		}
	}
}

// fillHoles sets the parts outside the mask that are enclosed by it and have
// fewer than limit pixels: a glint on a cell's floor is no wall, but a wide
// piece of crumb in a ring of cells is.
func fillHoles(mask []bool, w, h, limit int) {
	outside := make([]bool, len(mask))
	for i, m := range mask {
		outside[i] = !m
	}
	labels, n := labelComponents(outside, w, h, true)
	small := smaller(labels, n, limit)
	for x := range w {
		small[labels[x]], small[labels[(h-1)*w+x]] = false, false
	}
	for y := range h {
		small[labels[y*w]], small[labels[y*w+w-1]] = false, false
	}
	for i, l := range labels {
		if small[l] {
			mask[i] = true
		}
	}
}

// smaller tells for each label whether it has fewer than limit pixels. Label 0
// is never small.
func smaller(labels []int32, n, limit int) []bool {
	px := make([]int, n+1)
	for _, l := range labels {
		px[l]++
	}
	small := make([]bool, n+1)
	for l := 1; l <= n; l++ {
		small[l] = px[l] < limit
	}
	return small
}

// largest keeps only the largest component of a mask and returns how many
// pixels it has, with its first pixel.
func largest(mask []bool, w, h int) (px, first int) {
	labels, n := labelComponents(mask, w, h, false)
	size := make([]int, n+1)
	for _, l := range labels {
		size[l]++
	}
	best := int32(0)
	for l := 1; l <= n; l++ {
		if best == 0 || size[l] > size[best] {
			best = int32(l)
		}
	}
	if best == 0 {
		return 0, 0
	}
	first = -1
	for i, l := range labels {
		mask[i] = l == best
		if mask[i] && first < 0 {
			first = i
		}
	}
	return size[best], first
}
