package jar

import (
	"math"
	"time"

	"gonum.org/v1/gonum/mat"
)

// leastPeak is how much a peak has to stand above the level.
const leastPeak = 0.12

// Peak is when the curve was highest, and how high, by a parabola through the points
// about it (weighted least squares): of single pictures the highest is high by chance.
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
	low := top.Rise - max(3*top.SD, 0.03*(top.Rise-1))
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
	return vertexOf(points, top)
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

// vertexOf is where the parabola through points is highest, or the highest of them
// where it is not between them.
func vertexOf(points []Point, top Point) (time.Time, float64, bool) {
	first, last := top.At, top.At
	for _, p := range points {
		if p.At.Before(first) {
			first = p.At
		}
		if p.At.After(last) {
			last = p.At
		}
	}
	unit := last.Sub(first).Hours()
	if len(points) < 4 || unit == 0 {
		return top.At, top.Rise, true
	}
	a, b := mat.NewDense(len(points), 3, nil), mat.NewVecDense(len(points), nil)
	for i, p := range points {
		w, x := 1/p.SD, p.At.Sub(top.At).Hours()/unit
		a.SetRow(i, []float64{w, w * x, w * x * x})
		b.SetVec(i, w*p.Rise)
	}
	var fit mat.VecDense
	if err := fit.SolveVec(a, b); err != nil || fit.AtVec(2) >= 0 {
		return top.At, top.Rise, true
	}
	x := -fit.AtVec(1) / (2 * fit.AtVec(2))
	at := top.At.Add(time.Duration(x * unit * float64(time.Hour)))
	if at.Before(first) || at.After(last) || math.IsNaN(x) {
		return top.At, top.Rise, true
	}
	return at, fit.AtVec(0) + fit.AtVec(1)*x + fit.AtVec(2)*x*x, true
}
