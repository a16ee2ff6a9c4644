package crumb

import (
	"context"
	"fmt"
	"image"
	"math"
	"slices"

	"twinloaf/journal/say"
)

// A NotFoundError says why no slice was found. It is no failure of the photo:
// the outline drawn by hand is an equal path.
type NotFoundError struct{ Reason say.Line }

func (e *NotFoundError) Error() string { return "looking for the slice: " + e.Reason.String() }

// Line says why.
func (e *NotFoundError) Line() say.Line { return e.Reason }

// findSide is the longer side of the small picture in which the slice is
// looked for.
const findSide = 360

// FindOutlines gives the outlines that may be the slice's, the likeliest first: what
// stands out from the picture's border, and what stands out again within that, as a
// slice does from its board or plate. The ground's colour is taken along the border, as
// a plane so that light may fall off, and what differs from it by more than Otsu's
// threshold and more than the ground's own unevenness stands out, and what lies close by
// that, where the crust is coloured much like the ground. It returns a
// *NotFoundError when that leaves nothing that could be a slice, or ctx's error.
func FindOutlines(ctx context.Context, img image.Image) ([]Outline, error) {
	all, err := findAll(ctx, img)
	if err != nil {
		return nil, err
	}
	var out []Outline
	for _, c := range all {
		out = append(out, c.outline)
	}
	return out, nil
}

// A candidate is an outline that may be the slice's.
type candidate struct {
	outline Outline
	shade   float64    // share of its rim that has the ground's colour, only darker
	under   [3]float32 // colour of what it lies on
	beside  float64    // by how much the colour just outside it is another than that of what it lies on
}

func findAll(ctx context.Context, img image.Image) ([]candidate, error) {
	b := img.Bounds()
	if b.Dx() < 24 || b.Dy() < 24 {
		return nil, &NotFoundError{say.Of("the picture is too small")}
	}
	step := math.Max(1, float64(max(b.Dx(), b.Dy()))/findSide)
	f := frame{x0: float64(b.Min.X), y0: float64(b.Min.Y), step: step}
	w, h := max(8, int(float64(b.Dx())/step)), max(8, int(float64(b.Dy())/step))
	rgb := reduce(img, f, w, h, 4)
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("looking for the slice: %w", err)
	}
	g := newGround(rgb, w, h, false)
	mask, reason := g.slice(rgb)
	if !reason.IsZero() {
		return nil, &NotFoundError{reason}
	}
	if onBorder(mask, w, h) > 0 && g.fits < streakedFit {
		if s := newGround(rgb, w, h, true); s.frees(rgb, mask) {
			g = s
			mask, _ = g.slice(rgb)
		}
	}
	masks, grounds := [][]bool{mask}, []*ground{g}
	inner, board, likelier := lookInside(rgb, mask, w, h)
	if inner != nil {
		masks, grounds = append(masks, inner), append(grounds, board)
	}
	if likelier {
		slices.Reverse(masks)
		slices.Reverse(grounds)
	}
	var out []candidate
	for i, m := range masks {
		m, beside := grounds[i].widen(rgb, m)
		_, first := largest(m, w, h)
		c := candidate{shade: g.shadeAtRim(rgb, m), beside: beside, under: g.colour()}
		o := trace(m, w, h, first).smooth(4, 6)
		for i, p := range o {
			o[i] = f.toPhoto(p.X, p.Y)
		}
		c.outline = o.clip(b)
		out = append(out, c)
	}
	return out, nil
}

// Limits of a streaked ground.
const (
	streakedFit  = 0.75 // share of the border at most that a plane fits
	leastStreaky = 0.6  // of what was found before that it leaves
)

// frees tells whether what reached to the border on an even ground lies free of it, and is rounder, on this one:
// then a streak of the ground was taken for a part of the slice.
func (g *ground) frees(rgb []uint8, before []bool) bool {
	mask, reason := g.slice(rgb)
	px, all := count(mask), count(before)
	return reason.IsZero() && onBorder(mask, g.w, g.h) == 0 && float64(px) > leastStreaky*float64(all) &&
		solidity(mask, g.w, g.h, px) > solidity(before, g.w, g.h, all)
}

// onBorder is how many pixels of a mask lie on the picture's border.
func onBorder(mask []bool, w, h int) int {
	n := 0
	for x := range w {
		n += b2i(mask[x]) + b2i(mask[(h-1)*w+x])
	}
	for y := range h {
		n += b2i(mask[y*w]) + b2i(mask[y*w+w-1])
	}
	return n
}

// slice returns the mask of the slice, or the reason why there is none.
func (g *ground) slice(rgb []uint8) ([]bool, say.Line) {
	w, h := g.w, g.h
	if g.fits < 0.5 {
		return nil, say.Of("the picture's border is not one even ground; the slice may fill the picture")
	}
	mask := g.unlike(rgb, nil)
	all := count(mask)
	second := secondLargest(mask, w, h)
	px, _ := largest(mask, w, h)
	if least := float64(w*h) * 0.04; float64(second) > least && float64(second) > 0.6*float64(px) && float64(px+second) > 0.85*float64(all) {
		return nil, say.Of("there are two slices")
	}
	return mask, g.doubt(mask, px, all)
}

// unlike marks what is of another colour than the ground, tidied up; of a part of the
// picture, where one is given.
func (g *ground) unlike(rgb []uint8, within []bool) []bool {
	w, h := g.w, g.h
	dist, dark := make([]uint8, w*h), make([]bool, w*h)
	hist := make([]int, 256)
	for y := range h {
		for x := range w {
			if within != nil && !within[y*w+x] {
				continue
			}
			i := y*w + x
			off, share := g.distance(rgb[3*i:], x, y)
			dist[i], dark[i] = uint8(math.Min(255, off)), share < noisyShade
			hist[dist[i]]++
		}
	}
	// A loaf's crumb may be near the ground while its crust is far from it, so
	// half of Otsu's threshold is asked for, but never less than the ground's
	// own unevenness.
	limit := math.Max(g.unevenness(), 0.5*float64(otsu(hist)))
	mask := make([]bool, w*h)
	for i, d := range dist {
		mask[i] = float64(d) > limit
		if mask[i] && dark[i] {
			c := g.calm(rgb, i%w, i/w)
			off, _ := g.distance(c[:], i%w, i/w)
			mask[i] = off > limit
		}
	}
	return tidied(mask, w, h)
}

func tidied(mask []bool, w, h int) []bool {
	size := float64(max(w, h))
	mask = closeMask(mask, w, h, 0.012*size)
	fillHoles(mask, w, h, len(mask))
	return openMask(mask, w, h, 0.02*size)
}

// unevenness is how far from the ground's colour the ground itself may be.
func (g *ground) unevenness() float64 { return math.Max(12, 3.5*g.spread) }

// crustBeside is how much of chroma the colour beside a mask is off by where crust may have been left out.
const crustBeside = 0.01

// widen takes along what lies close by a mask and is farther from the ground's colour than the ground itself
// may be, if the colour beside the mask says that crust was taken for the ground, and no longer does then. It
// gives what that colour is off by.
func (g *ground) widen(rgb []uint8, mask []bool) (wider []bool, beside float64) {
	w, h := g.w, g.h
	beside = g.beside(rgb, mask)
	if beside < crustBeside {
		return mask, beside
	}
	reach, limit := ringShare*float64(max(w, h)), g.unevenness()
	wider = slices.Clone(mask)
	for i, d := range distanceWithin(complement(mask), w, h, int(reach)+2) {
		if d > 0 && float64(d) < reach*reach {
			c := g.calm(rgb, i%w, i/w)
			off, _ := g.distance(c[:], i%w, i/w)
			wider[i] = off > limit
		}
	}
	wider = tidied(wider, w, h)
	px, _ := largest(wider, w, h)
	left := g.beside(rgb, wider)
	if left > beside/2 || onBorder(wider, w, h) > onBorder(mask, w, h) || solidity(wider, w, h, px) < solidity(mask, w, h, count(mask)) {
		return mask, beside
	}
	return wider, left
}

// secondLargest is how many pixels the second largest component of a mask has.
func secondLargest(mask []bool, w, h int) int {
	size := slices.Sorted(slices.Values(componentsOf(mask, w, h, true, false).size))
	return size[max(0, len(size)-2)]
}

// Limits of looking again inside what was found.
const (
	ringShare      = 0.035 // of the picture's longer side: where the board's colour is taken, and a crust looked for
	leastInside    = 0.12  // of what was found
	mostInside     = 0.9
	likelyInside   = 0.68 // a crust leaves more than this of a slice
	mostBeside     = 0.2  // of its rim that lies by the rim of what was found
	boardRect      = 0.96 // of the smallest rectangle round it, at least, that a board takes
	sliceRect      = 0.93 // and a slice at most, to be told from a board
	ownCrustChroma = 0.04 // by which the rim of a slice differs in colour from its middle
	ownCrustDark   = 0.85 // of the brightness of the middle, at most, that its rim has
)

// lookInside looks for something within what was found that stands out from its rim, as
// a slice does from the board that it lies on. It is likelier to be the slice when it
// leaves enough of a rim to be more than a crust, and either has a crust of its own, or lies,
// rounded, on what has straight sides. It is nil when there is nothing. board is what it lies on.
func lookInside(rgb []uint8, mask []bool, w, h int) (inner []bool, board *ground, likelier bool) {
	reach := ringShare * float64(max(w, h))
	depth := distanceWithin(mask, w, h, int(reach)+5)
	var ring [][2]int
	outer := 0
	for i, in := range mask {
		if in {
			outer++
			if d := float64(depth[i]); d > 4 && d < (2+reach)*(2+reach) {
				ring = append(ring, [2]int{i % w, i / w})
			}
		}
	}
	if len(ring) < 100 {
		return nil, nil, false
	}
	board = groundOn(rgb, w, h, ring, false)
	if board.fits < 0.5 {
		return nil, nil, false
	}
	within := make([]bool, len(mask))
	for i, d := range depth {
		within[i] = mask[i] && d > 9
	}
	inner = board.unlike(rgb, within)
	px, _ := largest(inner, w, h)
	share := float64(px) / float64(outer)
	// A spread over half a slice stands out too, but not on all sides. A shadow may have eaten into
	// what was found, up to the slice, hence the hull.
	hull := hullOf(mask, w, h)
	depth = distanceWithin(hull.fill(frame{step: 1}, w, h), w, h, int(reach)+5)
	rim, beside := 0, 0
	for i := w; i < len(inner)-w; i++ {
		if inner[i] && !(inner[i-1] && inner[i+1] && inner[i-w] && inner[i+w]) {
			rim++
			beside += b2i(float64(depth[i]) < (3+reach/2)*(3+reach/2))
		}
	}
	if float64(beside) > mostBeside*float64(rim) || share < leastInside || share > mostInside || solidity(inner, w, h, px) < 0.86 {
		return nil, nil, false
	}
	onBoard := rectangular(hull) > boardRect && rectangular(hullOf(inner, w, h)) < sliceRect
	return inner, board, share < likelyInside && (onBoard || hasOwnCrust(rgb, inner, w, h))
}

// hasOwnCrust tells whether something has a rim all round that is darker than its middle
// and of another colour.
func hasOwnCrust(rgb []uint8, mask []bool, w, h int) bool {
	depth := distanceSquared(mask, w, h)
	deepest := slices.Max(depth)
	var rim, middle chromas
	var rimLight, middleLight []float32
	for i, d := range depth {
		if !mask[i] || d <= 2 {
			continue
		}
		c := chroma(colourAt(rgb, i))
		bright := float32(grey(rgb[3*i], rgb[3*i+1], rgb[3*i+2]))
		switch {
		case d < 16:
			rim.add(c)
			rimLight = append(rimLight, bright)
		case 4*d > deepest:
			middle.add(c)
			middleLight = append(middleLight, bright)
		}
	}
	if len(rim[0]) == 0 || len(middle[0]) == 0 {
		return false
	}
	return chromaGap(rim.median(), middle.median()) > ownCrustChroma && median(rimLight) < ownCrustDark*median(middleLight)
}

// doubt says why a mask is hardly a slice, or nothing.
func (g *ground) doubt(mask []bool, px, all int) say.Line {
	w, h := g.w, g.h
	share := float64(px) / float64(w*h)
	switch {
	case (share < 0.04 || float64(px) < 0.7*float64(all)) && g.likeCrumb():
		return say.Of("the picture's border is coloured like crumb; the slice may fill the picture")
	case share < 0.04:
		return say.Of("nothing large enough stands out from the ground")
	case share > 0.93:
		return say.Of("the slice fills the picture")
	case float64(px) < 0.7*float64(all):
		return say.Of("several things stand out from the ground, not one slice")
	}
	if float64(onBorder(mask, w, h)) > 0.45*float64(2*w+2*h) {
		return say.Of("most of the slice's edge lies outside the picture")
	}
	if solidity(mask, w, h, px) < 0.86 {
		if g.likeCrumb() {
			return say.Of("the picture's border is coloured like crumb; the slice may fill the picture")
		}
		return say.Of("what stands out from the ground is too ragged for a slice")
	}
	return say.Line{}
}

// colour is the ground's at the picture's middle.
func (g *ground) colour() [3]float32 { return g.at(float64(g.w)/2, float64(g.h)/2) }

func (g *ground) at(x, y float64) (c [3]float32) {
	for k, p := range g.plane {
		c[k] = float32(p[0] + p[1]*x + p[2]*y)
	}
	return c
}

// Limits of what has the ground's colour, only darker.
const (
	shadeChroma = 0.025
	shadeDark   = 0.7
)

// shadeAtRim is the share of a mask's rim that looks like the ground in the shade: a
// shadow that was taken for a part of the slice.
func (g *ground) shadeAtRim(rgb []uint8, mask []bool) float64 {
	depth := distanceWithin(mask, g.w, g.h, 5)
	rim, shade := 0, 0
	for i, d := range depth {
		if d < 4 || d > 16 {
			continue
		}
		rim++
		own, c := g.at(float64(i%g.w), float64(i/g.w)), colourAt(rgb, i)
		if c[1] < shadeDark*own[1] && chromaGap(chroma(c), chroma(own)) < shadeChroma {
			shade++
		}
	}
	return float64(shade) / float64(max(1, rim))
}

// beside is by how much the colour just outside a mask is another than the ground's, noise taken out
// by medians. A shadow leaves the colour as it is; crust that was taken for the ground does not.
func (g *ground) beside(rgb []uint8, mask []bool) float64 {
	var off chromas
	for i, d := range distanceWithin(complement(mask), g.w, g.h, 7) {
		if d >= 9 && d <= 36 {
			own, c := chroma(g.at(float64(i%g.w), float64(i/g.w))), chroma(colourAt(rgb, i))
			off.add([2]float32{c[0] - own[0], c[1] - own[1]})
		}
	}
	if len(off[0]) == 0 {
		return 0
	}
	return chromaGap(off.median(), [2]float32{})
}

// likeCrumb tells whether the ground has the colour of crumb: yellowish, and light.
func (g *ground) likeCrumb() bool {
	c := g.colour()
	ch := chroma(c)
	return ch[0] > 0.35 && ch[0] < 0.45 && ch[1] > 0.19 && ch[1] < 0.31 && c[1] > 80
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

func closeMask(mask []bool, w, h int, radius float64) []bool {
	return erodeMask(dilateMask(mask, w, h, radius), w, h, radius)
}
