package crumb

import (
	"fmt"
	"image"
	"math"
	"sort"
)

// A Point is a place in the photo: x to the right, y down, in pixels, with the
// photo's own Bounds as origin.
type Point struct{ X, Y float64 }

// An Outline is a closed polygon in the photo. It may be drawn either way
// round, and may cross itself: the even-odd rule says what is inside.
type Outline []Point

// ScaleFromWidth returns pixels per millimetre when the outline's whole width,
// left to right, is mm in truth.
func (o Outline) ScaleFromWidth(mm float64) (float64, error) {
	if len(o) == 0 {
		return 0, fmt.Errorf("taking the scale from a slice's width: %w", ErrOutline)
	}
	lo, hi := o.bounds()
	return ScaleOf(Point{lo.X, 0}, Point{hi.X, 0}, mm)
}

func (o Outline) bounds() (lo, hi Point) {
	if len(o) == 0 {
		return
	}
	lo, hi = o[0], o[0]
	for _, p := range o {
		lo.X, lo.Y = math.Min(lo.X, p.X), math.Min(lo.Y, p.Y)
		hi.X, hi.Y = math.Max(hi.X, p.X), math.Max(hi.Y, p.Y)
	}
	return lo, hi
}

// area by the shoelace formula; its sign is the direction of drawing.
func (o Outline) area() float64 {
	sum := 0.0
	for i, j := 0, len(o)-1; i < len(o); j, i = i, i+1 {
		sum += o[j].X*o[i].Y - o[i].X*o[j].Y
	}
	return sum / 2
}

// clip keeps a hand-drawn outline within the photo by moving stray points to
// its border, which is what a hand that slips over the border means.
func (o Outline) clip(b image.Rectangle) Outline {
	out := make(Outline, 0, len(o))
	for _, p := range o {
		if math.IsNaN(p.X) || math.IsNaN(p.Y) {
			continue
		}
		out = append(out, Point{
			math.Min(math.Max(p.X, float64(b.Min.X)), float64(b.Max.X)),
			math.Min(math.Max(p.Y, float64(b.Min.Y)), float64(b.Max.Y)),
		})
	}
	return out
}

// along returns the share of the outline's length that runs along the photo's
// border.
func (o Outline) along(b image.Rectangle) float64 {
	eps := 0.004 * float64(max(b.Dx(), b.Dy()))
	near := func(p Point) bool {
		return p.X-float64(b.Min.X) < eps || float64(b.Max.X)-p.X < eps || p.Y-float64(b.Min.Y) < eps || float64(b.Max.Y)-p.Y < eps
	}
	all, on := 0.0, 0.0
	for i, j := 0, len(o)-1; i < len(o); j, i = i, i+1 {
		d := math.Hypot(o[i].X-o[j].X, o[i].Y-o[j].Y)
		all += d
		if near(o[i]) && near(o[j]) {
			on += d
		}
	}
	return on / math.Max(all, 1e-9)
}

// fill marks the working pixels whose middle lies inside.
func (o Outline) fill(f frame, w, h int) []bool {
	mask := make([]bool, w*h)
	bands(h, func(from, to int) {
		var xs []float64
		for y := from; y < to; y++ {
			py := f.y0 + (float64(y)+0.5)*f.step
			xs = xs[:0]
			for i, j := 0, len(o)-1; i < len(o); j, i = i, i+1 {
				a, b := o[j], o[i]
				if (a.Y > py) != (b.Y > py) {
					xs = append(xs, a.X+(py-a.Y)/(b.Y-a.Y)*(b.X-a.X))
				}
			}
			sort.Float64s(xs)
			for k := 0; k+1 < len(xs); k += 2 {
				x0 := int(math.Ceil((xs[k]-f.x0)/f.step - 0.5))
				x1 := int(math.Ceil((xs[k+1]-f.x0)/f.step - 0.5))
				for x := max(0, x0); x < min(w, x1); x++ {
					mask[y*w+x] = true
				}
			}
		}
	})
	return mask
}

// trace walks round the outer edge of the one component in mask that holds
// start, its first pixel in reading order, along pixel corners.
func trace(mask []bool, w, h, start int) Outline {
	in := func(x, y int) bool { return x >= 0 && y >= 0 && x < w && y < h && mask[y*w+x] }
	// Directions right, down, left, up; the component is kept on the right hand.
	dx, dy := [4]int{1, 0, -1, 0}, [4]int{0, 1, 0, -1}
	x0, y0 := start%w, start/w
	x, y, d := x0, y0, 0
	var o Outline
	for range 4 * (w + 1) * (h + 1) {
		o = append(o, Point{float64(x), float64(y)})
		x, y = x+dx[d], y+dy[d]
		if x == x0 && y == y0 {
			break
		}
		left, right := ahead(x, y, d)
		switch {
		case in(left[0], left[1]) && in(right[0], right[1]):
			d = (d + 3) % 4
		case !in(right[0], right[1]):
			d = (d + 1) % 4
		}
	}
	return o
}

// ahead returns the pixels to the left and right in front of a corner.
func ahead(x, y, d int) (left, right [2]int) {
	about := [4][2]int{{x, y}, {x - 1, y}, {x - 1, y - 1}, {x, y - 1}}
	return about[(d+3)%4], about[d]
}

// smooth takes the staircase out of a traced outline and keeps every few
// corners, few enough to be dragged by hand.
func (o Outline) smooth(radius, every int) Outline {
	n := len(o)
	if n < 4*radius {
		return o
	}
	var out Outline
	for i := 0; i < n; i += every {
		var p Point
		for k := -radius; k <= radius; k++ {
			q := o[((i+k)%n+n)%n]
			p.X += q.X
			p.Y += q.Y
		}
		m := float64(2*radius + 1)
		out = append(out, Point{p.X / m, p.Y / m})
	}
	return out
}
