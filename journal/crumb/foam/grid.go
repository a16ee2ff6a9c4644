package foam

import (
	"image"
	"math"
	"runtime"
	"sync"
)

// A grid is the scene sampled finely: the height of what is seen from above, where it
// faces, and what it belongs to.
type grid struct {
	s      Slice
	f      *form
	w, h   int
	step   float64   // mm
	inside []float32 // depth within the outline, mm
	z      []float32 // height of the surface, mm; nought on the cut, below it less
	nx, ny []float32 // its normal's share along x and y
	cell   []int32   // the cell on the plane; after truth has counted them, without the dents
	light  []float32
	bounce []float32
}

func newGrid(s Slice, f *form) *grid {
	g := &grid{s: s, f: f, w: fine * s.Width, h: fine * s.Height, step: 1 / (fine * f.pxPerMM)}
	n := g.w * g.h
	for _, v := range []*[]float32{&g.inside, &g.z, &g.nx, &g.ny, &g.light, &g.bounce} {
		*v = make([]float32, n)
	}
	g.cell = make([]int32, n)
	return g
}

func (g *grid) mm(x, y int) (float64, float64) {
	return ((float64(x)+0.5)/fine - g.f.cx) / g.f.pxPerMM, ((float64(y)+0.5)/fine - g.f.cy) / g.f.pxPerMM
}

// cut looks down on the cut: through each opening to the floor of the bubbles that
// lie in one another below it, or to the table.
func (g *grid) cut(b []bubble) {
	const bin = 1.0
	near := map[[2]int][]int32{}
	for i, q := range b {
		for y := int(math.Floor((q.y - q.r) / bin)); y <= int(math.Floor((q.y+q.r)/bin)); y++ {
			for x := int(math.Floor((q.x - q.r) / bin)); x <= int(math.Floor((q.x+q.r)/bin)); x++ {
				near[[2]int{x, y}] = append(near[[2]int{x, y}], int32(i))
			}
		}
	}
	rows(g.h, func(y int) {
		for x := range g.w {
			i := y*g.w + x
			mx, my := g.mm(x, y)
			d := g.f.depth(mx, my)
			g.inside[i] = float32(d)
			if d <= 0 {
				g.z[i] = -float32(g.s.ThickMM)
				continue
			}
			g.look(i, mx, my, b, near[[2]int{int(math.Floor(mx / bin)), int(math.Floor(my / bin))}])
		}
	})
}

// look goes down at one place from bubble to bubble, as deep as they hang together.
func (g *grid) look(i int, x, y float64, b []bubble, near []int32) {
	floor, last := 0.0, int32(-1)
	most := 0.0
	for _, k := range near {
		q := &b[k]
		dx, dy := x-q.x, y-q.y
		if power := q.disc*q.disc - dx*dx - dy*dy; power > most {
			most, g.cell[i] = power, q.cell
		}
	}
	if most == 0 {
		return
	}
	for deeper := true; deeper; {
		deeper = false
		for _, k := range near {
			q := &b[k]
			dx, dy := x-q.x, y-q.y
			h2 := q.r*q.r - dx*dx - dy*dy
			if h2 <= 0 {
				continue
			}
			if h := math.Sqrt(h2); q.z-h <= floor && q.z+h > floor {
				floor, last, deeper = q.z+h, k, true
			}
		}
	}
	if floor >= g.s.ThickMM {
		g.z[i] = -float32(g.s.ThickMM)
		return
	}
	g.z[i] = -float32(floor)
	if last >= 0 {
		q := &b[last]
		g.nx[i], g.ny[i] = float32((q.x-x)/q.r), float32((q.y-y)/q.r)
	}
}

const (
	leastCellMM = 0.35
	dentShare   = 0.15
)

// truth reads off what is known.
func (g *grid) truth(b []bubble) Truth {
	n := int32(0)
	for _, q := range b {
		n = max(n, q.cell)
	}
	px, deepest, cut := make([]int, n+1), make([]float32, n+1), make([]bool, n+1)
	crumb, holes := 0, 0
	in := func(i int) bool { return float64(g.inside[i]) >= g.f.crust }
	for i, c := range g.cell {
		if !in(i) {
			continue
		}
		crumb++
		if c == 0 {
			continue
		}
		px[c]++
		deepest[c] = max(deepest[c], -g.z[i])
		if g.z[i] <= -float32(g.s.ThickMM) {
			holes++
		}
		x, y := i%g.w, i/g.w
		cut[c] = cut[c] || x == 0 || y == 0 || x == g.w-1 || y == g.h-1 || !in(i-1) || !in(i+1) || !in(i-g.w) || !in(i+g.w)
	}
	mm2 := g.step * g.step
	t := Truth{PxPerMM: g.f.pxPerMM, Outline: g.f.outline(g.s.Width, g.s.Height), Holes: float64(holes) / float64(max(1, crumb))}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range t.Outline {
		lo, hi = math.Min(lo, p.X), math.Max(hi, p.X)
	}
	t.WidthMM = (hi - lo) / g.f.pxPerMM
	open := 0
	number, next := make([]int32, n+1), int32(0)
	for c := int32(1); c <= n; c++ {
		width := 2 * math.Sqrt(float64(px[c])*mm2/math.Pi)
		if width < leastCellMM || float64(deepest[c]) < dentShare*width {
			continue
		}
		next++
		number[c] = next
		open += px[c]
		if !cut[c] {
			t.Whole++
		}
	}
	for i, c := range g.cell {
		g.cell[i] = number[c]
	}
	t.Open = float64(open) / float64(max(1, crumb))
	return t
}

// seen gives the cells and the crumb at the picture's pixels.
func (g *grid) seen() ([]uint16, *image.Gray) {
	w, h := g.s.Width, g.s.Height
	labels, crumb := make([]uint16, w*h), image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			// The sample right and below of the pixel's middle stands for it.
			i := (fine*y+fine/2)*g.w + fine*x + fine/2
			if float64(g.inside[i]) >= g.f.crust {
				crumb.Pix[y*w+x] = 255
				labels[y*w+x] = uint16(g.cell[i])
			}
		}
	}
	return labels, crumb
}

// rows runs do for each row, shared among the processors; what it writes must depend
// on its row alone.
func rows(n int, do func(y int)) {
	var wg sync.WaitGroup
	parts := min(runtime.GOMAXPROCS(0), n)
	for k := range parts {
		wg.Go(func() {
			for y := k; y < n; y += parts {
				do(y)
			}
		})
	}
	wg.Wait()
}
