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
