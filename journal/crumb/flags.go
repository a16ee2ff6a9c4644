package crumb

import (
	"math"
	"slices"

	"twinloaf/journal/say"
)

// A FlagKind names a fault of a photo.
type FlagKind string

// The faults that are looked for.
const (
	NotFound     FlagKind = "slice_not_found"
	Blurred      FlagKind = "blurred"
	TooDark      FlagKind = "too_dark"
	BlownOut     FlagKind = "blown_out"
	ShadowAcross FlagKind = "shadow"
	TooCoarse    FlagKind = "too_few_pixels"
	AddIn        FlagKind = "spread_or_add_in"
	FaintCells   FlagKind = "faint_cells"
	Grainy       FlagKind = "grainy"
	PartSeen     FlagKind = "cells_seen_in_part"
	SideLit      FlagKind = "dark_to_one_side"
	Ragged       FlagKind = "ragged_cells"
	FewCells     FlagKind = "few_cells"
	CutOff       FlagKind = "slice_leaves_picture"
	UnsureEdge   FlagKind = "unsure_outline"
	CrustAlike   FlagKind = "crust_like_crumb"
	Flash        FlagKind = "flash"
	Slanted      FlagKind = "slanted"
	Bare         FlagKind = "bare_patch"
	Through      FlagKind = "hole_through"
)

// A Flag is one fault, in words that a baker can act on.
type Flag struct {
	Kind     FlagKind
	Severity Trust // Doubtful or Withheld
	// Reason is the sentence, in English and as a key of the catalogue; it may
	// hold {{.Figure}} and {{.Why}}. Line fills it.
	Reason  string
	Figure  *say.Number `json:",omitempty"`
	Why     string      `json:",omitempty"` // a key of the catalogue, too
	Affects []MeasureID // none named means every measure
}

// Line is the sentence.
func (f Flag) Line() say.Line {
	with := say.With{}
	if f.Figure != nil {
		with["Figure"] = *f.Figure
	}
	if f.Why != "" {
		with["Why"] = say.Of(f.Why)
	}
	return say.Of(f.Reason, with)
}

func (f Flag) touches(id MeasureID) bool {
	return len(f.Affects) == 0 || slices.Contains(f.Affects, id)
}

// counted are the measures that fall apart first when detail is lost; the open
// share stands longer.
var counted = []MeasureID{CellDensity, MeanArea, MedianArea, MeanDiameter, MedianDiameter, SmallToLarge, WallThickness}

// cellBased are the measures that rest on cells having been found at all.
func cellBased() []MeasureID {
	var out []MeasureID
	for _, d := range definitions {
		if !slices.Contains(textures, d.ID) {
			out = append(out, d.ID)
		}
	}
	return out
}

// AllButTexture tells whether measures are just those that rest on cells having been
// found.
func AllButTexture(ids []MeasureID) bool { return slices.Equal(ids, cellBased()) }

// Limits of the flags. They are set on drawn slices with known truth: see the
// error tables of the tests.
const (
	blurDoubtMM, blurStopMM       = 0.19, 0.24
	blurDoubtShare, blurStopShare = 0.20, 0.32  // of the median diameter
	darkDoubt, darkStop           = 60.0, 28.0  // grey level of the walls
	blownDoubt, blownStop         = 0.10, 0.40  // share of wall pixels
	unevenDoubt, unevenStop       = 2.2, 5.0    // brightest over darkest
	stepDoubt                     = 0.30        // change of light within 6 mm
	coarseDoubt, coarseStop       = 6.0, 3.0    // photo pixels per mm
	narrowDoubt                   = 480.0       // photo pixels across a slice of unknown width: 80 mm at 6 to the mm
	smallDoubt                    = 4.0         // median diameter in photo pixels
	addInDoubt, addInStop         = 0.02, 0.15  // share of the crumb
	apartDoubt, apartStop         = 0.55, 0.35  // separation of the histogram
	depthDoubt, depthStop         = 0.12, 0.07  // of the cells below the wall
	raggedDoubt, raggedStop       = 0.855, 0.83 // how well the cells fill their ellipses
	leanDoubt                     = 0.40        // of the cells' depth
	holeDoubt                     = 0.08        // one opening's share of the crumb
	edgeDoubt                     = 0.05        // share of the crumb in openings cut by its edge
	edgeDoubtTimes                = 2.0         // and as many times what chance would cut
)

// flags judges the photo by what was found in it.
func (f *Prepared) flags(r *Result, p *partition) []Flag {
	var out []Flag
	grade := func(kind FlagKind, doubt, stop bool, reason say.Line, affects []MeasureID) {
		flag := Flag{Kind: kind, Severity: Doubtful, Reason: reason.Text, Affects: affects}
		if figure, ok := reason.With["Figure"].(say.Number); ok {
			flag.Figure = &figure
		}
		if stop {
			flag.Severity = Withheld
		}
		if stop || doubt {
			out = append(out, flag)
		}
	}
	if f.cutOff() {
		grade(CutOff, true, false, say.Of("The slice runs out of the picture, so its edge and middle are not all there."), []MeasureID{EdgeToMiddle, TopToBottom})
	}
	f.outlineFlag(grade)
	f.blurFlag(grade, r, p)
	l := f.light
	grade(TooDark, l.wallGrey < darkDoubt, l.wallGrey < darkStop,
		say.Of("The photo is too dark: even the walls reach only {{.Figure}} of 255.", figure(l.wallGrey, 0)), nil)
	grade(BlownOut, l.blown > blownDoubt, l.blown > blownStop,
		say.Of("The photo is blown out: {{.Figure}} % of the walls are plain white.", figure(100*l.blown, 0)), nil)
	grade(ShadowAcross, l.ratio > unevenDoubt || l.step > stepDoubt, l.ratio > unevenStop,
		say.Of("The light is very uneven: the brightest part is {{.Figure}} times the darkest. A shadow's edge can pass for cells.", figure(l.ratio, 1)), nil)
	f.flashFlag(grade)
	edgeFlag(grade, r)
	f.slantFlag(grade, r)
	f.bareFlag(grade, p)
	f.throughFlag(grade)
	f.coarseFlag(grade, r)
	f.addInFlag(grade, r)
	apart, depth := f.levels.apart, 1-f.levels.cell/f.levels.wall
	grade(FaintCells, apart < apartDoubt || depth < depthDoubt, apart < apartStop || depth < depthStop,
		say.Of("The cells hardly stand out from the walls."), cellBased())
	clarityFlags(grade, p)
	if fill := p.fill; fill > 0 {
		grade(Ragged, fill < raggedDoubt, fill < raggedStop,
			say.Of("What was found is as ragged as the grain of a noisy picture, not rounded as cells are."), cellBased())
	}
	grade(FewCells, p.whole < 30, p.whole < 5, say.Of("Only {{.Figure}} whole cells were found: too few for steady means.", figure(float64(p.whole), 0)), cellBased())
	return out
}

// figure is the number that a reason tells; a ratio to nothing is told as a large
// one, since a record holds no infinities.
func figure(v float64, decimals int) say.With {
	if math.IsNaN(v) || v > 1e6 {
		v = 1e6
	}
	return say.With{"Figure": say.Number{Value: v, Decimals: decimals}}
}

type grader func(kind FlagKind, doubt, stop bool, reason say.Line, affects []MeasureID)

func (f *Prepared) blurFlag(grade grader, r *Result, p *partition) {
	if p.edge.all <= 0 {
		return
	}
	width := math.Max(1e-9, medianDiameter(r.Cells))
	judge := func(px float64) (share float64, doubt, stop bool) {
		mm := px / f.frame.pxPerMM
		share = mm / width
		return share, share > blurDoubtShare || !f.relative && mm > blurDoubtMM, share > blurStopShare || !f.relative && mm > blurStopMM
	}
	share, doubt, stop := judge(p.edge.all)
	reason := say.Of("The photo is blurred: even the sharpest edges are spread over {{.Figure}} of a cell's width, so small cells are lost.", figure(share, 2))
	if one, doubt1, stop1 := judge(p.edge.worst); doubt1 && !doubt || stop1 && !stop {
		doubt, stop = doubt1, stop1
		reason = say.Of("The photo is shaken: in one direction even the sharpest edges are spread over {{.Figure}} of a cell's width, so small cells are lost.", figure(one, 2))
	}
	lost := counted
	if stop { // what blur runs together is no void for sure
		lost = append(slices.Clone(counted), SureVoids)
	}
	grade(Blurred, doubt, stop, reason, lost)
	grade(Blurred, stop, false, say.Of("So blurred a photo leaves the other figures doubtful as well."), nil)
}

// clarityFlags say what follows from how well the cells can be told from the walls.
func clarityFlags(grade grader, p *partition) {
	flag := func(kind FlagKind, stop bool, reason say.Line, touched []MeasureID) {
		if len(touched) > 0 {
			grade(kind, true, stop, reason, touched)
		}
	}
	doubtful, withheld := p.seen.touched()
	if p.lean > leanDoubt {
		flag(SideLit, false, say.Of("The cells are dark to one side: where the light falls in, their rims are lost, so that round cells look long."), []MeasureID{Elongation, Direction, Alignment})
	}
	grain := say.Of("The cells stand out by only {{.Figure}} times the walls' own grain, so specks pass for cells.", figure(p.grain, 1))
	switch p.seen {
	case grainy:
		flag(Grainy, false, grain, doubtful)
	case weakly, hardly:
		flag(Grainy, true, grain, withheld)
		flag(Grainy, false, say.Of("With so little contrast the rest is far from sure."), doubtful)
	case inPart:
		flag(PartSeen, false, say.Of("Cells are seen in part: where a cell's floor is as bright as the walls, it comes out too small or in pieces."), doubtful)
		flag(PartSeen, true, say.Of("Cells seen in part have neither a size nor a shape that can be measured."), withheld)
	}
}

func (f *Prepared) coarseFlag(grade grader, r *Result) {
	px := f.frame.pxPerMM * f.frame.step
	across := medianDiameter(r.Cells) * px
	if f.relative {
		grade(TooCoarse, across < smallDoubt, false, say.Of("An average cell is only {{.Figure}} pixels wide.", figure(across, 1)), counted)
		if wide := px * relativeMM; across >= smallDoubt && !f.noCrust {
			grade(TooCoarse, wide < narrowDoubt, false, say.Of("The slice is only {{.Figure}} pixels wide: unless it is a small one, small cells are lost.", figure(wide, 0)), counted)
		}
		return
	}
	grade(TooCoarse, px < coarseDoubt || f.frame.pxPerMM < coarseDoubt, px < coarseStop,
		say.Of("The photo has {{.Figure}} pixels to the millimetre; below 6 small cells are lost.", figure(math.Min(px, f.frame.pxPerMM), 1)), counted)
}

func (f *Prepared) addInFlag(grade grader, r *Result) {
	area, greatest := 0.0, 0.0
	for _, c := range r.Cells {
		if c.AddIn {
			area += c.Area
		}
		greatest = math.Max(greatest, c.Area)
	}
	share := area / r.FaceArea
	grade(AddIn, share > addInDoubt, share > addInStop,
		say.Of("{{.Figure}} % of the face is coloured unlike crumb in the shade: a spread, seeds or fruit may have been taken for cells.", figure(100*share, 0)), nil)
	if share <= addInDoubt && greatest > holeDoubt*r.FaceArea {
		grade(AddIn, true, false, say.Of("One opening takes {{.Figure}} % of the face: a tear, a shadow or a spread rather than a cell?", figure(100*greatest/r.FaceArea, 0)), nil)
	}
}

// ellipseFill is the share that whole cells take of the ellipses with their
// second moments, weighted by area: 1 for ellipses, less the more ragged they are,
// 0 without cells. On slices of phantom whose cells are seen clearly it is 0.99 and more, on
// those of foam 0.79 to 0.989, on a dozen photos of crumb 0.78 to 0.92, and on pictures of nothing
// but noise 0.71 to 0.85, the more the coarser its grain: of those alone it is no judge.
func ellipseFill(cells []region) float64 {
	area, filled := 0.0, 0.0
	for _, c := range cells {
		if !c.AtEdge && c.Minor > 0 {
			a := float64(c.Area)
			area += a
			filled += a * a / (math.Pi / 4 * c.Major * c.Minor)
		}
	}
	if area == 0 {
		return 0
	}
	return filled / area
}

func medianDiameter(cells []Cell) float64 {
	var d []float64
	for _, c := range cells {
		if !c.AtEdge {
			d = append(d, c.Diameter)
		}
	}
	if len(d) == 0 {
		return 0
	}
	return middle(d)
}

// unlike tells whether a colour is other than the wall's colour in the shade.
func (l lighting) unlike(c [3]float64) bool {
	wall := l.wall[0]*0.299 + l.wall[1]*0.587 + l.wall[2]*0.114
	lum := c[0]*0.299 + c[1]*0.587 + c[2]*0.114
	if wall < 1 {
		return false
	}
	worst := 0.0
	for k := range c {
		worst = math.Max(worst, math.Abs(c[k]-l.wall[k]*lum/wall))
	}
	// What has bounced between the walls of a deep cell is warmer than they
	// are, and more so the darker it is; a camera's colour noise adds to that.
	return worst > 16+0.10*(wall-lum)
}

// cutOff tells whether a good part of the outline runs along the photo's
// border although the slice was found by itself.
func (f *Prepared) cutOff() bool {
	return f.found && f.border > 0.03
}
