package crumb

import (
	"math"
	"slices"
)

// texturePerMM is how fine a crumb's texture is looked at: finer than this lie noise
// and the grain of the flour.
const texturePerMM = 4.0

// A texture is the evened crumb on a coarse grid. What is said of it needs no cell to
// be told from its neighbour.
type texture struct {
	w, h  int
	perMM float64
	mean  []uint16
	v     []uint16 // the same, bounded by the levels of cell and wall
	in    []uint16 // all ones where it is mostly crumb, else nought
}

// newTexture takes the mean of each place. What is brighter than the walls, or darker than
// cells mostly are, counts as they do: else a glint or one black hole would weigh
// more than a hundred cells. Of the sure voids alone it counts how deep they are.
func newTexture(rel []uint16, crumb []bool, l levels, w, h int, pxPerMM float64) *texture {
	block := max(1, int(math.Round(pxPerMM/texturePerMM)))
	t := &texture{w: (w + block - 1) / block, h: (h + block - 1) / block, perMM: pxPerMM / float64(block)}
	t.mean, t.v, t.in = make([]uint16, t.w*t.h), make([]uint16, t.w*t.h), make([]uint16, t.w*t.h)
	bands(t.h, func(from, to int) {
		sum, n := make([]int, t.w), make([]int, t.w)
		for y := from; y < to; y++ {
			clear(sum)
			clear(n)
			for yy := y * block; yy < min(h, (y+1)*block); yy++ {
				line, in := rel[yy*w:(yy+1)*w], crumb[yy*w:(yy+1)*w]
				for b := range sum {
					for x := b * block; x < min(w, (b+1)*block); x++ {
						if in[x] {
							sum[b] += int(line[x])
							n[b]++
						}
					}
				}
			}
			for x := range t.w {
				if 2*n[x] >= block*block {
					i := y*t.w + x
					t.in[i], t.mean[i] = math.MaxUint16, uint16(sum[x]/n[x])
					t.v[i] = uint16(min(max(float64(t.mean[i]), l.cell), l.wall))
				}
			}
		}
	})
	return t
}

// values adds what the texture says. grain is the standard deviation of the walls' own.
func (t *texture) values(values map[MeasureID]float64, l levels, grain float64) {
	if w := t.width(); w > 0 {
		values[TextureWidth] = w
	}
	if c := t.correlation(); c > 0 {
		values[CorrelationMM] = c
	}
	values[SureVoids] = t.sure(l, grain, sureWidthMM)
}

// closingSizes are the steps by which the crumb is closed, in grid units from the middle
// of what closes it to its rim.
var closingSizes = [...]int{1, 2, 3, 4, 6, 8, 12}

// width is how wide the dark places of the crumb are, mm: the mean over the volume that
// closings of growing width fill up (granulometry: Matheron 1975, Random Sets and Integral
// Geometry; as a spectrum of a grey picture: Maragos 1989, IEEE Transactions on Pattern
// Analysis and Machine Intelligence 11:701, both from memory). It is 0 for a crumb
// without any.
func (t *texture) width() float64 {
	grown := slices.Clone(t.v)
	spare, shrunk := make([]uint16, len(grown)), make([]uint16, len(grown)) // shrunk is upside down
	step, before := 0, 0.0
	volume, weighted := 0.0, 0.0
	for k, size := range closingSizes {
		for ; step < size; step++ {
			t.spread(spare, grown, step%2 == 0)
			grown, spare = spare, grown
		}
		for i, in := range t.in {
			shrunk[i] = (math.MaxUint16 - grown[i]) & in
		}
		other := spare
		for s := range size {
			t.spread(other, shrunk, s%2 == 0)
			shrunk, other = other, shrunk
		}
		spare = other
		filled := 0.0
		for i, in := range t.in {
			if in != 0 {
				filled += float64(math.MaxUint16-shrunk[i]) - float64(t.v[i])
			}
		}
		// What a closing of this size fills, and the one before it left, lies between
		// the two in width.
		last := 0
		if k > 0 {
			last = closingSizes[k-1]
		}
		volume += filled - before
		weighted += (filled - before) * float64(size+last)
		before = filled
	}
	if volume <= 0 {
		return 0
	}
	return weighted / volume / t.perMM
}

// spread gives every place of the crumb the highest of itself and its neighbours: those
// beside it, or those across corners too. In turn the two make an octagon, near enough to
// a disc. Beyond the crumb src and dst are nought, which changes nothing.
func (t *texture) spread(dst, src []uint16, corners bool) {
	nothing := make([]uint16, t.w)
	row := func(y int) []uint16 {
		if y < 0 || y >= t.h {
			return nothing
		}
		return src[y*t.w : (y+1)*t.w]
	}
	bands(t.h, func(from, to int) {
		column := make([]uint16, t.w)
		for y := from; y < to; y++ {
			above, own, below := row(y - 1)[:t.w], row(y)[:t.w], row(y + 1)[:t.w]
			for x := range column {
				column[x] = max(above[x], own[x], below[x])
			}
			side := own
			if corners {
				side = column
			}
			out, in := dst[y*t.w:][:t.w], t.in[y*t.w:][:t.w]
			before, at := uint16(0), side[0]
			for x, after := range side[1:] {
				out[x] = max(column[x], before, after) & in[x]
				before, at = at, after
			}
			last := t.w - 1
			out[last] = max(column[last], before) & in[last]
		}
	})
}

// correlation is the distance in mm at which the crumb's brightness is no more alike than
// 1/e, the mean of level and upright: how far a cell or a wall goes on (correlation
// length: Torquato 2002, Random Heterogeneous Materials, from memory). It is 0 where the
// crumb is even, or alike as far as it reaches.
func (t *texture) correlation() float64 {
	mean, n := 0.0, 0.0
	for i, in := range t.in {
		if in != 0 {
			mean += float64(t.v[i])
			n++
		}
	}
	mean /= math.Max(1, n)
	off := make([]float64, len(t.v)) // from the mean; beyond the crumb none
	for i, in := range t.in {
		if in != 0 {
			off[i] = float64(t.v[i]) - mean
		}
	}
	alike := func(dx, dy int) float64 {
		sum, n := 0.0, 0
		for y := range t.h - dy {
			at, there := y*t.w, (y+dy)*t.w+dx
			a, b := off[at:at+t.w-dx], off[there:there+t.w-dx]
			inA, inB := t.in[at:at+t.w-dx], t.in[there:there+t.w-dx]
			for x, v := range a {
				sum += v * b[x]
				n += int(inA[x] & inB[x] & 1)
			}
		}
		return sum / math.Max(1, float64(n))
	}
	whole := alike(0, 0)
	if whole <= 0 {
		return 0
	}
	before := 1.0
	for d := 1; d < min(min(t.w, t.h), int(10*t.perMM)); d++ {
		now := (alike(d, 0) + alike(0, d)) / (2 * whole)
		if now <= 1/math.E {
			return (float64(d) - (1/math.E-now)/(before-now)) / t.perMM
		}
		before = now
	}
	return 0
}

// Limits of what is surely a void.
const (
	sureWidthMM = 2.25 // as wide as this at least
	sureGrains  = 4.0  // deeper than the walls' level by so many times their grain
	sureDepth   = 0.75 // and so far down to the cells' level, or rims and thin walls between cells would count
)

// sure is the share of the crumb in voids that are wide and deep enough to be no trick
// of the light or of the grain.
func (t *texture) sure(l levels, grain, wideMM float64) float64 {
	dark := make([]bool, len(t.v))
	all := 0
	below := l.wall - max(sureGrains*grain, sureDepth*(l.wall-l.cell))
	for i, in := range t.in {
		all += int(in & 1)
		dark[i] = in != 0 && float64(t.mean[i]) < below
	}
	return float64(count(openMask(dark, t.w, t.h, wideMM/2*t.perMM))) / float64(max(1, all))
}
