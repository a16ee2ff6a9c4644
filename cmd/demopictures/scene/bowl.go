package scene

import (
	"image"
	"math/rand/v2"
)

// A Bowl is dough in a bowl, seen from above.
type Bowl struct {
	Seed   uint64
	Size   Size
	Grain  Grain
	Ground Ground
	// Glaze is the bowl's: 0 sea green, 1 cream, 2 steel.
	Glaze int
	// Proof is how far the dough has come, 0 freshly mixed and ragged to 1
	// domed, smooth and full of bubbles.
	Proof float32
	// Folded shows the seams of a turn just made.
	Folded bool
}

var (
	glazes      = []rgb{{96, 142, 138}, {226, 214, 190}, {172, 176, 180}}
	doughColour = [...]rgb{White: {238, 225, 196}, Brown: {214, 188, 148}, Dark: {158, 126, 96}}
)

const (
	bowlRadius = 0.90
	bowlRim    = 0.055
)

type bubble struct{ x, y, r float32 }

// bowl is a Bowl with all that has been drawn by chance.
type bowl struct {
	Bowl
	p       *Painter
	ox      float32
	dough   float32 // radius
	bubbles []bubble
	seams   []cut
}

// Bowl draws dough in a bowl.
func (p *Painter) Bowl(d Bowl) *image.RGBA {
	rng := rand.New(rand.NewPCG(d.Seed, 0xb0e1))
	b := &bowl{Bowl: d, p: p, ox: 400 * rng.Float32(), dough: 0.60 + 0.15*d.Proof}
	for range int(6 + 46*d.Proof) {
		q := rng.Float32()
		b.bubbles = append(b.bubbles, bubble{
			1.1 * (rng.Float32() - 0.5), 1.1 * (rng.Float32() - 0.5), 0.010 + 0.05*q*q*q*(0.4+d.Proof),
		})
	}
	if d.Folded {
		for i := range 4 {
			t := 0.4 + 1.57*float32(i) + 0.3*rng.Float32()
			b.seams = append(b.seams, cut{x: 0.17 * sin(t+1.57), y: 0.17 * sin(t), cos: sin(t + 2.6), sin: sin(t + 1.03),
				length: 0.42, width: 0.15, bow: 0.05})
		}
	}
	c := newCanvas(d.Size)
	c.relief(b.height)
	return c.paint(func(i, j int, x, y float32) rgb { return b.colour(c, i, j, x, y) })
}

// edge is 0 in the dough's middle and 1 on its rim.
func (b *bowl) edge(x, y float32) float32 {
	r := sqrt(x*x + y*y)
	if r < 1e-3 {
		return 0
	}
	rag := mix(0.34, 0.07, b.Proof)
	return r / b.dough * (1 + rag*(b.p.smooth.at(x/r*30+b.ox, y/r*30)-0.5))
}

func (b *bowl) height(_ int, x, y float32) float32 {
	r := sqrt(x*x + y*y)
	if e := b.edge(x, y); e < 1 {
		return b.doughHeight(x, y, e)
	}
	// The bowl: a hollow with a rounded rim.
	switch {
	case r > bowlRadius:
		return 0
	case r > bowlRadius-bowlRim:
		t := (r - bowlRadius + bowlRim/2) / (bowlRim / 2)
		return 0.05 * sqrt(1-t*t)
	default:
		q := r / (bowlRadius - bowlRim)
		return -0.42 * sqrt(1-q*q*0.96)
	}
}

func (b *bowl) doughHeight(x, y, e float32) float32 {
	h := mix(0.16, 0.26, b.Proof) * sqrt(1-e*e*0.94)
	h += mix(0.075, 0.035, b.Proof) * b.p.smooth.at(x*110+b.ox, y*110)
	h += mix(0.012, 0.002, b.Proof) * b.p.fine.at(x*150, y*150+b.ox)
	h += 0.0015 * b.p.fine.at(x*150, y*150)
	for i := range b.bubbles {
		k := &b.bubbles[i]
		dx, dy := x-k.x, y-k.y
		if q := (dx*dx + dy*dy) / (k.r * k.r); q < 1 {
			h += 0.30 * k.r * sqrt(1-q) * (1 - q*q)
		}
	}
	for i := range b.seams {
		if along, over, near := b.seams[i].across(x, y); near {
			h += 0.035 * (1 - along*along) * step(-0.7, 0.25, over) * step(2.9, 0.3, over)
		}
	}
	return h
}

func (b *bowl) colour(c *canvas, i, j int, x, y float32) rgb {
	r := sqrt(x*x + y*y)
	if r > bowlRadius {
		p := b.p.ground(b.Ground, b.ox, x, y)
		p = b.p.dusted(p, b.ox, x, y, clamp(1.5-r)*0.8)
		sx, sy := x-0.07, y-0.09
		return p.times(1.02 - 0.42*step(1.16, 0.86, sqrt(sx*sx+sy*sy)))
	}
	dx, dy := c.slope(i, j)
	e := b.edge(x, y)
	soft := c.pixel / b.dough
	inside := step(1+soft, 1-soft, e)
	p := b.glaze(x, y, r, dx, dy)
	if inside < 1 && r < bowlRadius-bowlRim {
		// The dough's shade on the bowl beside it.
		p = p.times(1 - 0.40*step(1.16, 1, e))
	}
	if inside <= 0 {
		return p
	}
	return p.mix(b.paste(x, y, e, dx, dy), inside)
}

func (b *bowl) glaze(x, y, r, dx, dy float32) rgb {
	light, sheen := window.on(dx*0.8, dy*0.8)
	p := glazes[b.Glaze%len(glazes)].times(1 + 0.10*(b.p.smooth.at(x*20+b.ox, y*20)-0.5))
	if b.Glaze == 0 { // speckled
		p = p.times(1 - 0.3*step(0.80, 0.88, b.p.fine.at(x*140+b.ox, y*140)))
	}
	if r < bowlRadius-bowlRim {
		p = p.times(0.80)
	}
	return p.times(light).add(110 * sheen)
}

func (b *bowl) paste(x, y, e, dx, dy float32) rgb {
	light, sheen := window.on(dx, dy)
	p := doughColour[b.Grain].times(0.98 + 0.08*(b.p.smooth.at(x*50, y*50+b.ox)-0.5))
	if b.Grain != White {
		p = p.times(1 - 0.26*step(0.70, 0.80, b.p.fine.at(x*200+b.ox, y*200)))
	}
	p = p.times((0.16 + 0.86*light) * (0.70 + 0.30*step(1, 0.88, e)))
	return p.add(34 * sheen * (0.3 + b.Proof))
}
