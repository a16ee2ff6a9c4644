package crumb

import "math"

// A CorrectionKind is what a stroke of the hand does to the cells.
type CorrectionKind string

// The corrections.
const (
	Erase CorrectionKind = "erase" // every cell that the stroke touches goes
	Join  CorrectionKind = "join"  // the cells that it touches become one, and it with them
	Cut   CorrectionKind = "cut"   // it is a wall, which parts what it crosses
	Paint CorrectionKind = "paint" // what it encloses is a cell that was missed
)

// A Correction is one stroke over the cells as they were found. It is made anew each time
// that they are: at another sensitivity it meets other cells.
type Correction struct {
	Kind CorrectionKind
	Path []Point // in the photo; of Paint, the corners of what is enclosed
}

// Half widths of strokes, mm.
const (
	joinHalfMM = 0.35
	cutHalfMM  = 0.12
)

// correct does the corrections in their order to labels numbered up to n; it gives the
// highest number afterwards, and how many of them changed anything.
func (f *Prepared) correct(labels []int32, n int, all []Correction) (last, done int) {
	for _, c := range all {
		var path []Point
		for _, p := range c.Path {
			if q, ok := f.frame.fromPhoto(p); ok && math.Abs(q.X) < 1e6 && math.Abs(q.Y) < 1e6 {
				path = append(path, q)
			}
		}
		if len(path) == 0 {
			continue
		}
		changed := false
		switch c.Kind {
		case Erase:
			changed = erase(labels, n, f.stroke(path, 0.5))
		case Join:
			changed = f.join(labels, n, f.stroke(path, max(0.75, joinHalfMM*f.frame.pxPerMM)))
		case Cut:
			n, changed = f.cut(labels, n, f.stroke(path, max(0.75, cutHalfMM*f.frame.pxPerMM)))
		case Paint:
			n, changed = f.paint(labels, n, path)
		}
		done += b2i(changed)
	}
	return n, done
}

// stroke gives the pixels of the crumb within half a width of a path.
func (f *Prepared) stroke(path []Point, half float64) []int {
	seen := map[int]bool{}
	var out []int
	dot := func(p Point) {
		for y := int(math.Floor(p.Y - half)); y <= int(p.Y+half); y++ {
			for x := int(math.Floor(p.X - half)); x <= int(p.X+half); x++ {
				i := y*f.w + x
				near := math.Hypot(float64(x)+0.5-p.X, float64(y)+0.5-p.Y) <= half || int(math.Floor(p.X)) == x && int(math.Floor(p.Y)) == y
				if near && x >= 0 && y >= 0 && x < f.w && y < f.h && f.crumb[i] && !seen[i] {
					seen[i] = true
					out = append(out, i)
				}
			}
		}
	}
	dot(path[0])
	for k := 1; k < len(path); k++ {
		a, b := path[k-1], path[k]
		steps := int(2*math.Hypot(b.X-a.X, b.Y-a.Y)) + 1
		for s := 1; s <= steps; s++ {
			t := float64(s) / float64(steps)
			dot(Point{a.X + t*(b.X-a.X), a.Y + t*(b.Y-a.Y)})
		}
	}
	return out
}

func touched(labels []int32, n int, stroke []int) (on []bool, any bool) {
	on = make([]bool, n+1)
	for _, i := range stroke {
		if l := labels[i]; l != 0 {
			on[l], any = true, true
		}
	}
	return on, any
}

func erase(labels []int32, n int, stroke []int) bool {
	gone, any := touched(labels, n, stroke)
	if !any {
		return false
	}
	for i, l := range labels {
		if gone[l] {
			labels[i] = 0
		}
	}
	return true
}

// join needs two cells: a stroke within one changes nothing.
func (f *Prepared) join(labels []int32, n int, stroke []int) bool {
	on, _ := touched(labels, n, stroke)
	one, count := int32(0), 0
	for l, yes := range on {
		if yes {
			if one == 0 {
				one = int32(l)
			}
			count++
		}
	}
	if count < 2 {
		return false
	}
	for i, l := range labels {
		if on[l] {
			labels[i] = one
		}
	}
	for _, i := range stroke {
		labels[i] = one
	}
	return true
}

// cut gives each part of what it crosses a number of its own; what becomes narrower
// than a speck is dropped with the others.
func (f *Prepared) cut(labels []int32, n int, stroke []int) (int, bool) {
	on, any := touched(labels, n, stroke)
	if !any {
		return n, false
	}
	for _, i := range stroke {
		labels[i] = 0
	}
	parts := make([]bool, len(labels))
	for i, l := range labels {
		parts[i] = on[l]
	}
	pieces := componentsOf(parts, f.w, f.h, true, false)
	// Pieces of two cells that touch stay two: a component may hold several cells.
	type pair struct{ piece, cell int32 }
	number := map[pair]int32{}
	for _, r := range pieces.runs {
		for i := int(r.y)*f.w + int(r.from); i < int(r.y)*f.w+int(r.to); i++ {
			k := pair{r.label, labels[i]}
			if number[k] == 0 {
				number[k] = int32(n + len(number) + 1)
			}
			labels[i] = number[k]
		}
	}
	return n + len(number), true
}

// paint makes one cell of what a path encloses, cells that it reaches into less their
// part of it.
func (f *Prepared) paint(labels []int32, n int, path []Point) (int, bool) {
	inside := Outline(path).fill(frame{step: 1}, f.w, f.h)
	px := 0
	for i, in := range inside {
		if in && f.crumb[i] {
			labels[i] = int32(n + 1)
			px++
		}
	}
	if px == 0 {
		return n, false
	}
	return n + 1, true
}

// Widened gives the outline moved outwards by so many pixels all round; inwards where they are
// below zero.
func (o Outline) Widened(px float64) Outline {
	if o.area() < 0 {
		px = -px
	}
	out := make(Outline, len(o))
	n := len(o)
	for i, p := range o {
		a, b := o[(i+n-1)%n], o[(i+1)%n]
		dx, dy := b.X-a.X, b.Y-a.Y
		d := math.Max(math.Hypot(dx, dy), 1e-9)
		out[i] = Point{p.X + px*dy/d, p.Y - px*dx/d}
	}
	return out
}
