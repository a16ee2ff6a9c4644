package crumb

import (
	"math"
	"slices"
)

// values turns regions into cells and works out every measure that they give.
func (f *Prepared) values(r *Result, p *partition) map[MeasureID]float64 {
	k := f.frame.pxPerMM
	r.FaceArea = float64(f.crumbPx) / (k * k)
	r.Cells = make([]Cell, len(p.regions))
	for i, g := range p.regions {
		angle := math.Mod(g.Angle*180/math.Pi+180, 180)
		r.Cells[i] = Cell{
			At: f.frame.toPhoto(g.X+0.5, g.Y+0.5), Area: float64(g.Area) / (k * k), Diameter: g.equivalentDiameter() / k,
			Major: g.Major / k, Minor: g.Minor / k, Angle: angle, AtEdge: g.AtEdge, AddIn: f.light.unlike(g.rgb),
		}
	}
	r.Counted = len(r.Cells)
	r.Sizes = sizeClasses(r.Cells)
	values := map[MeasureID]float64{}
	f.shares(values, func(i int) bool { return p.labels[i] != 0 })
	sizes(values, r.Cells, r.FaceArea, r.LargeFrom)
	shapes(values, r.Cells)
	if p.chord = wallChord(p.labels, f.crumb, f.w, f.h) / k; p.chord > 0 {
		values[WallThickness] = p.chord
	}
	return values
}

// report turns regions into cells, figures and flags.
func (f *Prepared) report(r *Result, p *partition) {
	k := f.frame.pxPerMM
	values := f.values(r, p)
	t := newTexture(f.rel, f.crumb, f.levels, f.w, f.h, k)
	t.values(values, f.levels, (f.levels.wall-f.levels.cell)/math.Max(p.grain, 1e-6))
	r.Flags = f.flags(r, p)
	if p.seen == inPart {
		p.sway = f.sway()
	}
	for _, d := range definitions {
		v, ok := values[d.ID]
		fig := Measurement{ID: d.ID, Value: v, Trust: Good}
		faulty := false
		for _, fl := range r.Flags {
			if fl.touches(d.ID) {
				fig.Trust = max(fig.Trust, fl.Severity)
				faulty = faulty || fl.Kind != Grainy && fl.Kind != PartSeen
			}
		}
		// The sure voids are a bound themselves, and where the cells do not agree on a
		// direction there is none to be off by.
		if r.Sensitivity == 0 && d.ID != SureVoids && (d.ID != Direction || values[Alignment] >= leastAlignment) {
			fig.Off = uncertainty(d.ID, values, p, faulty)
			if d.ID == LargeShare && p.seen == clearly {
				r.largeOff = fig.Off
				fig.Off = r.offLarge()
			}
		}
		if !ok || math.IsNaN(v) || math.IsInf(v, 0) {
			fig.Trust = Withheld
		}
		if fig.Trust == Withheld {
			fig.Value, fig.Off = 0, 0
		}
		r.Figures = append(r.Figures, fig)
	}
}

func (r *Result) withhold() {
	for _, d := range definitions {
		r.Figures = append(r.Figures, Measurement{ID: d.ID, Trust: Withheld})
	}
}

// shares are the measures that compare areas of the face: porosity whole,
// edge against middle, top against bottom.
func (f *Prepared) shares(values map[MeasureID]float64, open func(i int) bool) {
	var crumb, cell [4]int // middle, edge, top, bottom
	seen, half := 0, f.crumbPx/2
	for i, in := range f.crumb {
		if !in {
			continue
		}
		a, b := 0, 2
		if !f.middle[i] {
			a = 1
		}
		if seen >= half {
			b = 3
		}
		seen++
		crumb[a]++
		crumb[b]++
		if open(i) {
			cell[a]++
			cell[b]++
		}
	}
	part := func(k int) float64 { return float64(cell[k]) / float64(crumb[k]) }
	values[Porosity] = float64(cell[0]+cell[1]) / float64(crumb[0]+crumb[1])
	values[EdgeToMiddle] = part(1) / part(0)
	values[TopToBottom] = part(2) / part(3)
}

// leastAlignment is the alignment below which the main direction means nothing.
const leastAlignment = 0.2

// fineArea parts small cells from large ones, mm².
const fineArea = 4.0

func sizes(values map[MeasureID]float64, cells []Cell, face, largeFrom float64) {
	var areas, diameters []float64
	var count, greatest, open, sumD float64
	small := 0
	for _, c := range cells {
		greatest = math.Max(greatest, c.Area)
		open += c.Area
		if c.AtEdge {
			count += 0.5
			continue
		}
		count++
		areas, diameters = append(areas, c.Area), append(diameters, c.Diameter)
		sumD += c.Diameter
		if c.Area < fineArea {
			small++
		}
	}
	values[CellDensity] = count / (face / 100)
	if n := len(areas); n > 0 {
		values[MeanArea] = open / count
		values[MeanDiameter] = sumD / float64(n)
		values[MedianArea] = middle(areas)
		values[MedianDiameter] = middle(diameters)
		values[LargestArea] = greatest
		values[LargeShare] = largeShare(cells, largeFrom)
		if small < n {
			values[SmallToLarge] = float64(small) / float64(n-small)
		}
	}
}

func middle(v []float64) float64 {
	slices.Sort(v)
	n := len(v)
	return (v[(n-1)/2] + v[n/2]) / 2
}

// shapes are elongation and direction over whole cells. A cell weighs by its
// area; for the direction also by how stretched it is, since a round cell
// points nowhere.
func shapes(values map[MeasureID]float64, cells []Cell) {
	var area, stretch, weight, cos, sin float64
	for _, c := range cells {
		if c.AtEdge || c.Minor <= 0 {
			continue
		}
		e := c.Major / c.Minor
		area += c.Area
		stretch += c.Area * e
		s, q := math.Sincos(2 * c.Angle * math.Pi / 180)
		k := c.Area * (e - 1)
		weight += k
		cos += k * q
		sin += k * s
	}
	if area == 0 || weight == 0 {
		return
	}
	values[Elongation] = stretch / area
	values[Direction] = math.Mod(math.Atan2(sin, cos)*90/math.Pi+180, 180)
	values[Alignment] = math.Hypot(sin, cos) / weight
}

// wallChord is the mean length in pixels of the runs of wall between two
// cells, along rows and columns; 0 when there is none.
func wallChord(labels []int32, crumb []bool, w, h int) float64 {
	var length, runs int64
	down := make([]int32, w)
	for x := range down {
		down[x] = -1
	}
	for y := range h {
		across := int32(-1) // no cell yet since the crumb's edge
		row := labels[y*w : (y+1)*w]
		for x, in := range crumb[y*w : (y+1)*w] {
			before := down[x]
			switch {
			case !in:
				across, down[x] = -1, -1
			case row[x] != 0:
				if across > 0 {
					length += int64(across)
					runs++
				}
				if before > 0 {
					length += int64(before)
					runs++
				}
				across, down[x] = 0, 0
			default:
				if across >= 0 {
					across++
				}
				if before >= 0 {
					down[x] = before + 1
				}
			}
		}
	}
	if runs == 0 {
		return 0
	}
	return float64(length) / float64(runs)
}
