package scene

import (
	"image"
	"math/rand/v2"
)

// A Jar is a culture in a glass jar on the shelf of a galley, with a rubber
// band where it stood when it was fed.
type Jar struct {
	Seed  uint64
	Size  Size
	Grain Grain
	Label string // written on a strip of tape
	// Start and Rise: the height just after feeding as a share of the jar's,
	// and the height now against it, 2 for doubled. The band is at Start.
	Start, Rise float32
	// Bubbles is how lively it looks, 0 to 1.
	Bubbles float32
	// Fallen shows the film that a culture leaves on the glass as it sinks.
	Fallen bool
	Band   int // colour of the rubber band: 0 red, 1 blue, 2 green
}

// The jar's places in units; see canvas.
const (
	jarHalf   = 0.40
	jarBottom = 0.74
	jarTop    = -0.76
	jarInside = 0.70 // floor of the culture
	shelfEdge = 0.58
)

// Lines gives the heights of the jar's floor, of the band and of the culture
// now, as shares of the picture's height from its top: where a baker would lay
// three lines to measure the rise.
func (d Jar) Lines() (bottom, start, now float64) {
	share := func(y float32) float64 { return (float64(y) + 1) / 2 }
	return share(jarInside), share(d.startY()), share(d.levelY())
}

// span is the height of a jar that is full to the neck.
const span = jarInside - jarTop - 0.16

func (d Jar) startY() float32 { return jarInside - span*d.Start }

func (d Jar) levelY() float32 { return jarInside - span*min(0.98, d.Start*d.Rise) }

var (
	bandColour    = []rgb{{186, 52, 44}, {48, 92, 158}, {70, 124, 78}}
	cultureColour = [...]rgb{White: {238, 226, 198}, Brown: {206, 178, 138}, Dark: {164, 134, 104}}
)

type jar struct {
	Jar
	p       *Painter
	ox      float32
	level   float32
	bubbles []bubble
	label   *image.Alpha
	labelW  int
}

// Jar draws a jar of culture.
func (p *Painter) Jar(d Jar) *image.RGBA {
	rng := rand.New(rand.NewPCG(d.Seed, 0x7a6))
	g := &jar{Jar: d, p: p, ox: 400 * rng.Float32(), level: d.levelY()}
	deep := jarInside - g.level
	for range int(14 + 420*d.Bubbles*deep) {
		q := rng.Float32()
		g.bubbles = append(g.bubbles, bubble{
			x: (2*rng.Float32() - 1) * jarHalf, y: g.level + deep*rng.Float32(), r: 0.004 + (0.010+0.030*d.Bubbles)*q*q*q,
		})
	}
	c := newCanvas(d.Size)
	g.write(c)
	g.relief(c)
	return c.paint(func(i, j int, x, y float32) rgb { return g.colour(c, i, j, x, y) })
}

// relief marks the bubbles behind the glass by their depth, each only where it
// lies.
func (g *jar) relief(c *canvas) {
	c.height = make([]float32, c.w*c.h)
	for _, b := range g.bubbles {
		i0, j0 := g.pixelOf(c, b.x-b.r, b.y-b.r)
		i1, j1 := g.pixelOf(c, b.x+b.r, b.y+b.r)
		for j := max(0, j0); j <= min(c.h-1, j1); j++ {
			for i := max(0, i0); i <= min(c.w-1, i1); i++ {
				x, y := c.place(i, j)
				dx, dy := (x-b.x)/b.r, (y-b.y)/(b.r*0.86)
				if q := dx*dx + dy*dy; q < 1 {
					k := j*c.w + i
					c.height[k] = min(c.height[k], -0.7*b.r*sqrt(1-q))
				}
			}
		}
	}
}

func (g *jar) pixelOf(c *canvas, x, y float32) (i, j int) {
	return int(x/c.pixel + float32(c.w)/2), int(y/c.pixel + float32(c.h)/2)
}

// half is half the jar's outer width at a height.
func half(y float32) float32 {
	w := float32(jarHalf)
	switch {
	case y > jarBottom-0.08:
		t := (y - jarBottom + 0.08) / 0.08
		w -= 0.08 * (1 - sqrt(1-t*t))
	case y < jarTop+0.10:
		w -= 0.025
		w += 0.022 * bell(y-jarTop-0.015, 0.02) // the lip
	case y < jarTop+0.2:
		w -= 0.025 * step(jarTop+0.2, jarTop+0.1, y)
	}
	return w
}

func (g *jar) colour(c *canvas, i, j int, x, y float32) rgb {
	behind := g.room(x, y)
	if y < jarTop || y > jarBottom || abs(x) > jarHalf+0.01 {
		return behind
	}
	t := x / half(y)
	cover := clamp((1-abs(t))*half(y)/c.pixel + 0.5)
	if cover <= 0 {
		return behind
	}
	p := behind.mix(rgb{205, 216, 216}, 0.16)
	if g.Fallen || g.Rise > 1.02 {
		p = g.film(p, x, y)
	}
	p = g.content(c, i, j, x, y, t, p)
	p = g.glass(p, t, y)
	p = g.band(p, t, y, c.pixel)
	p = g.tape(c, p, i, j, t, y)
	return behind.mix(p, cover)
}

// room is what stands behind: the panelled wall, a porthole, the shelf.
func (g *jar) room(x, y float32) rgb {
	if y > shelfEdge {
		p := g.p.wood(g.ox, x*0.9, 0.34+(y-shelfEdge)*0.28).times(1.04 - 0.22*step(shelfEdge+0.02, shelfEdge, y))
		// The jar's shadow falls to the right.
		u, v := (x-0.22)/0.62, (y-jarBottom+0.005)/0.10
		return p.times(1 - 0.46*step(1.1, 0.2, sqrt(u*u+v*v)))
	}
	p := rgb{222, 214, 198}.times(1.03 - 0.10*x - 0.05*y + 0.03*(g.p.smooth.at(x*14+g.ox, y*14)-0.5))
	p = p.times(1 - 0.10*bell(abs(x+0.1)-0.78, 0.010)) // seams of the panels
	p = p.times(1 - 0.24*step(shelfEdge-0.10, shelfEdge, y))
	return g.porthole(p, x, y)
}

// porthole looks out on the sea, out of focus.
func (g *jar) porthole(p rgb, x, y float32) rgb {
	dx, dy := x-0.86, y+0.40
	r := sqrt(dx*dx + dy*dy)
	if r > 0.50 {
		return p
	}
	p = p.times(1 - 0.18*step(0.50, 0.42, r))
	brass := rgb{176, 142, 84}.times(0.80 + 0.45*bell(r-0.375, 0.022) - 0.5*(dx*0.5+dy*0.7))
	sea := ramp((y+0.40)/0.64+0.5, rgb{214, 226, 232}, rgb{226, 230, 226}, rgb{120, 152, 160}, rgb{84, 122, 134})
	sea = sea.add(10 * (g.p.smooth.at(x*10+g.ox, y*60) - 0.5) * step(-0.42, -0.36, y))
	p = p.mix(brass, step(0.43, 0.415, r))
	return p.mix(sea, step(0.345, 0.325, r))
}

// film is what clings to the glass above the culture: a little where it was
// stirred, a veil where it has stood and sunk.
func (g *jar) film(p rgb, x, y float32) rgb {
	if y > g.level || !g.Fallen {
		return p
	}
	top := g.level - span*0.16
	veil := g.p.smooth.at(x*60+g.ox, y*22) * step(top-0.05, top+0.04, y)
	return p.mix(cultureColour[g.Grain], 0.62*step(0.30, 0.75, veil))
}

// content is the culture itself, with the oval of its surface on top.
func (g *jar) content(c *canvas, i, j int, x, y, t float32, p rgb) rgb {
	if y > jarInside+0.02 {
		return p
	}
	base := cultureColour[g.Grain]
	oval := 0.030 * sqrt(1-t*t)
	dome := -0.035 * (1 - t*t)
	if g.Fallen {
		dome = 0.02 * (1 - t*t)
	} else if g.Rise < 1.15 {
		dome = 0
	}
	uneven := 0.012 * (g.p.smooth.at(x*70+g.ox, 3) - 0.5)
	front := g.level + oval + uneven
	back := g.level - oval + dome + uneven
	if y < back {
		return p
	}
	round := 0.72 + 0.28*sqrt(1-t*t*0.98) - 0.10*t
	if y < front { // its surface, seen a little from above
		foam := g.p.fine.at(x*90+g.ox, y*300)
		k := 1.04 - 0.20*g.Bubbles*step(0.58, 0.75, foam) + 0.05*(foam-0.5)
		return p.mix(base.times(k), step(back, back+2*c.pixel, y))
	}
	k := round * (1 + 0.07*(g.p.smooth.at(x*60+g.ox, y*60)-0.5) + 0.05*(g.p.fine.at(x*160, y*160+g.ox)-0.5))
	if g.Grain != White {
		k *= 1 - 0.18*step(0.70, 0.80, g.p.fine.at(x*210+g.ox, y*210))
	}
	q := base.times(k)
	if h := c.height[j*c.w+i]; h < 0 {
		dx, dy := c.slope(i, j)
		light, _ := window.on(-dx*0.5, -dy*0.5)
		q = q.times((0.64 + 0.30*light) * (1 + 5*h))
	}
	q = q.times(1 - 0.16*step(front+0.03, front, y))
	return q.times(1 - 0.25*step(jarInside-0.03, jarInside+0.02, y))
}

// glass lays the reflections over what is behind it.
func (g *jar) glass(p rgb, t, y float32) rgb {
	edge := abs(t)
	p = p.times(1 - 0.42*step(0.93, 1, edge) + 0.16*bell(edge-0.935, 0.018))
	p = p.mix(rgb{206, 218, 216}, 0.5*step(jarBottom-0.055, jarBottom-0.02, y)*step(jarBottom, jarBottom-0.02, y))
	// The window to the left, and the porthole's paler answer on the right.
	long := step(jarTop+0.14, jarTop+0.22, y) * step(jarBottom-0.1, jarBottom-0.2, y)
	p = p.add(62 * long * step(-0.80, -0.77, t) * step(-0.63, -0.67, t) * (0.8 + 0.3*y))
	p = p.add(34 * long * step(-0.60, -0.59, t) * step(-0.565, -0.575, t))
	p = p.add(26 * long * bell(t-0.78, 0.05))
	// The lip and the thread of the neck.
	p = p.add(70 * bell(y-jarTop-0.018, 0.010) * (1 - 0.5*edge))
	p = p.add(28 * bell(y-jarTop-0.085, 0.008)).times(1 - 0.14*bell(y-jarTop-0.105, 0.010))
	return p
}

// band is the rubber band round the jar.
func (g *jar) band(p rgb, t, y, pixel float32) rgb {
	d := abs(y - g.startY() - 0.012*sqrt(1-t*t))
	if d > 0.04 {
		return p
	}
	p = p.times(1 - 0.25*step(0.03, 0.014, d))
	round := 0.62 + 0.38*sqrt(1-t*t) - 0.12*t + 0.25*bell(t+0.55, 0.2)
	return p.mix(bandColour[g.Band%len(bandColour)].times(round*(1.12-9*d)), step(0.0155+pixel, 0.0155-pixel, d))
}
