package charts

import "math"

// finite reports whether a value can be drawn. What lies beyond a million
// billion is a slip of the keyboard, and would drown every other value.
func finite(v float64) bool { return math.Abs(v) <= 1e15 }

// span is the range of the values it was shown.
type span struct {
	lo, hi float64
	any    bool
}

func (s *span) add(vs ...float64) {
	for _, v := range vs {
		if !finite(v) {
			continue
		}
		if !s.any {
			s.lo, s.hi, s.any = v, v, true
			continue
		}
		s.lo, s.hi = min(s.lo, v), max(s.hi, v)
	}
}

// extent is the range an axis covers, never empty: fixed, or what the data and
// Include need. Values that are all alike get room to both sides.
func (a Axis) extent(data span) (lo, hi float64) {
	if a.Max > a.Min {
		return a.Min, a.Max
	}
	data.add(a.Include...)
	lo, hi = data.lo, data.hi
	if middle := (lo + hi) / 2; hi-lo <= math.Abs(middle)*1e-12 || hi-lo < 1e-12 {
		room := max(0.5, math.Abs(middle)*0.05)
		switch {
		case a.Zone != nil:
			room = 3600
		case a.Whole:
			room = max(1, math.Ceil(room))
		}
		return middle - room, middle + room
	}
	return lo, hi
}

// widened is extent grown to whole ticks, so that no point sits on the rim.
// A value of Include that bounds the data stays the bound.
func (a Axis) widened(data span, want int) (lo, hi float64) {
	lo, hi = a.extent(data)
	if a.Max > a.Min {
		return lo, hi
	}
	step := tickStep(lo, hi, want, a.Whole)
	down, up := math.Floor(lo/step+1e-9)*step, math.Ceil(hi/step-1e-9)*step
	for _, v := range a.Include {
		if v == lo {
			down = lo
		}
		if v == hi {
			up = hi
		}
	}
	return down, up
}

// scale maps values to layout units.
type scale struct {
	lo, hi     float64 // values
	start, end float64 // where they lie
}

func (s scale) at(v float64) float64 {
	return s.start + (v-s.lo)/(s.hi-s.lo)*(s.end-s.start)
}

func (s scale) holds(v float64) bool {
	slack := (s.hi - s.lo) * 1e-9
	return finite(v) && v >= s.lo-slack && v <= s.hi+slack
}

// clipSegment cuts a segment to a rectangle (Liang and Barsky, 1984). It
// reports false when nothing is left.
func clipSegment(a, b point, r rect) (point, point, bool) {
	t0, t1 := 0.0, 1.0
	dx, dy := b.x-a.x, b.y-a.y
	for _, e := range [4][2]float64{{-dx, a.x - r.x}, {dx, r.right() - a.x}, {-dy, a.y - r.y}, {dy, r.bottom() - a.y}} {
		p, q := e[0], e[1]
		if p == 0 {
			if q < 0 {
				return a, b, false
			}
			continue
		}
		t := q / p
		if p < 0 {
			t0 = max(t0, t)
		} else {
			t1 = min(t1, t)
		}
	}
	if t0 > t1 {
		return a, b, false
	}
	return point{a.x + t0*dx, a.y + t0*dy}, point{a.x + t1*dx, a.y + t1*dy}, true
}

// clipLine cuts a line to a rectangle and gives the pieces left of it.
func clipLine(pts []point, r rect) [][]point {
	var out [][]point
	var piece []point
	for i := 1; i < len(pts); i++ {
		a, b, ok := clipSegment(pts[i-1], pts[i], r)
		if !ok {
			continue
		}
		if len(piece) > 0 && piece[len(piece)-1] != a {
			out, piece = append(out, piece), nil
		}
		if len(piece) == 0 {
			piece = append(piece, a)
		}
		piece = append(piece, b)
	}
	if len(piece) > 1 {
		out = append(out, piece)
	}
	return out
}

// clipArea cuts a polygon to a rectangle (Sutherland and Hodgman, 1974).
func clipArea(pts []point, r rect) []point {
	sides := []struct {
		in  func(point) bool
		cut func(a, b point) point
	}{
		{func(p point) bool { return p.x >= r.x }, cutAtX(r.x)},
		{func(p point) bool { return p.x <= r.right() }, cutAtX(r.right())},
		{func(p point) bool { return p.y >= r.y }, cutAtY(r.y)},
		{func(p point) bool { return p.y <= r.bottom() }, cutAtY(r.bottom())},
	}
	for _, side := range sides {
		var kept []point
		for i, p := range pts {
			last := pts[(i+len(pts)-1)%len(pts)]
			if side.in(p) != side.in(last) {
				kept = append(kept, side.cut(last, p))
			}
			if side.in(p) {
				kept = append(kept, p)
			}
		}
		pts = kept
	}
	return pts
}

func cutAtX(x float64) func(a, b point) point {
	return func(a, b point) point { return point{x, a.y + (b.y-a.y)*(x-a.x)/(b.x-a.x)} }
}

func cutAtY(y float64) func(a, b point) point {
	return func(a, b point) point { return point{a.x + (b.x-a.x)*(y-a.y)/(b.y-a.y), y} }
}
