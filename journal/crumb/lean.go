package crumb

import "math"

// leanOf is by how much the floors of the whole cells slope, all to the same side: the
// mean over their area of how much brighter a cell is at one side than at the other, as a share of how
// deep cells are. Each floor is taken for the plane that fits it best.
func (f *Prepared) leanOf(labels []int32, regions []region) float64 {
	type moment struct{ n, v, x, y, vx, vy float64 }
	of := make([]moment, len(regions)+1)
	for y := 0; y < f.h; y += 2 {
		for x := 0; x < f.w; x += 2 {
			if l := labels[y*f.w+x]; l != 0 {
				m, v := &of[l], float64(f.rel[y*f.w+x])
				dx, dy := float64(x)-regions[l-1].X, float64(y)-regions[l-1].Y
				m.n++
				m.v += v
				m.x += dx
				m.y += dy
				m.vx += v * dx
				m.vy += v * dy
			}
		}
	}
	x, y, area := 0.0, 0.0, 0.0
	for i, g := range regions {
		m := of[i+1]
		if m.n == 0 || g.AtEdge || g.Minor == 0 {
			continue
		}
		// Along the ellipse's axes the slope is the covariance over the variance.
		sin, cos := math.Sincos(-g.Angle)
		cx, cy := (m.vx-m.v*m.x/m.n)/m.n, (m.vy-m.v*m.y/m.n)/m.n
		long, short := (cx*cos+cy*sin)*16/(g.Major*g.Major), (cy*cos-cx*sin)*16/(g.Minor*g.Minor)
		k := float64(g.Area) * g.equivalentDiameter()
		area += float64(g.Area)
		x += k * (long*cos - short*sin)
		y += k * (long*sin + short*cos)
	}
	if area == 0 || f.levels.wall <= f.levels.cell {
		return 0
	}
	return math.Hypot(x, y) / area / (f.levels.wall - f.levels.cell)
}
