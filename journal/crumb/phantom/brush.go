package phantom

import "math"

// rgb is a colour in grey levels. As a struct, unlike as an array, it stays in
// registers, which makes painting much faster.
type rgb struct{ r, g, b float32 }

func (c rgb) times(k float32) rgb { return rgb{c.r * k, c.g * k, c.b * k} }

func (c rgb) mix(d rgb, t float32) rgb {
	return rgb{c.r + (d.r-c.r)*t, c.g + (d.g-c.g)*t, c.b + (d.b-c.b)*t}
}

var (
	wallColour  = [...]rgb{White: {228, 210, 174}, Spelt: {190, 156, 112}, Rye: {132, 98, 68}}
	crustColour = [...]rgb{White: {160, 92, 40}, Spelt: {126, 70, 32}, Rye: {70, 43, 28}}
	seedColours = [...]rgb{{58, 60, 96}, {110, 128, 58}, {120, 58, 30}}
	jamColour   = rgb{142, 22, 34}
)

// A brush paints one row of pixels. It remembers the noise round the last of them.
type brush struct {
	*painter
	grains [noises]grain
}

// The noises that a picture is made of.
const (
	wallGrain = iota
	wallDust
	wallCloud
	crustGrain
	floorGrain
	jamEdge
	jamGloss
	groundCloud
	groundGrain
	woodRings
	woodFibre
	speckWide
	speckFine
	noises
)

func newBrush(p *painter) *brush {
	b := &brush{painter: p}
	for i, salt := range [noises]uint64{1, 2, 3, 4, 5, 6, 8, 0x6e0, 0x6e1, 0x6e2, 0x6e3, 0x57ec, 0x57ed} {
		b.grains[i].seed = p.s.Seed ^ salt
	}
	return b
}

func (b *brush) noise(which int, x, y float64) float32 { return b.grains[which].at(x, y) }

func (b *brush) colour(x, y float64, i int) rgb {
	depth := b.f.depth(x, y)
	edge := float32(0.5 + depth*b.f.pxPerMM) // cover of the pixel by the slice
	if edge <= 0 {
		return b.ground(x, y, depth)
	}
	c := b.bread(x, y, depth, i)
	if edge < 1 {
		return b.ground(x, y, depth).mix(c, edge)
	}
	return c
}

func (b *brush) bread(x, y, depth float64, i int) rgb {
	grain := 1 + 0.05*(b.noise(wallGrain, x/0.7, y/0.7)-0.5) + 0.05*(b.noise(wallDust, x/0.25, y/0.25)-0.5) +
		0.05*(b.noise(wallCloud, x/12, y/12)-0.5)
	if b.s.Grain > 0 {
		grain += float32(b.s.Grain) * 3.5 * (b.noise(speckWide, x/0.45, y/0.45) + b.noise(speckFine, x/0.25, y/0.25) - 1)
	}
	wall := wallColour[b.s.Tone].times(grain)
	if !b.f.inCrumb(x, y, depth, 0.5) {
		crust := b.f.crustAt(x, y)
		// Half a millimetre of soft change, its middle where the crumb begins.
		t := float32(min(1, max(0, (depth-crust+0.5)/1.0)))
		dark := 0.78 + 0.30*float32(min(1, depth/crust)) + 0.16*(b.noise(crustGrain, x/1.6, y/1.6)-0.5)
		wall = crustColour[b.s.Tone].times(dark).mix(wall, t)
	}
	c := b.cellOver(wall, x, y, i)
	if b.s.Spread > 0 {
		c = b.spreadOver(c, x, y)
	}
	return c
}

// cellOver puts the cell or seed at pixel i, if there is one, over the wall.
func (b *brush) cellOver(wall rgb, x, y float64, i int) rgb {
	n := b.within[i]
	if n == 0 {
		return wall
	}
	c := &b.cells[n-1]
	rho := c.rho(x, y)
	cover := float32(min(1, max(0, 0.5+(1-rho)*c.b*b.f.pxPerMM)))
	if c.seedlet {
		colour := seedColours[int(n)%len(seedColours)].times(1.1 - 0.3*float32(rho))
		return wall.mix(colour, cover)
	}
	// Light comes from the upper left: the far lip catches it, the near lip
	// lies in its own shade, and the floor is a little uneven.
	lip := float32(rho*rho) * float32((x-c.x)*0.6+(y-c.y)*0.8) / float32(c.a)
	shade := c.floor * (1 + 0.14*lip + 0.12*(b.noise(floorGrain, x/0.9, y/0.9)-0.5))
	// Light that has bounced between the walls of a cell comes out warmer.
	return wall.mix(rgb{wall.r * shade, wall.g * shade * 0.97, wall.b * shade * 0.91}, cover)
}

// spreadOver lays a red spread with a wavy lower edge over the slice's top.
func (b *brush) spreadOver(c rgb, x, y float64) rgb {
	level := b.f.lo.Y + b.s.Spread*(b.f.hi.Y-b.f.lo.Y) + 4*(float64(b.noise(jamEdge, x/14, 0))-0.5)
	t := float32(min(1, max(0, (level-y)/0.4)))
	gloss := 1 + 0.5*(b.noise(jamGloss, x/3, y/3)-0.4)
	return c.mix(jamColour.times(gloss), 0.93*t)
}

// ground is what the slice lies on, with the slice's soft shadow on it.
func (b *brush) ground(x, y, depth float64) rgb {
	var c rgb
	cloud := b.noise(groundCloud, x/25, y/25) - 0.5
	switch b.s.Ground {
	case Linen:
		weave := float32(math.Sin(x*9)*0.5+math.Sin(y*9)*0.5) * 1.5
		k := 224 + 10*cloud + weave + 4*(b.noise(groundGrain, x/1.5, y/0.6)-0.5)
		c = rgb{k, k, k - 5}
	case Board:
		rings := float64(b.noise(woodRings, x/70, y/7))*9 + float64(b.noise(woodFibre, x/20, y/1.2))
		k := 1 + 0.10*float32(math.Sin(rings*4)) + 0.12*cloud
		c = rgb{112, 84, 60}.times(k)
	case Teal:
		c = rgb{38, 112, 116}.times(1 + 0.12*cloud + 0.04*(b.noise(groundGrain, x/2, y/2)-0.5))
	default:
		k := 1 + 0.5*cloud + 0.12*(b.noise(groundGrain, x/2, y/2)-0.5)
		c = rgb{36, 38, 43}.times(k)
	}
	if depth > -8 && depth < 0 {
		c = c.times(1 - 0.22*float32(math.Exp(depth/2.5)))
	}
	return c
}

func clamp8(v float32) uint8 {
	if v >= 254.5 {
		return 255
	}
	if v > 0 {
		return uint8(int32(v + 0.5))
	}
	return 0
}
