package crumb

import (
	"math"

	"twinloaf/journal/say"
)

// Limits of a hole that shows the table.
const (
	throughGap   = 0.03 // least difference of chroma between table and crumb
	throughLit   = 0.25 // of the table's own brightness, at least: what is darker is a cell as it is
	throughMM2   = 0.8  // least area
	throughNear  = 0.4  // of the way from the table's chroma to the crumb's, at most
	throughDepth = 3.0  // mm below the crumb's edge: nearer to it, it may be the table beside the slice
	throughDoubt = 0.002

	whiteGap  = 30.0 // by which a table is brighter than the walls, of three times 255, if brightness is to tell
	whiteNear = 0.12 // of the way from the table's colour to the walls', at most
	whiteMM2  = 3.0  // a glint is smaller
)

// openThrough gives holes that go through the slice the level of a cell: where a pale table
// shows in one, it is as bright as the walls, and only its colour tells; where a white one does, it is
// brighter. It needs the table's colour, and so a slice that was found.
func (f *Prepared) openThrough() {
	if !f.found {
		return
	}
	wall := [3]float32{float32(f.light.wall[0]), float32(f.light.wall[1]), float32(f.light.wall[2])}
	// Light that has bounced in a cell is warm, and so is wood: no colour tells a hole that shows it from a cell.
	bread, table := chroma(wall), chroma(f.from.under)
	warm := table[0] > bread[0] && table[1] < bread[1]
	whole := chromaGap(bread, table)
	coloured := !warm && whole >= throughGap
	white := float64(f.from.under[0]+f.from.under[1]+f.from.under[2]-wall[0]-wall[1]-wall[2]) >= whiteGap
	if !coloured && !white {
		return
	}
	block := max(1, int(math.Round(f.frame.pxPerMM/4)))
	c := newCoarse(f.rgb, f.crumb, f.w, f.h, block)
	perMM := f.frame.pxPerMM / float64(block)
	depth := distanceWithin(c.in, c.w, c.h, int(throughDepth*perMM)+2)
	shows := func(like func(v [3]float32) bool, leastMM2 float64) {
		mask := make([]bool, len(c.in))
		any := false
		for i, in := range c.in {
			mask[i] = in && float64(depth[i]) > math.Pow(throughDepth*perMM, 2) && like(c.rgb[i])
			any = any || mask[i]
		}
		if any {
			removeSpecks(mask, c.w, c.h, max(2, int(leastMM2*perMM*perMM)))
			f.open(mask, c.w, block)
		}
	}
	if coloured {
		lit := func(v [3]float32) float64 { return float64(0.299*v[0] + 0.587*v[1] + 0.114*v[2]) }
		shows(func(v [3]float32) bool {
			return lit(v) > throughLit*lit(f.from.under) && chromaGap(chroma(v), table) < throughNear*whole
		}, throughMM2)
	}
	if white {
		far := distance3(wall, f.from.under)
		shows(func(v [3]float32) bool { return distance3(v, f.from.under) < whiteNear*far }, whiteMM2)
	}
}

// open gives all that a coarse mask holds the level of a cell.
func (f *Prepared) open(mask []bool, w, block int) {
	for y := range f.h {
		for x := range f.w {
			if i := y*f.w + x; f.crumb[i] && mask[y/block*w+x/block] {
				f.rel[i] = min(f.rel[i], uint16(f.levels.cell))
				f.through += 1 / float64(f.crumbPx)
			}
		}
	}
}

func distance3(a, b [3]float32) float64 {
	return math.Sqrt(float64((a[0]-b[0])*(a[0]-b[0]) + (a[1]-b[1])*(a[1]-b[1]) + (a[2]-b[2])*(a[2]-b[2])))
}

// throughFlag tells of holes that go through the slice: a tear, more likely than a cell.
func (f *Prepared) throughFlag(grade grader) {
	grade(Through, f.through > throughDoubt, false,
		say.Of("Through {{.Figure}} % of the face the table shows: a tear or a hole in the slice, counted as open.", figure(100*f.through, 1)),
		[]MeasureID{LargestArea, LargeShare, SmallToLarge, EdgeToMiddle, TopToBottom})
}
