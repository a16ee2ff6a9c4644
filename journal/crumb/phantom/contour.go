package phantom

import "math"

// farMM is the distance beyond which it does not matter how far a place lies from
// the outline, since no shadow falls as far; nor does it at four crusts' depth.
const farMM = 12.0

// fillGrid writes the signed distance to the outline on a coarse grid.
func (f *form) fillGrid() {
	const margin = 12
	f.step = 1
	f.x0, f.y0 = f.lo.X-margin, f.lo.Y-margin
	f.w = int((f.hi.X-f.lo.X+2*margin)/f.step) + 2
	f.h = int((f.hi.Y-f.lo.Y+2*margin)/f.step) + 2
	f.dist = make([]float32, f.w*f.h)
	c := newContour(f.outline)
	far := math.Max(farMM, 4*f.crust)
	rows(f.h, func(j int) {
		y := f.y0 + float64(j)*f.step
		crossings := c.crossings(y)
		d := math.Inf(1)
		for i := range f.w {
			x := f.x0 + float64(i)*f.step
			// From one place to the next it grows by no more than the step.
			d = c.distance(x, y, math.Min(math.Abs(d)+f.step, far))
			if oddBeyond(crossings, x) {
				d = -d
			}
			f.dist[j*f.w+i] = float32(d)
		}
	})
}

// A contour is a closed polygon that can be asked for distances quickly.
type contour struct {
	pts   []Point   // the first again at the end
	along []float64 // way along the polygon up to each point
}

func newContour(poly []Point) *contour {
	c := &contour{pts: append(append([]Point{}, poly...), poly[0]), along: make([]float64, len(poly)+1)}
	for i := range poly {
		c.along[i+1] = c.along[i] + math.Hypot(c.pts[i+1].X-c.pts[i].X, c.pts[i+1].Y-c.pts[i].Y)
	}
	return c
}

// distance is how far a place lies from the polygon, or most if that is less. From
// a corner at distance d nothing closer than the best so far can come within d less
// the best of way, so that most edges need not be looked at.
func (c *contour) distance(x, y, most float64) float64 {
	best := most
	last := len(c.pts) - 1
	for i := 0; i < last; {
		a := c.pts[i]
		wx, wy := x-a.X, y-a.Y
		free := c.along[i] + math.Sqrt(wx*wx+wy*wy) - best
		if c.along[i+1] <= free {
			for i++; i < last && c.along[i+1] <= free; i++ {
			}
			continue
		}
		ex, ey := c.pts[i+1].X-a.X, c.pts[i+1].Y-a.Y
		t := max(0, min(1, (wx*ex+wy*ey)/(ex*ex+ey*ey+1e-12)))
		wx, wy = wx-ex*t, wy-ey*t
		best = min(best, math.Sqrt(wx*wx+wy*wy))
		i++
	}
	return best
}

// crossings are the places where the polygon crosses a level.
func (c *contour) crossings(y float64) []float64 {
	var out []float64
	for i, a := range c.pts[1:] {
		if b := c.pts[i]; (a.Y > y) != (b.Y > y) {
			out = append(out, (b.X-a.X)*(y-a.Y)/(b.Y-a.Y)+a.X)
		}
	}
	return out
}

// oddBeyond tells whether a place lies within what is crossed there.
func oddBeyond(crossings []float64, x float64) bool {
	in := false
	for _, at := range crossings {
		if x < at {
			in = !in
		}
	}
	return in
}
