package jar

import (
	"math"
	"time"

	"gonum.org/v1/gonum/mat"
)

// leastPeak is how much a peak has to stand above the level.
const leastPeak = 0.12

// Peak is when the curve was highest, and how high, from all points about it by weighted
// least squares: of single pictures the highest is high by chance.
// It is false where nothing rose, and where it was highest at the very end, so that it
// may rise on.
func (c Curve) Peak() (at time.Time, rise float64, ok bool) {
	best := -1
	for i, p := range c.Points {
		if p.Lost == Kept && (best < 0 || p.Rise > c.Points[best].Rise) {
			best = i
		}
	}
	if best < 0 || c.Points[best].Rise < 1+leastPeak {
		return at, 0, false
	}
	top := c.Points[best]
	low := top.Rise - max(4*top.SD, 0.2*(top.Rise-1))
	var points []Point
	far := func(step int) {
		for i := best + step; i >= 0 && i < len(c.Points); i += step {
			switch p := c.Points[i]; {
			case p.Lost != Kept:
			case p.Rise < low:
				return
			default:
				points = append(points, p)
			}
		}
	}
	far(-1)
	before := len(points)
	far(1)
	if len(points) == before && !c.fell(best) {
		return at, 0, false
	}
	points = append(points, top)
	return turn(points, top)
}

// fell reports whether a point is known after one that is lower.
func (c Curve) fell(i int) bool {
	for _, p := range c.Points[i+1:] {
		if p.Lost == Kept && p.Rise < c.Points[i].Rise-3*p.SD {
			return true
		}
	}
	return false
}

// turn finds the moment at which the points turn from rising to falling: the vertex of a
// parabola through them, or, where that fits them much better, the one at which a curve
// that bends towards it before breaks away after. A dough rises ever more slowly, and may
// fall at once.
func turn(points []Point, top Point) (time.Time, float64, bool) {
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
		return top.At, top.Rise, true
	}
	unit := last.Sub(first)
	at, rise, best := rounded(points, first, unit)
	// A break has more to fit with: it has to fit much better.
	const better = 15
	best -= better
	for k := range steps + 1 {
		when := first.Add(unit * time.Duration(k) / steps)
		height, miss, ok := turned(points, when, unit)
		if ok && miss < best {
			at, rise, best = when, height, miss
		}
	}
	return at, rise, true
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
	left := []bool{true, true, true, true} // the terms that are in
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
			all := [4]float64{1, -before * before, -after, -after * after}
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
