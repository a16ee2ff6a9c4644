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

	streaked bool // its own light varies, as that of brushed metal or of grained wood does
}

// shadeWeight is how much darkening alone counts as distance, and deepShade the share
// of the ground's light below which it counts in full: no shadow on a table is as deep.
const (
	shadeWeight = 0.06
	deepShade   = 0.08
	lightWeight = 0.2   // how much being lighter alone counts, on what is streaked
	burntOut    = 238.0 // grey level
	noisyShade  = 0.6   // of the ground's light: in what is darker, noise may look like another colour
)

// distance is how unlike the ground a colour is. A shadow takes the same share of red,
// green and blue: what is the ground's colour, only darker, is hardly another colour
// (the model of Horprasert, Harwood & Davis 1999, from memory; the weights are our own).
// It gives the share of the ground's light that the colour has, too.
func (g *ground) distance(c []uint8, x, y int) (off, share float64) {
	var own [3]float64
	along, whole, sum := 0.0, 0.0, 0.0
	for k, p := range g.plane {
		own[k] = math.Max(1, p[0]+p[1]*float64(x)+p[2]*float64(y))
		v := float64(c[k])
		along += v * own[k]
		whole += own[k] * own[k]
		sum += (v - own[k]) * (v - own[k])
	}
	share = along / whole
	if min(own[0], own[1], own[2]) > burntOut {
		return math.Sqrt(sum), share // on what is burnt out to white, white bread is only darker
	}
	if share < deepShade || share >= 1 && !g.streaked {
		return math.Sqrt(sum), share
	}
	beside := 0.0
	for k := range own {
		d := float64(c[k]) - share*own[k]
		beside += d * d
	}
	if share >= 1 {
		light := (share - 1) * math.Sqrt(whole) * lightWeight
		return math.Sqrt(beside + light*light), share
	}
	dark := (1 - share) * math.Sqrt(whole) * shadeWeight
	// A colour in the shade is as far from the ground as it would be in the light.
	return math.Sqrt(beside/(share*share) + dark*dark), share
}

// calm is the median of nine colours about a place. In the shade a camera's noise is as strong as in the
// light, and distance makes it stronger: of single pixels a tongue of the slice's shadow may look like a part
// of the slice, of nine it does not.
func (g *ground) calm(rgb []uint8, x, y int) (c [3]uint8) {
	for k := range c {
		var v [9]uint8
		n := 0
		for yy := max(0, y-2); yy <= min(g.h-1, y+2); yy += 2 {
			for xx := max(0, x-2); xx <= min(g.w-1, x+2); xx += 2 {
				v[n] = rgb[3*(yy*g.w+xx)+k]
				n++
			}
		}
		slices.Sort(v[:n])
		c[k] = v[n/2]
	}
	return c
}

// newGround takes the ground's colour along the picture's border.
func newGround(rgb []uint8, w, h int, streaked bool) *ground {
	var border [][2]int
	m := max(2, min(w, h)/40)
	for y := range h {
		for x := range w {
			if x < m || y < m || x >= w-m || y >= h-m {
				border = append(border, [2]int{x, y})
			}
		}
	}
	return groundOn(rgb, w, h, border, streaked)
}

// groundOn fits the plane to some pixels. Where half of them lie in a shadow, the fit
// that begins from the brighter ones takes in more of them.
func groundOn(rgb []uint8, w, h int, border [][2]int, streaked bool) *ground {
	g := groundFrom(rgb, w, h, border, 0.5, streaked)
	if g.fits < 0.7 {
		if lit := groundFrom(rgb, w, h, border, 0.75, streaked); lit.fits > g.fits {
			return lit
		}
	}
	return g
}

// groundFrom fits the plane each time to the better part of the pixels, so that a slice
// that runs out of the picture does not spoil the fit. It begins from a colour of which
// a share of them is darker.
func groundFrom(rgb []uint8, w, h int, border [][2]int, from float64, streaked bool) *ground {
	g := &ground{w: w, h: h, streaked: streaked}
	g.start(rgb, border, from)
	used := make([][2]int, 0, len(border))
	dist, order := make([]float64, len(border)), make([]float64, len(border))
	for round := range 6 {
		for i, p := range border {
			dist[i], _ = g.distance(rgb[3*(p[1]*w+p[0]):], p[0], p[1])
		}
		g.spread = ranked(append(order[:0], dist...), len(dist)*45/100)
		limit := math.Max(10, 3*g.spread)
		used = used[:0]
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

func (g *ground) start(rgb []uint8, border [][2]int, from float64) {
	for k := range 3 {
		v := make([]float32, len(border))
		for i, p := range border {
			v[i] = float32(rgb[3*(p[1]*g.w+p[0])+k])
		}
		g.plane[k] = [3]float64{float64(ranked(v, min(len(v)-1, int(from*float64(len(v)))))), 0, 0}
	}
}

// fit is the least-squares plane through the border pixels in use.
func (g *ground) fit(rgb []uint8, used [][2]int) {
	if len(used) < 12 {
		return
	}
	for k := range 3 {
		a := equations(3)
		for _, p := range used {
			row := [4]float64{1, float64(p[0]), float64(p[1]), float64(rgb[3*(p[1]*g.w+p[0])+k])}
			for i := range 3 {
				for j := range 4 {
					a[i][j] += row[i] * row[j]
				}
			}
		}
		if x, ok := solve(a); ok {
			g.plane[k] = [3]float64(x)
		}
	}
}
