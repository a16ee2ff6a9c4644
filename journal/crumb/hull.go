package crumb

import (
	"math"
	"slices"
)

// solidity is the share of its convex hull that a mask fills.
func solidity(mask []bool, w, h, px int) float64 {
	return float64(px) / math.Max(1, math.Abs(hullOf(mask, w, h).area()))
}

// rectangular is the share that an outline takes of the smallest rectangle round it, however that
// lies: 1 for a board, 0.79 for a disc.
func rectangular(o Outline) float64 {
	least := math.Inf(1)
	for degrees := range 90 {
		sin, cos := math.Sincos(float64(degrees) * math.Pi / 180)
		lo, hi := Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
		for _, p := range o {
			u, v := p.X*cos+p.Y*sin, p.Y*cos-p.X*sin
			lo, hi = Point{math.Min(lo.X, u), math.Min(lo.Y, v)}, Point{math.Max(hi.X, u), math.Max(hi.Y, v)}
		}
		least = math.Min(least, (hi.X-lo.X)*(hi.Y-lo.Y))
	}
	return math.Abs(o.area()) / math.Max(least, 1)
}

// hullOf is the convex hull of a mask.
func hullOf(mask []bool, w, h int) Outline {
	var upper, lower []Point // monotone chain over the ends of each row
	var pts []Point
	for y := range h {
		first, last := -1, -1
		for x := range w {
			if mask[y*w+x] {
				if first < 0 {
					first = x
				}
				last = x
			}
		}
		if first >= 0 {
			for _, yy := range [2]float64{float64(y), float64(y + 1)} {
				pts = append(pts, Point{float64(first), yy}, Point{float64(last + 1), yy})
			}
		}
	}
	slices.SortFunc(pts, func(a, b Point) int {
		if a.X != b.X {
			return int(a.X - b.X)
		}
		return int(a.Y - b.Y)
	})
	turn := func(o, a, b Point) float64 { return (a.X-o.X)*(b.Y-o.Y) - (a.Y-o.Y)*(b.X-o.X) }
	chain := func(c []Point, p Point) []Point {
		for len(c) > 1 && turn(c[len(c)-2], c[len(c)-1], p) <= 0 {
			c = c[:len(c)-1]
		}
		return append(c, p)
	}
	for i, p := range pts {
		lower = chain(lower, p)
		upper = chain(upper, pts[len(pts)-1-i])
	}
	return append(Outline(lower), upper...)
}
