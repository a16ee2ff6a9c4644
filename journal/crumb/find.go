package crumb

import (
	"context"
	"fmt"
	"image"
	"math"
	"slices"

	"twinloaf/journal/say"
)

// A NotFoundError says why no slice was found. It is no failure of the photo:
// the outline drawn by hand is an equal path.
type NotFoundError struct{ Reason say.Line }

func (e *NotFoundError) Error() string { return "looking for the slice: " + e.Reason.String() }

// Line says why.
func (e *NotFoundError) Line() say.Line { return e.Reason }

// findSide is the longer side of the small picture in which the slice is
// looked for.
const findSide = 360

// FindOutline looks for one slice of bread on a ground of another colour. The
// ground's colour is taken along the picture's border, as a plane so that light
// may fall off, and what differs from it by more than Otsu's threshold and more
// than the ground's own unevenness is the slice. It returns a *NotFoundError
// when that leaves nothing that could be a slice, or ctx's error.
func FindOutline(ctx context.Context, img image.Image) (Outline, error) {
	b := img.Bounds()
	if b.Dx() < 24 || b.Dy() < 24 {
		return nil, &NotFoundError{say.Of("the picture is too small")}
	}
	step := math.Max(1, float64(max(b.Dx(), b.Dy()))/findSide)
	f := frame{x0: float64(b.Min.X), y0: float64(b.Min.Y), step: step}
	w, h := max(8, int(float64(b.Dx())/step)), max(8, int(float64(b.Dy())/step))
	rgb := reduce(img, f, w, h, 4)
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("looking for the slice: %w", err)
	}
	g := newGround(rgb, w, h)
	mask, reason := g.slice(rgb)
	if !reason.IsZero() {
		return nil, &NotFoundError{reason}
	}
	_, first := largest(mask, w, h)
	o := trace(mask, w, h, first).smooth(4, 6)
	for i, p := range o {
		o[i] = f.toPhoto(p.X, p.Y)
	}
	return o.clip(b), nil
}

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

// slice returns the mask of the slice, or the reason why there is none.
func (g *ground) slice(rgb []uint8) ([]bool, say.Line) {
	if g.fits < 0.5 {
		return nil, say.Of("the picture's border is not one even ground; the slice may fill the picture")
	}
	w, h := g.w, g.h
	dist := make([]uint8, w*h)
	hist := make([]int, 256)
	for y := range h {
		for x := range w {
			d := uint8(math.Min(255, g.distance(rgb, x, y)))
			dist[y*w+x] = d
			hist[d]++
		}
	}
	// A loaf's crumb may be near the ground while its crust is far from it, so
	// half of Otsu's threshold is asked for, but never less than the ground's
	// own unevenness.
	limit := math.Max(math.Max(12, 3.5*g.spread), 0.5*float64(otsu(hist)))
	mask := make([]bool, w*h)
	for i, d := range dist {
		mask[i] = float64(d) > limit
	}
	size := float64(max(w, h))
	mask = closeMask(mask, w, h, 0.012*size)
	fillHoles(mask, w, h, len(mask))
	mask = openMask(mask, w, h, 0.02*size)
	all := count(mask)
	px, _ := largest(mask, w, h)
	return mask, g.doubt(mask, px, all)
}

// doubt says why a mask is hardly a slice, or nothing.
func (g *ground) doubt(mask []bool, px, all int) say.Line {
	w, h := g.w, g.h
	share := float64(px) / float64(w*h)
	switch {
	case share < 0.04:
		return say.Of("nothing large enough stands out from the ground")
	case share > 0.93:
		return say.Of("the slice fills the picture")
	case float64(px) < 0.7*float64(all):
		return say.Of("several things stand out from the ground, not one slice")
	}
	touch := 0
	for x := range w {
		touch += b2i(mask[x]) + b2i(mask[(h-1)*w+x])
	}
	for y := range h {
		touch += b2i(mask[y*w]) + b2i(mask[y*w+w-1])
	}
	if float64(touch) > 0.45*float64(2*w+2*h) {
		return say.Of("most of the slice's edge lies outside the picture")
	}
	if solidity(mask, w, h, px) < 0.86 {
		return say.Of("what stands out from the ground is too ragged for a slice")
	}
	return say.Line{}
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

func closeMask(mask []bool, w, h int, radius float64) []bool {
	return erodeMask(dilateMask(mask, w, h, radius), w, h, radius)
}

// solidity is the share of its convex hull that a mask fills.
func solidity(mask []bool, w, h, px int) float64 {
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
	hull := append(Outline(lower), upper...)
	return float64(px) / math.Max(1, math.Abs(hull.area()))
}
