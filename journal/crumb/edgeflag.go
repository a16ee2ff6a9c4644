package crumb

import (
	"math"

	"twinloaf/journal/say"
)

// edgeFlag doubts a face of which the border looks like one long cell: as when
// a side of it lies in the shade or falls away. How much of the face cut cells take
// is set against what chance would cut.
func edgeFlag(grade grader, r *Result) {
	area := 0.0
	for _, c := range r.Cells {
		if c.AtEdge {
			area += c.Area
		}
	}
	share := area / r.FaceArea
	grade(ShadowAcross, share > edgeDoubt && share > edgeDoubtTimes*r.cutByChance(), false,
		say.Of("Openings along the crumb's edge take {{.Figure}} % of the face: is part of it in the shade, or beyond the crumb?", figure(100*share, 0)), nil)
}

// cutByChance is the share of the face that cells cut by its edge would take if the
// edge lay anywhere: an edge cuts the cells whose middle lies within half a diameter
// of it, of which half the area lies inside.
func (r *Result) cutByChance() float64 {
	open, whole, weighted := 0.0, 0.0, 0.0
	for _, c := range r.Cells {
		open += c.Area
		if !c.AtEdge {
			whole += c.Area
			weighted += c.Area * c.Diameter
		}
	}
	if whole == 0 {
		return 0
	}
	return open / r.FaceArea * r.perimeter() * weighted / whole / (2 * r.FaceArea)
}

// perimeter is the length of the crumb's edge: its pixel steps, of which slanting
// ones count too long by 4/π on average.
func (r *Result) perimeter() float64 {
	steps := 0
	for y := 1; y < r.h-1; y++ {
		for i := y*r.w + 1; i < (y+1)*r.w-1; i++ {
			if r.crumb[i] {
				steps += b2i(!r.crumb[i-1]) + b2i(!r.crumb[i+1]) + b2i(!r.crumb[i-r.w]) + b2i(!r.crumb[i+r.w])
			}
		}
	}
	return float64(steps) * math.Pi / 4 / r.frame.pxPerMM
}
