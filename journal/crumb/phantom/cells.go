package phantom

import (
	"context"
	"math"
	"math/rand/v2"
	"sort"
)

// A cell is a closed, slightly wavy ellipse, in mm about the slice's middle.
type cell struct {
	x, y    float64
	a, b    float64 // half axes
	cos     float64
	sin     float64
	wave    [3][2]float64 // of the radius, harmonics 2 to 4
	floor   float32       // brightness of its floor against the wall
	reach   float64       // no point of the cell is farther from its middle
	seedlet bool          // a seed of an add-in, not a cell
}

// mostWave is a little more than a cell's radius can differ from its ellipse's.
const mostWave = 0.2

// below tells whether rho is less than a limit; it mostly knows without the waves.
func (c *cell) below(limit, x, y float64) bool {
	dx, dy := x-c.x, y-c.y
	u := (dx*c.cos + dy*c.sin) / c.a
	v := (dy*c.cos - dx*c.sin) / c.b
	switch q := (u*u + v*v) / (limit * limit); {
	case q < (1-mostWave)*(1-mostWave):
		return true
	case q > (1+mostWave)*(1+mostWave):
		return false
	}
	return c.rho(x, y) < limit
}

// rho is the distance of a place from the cell's middle as a share of the
// distance of its edge in that direction: below 1 inside.
func (c *cell) rho(x, y float64) float64 {
	dx, dy := x-c.x, y-c.y
	u := (dx*c.cos + dy*c.sin) / c.a
	v := (dy*c.cos - dx*c.sin) / c.b
	r := math.Sqrt(u*u + v*v)
	if r < 1e-9 {
		return 0
	}
	// Harmonics by the multiple-angle formulas: no trigonometry per pixel.
	cs, sn := u/r, v/r
	c2, s2 := cs*cs-sn*sn, 2*sn*cs
	c3, s3 := c2*cs-s2*sn, s2*cs+c2*sn
	c4, s4 := c2*c2-s2*s2, 2*s2*c2
	edge := 1 + c.wave[0][0]*c2 + c.wave[0][1]*s2 + c.wave[1][0]*c3 + c.wave[1][1]*s3 + c.wave[2][0]*c4 + c.wave[2][1]*s4
	return r / edge
}

// placeCells scatters cells, largest first, each where it touches no other:
// random sequential addition.
func placeCells(ctx context.Context, s Slice, f *form) []cell {
	rng := rand.New(rand.NewPCG(s.Seed, 0xce115))
	g := newOccupancy(s, f)
	var placed []cell
	if s.Seeds > 0 {
		placed = scatter(ctx, s, f, g, rng, seedSizes(rng, s.Seeds*g.crumbMM2), true, placed)
	}
	return scatter(ctx, s, f, g, rng, cellSizes(rng, s.Cells, g.crumbMM2), false, placed)
}

func scatter(ctx context.Context, s Slice, f *form, g *occupancy, rng *rand.Rand, sizes []float64, seeds bool, placed []cell) []cell {
	const tries = 600
	for _, d := range sizes {
		if ctx.Err() != nil || len(placed) >= math.MaxUint16 {
			return placed
		}
		c := newCell(rng, s.Cells, d, seeds)
		for range tries {
			c.x, c.y = g.randomPlace(rng)
			if !seeds && s.Cells.TopOpen > 0 && d > 2*s.Cells.MedianMM && rng.Float64() < s.Cells.TopOpen*g.lowness(c.y) {
				continue
			}
			if g.free(&c) {
				g.take(&c)
				placed = append(placed, c)
				break
			}
		}
	}
	return placed
}

func newCell(rng *rand.Rand, k Cells, d float64, seed bool) cell {
	stretch := 1 + (k.Stretch-1)*(0.4+1.2*rng.Float64())
	angle := rng.Float64() * math.Pi
	if k.Stretch > 1.3 {
		angle = -k.Direction*math.Pi/180 + 0.25*rng.NormFloat64()
	}
	if seed {
		stretch, angle = 1.7, rng.Float64()*math.Pi
	}
	c := cell{
		a: d / 2 * math.Sqrt(stretch), b: d / 2 / math.Sqrt(stretch),
		cos: math.Cos(angle), sin: math.Sin(angle), seedlet: seed,
	}
	if !seed {
		for i := range c.wave {
			amp := 0.07 / float64(i+1)
			c.wave[i] = [2]float64{amp * (2*rng.Float64() - 1), amp * (2*rng.Float64() - 1)}
		}
	}
	c.floor = float32(1 - k.Depth*(0.8+0.3*rng.Float64()))
	c.reach = c.a * 1.3
	return c
}

// cellSizes draws equivalent diameters from a log-normal distribution until
// they make up the wanted porosity, and returns them largest first.
func cellSizes(rng *rand.Rand, k Cells, crumbMM2 float64) []float64 {
	want := math.Min(k.Porosity, 0.5) * crumbMM2
	var sizes []float64
	for sum := 0.0; sum < want && len(sizes) < math.MaxUint16; {
		d := k.MedianMM * math.Exp(k.LogSD*rng.NormFloat64())
		if d < k.MinMM || d > k.MaxMM {
			continue
		}
		sizes = append(sizes, d)
		sum += math.Pi / 4 * d * d
	}
	sort.Sort(sort.Reverse(sort.Float64Slice(sizes)))
	return sizes
}

func seedSizes(rng *rand.Rand, want float64) []float64 {
	var sizes []float64
	for sum := 0.0; sum < want; {
		d := 2.2 + 1.6*rng.Float64()
		sizes = append(sizes, d)
		sum += math.Pi / 4 * d * d
	}
	return sizes
}

// An occupancy remembers on a fine grid where another cell may not go.
type occupancy struct {
	f          *form
	x0, y0     float64
	step       float64
	w, h       int
	taken      []bool
	places     []int32 // grid places inside the crumb
	crumbMM2   float64
	gap        float64 // least wall between cells, mm
	topY, botY float64
}

func newOccupancy(s Slice, f *form) *occupancy {
	// Only what the frame shows is worth filling.
	fx0, fy0 := f.toMM(0, 0)
	fx1, fy1 := f.toMM(float64(s.Width), float64(s.Height))
	lo := Point{math.Max(f.lo.X, fx0-5), math.Max(f.lo.Y, fy0-5)}
	hi := Point{math.Min(f.hi.X, fx1+5), math.Min(f.hi.Y, fy1+5)}
	g := &occupancy{f: f, x0: lo.X, y0: lo.Y, step: 0.08, topY: lo.Y, botY: hi.Y}
	// The thinnest wall still spans two pixels, or nobody could count.
	g.gap = math.Max(0.18, 2/f.pxPerMM)
	g.w, g.h = int((hi.X-lo.X)/g.step)+1, int((hi.Y-lo.Y)/g.step)+1
	g.taken = make([]bool, g.w*g.h)
	for j := range g.h {
		for i := range g.w {
			x, y := g.x0+float64(i)*g.step, g.y0+float64(j)*g.step
			if !f.inCrumb(x, y, f.depth(x, y), 0.3) {
				g.taken[j*g.w+i] = true
				continue
			}
			g.places = append(g.places, int32(j*g.w+i))
		}
	}
	g.crumbMM2 = float64(len(g.places)) * g.step * g.step
	return g
}

func (g *occupancy) lowness(y float64) float64 { return (y - g.topY) / (g.botY - g.topY + 1e-9) }

func (g *occupancy) randomPlace(rng *rand.Rand) (x, y float64) {
	if len(g.places) == 0 {
		return 0, 0
	}
	for range 8 { // a few draws towards free ground save most of the tries
		k := int(g.places[rng.IntN(len(g.places))])
		x = g.x0 + (float64(k%g.w)+rng.Float64()-0.5)*g.step
		y = g.y0 + (float64(k/g.w)+rng.Float64()-0.5)*g.step
		if !g.taken[k] {
			break
		}
	}
	return x, y
}

func (g *occupancy) blocked(x, y float64) bool {
	i, j := int(math.Round((x-g.x0)/g.step)), int(math.Round((y-g.y0)/g.step))
	if i < 0 || j < 0 || i >= g.w || j >= g.h {
		return !g.f.full // a crumb without crust runs on beyond the frame
	}
	return g.taken[j*g.w+i]
}

// free looks along the cell's edge. Cells come largest first, so one that
// overlapped would have its edge cross a taken place, or its middle lie in it.
func (g *occupancy) free(c *cell) bool {
	if g.blocked(c.x, c.y) {
		return false
	}
	n := max(16, int(2*math.Pi*c.a/0.12))
	for k := range n {
		t := 2 * math.Pi * float64(k) / float64(n)
		u, v := c.a*math.Cos(t), c.b*math.Sin(t)
		dx, dy := u*c.cos-v*c.sin, u*c.sin+v*c.cos
		q := 1 / c.rho(c.x+dx, c.y+dy)
		if g.blocked(c.x+dx*q, c.y+dy*q) {
			return false
		}
	}
	return true
}

func (g *occupancy) take(c *cell) {
	r := c.reach + g.gap
	i0, i1 := max(0, int((c.x-r-g.x0)/g.step)), min(g.w-1, int((c.x+r-g.x0)/g.step)+1)
	j0, j1 := max(0, int((c.y-r-g.y0)/g.step)), min(g.h-1, int((c.y+r-g.y0)/g.step)+1)
	limit := 1 + g.gap/c.b
	for j := j0; j <= j1; j++ {
		for i := i0; i <= i1; i++ {
			if g.taken[j*g.w+i] {
				continue
			}
			if c.below(limit, g.x0+float64(i)*g.step, g.y0+float64(j)*g.step) {
				g.taken[j*g.w+i] = true
			}
		}
	}
}
