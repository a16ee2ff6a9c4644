package crumb

import (
	"image"
	"math"

	"twinloaf/journal/say"
)

// Limits of what is asked about how a photo was set up. They are set on drawn kitchen scenes
// and slices: see the tests.
const (
	shadeDoubt    = 0.04  // of the outline's rim in the table's colour, only darker
	besideDoubt   = 0.015 // of chroma, between what is just outside the outline and the ground
	flashDoubt    = 0.10  // fall of light all round from the photo's middle
	slantAlign    = 0.30  // alignment of the cells
	slantLevel    = 12.0  // degrees off level or upright
	slantStretch  = 1.25  // elongation from which it is asked
	slantMost     = 1.85  // beyond, no tilt of 45° makes it of round cells
	bareDoubt     = 0.05  // share of the crumb that is far from any cell
	bareTimes     = 1.0   // as many wall thicknesses are far: cells strewn by chance leave next to nothing as far
	bareLeastMM   = 3.5
	leastFlashRun = 40 // blocks of the light's field that tell anything
)

// outlineFlag doubts an outline that was found with a shadow, or without its crust, and a crust that
// cannot be told from the crumb.
func (f *Prepared) outlineFlag(grade grader) {
	grade(CrustAlike, f.stray > crustStray, false,
		say.Of("Crust and crumb are of nearly one colour: {{.Figure}} % of the slice's middle looks like crust too, so some crumb may be left out, or some crust counted.", figure(100*f.stray, 0)), nil)
	grade(UnsureEdge, f.from.shade > shadeDoubt, false,
		say.Of("{{.Figure}} % of the outline's edge has the table's colour, only darker: was a shadow taken for a part of the slice?", figure(100*f.from.shade, 0)), nil)
	touched := []MeasureID{EdgeToMiddle}
	if f.byWidth {
		touched = nil
	}
	grade(UnsureEdge, f.from.beside > besideDoubt, false,
		say.Of("The slice's crust can hardly be told from the colour of what it lies on: the outline may run within the crust, and be narrower than the slice."), touched)
}

// fallFrom is by what share the light on the walls falls from the photo's middle to the
// crumb's farthest part, all round alike: least squares of its logarithm over a slope and the
// squared distance from the middle. It is 0 where the light falls more to one side.
func (f *Prepared) fallFrom(photo image.Rectangle) float64 {
	v := f.light.field
	if v == nil {
		return 0
	}
	mid, ok := f.frame.fromPhoto(Point{float64(photo.Min.X+photo.Max.X) / 2, float64(photo.Min.Y+photo.Max.Y) / 2})
	if !ok {
		return 0
	}
	m := equations(4)
	size := math.Hypot(float64(f.w), float64(f.h)) / 2
	far, n := 0.0, 0
	for j := range v.h {
		for i := range v.w {
			x, y := min(f.w-1, int((float64(i)+0.5)*v.block)), min(f.h-1, int((float64(j)+0.5)*v.block))
			if !f.crumb[y*f.w+x] || v.v[j*v.w+i] <= 0 {
				continue
			}
			dx, dy := (float64(x)-mid.X)/size, (float64(y)-mid.Y)/size
			row := [5]float64{1, dx, dy, dx*dx + dy*dy, math.Log(float64(v.v[j*v.w+i]))}
			far = math.Max(far, row[3])
			n++
			for a := range 4 {
				for b, v := range row {
					m[a][b] += row[a] * v
				}
			}
		}
	}
	c, ok := solve(m)
	if !ok || n < leastFlashRun {
		return 0
	}
	fall := -c[3] * far
	if fall < math.Hypot(c[1], c[2]) {
		return 0
	}
	return 1 - math.Exp(-math.Max(0, fall))
}

func (f *Prepared) flashFlag(grade grader) {
	grade(Flash, f.flash > flashDoubt, false,
		say.Of("The light falls off all round by {{.Figure}} % from the picture's middle, as a flash's does: lit from in front, cells lose their shadows.", figure(100*f.flash, 0)), cellBased())
}

// slantFlag asks whether a photo in which the cells all lie level, or all upright, was taken aslant:
// a tilt shortens one direction. From a photo without corners to go by, nothing can tell the two
// apart.
func (f *Prepared) slantFlag(grade grader, r *Result) {
	if f.frame.flat != nil || len(r.Cells) == 0 {
		return
	}
	v := map[MeasureID]float64{}
	shapes(v, r.Cells)
	off := math.Mod(v[Direction]+slantLevel, 90)
	grade(Slanted, v[Alignment] > slantAlign && v[Elongation] > slantStretch && v[Elongation] < slantMost && off < 2*slantLevel, false,
		say.Of("The cells all lie stretched the same way, {{.Figure}} times as long as wide: so the dough was, or the photo was taken aslant; then areas are off as well.", figure(v[Elongation], 1)),
		[]MeasureID{Elongation, Direction, Alignment})
}

// barePerMM is how finely it is looked how far a place is from any cell.
const barePerMM = 4.0

// bareFlag asks about parts of the face that are far from any cell.
func (f *Prepared) bareFlag(grade grader, p *partition) {
	block := max(1, int(math.Round(f.frame.pxPerMM/barePerMM)))
	w, h := (f.w+block-1)/block, (f.h+block-1)/block
	wall, crumb := make([]bool, w*h), make([]uint16, w*h)
	for i := range wall {
		wall[i] = true
	}
	for y := range f.h {
		in, labels := f.crumb[y*f.w:(y+1)*f.w], p.labels[y*f.w:(y+1)*f.w]
		wall, crumb := wall[y/block*w:][:w], crumb[y/block*w:][:w]
		for b := range wall {
			for x := b * block; x < min(f.w, (b+1)*block); x++ {
				crumb[b] += uint16(b2i(in[x]))
				wall[b] = wall[b] && (labels[x] == 0 || !in[x])
			}
		}
	}
	far := math.Max(bareLeastMM, bareTimes*p.chord) * f.frame.pxPerMM / float64(block)
	bare := 0
	for i, d := range distanceWithin(wall, w, h, int(far)+2) {
		if float64(d) > far*far {
			bare += int(crumb[i])
		}
	}
	share := float64(bare) / float64(max(1, f.crumbPx))
	grade(Bare, share > bareDoubt, false,
		say.Of("{{.Figure}} % of the face lies far from any cell: a spread, a dense streak, or light that is burnt out?", figure(100*share, 0)), nil)
}
