package cut

import (
	"math"
	"math/rand/v2"
	"sort"
)

// A Flour is what a crumb is made of, which gives it its colour.
type Flour int

// The flours.
const (
	White Flour = iota
	Brown       // wholemeal, spelt, emmer
	Rye
)

// A Ground is what the slice lies on.
type Ground int

// The grounds.
const (
	Oak Ground = iota
	Walnut
	Linen
	Slate
	Steel
)

// A Slice is a cut face and its photo.
type Slice struct {
	Seed    uint64
	Form    Form
	Flour   Flour
	WidthMM float64
	// Largest is the diameter of the largest bubbles in millimetres, Gas how much of the
	// dough they are in all, about 0.5 for a dense one to 1, and Fine how much less of it
	// each smaller size has: 0 as much, 0.5 much less.
	Largest, Gas, Fine float64
	Baked              float64 // 0 pale to 1 dark
	Sesame             bool    // rolled in it
	Seeds, Walnuts     int     // in the crumb, cut or not
	View               View
}

// A View is how the slice was photographed.
type View struct {
	Seed   uint64 // of the crumbs about it, too
	Ground Ground
	Fill   float64 // how much of the picture's width the slice takes
	Turn   float64 // degrees that it lies askew
	Lean   float64 // degrees that the camera stands off the upright, towards the baker
	Window float64 // degrees from which the light comes, anticlockwise from the right
	Warm   float64 // of the light: 0 a grey day, 1 an evening lamp
	Dim    float64 // how much darker than usual it came out
	W, H   int     // pixels
}

// perMM is how many places of the relief a millimetre has.
const perMM = 9.0

// body is a slice as geometry.
type body struct {
	*Slice
	contour []point
	w, h    int
	x0, y0  float64 // the millimetres of the first place, which is the upper left
	edge    *field  // distance to the contour, in millimetres, 0 outside
	toward  []float32
	depth   *field // below the cut, in millimetres
	level   *field // the same with the roughness of a real cut
	colour  []rgb
	seeds   []seed
}

type rgb struct{ r, g, b float32 }

func (c rgb) times(k float32) rgb { return rgb{c.r * k, c.g * k, c.b * k} }
func (c rgb) mix(d rgb, t float32) rgb {
	t = max(0, min(1, t))
	return rgb{c.r + (d.r-c.r)*t, c.g + (d.g-c.g)*t, c.b + (d.b-c.b)*t}
}
func (c rgb) tint(d rgb) rgb { return rgb{c.r * d.r, c.g * d.g, c.b * d.b} }

func (b *body) place(x, y float64) (i, j float64) { return (x - b.x0) * perMM, (b.y0 - y) * perMM }
func (b *body) mm(i, j int) (x, y float64)        { return b.x0 + float64(i)/perMM, b.y0 - float64(j)/perMM }

// bake makes the slice.
func (s *Slice) bake() *body {
	rng := rand.New(rand.NewPCG(s.Seed, 0xb4ead))
	b := &body{Slice: s}
	b.contour = s.outline(rng)
	var wide, high float64
	for _, p := range b.contour {
		wide, high = max(wide, 2*math.Abs(p.x)), max(high, 2*math.Abs(p.y))
	}
	const margin = 4
	b.x0, b.y0 = -wide/2-margin, high/2+margin
	b.w, b.h = int((wide+2*margin)*perMM), int((high+2*margin)*perMM)
	b.measureEdge()
	b.depth = newField(b.w, b.h)
	n := newNoise(rng)
	b.open(s.blow(rng, wide, high, b.inside), n)
	b.sow(rng)
	b.roughen(n)
	b.paint(n)
	return b
}

// measureEdge fills the contour, and tells how far inside each place is.
func (b *body) measureEdge() {
	in := make([]bool, b.w*b.h)
	for j := range b.h {
		_, y := b.mm(0, j)
		var xs []float64
		for k, p := range b.contour {
			q := b.contour[(k+1)%len(b.contour)]
			if (p.y > y) != (q.y > y) {
				xs = append(xs, p.x+(y-p.y)/(q.y-p.y)*(q.x-p.x))
			}
		}
		sort.Float64s(xs)
		for k := 0; k+1 < len(xs); k += 2 {
			from, _ := b.place(xs[k], y)
			to, _ := b.place(xs[k+1], y)
			for i := max(0, int(math.Ceil(from))); i <= min(b.w-1, int(to)); i++ {
				in[j*b.w+i] = true
			}
		}
	}
	d, nearest := distances(in, b.w, b.h)
	b.toward = make([]float32, b.w*b.h)
	for k := range d.v {
		d.v[k] /= perMM
		n := int(nearest[k])
		b.toward[k] = float32(math.Atan2(float64(k/b.w-n/b.w), float64(n%b.w-k%b.w)))
	}
	b.edge = d
}

func (b *body) inside(x, y float64) (d, angle float64) {
	i, j := b.place(x, y)
	k := max(0, min(b.h-1, int(j)))*b.w + max(0, min(b.w-1, int(i)))
	return float64(b.edge.v[k]), float64(b.toward[k])
}

// open cuts the bubbles and finds how deep one sees at each place: through those that the
// cut opened into those that open into them. Dough never is even, so all places are shifted
// a little, neighbours alike, which leaves the walls as thin as they were.
func (b *body) open(all []bubble, n *noise) {
	shiftX, shiftY := newField(b.w, b.h), newField(b.w, b.h)
	for j := range b.h {
		for i := range b.w {
			x, y := b.mm(i, j)
			k := j*b.w + i
			shiftX.v[k] = float32(1.5*n.many(x/9+3, y/9, 3) + 0.42*n.many(x/2.3, y/2.3+9, 2))
			shiftY.v[k] = float32(1.5*n.many(x/9-40, y/9+11, 3) + 0.42*n.many(x/2.3+70, y/2.3-9, 2))
		}
	}
	sort.Slice(all, func(i, j int) bool { return all[i].z-all[i].c < all[j].z-all[j].c })
	// shown is where a place of the even dough comes to lie.
	shown := func(x, y float64) (float64, float64) {
		sx, sy := x, y
		for range 3 {
			i, j := b.place(sx, sy)
			sx, sy = x-float64(shiftX.at(i, j)), y-float64(shiftY.at(i, j))
		}
		return sx, sy
	}
	for range 3 {
		for k := range all {
			u := &all[k]
			if u.z-u.c > thick || u.z+u.c < 0 {
				continue
			}
			r := 1.5*max(u.a, u.b) + 0.2
			mx, my := shown(u.x, u.y)
			i0, j0 := b.place(mx-r, my+r)
			i1, j1 := b.place(mx+r, my-r)
			for j := max(0, int(j0)); j <= min(b.h-1, int(j1)); j++ {
				for i := max(0, int(i0)); i <= min(b.w-1, int(i1)); i++ {
					p := j*b.w + i
					x, y := b.mm(i, j)
					dx, dy := x+float64(shiftX.v[p])-u.x, y+float64(shiftY.v[p])-u.y
					s, t := (dx*u.cos+dy*u.sin)/u.a, (dy*u.cos-dx*u.sin)/u.b
					q := s*s + t*t
					if q >= 1 {
						continue
					}
					half := u.c * math.Sqrt(1-q)
					if front := float64(b.depth.v[p]); u.z-half <= front+0.02 && u.z+half > front {
						b.depth.v[p] = float32(min(u.z+half, thick-1.5))
					}
				}
			}
		}
	}
	for p, d := range b.edge.v { // the crust holds none
		if d < 0.8 {
			b.depth.v[p] = 0
		}
	}
}

// roughen gives the cut what a knife leaves: it dips a little, walls too thin to stand are
// torn down, and between the bubbles there are pores that are finer still.
func (b *body) roughen(n *noise) {
	solid := newField(b.w, b.h)
	for p, d := range b.depth.v {
		if d < 0.15 && b.edge.v[p] > 0 {
			solid.v[p] = 1
		}
	}
	near := solid.blurred(places(0.45))
	b.level = newField(b.w, b.h)
	for j := range b.h {
		for i := range b.w {
			p := j*b.w + i
			x, y := b.mm(i, j)
			d := float64(b.edge.v[p])
			l := float64(b.depth.v[p])
			thin := max(0, 0.62-float64(near.v[p]))
			l += thin * max(0, 0.4+1.3*n.many(x/1.1, y/1.1, 2)) * 0.8
			l += 0.14 + 0.10*n.many(x/9, y/9, 2)
			crumb := max(0, min(1, (d-1)/2))
			pit := n.many(x/0.42, y/0.42, 2)
			l += crumb * (0.10*max(0, pit-0.30) + 0.006*n.many(x/0.2, y/0.2, 1))
			// The knife's strokes, faint.
			l += 0.03 * n.one(x/9+y/2.2, y/0.55-x/6)
			if d > 0 && d < 1.2 { // the crust's edge is round, and crumbles
				t := 1 - d/1.2
				l += 1.1*t*t + 0.35*max(0, n.many(x/0.8, y/0.8, 2))*t
			}
			b.level.v[p] = float32(max(0, min(thick-0.6, l)))
		}
	}
	b.level = b.level.blurred(1)
	b.raiseSeeds(n)
}
