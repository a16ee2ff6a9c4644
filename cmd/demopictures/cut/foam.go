package cut

import (
	"math"
	"math/rand/v2"
)

// A bubble is an ellipsoid of gas in the dough, x and y on the face, z down into it.
type bubble struct {
	x, y, z  float64
	r        float64 // mean radius
	a, b, c  float64 // half axes: along, across, down
	cos, sin float64 // of the angle of the first on the face
}

// thick is how deep below the cut bubbles are looked for.
const thick = 15.0

// foam fills the loaf with bubbles: the largest first, each smaller size into what is left.
// Few touch: where they do, one opens into the next. They are found by the cells of a grid.
type foam struct {
	all        []bubble
	cells      [][]int32
	nx, ny, nz int
	x0, y0     float64
}

const (
	cellSide = 1.6
	above    = 4.0 // how far above the cut bubbles are that it opens
)

func newFoam(wide, high float64) *foam {
	f := &foam{nx: int(wide/cellSide) + 3, ny: int(high/cellSide) + 3, nz: int(math.Ceil((thick+2*above)/cellSide)) + 3, x0: -wide/2 - cellSide, y0: -high/2 - cellSide}
	f.cells = make([][]int32, f.nx*f.ny*f.nz)
	return f
}

// around gives the range of cells that a ball reaches into.
func (f *foam) around(x, y, z, r float64) (lo, hi [3]int) {
	within := func(v float64, n int) int { return max(0, min(n-1, int(v/cellSide))) }
	return [3]int{within(x-r-f.x0, f.nx), within(y-r-f.y0, f.ny), within(z-r+2*above, f.nz)},
		[3]int{within(x+r-f.x0, f.nx), within(y+r-f.y0, f.ny), within(z+r+2*above, f.nz)}
}

// free tells whether a bubble has room: it may press by a share into those that are there.
func (f *foam) free(x, y, z, r, press float64) bool {
	lo, hi := f.around(x, y, z, r)
	for k := lo[2]; k <= hi[2]; k++ {
		for j := lo[1]; j <= hi[1]; j++ {
			for i := lo[0]; i <= hi[0]; i++ {
				for _, n := range f.cells[(k*f.ny+j)*f.nx+i] {
					b := &f.all[n]
					dx, dy, dz := x-b.x, y-b.y, z-b.z
					reach := b.r + r - press*min(b.r, r)
					if dx*dx+dy*dy+dz*dz < reach*reach {
						return false
					}
				}
			}
		}
	}
	return true
}

func (f *foam) add(b bubble) {
	lo, hi := f.around(b.x, b.y, b.z, b.r)
	for k := lo[2]; k <= hi[2]; k++ {
		for j := lo[1]; j <= hi[1]; j++ {
			for i := lo[0]; i <= hi[0]; i++ {
				c := &f.cells[(k*f.ny+j)*f.nx+i]
				*c = append(*c, int32(len(f.all)))
			}
		}
	}
	f.all = append(f.all, b)
}

// blow makes the foam of a slice: inside gives how far a place lies inside the contour,
// and the direction of its nearest edge.
func (s *Slice) blow(rng *rand.Rand, wide, high float64, inside func(x, y float64) (d, angle float64)) []bubble {
	f := newFoam(wide, high)
	volume := wide * high * (thick + above)
	shaped := func(x, y, z, r, along float64, stretch float64) bubble {
		k := 1 + (stretch-1)*math.Abs(0.8+0.5*rng.NormFloat64())
		cos, sin := math.Cos(along), math.Sin(along)
		c := 0.9 + 0.25*rng.Float64()
		return bubble{x: x, y: y, z: z, r: r, a: r * math.Sqrt(k), b: r / math.Sqrt(k), c: r * c, cos: cos, sin: sin}
	}
	const smallest, step = 0.27, 0.86
	for r := s.Largest / 2; r > smallest; r *= step {
		// So much of the dough goes to bubbles of this size.
		share := s.Gas * 0.055 * math.Pow(r/(s.Largest/2), s.Fine)
		if r < 0.6 {
			share *= 1.3
		}
		ball := 4.0 / 3 * math.Pi * r * r * r
		wanted := int(share * volume / ball)
		if r > 2 {
			wanted = int(share*volume/ball + rng.Float64())
		}
		for try, have := 0, 0; have < wanted && try < 9*wanted+60; try++ {
			x, y := (rng.Float64()-0.5)*wide, (rng.Float64()-0.5)*high
			z := rng.Float64()*(thick+above) - above
			size := r * (0.88 + 0.3*rng.Float64())
			d, edge := inside(x, y)
			// Towards the crust bubbles are smaller, and pressed flat along it.
			if d < 0.9+0.7*size || size > 0.35+d*0.36 {
				continue
			}
			// The lower part carries the upper: it is a little closer.
			if size > 1.5 && rng.Float64() > 0.62+0.9*(y/high)+0.2 {
				continue
			}
			press := 0.05 + 0.16*rng.Float64()
			if !f.free(x, y, z, size, press) {
				continue
			}
			along := 2 * math.Pi * rng.Float64()
			stretch := 1.30
			if d < 22 {
				along = edge + math.Pi/2 + 0.5*rng.NormFloat64()
				stretch = 1.22 + 0.5*math.Exp(-d/9)
			}
			if s.Form == Slipper {
				stretch += 0.15
			}
			f.add(shaped(x, y, z, size, along, stretch))
			have++
			if size < 1.8 || rng.Float64() > 0.7 {
				continue
			}
			// Large ones have run together out of several.
			for range 1 + rng.IntN(3) {
				t, up := 2*math.Pi*rng.Float64(), rng.Float64()-0.5
				part := size * (0.45 + 0.4*rng.Float64())
				px, py, pz := x+math.Cos(t)*size*0.95, y+math.Sin(t)*size*0.95, z+up*size
				if d, _ := inside(px, py); d > 1+part {
					f.add(shaped(px, py, pz, part, along, stretch))
				}
			}
		}
	}
	return f.all
}
