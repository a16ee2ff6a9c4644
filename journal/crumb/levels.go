package crumb

import (
	"math"
	"slices"
)

// noiseOf estimates the standard deviation of the noise in a picture from the
// Laplacian difference mask of Immerkær 1996, Computer Vision and Image
// Understanding 64:300 (from memory), over the crumb alone. The median in place
// of the mean keeps the cells' edges out of it.
func noiseOf(rel []uint16, crumb []bool, w, h int) float64 {
	const steps, scale = 2048, 8
	hist := make([]int, steps)
	for y := 1; y < h-1; y += 2 {
		for i := y*w + 1; i < (y+1)*w-1; i++ {
			if !crumb[i] {
				continue
			}
			v := func(j int) int { return int(rel[j]) }
			m := v(i-w-1) - 2*v(i-w) + v(i-w+1) - 2*v(i-1) + 4*v(i) - 2*v(i+1) + v(i+w-1) - 2*v(i+w) + v(i+w+1)
			hist[min(steps-1, max(m, -m)/scale)]++
		}
	}
	// The mask's own standard deviation is 6; 0.6745 is the normal's quartile.
	return histMedian(hist, 0) * scale / 0.6745 / 6
}

// denoise smooths with the 3 by 3 binomial mask, the smallest Gaussian.
func denoise(rel []uint16, w, h int) []uint16 {
	out := slices.Clone(rel)
	bands(h-2, func(from, to int) {
		for y := from + 1; y < to+1; y++ {
			for i := y*w + 1; i < (y+1)*w-1; i++ {
				v := func(j int) uint32 { return uint32(rel[j]) }
				out[i] = uint16((v(i-w-1) + v(i-w+1) + v(i+w-1) + v(i+w+1) + 2*(v(i-w)+v(i-1)+v(i+1)+v(i+w)) + 4*v(i) + 8) / 16)
			}
		}
	})
	return out
}

// levels are what parts cell from wall in the flattened picture.
type levels struct {
	cell, wall float64 // medians of the two
	apart      float64 // share of the variance that lies between them
	noise      float64
}

// noisy tells whether the noise would break up walls and cells.
func (l levels) noisy() bool { return l.noise > 0.10*(l.wall-l.cell) }

// skinMM is how deep remains of crust and of the table would have a say.
const skinMM = 1.5

// layers parts the crumb into middle and edge, and gives what lies under its skin.
func (f *Prepared) layers() (within []bool) {
	depth := distanceSquared(f.crumb, f.w, f.h)
	half := medianDepth(depth, f.crumb)
	skin := int32(math.Pow(skinMM*f.frame.pxPerMM, 2))
	if half < 4*skin {
		skin = 0
	}
	f.middle, within = make([]bool, len(depth)), make([]bool, len(depth))
	for i, in := range f.crumb {
		f.middle[i], within[i] = in && depth[i] >= half, in && depth[i] > skin
	}
	return within
}

// findLevels finds the medians of cell and wall: Otsu's threshold first, then
// half-way between the medians until it stays (Ridler & Calvard 1978, IEEE
// Transactions on Systems, Man, and Cybernetics 8:630, with medians for means),
// within a part of the crumb.
func (f *Prepared) findLevels(within []bool) levels {
	const bin = wallLevel / histOne
	hist := make([]int, 2*histOne)
	for i, in := range within {
		if in {
			hist[min(2*histOne-1, int(f.rel[i])/bin)]++
		}
	}
	t := otsu(hist)
	l := levels{apart: separation(hist, t)}
	var lo, hi float64
	for range 20 {
		lo, hi = classMedians(hist, t)
		next := int(math.Round((lo + hi) / 2))
		if next == t || next <= 0 || next >= len(hist)-1 {
			break
		}
		t = next
	}
	l.cell, l.wall = lo*bin, hi*bin
	l.noise = noiseOf(f.rel, f.crumb, f.w, f.h)
	return l
}

// separation is Otsu's measure of how well a threshold parts a histogram: the
// variance between the classes over the whole.
func separation(hist []int, t int) float64 {
	var n, s, ss, nb, sb float64
	for v, c := range hist {
		k, x := float64(c), float64(v)
		n += k
		s += k * x
		ss += k * x * x
		if v <= t {
			nb += k
			sb += k * x
		}
	}
	na := n - nb
	if na == 0 || nb == 0 {
		return 0
	}
	total := ss/n - s/n*s/n
	d := sb/nb - (s-sb)/na
	if total <= 0 {
		return 0
	}
	return nb / n * na / n * d * d / total
}
