package jar

import (
	"math"
	"slices"
	"time"

	"gonum.org/v1/gonum/mat"
)

// leastPeak is how much a peak has to stand above the level.
const leastPeak = 0.12

// A Peak is when a curve was highest, and how high.
type Peak struct {
	At   time.Time
	Rise float64
	// From and To are between which it was: about every moment that would fit the points
	// almost as well, and no less than from the picture before At to the one after that have
	// a height, nor than one picture's time to either side. A peak in a gap is somewhere in it.
	From, To time.Time
	// Unseen is set where a stretch between them has no height, longer than one lost picture
	// makes it: it may have been then, and higher than anything that was seen.
	Unseen bool
}

// Peak is found from all points about the highest by weighted least squares: of single
// pictures the highest is high by chance.
// It is false where nothing rose, and where it was highest at the very end, so that it
// may rise on.
func (c Curve) Peak() (peak Peak, ok bool) {
	best := -1
	for i, p := range c.Points {
		if p.Lost == Kept && (best < 0 || p.Rise > c.Points[best].Rise) {
			best = i
		}
	}
	if best < 0 || c.Points[best].Rise < 1+leastPeak {
		return Peak{}, false
	}
	top := c.Points[best]
	low := top.Rise - max(4*top.SD, 0.2*(top.Rise-1))
	var points []Point
	far := func(step int) {
		const least, leastUnder = 4, 2 // what falls fast is low within a picture or two
		n, under := 0, 0
		for i := best + step; i >= 0 && i < len(c.Points); i += step {
			p := c.Points[i]
			if p.Lost != Kept {
				continue
			}
			if p.Rise < low {
				if n >= least && under >= leastUnder {
					return
				}
				under++
			}
			points, n = append(points, p), n+1
		}
	}
	far(-1)
	before := len(points)
	far(1)
	if len(points) == before && !c.fell(best) {
		return Peak{}, false
	}
	points = append(points, top)
	peak = turn(points, top)
	usual := c.usual()
	from, to := c.around(peak.At, usual)
	peak.From, peak.To, peak.Unseen = c.gap(earlier(peak.From, from), later(peak.To, to), usual)
	return peak, true
}

// usual is the usual time between two pictures; 0 with one.
func (c Curve) usual() time.Duration {
	if len(c.Points) < 2 {
		return 0
	}
	apart := make([]time.Duration, len(c.Points)-1)
	for i := range apart {
		apart[i] = c.Points[i+1].At.Sub(c.Points[i].At)
	}
	slices.Sort(apart)
	return apart[len(apart)/2]
}

// gap is the time from one moment to another with all of a gap that it touches, and whether there
// is one: two heights that follow each other much further apart than is usual. A peak at the brink
// of a gap may as well have been in it.
func (c Curve) gap(from, to time.Time, usual time.Duration) (time.Time, time.Time, bool) {
	const longer = 5 // halves of what is usual: a clock that is not quite regular makes no gap
	begin, end, touched := from, to, false
	var before time.Time
	for _, p := range c.Points {
		if p.Lost != Kept {
			continue
		}
		if !before.IsZero() && before.Before(to) && p.At.After(from) && 2*p.At.Sub(before) > longer*usual {
			begin, end, touched = earlier(begin, before), later(end, p.At), true
		}
		before = p.At
	}
	return begin, end, touched
}

// around is from the picture with a height before a moment to the one after, and at least one
// usual time between two pictures to either side.
func (c Curve) around(at time.Time, usual time.Duration) (from, to time.Time) {
	from, to = at.Add(-usual), at.Add(usual)
	before := from
	for _, p := range c.Points {
		switch {
		case p.Lost != Kept:
		case p.At.Before(at):
			before = p.At
		case p.At.After(at):
			return earlier(from, before), later(to, p.At)
		}
	}
	return earlier(from, before), to
}

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// fell reports whether a point is known after one that is lower.
func (c Curve) fell(i int) bool {
	return slices.ContainsFunc(c.Points[i+1:], func(p Point) bool { return p.Lost == Kept && p.Rise < c.Points[i].Rise-3*p.SD })
}

// turn finds the moment at which the points turn from rising to falling: the vertex of a
// parabola through them, or, where that fits them much better, the one at which a curve
// breaks away. A dough rises straight or ever more slowly, and may fall at once, ever faster or
// ever more slowly. From and To hold the moments at which such a curve could turn, too: those
// that miss the points by 4 more in squares at the most, as two standard deviations do
// (the profile of the likelihood; Cox & Snell 1989, Analysis of Binary Data, from memory).
func turn(points []Point, top Point) Peak {
	first, last := top.At, top.At
	for _, p := range points {
		if p.At.Before(first) {
			first = p.At
		}
		if p.At.After(last) {
			last = p.At
		}
	}
	const least, steps = 5, 120
	if len(points) < least {
		return Peak{At: top.At, Rise: top.Rise, From: first, To: last}
	}
	unit := last.Sub(first)
	at, rise, best := rounded(points, first, unit)
	var misses, heights [steps + 1]float64
	fits, fit := math.Inf(1), 0
	moment := func(k int) time.Time { return first.Add(unit * time.Duration(k) / steps) }
	for k := range misses {
		height, miss, ok := turned(points, moment(k), unit)
		if !ok {
			miss = math.Inf(1)
		}
		if heights[k], misses[k] = height, miss; miss < fits {
			fits, fit = miss, k
		}
	}
	// Much of what is stated of each height is common to all and tells nothing of when: they
	// scatter by less about the curve. Neighbours err alike, so that fewer of them count.
	const terms, alike = 5, 6
	scatter := min(1, max(1e-3, alike*fits/max(1, float64(len(points)-terms))))
	// A break has more to fit with: it has to fit much better.
	const better = 21
	if best-fits > better*scatter {
		at, rise = moment(fit), heights[fit]
	}
	out := Peak{At: at, Rise: rise, From: at, To: at}
	for k, miss := range misses {
		if miss > fits+4*scatter {
			continue
		}
		if m := moment(k); m.Before(out.From) {
			out.From = m
		} else if m.After(out.To) {
			out.To = m
		}
	}
	return out
}

// rounded is the vertex of the parabola through points, with the sum of squares that is
// left: infinite where it has none among them.
func rounded(points []Point, first time.Time, unit time.Duration) (at time.Time, rise, miss float64) {
	a, b := mat.NewDense(len(points), 3, nil), mat.NewVecDense(len(points), nil)
	for i, p := range points {
		x := float64(p.At.Sub(first)) / float64(unit)
		a.SetRow(i, []float64{1 / p.SD, x / p.SD, x * x / p.SD})
		b.SetVec(i, p.Rise/p.SD)
	}
	var fit, rest mat.VecDense
	if err := fit.SolveVec(a, b); err != nil || fit.AtVec(2) >= 0 {
		return first, 0, math.Inf(1)
	}
	x := -fit.AtVec(1) / (2 * fit.AtVec(2))
	if x < 0 || x > 1 {
		return first, 0, math.Inf(1)
	}
	rest.MulVec(a, &fit)
	rest.SubVec(&rest, b)
	return first.Add(time.Duration(x * float64(unit))), fit.AtVec(0) + fit.AtVec(1)*x/2, mat.Dot(&rest, &rest)
}

// turned fits the curve with its turn at a moment and gives its height there and the sum
// of squares that is left. What would rise after the turn, or fall before it, is left out.
func turned(points []Point, when time.Time, unit time.Duration) (height, miss float64, ok bool) {
	longest := 0.0
	for _, p := range points {
		longest = max(longest, float64(p.At.Sub(when))/float64(unit))
	}
	left := []bool{true, true, true, true, true} // the terms that are in
	for {
		var terms []int
		for i, in := range left {
			if in {
				terms = append(terms, i)
			}
		}
		a, b := mat.NewDense(len(points), len(terms), nil), mat.NewVecDense(len(points), nil)
		for i, p := range points {
			x := float64(p.At.Sub(when)) / float64(unit)
			after, before := max(0, x), max(0, -x)
			all := [...]float64{1, -before, -before * before, -after * after, after * (after - 2*longest)}
			for k, term := range terms {
				a.Set(i, k, all[term]/p.SD)
			}
			b.SetVec(i, p.Rise/p.SD)
		}
		var fit, rest mat.VecDense
		if err := fit.SolveVec(a, b); err != nil {
			// Nothing lies on one side of the moment: its terms go.
			if len(terms) == 1 {
				return 0, 0, false
			}
			left[terms[len(terms)-1]] = false
			continue
		}
		wrong := -1
		for k, term := range terms {
			if term > 0 && fit.AtVec(k) < 0 && (wrong < 0 || fit.AtVec(k) < fit.AtVec(wrong)) {
				wrong = k
			}
		}
		if wrong >= 0 {
			left[terms[wrong]] = false
			continue
		}
		rest.MulVec(a, &fit)
		rest.SubVec(&rest, b)
		return fit.AtVec(0), mat.Dot(&rest, &rest), true
	}
}
