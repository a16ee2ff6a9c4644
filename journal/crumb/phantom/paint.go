package phantom

import (
	"image"
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
		b := newBrush(p)
		for x := range p.s.Width {
			mx, my := p.f.toMM(float64(x)+0.5, float64(y)+0.5)
			c := b.colour(mx, my, y*p.s.Width+x)
			o := y*img.Stride + 4*x
			img.Pix[o], img.Pix[o+1], img.Pix[o+2], img.Pix[o+3] = clamp8(c.r), clamp8(c.g), clamp8(c.b), 255
		}
	})
	return img
}
