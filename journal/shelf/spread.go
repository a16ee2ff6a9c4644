package shelf

import (
	"math"
	"slices"
)

// A Spread is how a figure runs, in bins of one width.
type Spread struct {
	Edges  []float64 // rising, one more than Counts
	Counts []float64
	Least  float64 // of the rows seen
	Most   float64
	N      int // rows seen that have the figure
}

// How many bins a spread has.
const (
	fewestBins = 5
	mostBins   = 20
)

// Spread counts how a figure runs among the rows that all other parts of the
// filter let through. The bins are laid over every row of the shelf, so that they
// stay where they are while the filter changes; the outermost half percent at either
// end is counted into the end bins, so that one slip of the pen does not squeeze
// all else into one bin.
func (l *View) Spread(f Metric) Spread {
	col := l.shelf.figures[f]
	out := Spread{Edges: l.shelf.edgesOf(f)}
	if out.Edges == nil {
		return out
	}
	out.Counts = make([]float64, len(out.Edges)-1)
	low, width := out.Edges[0], out.Edges[1]-out.Edges[0]
	l.shelf.except(l.parts, byMetric(f)).each(func(i int) {
		v := col[i]
		if v != v {
			return
		}
		bin := int(math.Floor((v-low)/width + slack))
		out.Counts[max(0, min(bin, len(out.Counts)-1))]++
		if out.N == 0 || v < out.Least {
			out.Least = v
		}
		if out.N == 0 || v > out.Most {
			out.Most = v
		}
		out.N++
	})
	return out
}

// Bin is the range that holds just what bin i of the spread of a figure counts.
func (s Spread) Bin(f Metric, i int) Range {
	low, high, below := s.Edges[i], s.Edges[i+1], true
	if i == 0 {
		low = min(low, s.Least)
	}
	if f.IsScore() { // in whole numbers
		high, below = high-1, false
	}
	if i == len(s.Counts)-1 {
		high, below = max(high, s.Most), false
	}
	return Range{Figure: f, AtLeast: &low, AtMost: &high, Below: below}
}

// edgesOf lays the bins of a figure, once.
func (s *Shelf) edgesOf(f Metric) []float64 {
	s.laying.Lock()
	defer s.laying.Unlock()
	out, laid := s.edges[f]
	if !laid {
		out = edges(s.figures[f])
		s.edges[f] = out
	}
	return out
}

// edges lays bins of a round width over the figures; nil when there are none.
func edges(col []float64) []float64 {
	seen := slices.DeleteFunc(slices.Clone(col), func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) })
	if len(seen) == 0 {
		return nil
	}
	slices.Sort(seen)
	cut := len(seen) / 200
	low, high := seen[cut], seen[len(seen)-1-cut]
	width := roundUp((high - low) / (mostBins - 2))
	if width < 1 && !slices.ContainsFunc(seen, func(v float64) bool { return v != math.Trunc(v) }) {
		width = 1 // what comes in whole numbers has no bins between them
	}
	first := math.Floor(low/width) * width
	n := int(math.Floor((high-first)/width)) + 1
	for below := true; n < fewestBins; n, below = n+1, !below { // figures all alike make no slab
		if below && (first >= width || low < 0) {
			first -= width
		}
	}
	out := make([]float64, n+1)
	for i := range out {
		out[i] = first + float64(i)*width
	}
	return out
}

// roundUp gives the next width that is 1, 2 or 5 times a power of ten.
func roundUp(w float64) float64 {
	if w <= 0 {
		return 1
	}
	power := math.Pow(10, math.Floor(math.Log10(w)))
	for _, k := range []float64{1, 2, 5, 10} {
		if w <= k*power*(1+slack) {
			return k * power
		}
	}
	return 10 * power
}
