package crumb

import (
	"image"
	"math"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
)

// fewer gives an outline with few enough corners to be dragged by hand: none lies
// farther than off from the outline as it was (Douglas & Peucker 1973, from memory).
func fewer(points []kit.PicturePoint, off float64) []kit.PicturePoint {
	n := len(points)
	if n < 5 {
		return points
	}
	// A closed line is cut at two places far apart, which stay.
	far := 0
	for i, p := range points {
		if between(points[0], p) > between(points[0], points[far]) {
			far = i
		}
	}
	out := append(simplify(points[:far+1], off), simplify(append(append([]kit.PicturePoint{}, points[far:]...), points[0]), off)...)
	var tidy []kit.PicturePoint
	for _, p := range out {
		if len(tidy) == 0 || between(tidy[len(tidy)-1], p) > 1e-9 {
			tidy = append(tidy, p)
		}
	}
	if len(tidy) > 1 && between(tidy[0], tidy[len(tidy)-1]) <= 1e-9 {
		tidy = tidy[:len(tidy)-1]
	}
	return tidy
}

func simplify(line []kit.PicturePoint, off float64) []kit.PicturePoint {
	if len(line) < 3 {
		return append([]kit.PicturePoint{}, line...)
	}
	first, last := line[0], line[len(line)-1]
	at, most := 0, 0.0
	for i, p := range line[1 : len(line)-1] {
		if d := away(p, first, last); d > most {
			at, most = i+1, d
		}
	}
	if most <= off {
		return []kit.PicturePoint{first, last}
	}
	return append(simplify(line[:at+1], off), simplify(line[at:], off)[1:]...)
}

func between(a, b kit.PicturePoint) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// away is how far a point lies from the stretch between a and b.
func away(p, a, b kit.PicturePoint) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if length := dx*dx + dy*dy; length > 0 {
		t = math.Max(0, math.Min(1, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/length))
	}
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}

// insertNear puts a point into a closed outline where it lies on its line, or no
// farther than reach from it; false where it does not.
func insertNear(points []kit.PicturePoint, p kit.PicturePoint, reach float64) ([]kit.PicturePoint, bool) {
	at, least := -1, reach
	for i := range points {
		if d := away(p, points[i], points[(i+1)%len(points)]); d <= least {
			at, least = i+1, d
		}
	}
	if at < 0 {
		return points, false
	}
	out := append([]kit.PicturePoint{}, points[:at]...)
	return append(append(out, p), points[at:]...), true
}

// areaOf is how much of the picture an outline encloses, in pixels.
func areaOf(points []kit.PicturePoint) float64 {
	sum := 0.0
	for i, a := range points {
		b := points[(i+1)%len(points)]
		sum += a.X*b.Y - b.X*a.Y
	}
	return math.Abs(sum) / 2
}

// inside tells whether a point lies in an outline.
func inside(o crumb.Outline, p kit.PicturePoint) bool {
	in := false
	for i, j := 0, len(o)-1; i < len(o); j, i = i, i+1 {
		a, b := o[i], o[j]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < (b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y)+a.X {
			in = !in
		}
	}
	return in
}

// boxInCrumb tells whether a box was meant to lie within the crumb: all of it is
// in the slice that was found, or none was. One that reaches beyond the slice is a box
// round it.
func boxInCrumb(box []kit.PicturePoint, found crumb.Outline) bool {
	for i, p := range box {
		q := box[(i+1)%len(box)]
		if len(found) > 0 && (!inside(found, p) || !inside(found, kit.PicturePoint{X: (p.X + q.X) / 2, Y: (p.Y + q.Y) / 2})) {
			return false
		}
	}
	return true
}

func spotsOf(points []kit.PicturePoint) []journal.Spot {
	out := make([]journal.Spot, len(points))
	for i, p := range points {
		out[i] = journal.Spot{X: tenth(p.X), Y: tenth(p.Y)}
	}
	return out
}

// tenth rounds to what a hand can mean.
func tenth(v float64) float64 { return math.Round(v*10) / 10 }

func pointsOf(spots []journal.Spot) []kit.PicturePoint {
	out := make([]kit.PicturePoint, len(spots))
	for i, s := range spots {
		out[i] = kit.PicturePoint(s)
	}
	return out
}

func outlinePoints(o crumb.Outline) []kit.PicturePoint {
	out := make([]kit.PicturePoint, len(o))
	for i, p := range o {
		out[i] = kit.PicturePoint(p)
	}
	return out
}

// within holds a point in the picture.
func within(p kit.PicturePoint, full image.Point) kit.PicturePoint {
	return kit.PicturePoint{X: math.Max(0, math.Min(p.X, float64(full.X))), Y: math.Max(0, math.Min(p.Y, float64(full.Y)))}
}
