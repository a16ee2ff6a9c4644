package crumb

import (
	"math"
	"slices"
)

// Crust limits.
const (
	crustChromaGap = 0.035 // least chroma difference between crust and crumb
	crustMaxMM     = 12.0  // no crust is sought deeper than this
	crustMaxShare  = 0.3   // nor deeper than this share of the slice's own depth
	crustTongueMM  = 5.0   // crumb as narrow as this, along the crust, is pale crust
	crustFadeMM    = 1.2   // the most that crust takes to shade into crumb
	fadedWall      = 0.94  // of the inner walls' brightness: no longer fading
	crustRingMM    = 2.5   // where crust is looked for first
	crustRingShare = 0.06  // least share of that ring that must look like crust
	crustStray     = 0.05  // share of what lies deeper than crust can that may look like it
	crustShade     = 0.5   // of the light of the walls: what is darker is shade
	crustCalmings  = 2     // as many times at most are colours blurred until no more does
)

// peelCrust leaves the crumb of a slice: it takes off what is coloured like crust
// (or like the table, where a hand-drawn outline strayed) from the outline
// inwards. A face without such a border, as one boxed within the crumb, loses
// nothing. It gives the share of what lies deeper than crust can that looks like crust all
// the same: so much crumb near the outline may have been left out, too.
func peelCrust(rgb []uint8, crumb []bool, w, h int, pxPerMM float64) (stray float64) {
	block := max(1, int(math.Round(pxPerMM/4)))
	c := newCoarse(rgb, crumb, w, h, block)
	perMM := pxPerMM / float64(block)
	depth := distanceSquared(c.in, c.w, c.h)
	crumbColour, crustColour, any := c.references(depth, perMM)
	if !any {
		return 0
	}
	// Of a dark crumb hardly lighter than its crust, the noise alone makes one cell in two look like
	// crust. No crust lies deep in the slice: what looks like it there tells how far to blur.
	for calmings := 0; ; calmings++ {
		stray = c.strayCrust(depth, perMM, crumbColour, crustColour)
		if stray <= crustStray || calmings == crustCalmings {
			break
		}
		c.calm()
		if crumbColour, crustColour, any = c.references(depth, perMM); !any {
			return stray
		}
	}
	crust := c.crustBlocks(depth, perMM, crumbColour, crustColour)
	inner := make([]bool, len(crust))
	for i := range inner {
		inner[i] = c.in[i] && !crust[i]
	}
	inner = openMask(inner, c.w, c.h, 0.6*perMM)
	largest(inner, c.w, c.h)
	fillHoles(inner, c.w, c.h, len(inner))
	inner = openMask(inner, c.w, c.h, crustTongueMM/2*perMM)
	largest(inner, c.w, c.h)
	half := chromaGap(crustColour, crumbColour) / 2
	edge := c.signed(inner, crumbColour, half)
	bands(h, func(from, to int) {
		line := make([]float32, w)
		for y := from; y < to; y++ {
			edge.row(line, y)
			for x, v := range line {
				crumb[y*w+x] = crumb[y*w+x] && v < 0
			}
		}
	})
	peelFade(crumb, rgb, w, h, pxPerMM)
	return stray
}

// peelFade takes off the rest of the crust where it shades into the crumb: as
// deep as the walls are still darker than farther in. What is left of it would
// pass for a ring of cells.
func peelFade(crumb []bool, rgb []uint8, w, h int, pxPerMM float64) {
	inner := math.Pow(4*pxPerMM, 2)
	depth := distanceWithin(crumb, w, h, int(4*pxPerMM)+2)
	bins := int(crustFadeMM*pxPerMM) + 2
	hist := make([][256]int, bins+1)
	for i, d := range depth {
		if d > 0 && float64(d) < inner {
			b := min(bins, int(math.Sqrt(float64(d))))
			hist[b][grey(rgb[3*i], rgb[3*i+1], rgb[3*i+2])]++
		}
	}
	cut := fadeDepth(hist)
	cut *= cut
	for i, d := range depth {
		crumb[i] = crumb[i] && float64(d) >= cut
	}
}

// fadeDepth returns the depth in pixels, between bins, at which the walls reach
// their full brightness. The last bin holds all that lies deeper.
func fadeDepth(hist [][256]int) float64 {
	last := len(hist) - 1
	full := fadedWall * float64(quantile(hist[last][:], 0.75))
	before := 0.0
	for b := 1; b < last; b++ {
		v := float64(quantile(hist[b][:], 0.75))
		if v >= full {
			if b == 1 || v <= before {
				return float64(b)
			}
			return float64(b) - (v-full)/(v-before)
		}
		before = v
	}
	return float64(last)
}

// references finds the chroma of the crumb, from the middle of the slice, and
// of whatever else lies along the outline.
func (c *coarse) references(depth []int32, perMM float64) (crumb, crust [2]float32, any bool) {
	deepest := slices.Max(depth)
	core := int32(math.Min(math.Pow(8*perMM, 2), 0.16*float64(deepest)))
	bright := newChromas(len(c.in))
	for i, in := range c.in {
		if in && depth[i] > core {
			bright.add(chroma(c.rgb[i]))
		}
	}
	if len(bright[0]) == 0 {
		return crumb, crust, false
	}
	crumb = bright.median()
	ring := int32(math.Pow(crustRingMM*perMM, 2))
	n, dark := 0, chromas{}
	for i, in := range c.in {
		if !in || depth[i] > ring || depth[i] <= 2 {
			continue
		}
		n++
		if ch := chroma(c.rgb[i]); chromaGap(ch, crumb) > crustChromaGap {
			dark.add(ch)
		}
	}
	if float64(len(dark[0])) < crustRingShare*float64(n) || len(dark[0]) == 0 {
		return crumb, crust, false
	}
	return crumb, dark.median(), true
}

// crustLimit is the square of how deep crust is sought.
func crustLimit(depth []int32, perMM float64) int32 {
	return int32(math.Min(math.Pow(crustMaxMM*perMM, 2), crustMaxShare*crustMaxShare*float64(slices.Max(depth))))
}

// strayCrust is the share of the blocks deeper than crust is sought that look like it. What is much darker
// than the walls, the lighter half, and strays towards the crust's colour is left out: light that has bounced
// about a deep cell is warmer. What strays the other way is noise, in the shade as well.
func (c *coarse) strayCrust(depth []int32, perMM float64, crumb, crust [2]float32) float64 {
	half, limit := chromaGap(crust, crumb)/2, crustLimit(depth, perMM)
	light := func(i int) float32 { return c.rgb[i][0] + c.rgb[i][1] + c.rgb[i][2] }
	lights := make([]float32, 0, len(c.in))
	for i, in := range c.in {
		if in && depth[i] > limit {
			lights = append(lights, light(i))
		}
	}
	if len(lights) == 0 {
		return 0
	}
	shade := crustShade * ranked(lights, len(lights)*3/4)
	like := 0
	for i, in := range c.in {
		if !in || depth[i] <= limit {
			continue
		}
		ch := chroma(c.rgb[i])
		warmer := (ch[0]-crumb[0])*(crust[0]-crumb[0])+(ch[1]-crumb[1])*(crust[1]-crumb[1]) > 0
		like += b2i(chromaGap(ch, crumb) > half && !(warmer && light(i) <= shade))
	}
	return float64(like) / float64(len(lights))
}

// crustBlocks spreads from near the outline inwards through blocks at least half as
// far from the crumb's chroma as the crust is, whichever way: between a
// generous outline and the crust there may be some of the table.
func (c *coarse) crustBlocks(depth []int32, perMM float64, crumb, crust [2]float32) []bool {
	half := chromaGap(crust, crumb) / 2
	limit := crustLimit(depth, perMM)
	like := make([]bool, len(c.in))
	for i, in := range c.in {
		like[i] = in && depth[i] <= limit && chromaGap(chroma(c.rgb[i]), crumb) > half
	}
	// A slice's shadow may lie within the outline, between it and the crust. What is
	// beyond a closed crust falls away with it, and an island of that colour in the
	// crumb is filled again.
	ring := max(2, int32(math.Pow(crustRingMM*perMM, 2)))
	parts := componentsOf(like, c.w, c.h, true, false)
	outer := make([]bool, len(parts.size))
	for _, r := range parts.runs {
		for _, d := range depth[int(r.y)*c.w:][r.from:r.to] {
			outer[r.label] = outer[r.label] || d <= ring
		}
	}
	parts.paint(like, false, func(l int32) bool { return !outer[l] })
	return like
}
