package phantom

import (
	"image"
	"math"
	"sort"
)

type rgb [3]float32

func (c rgb) times(k float32) rgb { return rgb{c[0] * k, c[1] * k, c[2] * k} }

func (c rgb) mix(d rgb, t float32) rgb {
	return rgb{c[0] + (d[0]-c[0])*t, c[1] + (d[1]-c[1])*t, c[2] + (d[2]-c[2])*t}
}

var (
	wallColour  = [...]rgb{White: {228, 210, 174}, Spelt: {190, 156, 112}, Rye: {132, 98, 68}}
	crustColour = [...]rgb{White: {160, 92, 40}, Spelt: {126, 70, 32}, Rye: {70, 43, 28}}
	seedColours = [...]rgb{{58, 60, 96}, {110, 128, 58}, {120, 58, 30}}
	jamColour   = rgb{142, 22, 34}
)

// A painter holds what is being painted.
type painter struct {
	s      Slice
	f      *form
	cells  []cell
	labels []uint16
	within []uint16 // as labels, one pixel wider, for soft edges, and with seeds
}

func newPainter(s Slice, f *form, cells []cell) *painter {
	n := s.Width * s.Height
	p := &painter{s: s, f: f, cells: cells, labels: make([]uint16, n), within: make([]uint16, n)}
	p.rasterise()
	return p
}

// rasterise gives every pixel whose middle lies in a cell that cell's number.
// Each band of rows is one goroutine's own, and goes through the cells in
// order, so the result does not hang on who comes first.
func (p *painter) rasterise() {
	const band = 64
	rows((p.s.Height+band-1)/band, func(b int) {
		for n := range p.cells {
			p.stamp(n, b*band, min(p.s.Height, (b+1)*band))
		}
	})
}

// stamp draws cell n where it lies in rows top to bottom.
func (p *painter) stamp(n, top, bottom int) {
	c, k := &p.cells[n], p.f.pxPerMM
	r := c.reach + 1.5/k
	x0, x1 := max(0, int((c.x-r)*k+p.f.ox)), min(p.s.Width-1, int((c.x+r)*k+p.f.ox)+1)
	y0, y1 := max(top, int((c.y-r)*k+p.f.oy)), min(bottom-1, int((c.y+r)*k+p.f.oy)+1)
	soft := 1 + 0.9/(c.b*k)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			rho := c.rho(p.f.toMM(float64(x)+0.5, float64(y)+0.5))
			i := y*p.s.Width + x
			switch {
			case rho < 1:
				p.within[i] = uint16(n + 1)
				if !c.seedlet {
					p.labels[i] = uint16(n + 1)
				}
			case rho < soft && p.within[i] == 0:
				p.within[i] = uint16(n + 1)
			}
		}
	}
}

// paint returns the slice in even light.
func (p *painter) paint() *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, p.s.Width, p.s.Height))
	rows(p.s.Height, func(y int) {
		for x := range p.s.Width {
			mx, my := p.f.toMM(float64(x)+0.5, float64(y)+0.5)
			c := p.colour(mx, my, y*p.s.Width+x)
			o := y*img.Stride + 4*x
			img.Pix[o], img.Pix[o+1], img.Pix[o+2], img.Pix[o+3] = clamp8(c[0]), clamp8(c[1]), clamp8(c[2]), 255
		}
	})
	return img
}

func (p *painter) colour(x, y float64, i int) rgb {
	depth := p.f.depth(x, y)
	edge := float32(0.5 + depth*p.f.pxPerMM) // cover of the pixel by the slice
	if edge <= 0 {
		return p.ground(x, y, depth)
	}
	c := p.bread(x, y, depth, i)
	if edge < 1 {
		return p.ground(x, y, depth).mix(c, edge)
	}
	return c
}

func (p *painter) bread(x, y, depth float64, i int) rgb {
	grain := 1 + 0.05*(valueNoise(p.s.Seed^1, x/0.7, y/0.7)-0.5) + 0.05*(valueNoise(p.s.Seed^2, x/0.25, y/0.25)-0.5) +
		0.05*(valueNoise(p.s.Seed^3, x/12, y/12)-0.5)
	wall := wallColour[p.s.Tone].times(grain)
	if !p.f.inCrumb(x, y, depth, 0.5) {
		crust := p.f.crustAt(x, y)
		// Half a millimetre of soft change, its middle where the crumb begins.
		t := float32(math.Min(1, math.Max(0, (depth-crust+0.5)/1.0)))
		dark := 0.78 + 0.30*float32(math.Min(1, depth/crust)) + 0.16*(valueNoise(p.s.Seed^4, x/1.6, y/1.6)-0.5)
		wall = crustColour[p.s.Tone].times(dark).mix(wall, t)
	}
	c := p.cellOver(wall, x, y, i)
	if p.s.Spread > 0 {
		c = p.spreadOver(c, x, y)
	}
	return c
}

// cellOver puts the cell or seed at pixel i, if there is one, over the wall.
func (p *painter) cellOver(wall rgb, x, y float64, i int) rgb {
	n := p.within[i]
	if n == 0 {
		return wall
	}
	c := &p.cells[n-1]
	rho := c.rho(x, y)
	cover := float32(math.Min(1, math.Max(0, 0.5+(1-rho)*c.b*p.f.pxPerMM)))
	if c.seedlet {
		colour := seedColours[int(n)%len(seedColours)].times(1.1 - 0.3*float32(rho))
		return wall.mix(colour, cover)
	}
	// Light comes from the upper left: the far lip catches it, the near lip
	// lies in its own shade, and the floor is a little uneven.
	lip := float32(rho*rho) * float32((x-c.x)*0.6+(y-c.y)*0.8) / float32(c.a)
	shade := c.floor * (1 + 0.14*lip + 0.12*(valueNoise(p.s.Seed^5, x/0.9, y/0.9)-0.5))
	// Light that has bounced between the walls of a cell comes out warmer.
	return wall.mix(rgb{wall[0] * shade, wall[1] * shade * 0.97, wall[2] * shade * 0.91}, cover)
}

// spreadOver lays a red spread with a wavy lower edge over the slice's top.
func (p *painter) spreadOver(c rgb, x, y float64) rgb {
	lo, hi := bounds(p.f.outline)
	level := lo.Y + p.s.Spread*(hi.Y-lo.Y) + 4*(float64(valueNoise(p.s.Seed^6, x/14, 0))-0.5)
	t := float32(math.Min(1, math.Max(0, (level-y)/0.4)))
	gloss := 1 + 0.5*(valueNoise(p.s.Seed^8, x/3, y/3)-0.4)
	return c.mix(jamColour.times(gloss), 0.93*t)
}

// ground is what the slice lies on, with the slice's soft shadow on it.
func (p *painter) ground(x, y, depth float64) rgb {
	var c rgb
	seed := p.s.Seed ^ 0x6e0
	cloud := valueNoise(seed, x/25, y/25) - 0.5
	switch p.s.Ground {
	case Linen:
		weave := float32(math.Sin(x*9)*0.5+math.Sin(y*9)*0.5) * 1.5
		k := 224 + 10*cloud + weave + 4*(valueNoise(seed^1, x/1.5, y/0.6)-0.5)
		c = rgb{k, k, k - 5}
	case Board:
		rings := float64(valueNoise(seed^2, x/70, y/7))*9 + float64(valueNoise(seed^3, x/20, y/1.2))
		k := 1 + 0.10*float32(math.Sin(rings*4)) + 0.12*cloud
		c = rgb{112, 84, 60}.times(k)
	case Teal:
		c = rgb{38, 112, 116}.times(1 + 0.12*cloud + 0.04*(valueNoise(seed^1, x/2, y/2)-0.5))
	default:
		k := 1 + 0.5*cloud + 0.12*(valueNoise(seed^1, x/2, y/2)-0.5)
		c = rgb{36, 38, 43}.times(k)
	}
	if depth > -8 && depth < 0 {
		c = c.times(1 - 0.22*float32(math.Exp(depth/2.5)))
	}
	return c
}

func clamp8(v float32) uint8 {
	return uint8(min(255, max(0, v+0.5)))
}

// count reads the truth off the labels.
func (p *painter) count() (Truth, *image.Gray) {
	w, h := p.s.Width, p.s.Height
	crumb := image.NewGray(image.Rect(0, 0, w, h))
	rows(h, func(y int) {
		for x := range w {
			mx, my := p.f.toMM(float64(x)+0.5, float64(y)+0.5)
			if p.f.inCrumb(mx, my, p.f.depth(mx, my), 0) {
				crumb.Pix[y*crumb.Stride+x] = 255
			}
		}
	})
	px := make([]int, len(p.cells)+1)
	crumbPx, box := 0, image.Rectangle{}
	for i, v := range crumb.Pix {
		if v == 0 {
			p.labels[i] = 0
			continue
		}
		crumbPx++
		box = box.Union(image.Rect(i%w, i/w, i%w+1, i/w+1))
		px[p.labels[i]]++
	}
	mm2 := 1 / (p.f.pxPerMM * p.f.pxPerMM)
	t := Truth{PxPerMM: p.f.pxPerMM, CrumbMM2: float64(crumbPx) * mm2, CrumbBox: box}
	p.renumber(px)
	total := 0
	for _, n := range px[1:] {
		if n > 0 {
			t.AreasMM2 = append(t.AreasMM2, float64(n)*mm2)
			total += n
		}
	}
	t.outline(p)
	t.sum(total, crumbPx)
	return t, crumb
}

// renumber closes the gaps that seeds and cells outside the frame leave.
func (p *painter) renumber(px []int) {
	to := make([]uint16, len(px))
	next := uint16(0)
	for n := 1; n < len(px); n++ {
		if px[n] > 0 {
			next++
			to[n] = next
		}
	}
	for i, l := range p.labels {
		p.labels[i] = to[l]
	}
}

func (t *Truth) outline(p *painter) {
	for _, q := range p.f.outline {
		x := math.Min(math.Max(q.X*p.f.pxPerMM+p.f.ox, 0), float64(p.s.Width))
		y := math.Min(math.Max(q.Y*p.f.pxPerMM+p.f.oy, 0), float64(p.s.Height))
		t.Outline = append(t.Outline, Point{x, y})
	}
	lo, hi := bounds(t.Outline)
	t.SliceWidthMM = (hi.X - lo.X) / p.f.pxPerMM
}

func (t *Truth) sum(cellPx, crumbPx int) {
	t.Cells = len(t.AreasMM2)
	if t.Cells == 0 || crumbPx == 0 {
		return
	}
	t.Porosity = float64(cellPx) / float64(crumbPx)
	t.PerCM2 = float64(t.Cells) / (t.CrumbMM2 / 100)
	sorted := append([]float64(nil), t.AreasMM2...)
	sort.Float64s(sorted)
	sum := 0.0
	for _, a := range sorted {
		sum += a
	}
	t.MeanAreaMM2 = sum / float64(t.Cells)
	t.MedianAreaMM2 = (sorted[(t.Cells-1)/2] + sorted[t.Cells/2]) / 2
	t.LargestMM2 = sorted[t.Cells-1]
}
