package crumb

import "math"

// A coarse picture holds block averages of the working picture, about four to
// the millimetre: fine enough for a crust, too coarse for its grain.
type coarse struct {
	w, h, block int
	rgb         [][3]float32
	in          []bool // block lies mostly in the slice
}

func newCoarse(rgb []uint8, mask []bool, w, h, block int) *coarse {
	c := &coarse{w: (w + block - 1) / block, h: (h + block - 1) / block, block: block}
	c.rgb = make([][3]float32, c.w*c.h)
	c.in = make([]bool, c.w*c.h)
	bands(c.h, func(from, to int) {
		for y := from; y < to; y++ {
			for x := range c.w {
				c.average(rgb, mask, w, h, x, y)
			}
		}
	})
	return c
}

// average takes a block's mean colour over the pixels in the mask, or over
// all of them where there are none.
func (c *coarse) average(rgb []uint8, mask []bool, w, h, cx, cy int) {
	var in, all [3]float32
	n, total := 0, 0
	for y := cy * c.block; y < min(h, (cy+1)*c.block); y++ {
		for x := cx * c.block; x < min(w, (cx+1)*c.block); x++ {
			i := y*w + x
			total++
			for k := range 3 {
				v := float32(rgb[3*i+k])
				all[k] += v
				if mask[i] {
					in[k] += v
				}
			}
			if mask[i] {
				n++
			}
		}
	}
	i := cy*c.w + cx
	c.in[i] = 2*n > total
	if n == 0 {
		in, n = all, total
	}
	for k := range 3 {
		c.rgb[i][k] = in[k] / float32(n)
	}
}

// chroma is a colour without its brightness: the shares of red and blue. A
// cell is the wall's colour in the shade, so it keeps the wall's chroma; crust
// does not.
func chroma(c [3]float32) [2]float32 {
	sum := c[0] + c[1] + c[2] + 6 // the 6 calms what is nearly black
	return [2]float32{(c[0] + 2) / sum, (c[2] + 2) / sum}
}

func chromaGap(a, b [2]float32) float64 {
	return math.Hypot(float64(a[0]-b[0]), float64(a[1]-b[1]))
}

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
)

// peelCrust returns the crumb: the slice without what is coloured like crust
// (or like the table, where a hand-drawn outline strayed) from the outline
// inwards. A face without such a border, as one boxed within the crumb, loses
// nothing.
func peelCrust(rgb []uint8, slice []bool, w, h int, pxPerMM float64) []bool {
	block := max(1, int(math.Round(pxPerMM/4)))
	c := newCoarse(rgb, slice, w, h, block)
	perMM := pxPerMM / float64(block)
	depth := distanceSquared(c.in, c.w, c.h)
	crumbColour, crustColour, any := c.references(depth, perMM)
	crumb := append([]bool(nil), slice...)
	if !any {
		return crumb
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
	return peelFade(crumb, rgb, w, h, pxPerMM)
}

// signed is a field that is negative in the crumb and positive in the crust,
// nought where a colour lies half-way. Read between the blocks it draws the edge
// finer than they are, so that it does not hang on where they happen to lie.
func (c *coarse) signed(inner []bool, crumb [2]float32, half float64) *field {
	f := &field{w: c.w, h: c.h, block: float64(c.block), v: make([]float32, len(inner))}
	for i, in := range inner {
		v := chromaGap(chroma(c.rgb[i]), crumb)/half - 1
		if in {
			v = math.Min(v, -0.1)
		} else {
			v = math.Max(v, 0.1)
		}
		f.v[i] = float32(math.Max(-1, math.Min(1, v)))
	}
	return f
}

// peelFade takes off the rest of the crust where it shades into the crumb: as
// deep as the walls are still darker than farther in. What is left of it would
// pass for a ring of cells.
func peelFade(crumb []bool, rgb []uint8, w, h int, pxPerMM float64) []bool {
	depth := distanceSquared(crumb, w, h)
	bins := int(crustFadeMM*pxPerMM) + 2
	hist := make([][256]int, bins+1)
	inner := int32(math.Pow(4*pxPerMM, 2))
	for i, in := range crumb {
		if in && depth[i] < inner {
			b := min(bins, int(math.Sqrt(float64(depth[i]))))
			hist[b][grey(rgb[3*i], rgb[3*i+1], rgb[3*i+2])]++
		}
	}
	cut := fadeDepth(hist)
	out := make([]bool, len(crumb))
	for i, in := range crumb {
		out[i] = in && float64(depth[i]) >= cut*cut
	}
	return out
}

// fadeDepth returns the depth in pixels, between bins, at which the walls reach
// their full brightness. The last bin holds all that lies deeper.
func fadeDepth(hist [][256]int) float64 {
	last := len(hist) - 1
	full := fadedWall * upperQuartile(hist[last][:])
	before := 0.0
	for b := 1; b < last; b++ {
		v := upperQuartile(hist[b][:])
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

func upperQuartile(hist []int) float64 {
	total, seen := 0, 0
	for _, n := range hist {
		total += n
	}
	for v, n := range hist {
		if seen += n; 4*seen >= 3*total {
			return float64(v)
		}
	}
	return 0
}

// references finds the chroma of the crumb, from the middle of the slice, and
// of whatever else lies along the outline.
func (c *coarse) references(depth []int32, perMM float64) (crumb, crust [2]float32, any bool) {
	deepest := int32(0)
	for _, d := range depth {
		deepest = max(deepest, d)
	}
	core := int32(math.Min(math.Pow(8*perMM, 2), 0.16*float64(deepest)))
	var bright, dark [3][]float32
	for i, in := range c.in {
		if in && depth[i] > core {
			ch := chroma(c.rgb[i])
			bright[0], bright[1] = append(bright[0], ch[0]), append(bright[1], ch[1])
		}
	}
	if len(bright[0]) == 0 {
		return crumb, crust, false
	}
	crumb = [2]float32{median(bright[0]), median(bright[1])}
	ring := int32(math.Pow(crustRingMM*perMM, 2))
	n := 0
	for i, in := range c.in {
		if !in || depth[i] > ring || depth[i] <= 2 {
			continue
		}
		n++
		if ch := chroma(c.rgb[i]); chromaGap(ch, crumb) > crustChromaGap {
			dark[0], dark[1] = append(dark[0], ch[0]), append(dark[1], ch[1])
		}
	}
	if float64(len(dark[0])) < crustRingShare*float64(n) || len(dark[0]) == 0 {
		return crumb, crust, false
	}
	return crumb, [2]float32{median(dark[0]), median(dark[1])}, true
}

// crustBlocks spreads from near the outline inwards through blocks at least half as
// far from the crumb's chroma as the crust is, whichever way: between a
// generous outline and the crust there may be some of the table.
func (c *coarse) crustBlocks(depth []int32, perMM float64, crumb, crust [2]float32) []bool {
	half := chromaGap(crust, crumb) / 2
	deepest := int32(0)
	for _, d := range depth {
		deepest = max(deepest, d)
	}
	limit := int32(math.Min(math.Pow(crustMaxMM*perMM, 2), crustMaxShare*crustMaxShare*float64(deepest)))
	like := func(i int) bool {
		if !c.in[i] || depth[i] > limit {
			return false
		}
		return chromaGap(chroma(c.rgb[i]), crumb) > half
	}
	out := make([]bool, len(c.in))
	var queue []int
	visit := func(i int) {
		if !out[i] && like(i) {
			out[i] = true
			queue = append(queue, i)
		}
	}
	// A slice's shadow may lie within the outline, between it and the crust. What is
	// beyond a closed crust falls away with it, and an island of that colour in the
	// crumb is filled again.
	ring := max(2, int32(math.Pow(crustRingMM*perMM, 2)))
	for i, in := range c.in {
		if in && depth[i] <= ring {
			visit(i)
		}
	}
	for len(queue) > 0 {
		i := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		x, y := i%c.w, i/c.w
		if x > 0 {
			visit(i - 1)
		}
		if x+1 < c.w {
			visit(i + 1)
		}
		if y > 0 {
			visit(i - c.w)
		}
		if y+1 < c.h {
			visit(i + c.w)
		}
	}
	return out
}

// openMask is the morphological opening by a disc (Serra 1982): it removes
// what is narrower than the disc.
func openMask(mask []bool, w, h int, radius float64) []bool {
	return dilateMask(erodeMask(mask, w, h, radius), w, h, radius)
}

func erodeMask(mask []bool, w, h int, radius float64) []bool {
	d := distanceSquared(mask, w, h)
	r2 := int32(radius * radius)
	out := make([]bool, len(mask))
	for i, v := range d {
		out[i] = v > r2
	}
	return out
}

func dilateMask(mask []bool, w, h int, radius float64) []bool {
	out := make([]bool, len(mask))
	for i, m := range mask {
		out[i] = !m
	}
	d := distanceSquared(out, w, h)
	r2 := int32(radius * radius)
	for i, v := range d {
		out[i] = v <= r2
	}
	return out
}
