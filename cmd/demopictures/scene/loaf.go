package scene

import (
	"image"
	"math/rand/v2"
)

// A Form is the shape of a loaf from above.
type Form int

// The forms.
const (
	Round Form = iota
	Long
	Tin
)

// A Score is the pattern cut into the loaf.
type Score int

// The scores.
const (
	OneCut Score = iota // a long cut that opens into an ear
	Cross
	Leaf // a stem with leaves on both sides
	Square
	Uncut
)

// A Grain is the colour of a flour: of a crust or of a dough.
type Grain int

// The grains, light to dark.
const (
	White Grain = iota
	Brown
	Dark
)

// A Loaf is a whole loaf on a ground, seen from above.
type Loaf struct {
	Seed   uint64
	Size   Size
	Form   Form
	Score  Score
	Grain  Grain
	Ground Ground
	// Baked is how dark the crust is, 0 pale to 1 nearly burnt.
	Baked float32
	// Spring is how far the cut has opened, 0 to 1.
	Spring float32
	// Floured is how much of the basket's flour has stayed on, 0 to 1.
	Floured float32
	// Seeded strews the crust with seeds.
	Seeded bool
}

// A cut is one slash along a gentle bow.
type cut struct {
	x, y, cos, sin float32
	length, width  float32 // half of each
	bow, ear       float32
}

// across gives how far along the cut a place is, -1 to 1, and how far across
// it in half widths of the cut there.
func (c *cut) across(x, y float32) (along, over float32, near bool) {
	x, y = x-c.x, y-c.y
	u := (x*c.cos + y*c.sin) / c.length
	if u < -1 || u > 1 {
		return 0, 0, false
	}
	v := y*c.cos - x*c.sin - c.bow*(1-u*u)
	w := c.width * sqrt(1-u*u)
	if w < 1e-4 || v > 3*w || v < -3*w {
		return 0, 0, false
	}
	return u, v / w, true
}

// loaf is a Loaf with all that has been drawn by chance.
type loaf struct {
	Loaf
	p        *Painter
	ox       float32
	a, b     float32 // half the length and the width
	cos, sin float32
	cuts     []cut
	seeds    []seed
	rims     []float32 // of every pixel, as from gives it
}

type seed struct{ x, y, cos, sin, r, tint float32 }

// Loaf draws a loaf from above.
func (p *Painter) Loaf(d Loaf) *image.RGBA {
	l := p.shape(d)
	c := newCanvas(d.Size)
	l.rims = make([]float32, c.w*c.h)
	c.relief(l.height)
	return c.paint(func(i, j int, x, y float32) rgb { return l.colour(c, i, j, x, y) })
}

func (p *Painter) shape(d Loaf) *loaf {
	rng := rand.New(rand.NewPCG(d.Seed, 0x10af))
	between := func(a, b float32) float32 { return a + (b-a)*rng.Float32() }
	l := &loaf{Loaf: d, p: p, ox: between(0, 400)}
	turn := between(-0.25, 0.25)
	switch d.Form {
	case Long:
		l.a, l.b = between(1.02, 1.1), between(0.52, 0.58)
	case Tin:
		l.a, l.b, turn = 1.02, 0.52, turn/4
	default:
		l.a = between(0.74, 0.8)
		l.b = l.a * between(0.95, 1)
	}
	l.cos, l.sin = sqrt(1-turn*turn), turn
	l.score(between)
	if d.Seeded {
		l.strew(rng)
	}
	return l
}

// score lays the cuts, in the loaf's own directions.
func (l *loaf) score(between func(a, b float32) float32) {
	open := 0.35 + 0.65*l.Spring
	line := func(x, y, cos, sin, length, width, bow, ear float32) {
		l.cuts = append(l.cuts, cut{x, y, cos, sin, length, width * open, bow, ear * open})
	}
	switch l.Score {
	case OneCut:
		line(0, 0.03, 1, between(-0.06, 0.06), l.a*0.86, l.b*0.25, between(-0.14, -0.06), 1)
	case Cross:
		line(0, 0, 0.707, 0.707, l.b*0.72, l.b*0.12, 0, 0.35)
		line(0, 0, 0.707, -0.707, l.b*0.72, l.b*0.12, 0, 0.35)
	case Square:
		k := l.b * 0.52
		for _, s := range []float32{-1, 1} {
			line(0, s*k, 1, 0, l.b*0.62, l.b*0.085, s*0.03, -s*0.5)
			line(s*k, 0, 0, 1, l.b*0.62, l.b*0.085, -s*0.03, s*0.5)
		}
	case Leaf:
		line(0, 0, 1, 0, l.a*0.82, l.b*0.075, -0.03, 0.4)
		for i := range 5 {
			x := (float32(i) - 2.2) * l.a * 0.29
			for _, s := range []float32{-1, 1} {
				line(x+l.b*0.16, s*l.b*0.34, 0.56, s*0.83, l.b*0.26, l.b*0.052, 0, 0)
			}
		}
	}
}

func (l *loaf) strew(rng *rand.Rand) {
	for range 420 {
		x, y := (2*rng.Float32()-1)*l.a, (2*rng.Float32()-1)*l.b
		if l.from(x, y) > 0.86 {
			continue
		}
		t := rng.Float32() * 3.1
		l.seeds = append(l.seeds, seed{x, y, sin(t + 1.57), sin(t), 0.017 + 0.01*rng.Float32(), rng.Float32()})
	}
}

// own turns a place into the loaf's own directions.
func (l *loaf) own(x, y float32) (u, v float32) { return x*l.cos + y*l.sin, y*l.cos - x*l.sin }

// from is 0 in the middle of the loaf and 1 on its rim, in its own directions.
func (l *loaf) from(u, v float32) float32 {
	x, y := u/l.a, v/l.b
	q := x*x + y*y
	if q > 3.2 {
		return sqrt(q)
	}
	r := sqrt(q)
	if l.Form == Tin {
		x2, y2 := x*x, y*y
		r = sqrt(sqrt(sqrt(x2*x2*x2*x2 + y2*y2*y2*y2)))
	}
	if r > 1e-3 {
		n := 1 / sqrt(q)
		r *= 1 + 0.055*(l.p.smooth.at(x*n*24+l.ox, y*n*24)-0.5)
	}
	return r
}

func (l *loaf) height(k int, x, y float32) float32 {
	u, v := l.own(x, y)
	r := l.from(u, v)
	l.rims[k] = r
	if r >= 1 {
		return 0
	}
	h := 0.66 * l.b * sqrt(1-r*r)
	if l.Form == Tin {
		q := r * r
		h = 0.5 * l.b * sqrt(1-q*q*q)
	}
	h += 0.030*l.p.smooth.at(x*70+l.ox, y*70) + 0.006*l.p.fine.at(x*170+l.ox, y*170)
	h += 0.010 * step(0.72, 0.9, l.p.fine.at(x*60, y*60+l.ox)) // blisters
	for i := range l.cuts {
		h += l.cuts[i].relief(l, u, v)
	}
	return h + l.seedHeight(u, v)
}

// relief is what a cut does to the height: a trough of torn dough with a lip
// on one side that stands up as the ear.
func (c *cut) relief(l *loaf, u, v float32) float32 {
	along, over, near := c.across(u, v)
	if !near {
		return 0
	}
	w := c.width
	taper := 1 - along*along
	h := -0.42 * w * bell(over, 0.85) * taper
	if over > -1 && over < 1 { // strands torn across the cut
		h += 0.10 * w * (l.p.fine.at(along*c.length*210+l.ox, over*9) - 0.5)
	}
	if c.ear > 0 {
		h += 0.62 * w * c.ear * taper * step(-2.2, -1.12, over) * step(-0.72, -1.02, over)
		h += 0.16 * w * bell(over-1.15, 0.3) * taper
	} else {
		h += 0.2 * w * taper * (bell(over-1.2, 0.3) + bell(over+1.2, 0.3))
	}
	return h
}

func (l *loaf) seedHeight(u, v float32) float32 {
	var h float32
	for i := range l.seeds {
		s := &l.seeds[i]
		dx, dy := u-s.x, v-s.y
		if dx > s.r || dx < -s.r || dy > s.r || dy < -s.r {
			continue
		}
		if q := s.within(dx, dy); q < 1 {
			h = max(h, 0.5*s.r*sqrt(1-q))
		}
	}
	return h
}

// within is below 1 on the seed.
func (s *seed) within(dx, dy float32) float32 {
	a, b := (dx*s.cos+dy*s.sin)/s.r, (dy*s.cos-dx*s.sin)/(s.r*0.5)
	return a*a + b*b
}
