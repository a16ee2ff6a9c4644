package crumb

import (
	"math"
	"slices"
)

// A ground is the colour of what the slice lies on, as a plane in each channel.
type ground struct {
	w, h   int
	plane  [3][3]float64 // value = p0 + p1 x + p2 y
	spread float64       // typical distance of the border from the plane
	fits   float64       // share of the border that belongs to it
}

func (g *ground) distance(rgb []uint8, x, y int) float64 {
	i := 3 * (y*g.w + x)
	sum := 0.0
	for k, p := range g.plane {
		d := float64(rgb[i+k]) - (p[0] + p[1]*float64(x) + p[2]*float64(y))
		sum += d * d
	}
	return math.Sqrt(sum)
}

// newGround fits the plane to the border, each time to the better part of it,
// so that a slice that runs out of the picture does not spoil the fit.
func newGround(rgb []uint8, w, h int) *ground {
	g := &ground{w: w, h: h}
	var border [][2]int
	m := max(2, min(w, h)/40)
	for y := range h {
		for x := range w {
			if x < m || y < m || x >= w-m || y >= h-m {
				border = append(border, [2]int{x, y})
			}
		}
	}
	g.start(rgb, border)
	used := border
	dist := make([]float64, len(border))
	for round := range 6 {
		for i, p := range border {
			dist[i] = g.distance(rgb, p[0], p[1])
		}
		sorted := slices.Clone(dist)
		slices.Sort(sorted)
		g.spread = sorted[len(sorted)*45/100]
		limit := math.Max(10, 3*g.spread)
		used = used[:0:0]
		for i, p := range border {
			if dist[i] <= limit {
				used = append(used, p)
			}
		}
		g.fits = float64(len(used)) / float64(len(border))
		if round < 5 {
			g.fit(rgb, used)
		}
	}
	return g
}

func (g *ground) start(rgb []uint8, border [][2]int) {
	for k := range 3 {
		v := make([]float32, len(border))
		for i, p := range border {
			v[i] = float32(rgb[3*(p[1]*g.w+p[0])+k])
		}
		g.plane[k] = [3]float64{float64(median(v)), 0, 0}
	}
}

// fit is the least-squares plane through the border pixels in use.
func (g *ground) fit(rgb []uint8, used [][2]int) {
	if len(used) < 12 {
		return
	}
	for k := range 3 {
		var a [3][4]float64
		for _, p := range used {
			row := [4]float64{1, float64(p[0]), float64(p[1]), float64(rgb[3*(p[1]*g.w+p[0])+k])}
			for i := range 3 {
				for j := range 4 {
					a[i][j] += row[i] * row[j]
				}
			}
		}
		if x, ok := solve3(a); ok {
			g.plane[k] = x
		}
	}
}

// solve3 is Gaussian elimination with pivoting.
func solve3(a [3][4]float64) (x [3]float64, ok bool) {
	for c := range 3 {
		p := c
		for r := c + 1; r < 3; r++ {
			if math.Abs(a[r][c]) > math.Abs(a[p][c]) {
				p = r
			}
		}
		if math.Abs(a[p][c]) < 1e-9 {
			return x, false
		}
		a[c], a[p] = a[p], a[c]
		for r := range 3 {
			if r == c {
				continue
			}
			k := a[r][c] / a[c][c]
			for j := c; j < 4; j++ {
				a[r][j] -= k * a[c][j]
			}
		}
	}
	return [3]float64{a[0][3] / a[0][0], a[1][3] / a[1][1], a[2][3] / a[2][2]}, true
}
