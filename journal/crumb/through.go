package crumb

import "math"

// Limits of a hole that shows the table.
const (
	throughGap   = 0.03 // least difference of chroma between table and crumb
	throughLit   = 0.25 // of the table's own brightness, at least: what is darker is a cell as it is
	throughMM2   = 0.8  // least area
	throughNear  = 0.4  // of the way from the table's chroma to the crumb's, at most
	throughDepth = 3.0  // mm below the crumb's edge: nearer to it, it may be the table beside the slice
)

// openThrough gives holes that go through the slice the level of a cell: where a pale table
// shows in one, it is as bright as the walls, and only its colour tells. It needs the table's
// colour, and so a slice that was found.
func (f *Prepared) openThrough() {
	wall := chroma([3]float32{float32(f.light.wall[0]), float32(f.light.wall[1]), float32(f.light.wall[2])})
	if !f.found || chromaGap(wall, f.from.ground) < throughGap {
		return
	}
	block := max(1, int(math.Round(f.frame.pxPerMM/4)))
	c := newCoarse(f.rgb, f.crumb, f.w, f.h, block)
	perMM := f.frame.pxPerMM / float64(block)
	depth := distanceSquared(c.in, c.w, c.h)
	whole := chromaGap(wall, f.from.ground)
	shows := make([]bool, len(c.in))
	any := false
	for i, in := range c.in {
		v := c.rgb[i]
		lit := 0.299*v[0] + 0.587*v[1] + 0.114*v[2]
		shows[i] = in && float64(lit) > throughLit*float64(f.from.lit) && chromaGap(chroma(v), f.from.ground) < throughNear*whole &&
			float64(depth[i]) > math.Pow(throughDepth*perMM, 2)
		any = any || shows[i]
	}
	if !any {
		return
	}
	removeSpecks(shows, c.w, c.h, max(2, int(throughMM2*perMM*perMM)))
	for y := range f.h {
		for x := range f.w {
			if i := y*f.w + x; f.crumb[i] && shows[y/block*c.w+x/block] {
				f.rel[i] = min(f.rel[i], uint16(f.levels.cell))
			}
		}
	}
}
