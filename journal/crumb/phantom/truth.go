package phantom

import (
	"image"
	"math"
	"slices"
)

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
	t.MeanAreaMM2 = t.Porosity * t.CrumbMM2 / float64(t.Cells)
	t.LargestMM2 = slices.Max(t.AreasMM2)
}
