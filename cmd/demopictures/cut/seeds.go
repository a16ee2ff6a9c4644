package cut

import (
	"math"
	"math/rand/v2"
)

// A seed lies in the crumb and was cut, or sticks out of it.
type seed struct {
	x, y, long, wide float64
	cos, sin         float64
	kind             int // 0 sesame, 1 sunflower, 2 walnut
	tint             float32
}

// sow lays seeds and nuts into the crumb.
func (b *body) sow(rng *rand.Rand) {
	put := func(n, kind int, long, wide float64) {
		for try := 0; n > 0 && try < 4000; try++ {
			x, y := (rng.Float64()-0.5)*float64(b.w)/perMM, (rng.Float64()-0.5)*float64(b.h)/perMM
			size := 0.75 + 0.5*rng.Float64()
			if d, _ := b.inside(x, y); d < 3+long*size {
				continue
			}
			i, j := b.place(x, y)
			if b.depth.at(i, j) > 0.4 {
				continue
			}
			t := 2 * math.Pi * rng.Float64()
			b.seeds = append(b.seeds, seed{x, y, long * size / 2, wide * size * (0.8 + 0.4*rng.Float64()) / 2, math.Cos(t), math.Sin(t), kind, rng.Float32()})
			n--
		}
	}
	put(b.Seeds, 0, 3.0, 1.7)
	put(b.Seeds*2/3, 1, 8, 3.8)
	put(b.Walnuts, 2, 13, 8)
}

// each gives the places of a seed with how far each is from its middle, 1 at its rim.
func (b *body) each(s *seed, n *noise, visit func(p int, u, v, q float64)) {
	r := 1.4 * s.long
	i0, j0 := b.place(s.x-r, s.y+r)
	i1, j1 := b.place(s.x+r, s.y-r)
	for j := max(0, int(j0)); j <= min(b.h-1, int(j1)); j++ {
		for i := max(0, int(i0)); i <= min(b.w-1, int(i1)); i++ {
			x, y := b.mm(i, j)
			if s.kind == 2 {
				x, y = x+2.2*n.many(x/3.4, y/3.4, 2), y+2.2*n.many(x/3.4+50, y/3.4, 2)
			} else {
				x, y = x+0.25*n.many(x/1.5, y/1.5, 2), y+0.25*n.many(x/1.5+50, y/1.5, 2)
			}
			dx, dy := x-s.x, y-s.y
			u, v := (dx*s.cos+dy*s.sin)/s.long, (dy*s.cos-dx*s.sin)/s.wide
			if s.kind < 2 {
				v *= 1 + 0.35*u // a drop
			}
			if q := u*u + v*v; q < 1 {
				visit(j*b.w+i, u, v, math.Sqrt(q))
			}
		}
	}
}

func (b *body) raiseSeeds(n *noise) {
	for k := range b.seeds {
		s := &b.seeds[k]
		b.each(s, n, func(p int, u, v, q float64) {
			b.depth.v[p] = 0
			l := 0.25 + 0.05*n.many(u*8, v*8, 2)
			if s.kind == 0 {
				l = 0.35 - 0.5*math.Sqrt(1-q*q)
			}
			if q > 0.86 {
				l += 0.5 * (q - 0.86) / 0.14
			}
			b.level.v[p] = float32(max(0, l))
		})
	}
}

// seedColours are of the rim and of the inside, by kind.
var seedColours = [3][2]rgb{
	{{214, 186, 138}, {228, 204, 160}},
	{{128, 116, 100}, {206, 192, 160}},
	{{104, 66, 40}, {206, 172, 124}},
}

func (b *body) paintSeeds(n *noise) {
	for k := range b.seeds {
		s := &b.seeds[k]
		b.each(s, n, func(p int, u, v, q float64) {
			c := seedColours[s.kind][1].mix(seedColours[s.kind][0], float32((q-0.72)/0.14)+0.35*float32(n.many(u*3, v*3, 2)))
			b.colour[p] = c.times(0.9 + 0.2*s.tint)
		})
	}
}
