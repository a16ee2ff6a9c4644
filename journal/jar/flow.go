package jar

import (
	"context"
	"math"

	"gonum.org/v1/gonum/mat"
)

// A flow is how far the dough itself has moved against the glass between two pictures, as its
// holes and lumps show. No film on the glass and no edge has a part in it.
type flow struct {
	from, to int     // the pictures, by their places among those that have a height
	ratio    float64 // of the heights, the later to the earlier
	sd       float64 // of the later height, in rows
}

// flowLags are how many pictures apart the dough is laid over itself.
var flowLags = []int{1, 2, 4, 8}

// carried sets right the heights of a path by how the dough moved. What is left on the glass
// where dough stood passes for the surface for some pictures after it has turned, but it stays,
// while the dough below it falls. Where the dough's texture does not go along with its surface as
// that moves, nothing is known of it but that there may be such a film.
func (t *Tracker) carried(ctx context.Context, strips []lit, dead []mute, w *walk) error {
	const (
		drift = 0.1 // rows, of each picture between two that are laid over each other
		trust = 2   // times as far off as in the middle of all may a move be
	)
	var kept []int
	var texture [][]float32
	var heights []float64
	for i := range strips {
		if w.lost[i] == Kept {
			kept, texture, heights = append(kept, i), append(texture, t.textureOf(&strips[i])), append(heights, w.mean[i])
		}
	}
	t.lessStill(texture, kept, w.path)
	var flows []flow
	for a, from := range heights {
		if err := ctx.Err(); err != nil {
			return err
		}
		for _, lag := range flowLags {
			if b := a + lag; b < len(kept) {
				if ratio, sd, ok := t.stretch(texture[a], texture[b], dead, from, heights[b]); ok {
					flows = append(flows, flow{a, b, ratio, sd})
				}
			}
		}
	}
	off, ok := goesAlong(flows, heights)
	if !ok {
		w.filmed()
		return nil
	}
	for k, f := range flows {
		long, far := drift*float64(f.to-f.from), trust*off*heights[f.from]*(f.ratio-1)
		flows[k].sd = math.Sqrt(sq(f.sd) + sq(long) + sq(far))
	}
	w.settle(kept, flows)
	return nil
}

// settle finds the heights that miss the path and the flows least, by Cauchy's loss: weighted least
// squares again and again, at first with a wider loss, so that a run of pictures that are wrong together
// finds its way out (Holland & Welsch 1977, Comm. Stat. A6:813; Blake & Zisserman 1987, Visual
// Reconstruction; both from memory).
func (w *walk) settle(kept []int, flows []flow) {
	const (
		sharp    = 0.35 // rows that a height of the path is uncertain by, beside what its neighbours share
		shared   = 2    // times as much is stated of it with that
		drawn    = 0.1  // rows, of one that was drawn by hand
		astrayBy = 1    // rows, of a flow
		rounds   = 12
		wide     = 4 // times as wide is the loss in the first third of them
	)
	heights := make([]float64, len(kept))
	for a, i := range kept {
		heights[a] = w.mean[i]
	}
	apart := min(len(kept)-1, flowLags[len(flowLags)-1])
	for round := range rounds {
		wider := 1.0
		if round < rounds/3 {
			wider = wide
		}
		sums, right := mat.NewSymBandDense(len(kept), apart, nil), mat.NewVecDense(len(kept), nil)
		add := func(a, b int, v float64) { sums.SetSymBand(a, b, sums.At(a, b)+v) }
		for a, i := range kept {
			at, sd := w.mean[i], max(sharp, w.sd[i]/shared)
			if rise, ok := w.fixed[i]; ok {
				at, sd = w.t.rowOf(rise), drawn
			} else if i == 0 {
				at, sd = w.t.unit, drawn // the level is drawn on the first picture
			}
			weight := 1 / sq(sd) / (1 + sq((heights[a]-at)/(wider*2*sd)))
			add(a, a, weight)
			right.SetVec(a, weight*at)
		}
		for _, f := range flows {
			weight := 1 / sq(f.sd) / (1 + sq((heights[f.to]-f.ratio*heights[f.from])/(wider*astrayBy)))
			add(f.from, f.from, weight*f.ratio*f.ratio)
			add(f.to, f.to, weight)
			add(f.from, f.to, -weight*f.ratio)
		}
		var factors mat.BandCholesky
		var found mat.VecDense
		if !factors.Factorize(sums) || factors.SolveVecTo(&found, right) != nil {
			return // the path stands as it is
		}
		copy(heights, found.RawVector().Data)
	}
	for a, i := range kept {
		w.mean[i] = heights[a]
	}
}

// filmed makes what is a little lower than the surface has been less certain: it may be what was left
// there on the glass, and the surface lower still. How thick such a film is: from made-up series of
// the tests.
func (w *walk) filmed() {
	const thick, sd = 0.05, 0.025 // rises
	highest := w.t.rowOf(1 + leastPeak)
	for i, h := range w.mean {
		if w.lost[i] != Kept {
			continue
		}
		if highest = max(highest, h); h < highest && h > highest-w.t.rowOf(thick) {
			w.sd[i] = math.Hypot(w.sd[i], w.t.rowOf(sd))
		}
	}
}

// goesAlong is how far the moves of dough have been from those of its surface, in parts of them and
// in the middle of all that have moved at all: its texture could be a print on the glass, or hang
// on to it. It is false where too few have moved to tell, or it is too far.
func goesAlong(flows []flow, heights []float64) (off float64, ok bool) {
	const moved, most, least = 3.0, 0.3, 8 // rows, of them, pairs
	var offs []float64
	for _, f := range flows {
		if d := heights[f.to] - heights[f.from]; math.Abs(d) >= moved {
			offs = append(offs, math.Abs(heights[f.from]*(f.ratio-1)/d-1))
		}
	}
	off = median(offs)
	return off, len(offs) >= least && off < most
}

// lessStill takes from the texture of each cell what it shows whichever dough is behind it, such as
// a label, a scratch or a light in the glass: its mean over all pictures in which it was well below the
// surface, in which each height of that counts alike, since a dough that stays shows the same, too.
func (t *Tracker) lessStill(texture [][]float32, kept, path []int) {
	const under, least = 3, 6
	times := make([]int, t.rows+1)
	for _, i := range kept {
		times[path[i]]++
	}
	for r := range t.rows {
		heights := 0
		for h := r + under; h < len(times); h++ {
			if times[h] > 0 {
				heights++
			}
		}
		if heights < least {
			continue
		}
		for c := range columns {
			sum := float32(0)
			for a, i := range kept {
				if path[i] >= r+under {
					sum += texture[a][r*columns+c] / float32(times[path[i]])
				}
			}
			for a := range kept {
				texture[a][r*columns+c] -= sum / float32(heights)
			}
		}
	}
}

// textureOf is how each cell differs from those above and below it: with what is usual there, light
// is taken off, and whatever shines from top to bottom.
func (t *Tracker) textureOf(l *lit) []float32 {
	const around = 6
	out := make([]float32, len(l.cells))
	sums := make([]float32, t.rows+1)
	smooth := make([]float32, t.rows)
	for c := range columns {
		at := func(r int) float32 { return l.cells[max(0, min(t.rows-1, r))*columns+c].Luma }
		for r := range smooth {
			smooth[r] = (at(r-1) + 2*at(r) + at(r+1)) / 4
			sums[r+1] = sums[r] + smooth[r]
		}
		for r := range smooth {
			from, to := max(0, r-around), min(t.rows, r+around+1)
			out[r*columns+c] = smooth[r] - (sums[to]-sums[from])/float32(to-from)
		}
	}
	return out
}

// stretch lays the texture of dough that stands so high over that of a later picture, stretched from
// the bottom up, and gives the ratio by which they are most alike (normalised correlation; Lewis 1995,
// Vision Interface, 120, from memory), near that of the heights. sd is what that leaves open of the
// later height, from how sharp and how high the correlation is. It is false where they are not alike.
func (t *Tracker) stretch(a, b []float32, dead []mute, from, to float64) (ratio, sd float64, ok bool) {
	const (
		under  = 12 // rows below the surface, where there may be a film over the dough
		least  = 16 // rows
		reach  = 6  // rows of the later height
		finest = 0.25
		alike  = 0.5
		blind  = 5    // of so many rows one tells something of its own
		slack  = 0.15 // rows by which a dough moves otherwise than by one ratio
	)
	top := int(min(from, to)) - under
	if top < least {
		return 0, 0, false
	}
	cells := 0
	like := func(height float64) float64 {
		var ab, aa, bb float32
		cells = 0
		for r := 2; r < top; r++ {
			y := (float64(r)+0.5)*height/from - 0.5
			iy := int(y)
			if y < 0 || iy+1 >= t.rows {
				continue
			}
			part := float32(y - float64(iy))
			for c := range columns {
				i, k := r*columns+c, iy*columns+c
				if dead[i] != 0 || dead[k] != 0 {
					continue
				}
				p, q := a[i], b[k]+part*(b[k+columns]-b[k])
				ab, aa, bb, cells = ab+p*q, aa+p*p, bb+q*q, cells+1
			}
		}
		if aa == 0 || bb == 0 {
			return 0
		}
		return float64(ab) / math.Sqrt(float64(aa)*float64(bb))
	}
	best := 0.0
	for _, step := range []float64{1, finest} {
		middle, most, far := best, math.Inf(-1), reach
		if step < 1 {
			far = int(1 / step)
		}
		for k := -far; k <= far; k++ {
			off := middle + float64(k)*step
			if l := like(to + off); l > most {
				best, most = off, l
			}
		}
	}
	if math.Abs(best) > reach {
		return 0, 0, false
	}
	lower, most, upper := like(to+best-finest), like(to+best), like(to+best+finest)
	bend := 2*most - lower - upper
	if most < alike || bend <= 0 {
		return 0, 0, false
	}
	at := to + best + finest*(upper-lower)/(2*bend)
	sd = finest * math.Sqrt((1-most*most)/(most*bend*float64(cells)/blind))
	return at / from, math.Hypot(slack, 2*sd), true
}
