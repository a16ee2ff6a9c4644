package foam

import (
	"image"
	"math"
)

var (
	breadColour = [3]float64{214, 192, 152}
	crustColour = [3]float64{138, 84, 40}
	boardColour = [3]float64{168, 122, 76}
	plateColour = [3]float64{232, 232, 228}
)

// paint lays colour over the lit surface, three values a sample.
func (g *grid) paint() []float32 {
	g.shine()
	out := make([]float32, 3*len(g.z))
	l := g.s.Light
	rows(g.h, func(y int) {
		for x := range g.w {
			i := y*g.w + x
			mx, my := g.mm(x, y)
			colour := g.colour(i, mx, my)
			light := float64(g.light[i])
			k := l.Gain * g.across(x, y)
			for c := range 3 {
				// What walls throw to each other takes on their colour.
				thrown := 0.0
				if g.inside[i] > 0 {
					thrown = l.Bounce * float64(g.bounce[i]) * breadColour[c] / 225
				}
				out[3*i+c] = float32(colour[c] * k * (light + thrown))
			}
		}
	})
	if g.s.Scene.Second {
		g.second(out)
	}
	return out
}

// across is how the light differs over the picture: a flash's bright middle, a shadow
// that somebody throws.
func (g *grid) across(x, y int) float64 {
	u, v := float64(x)/float64(g.w)-0.5, float64(y)/float64(g.h)-0.5
	k := 1.0
	if f := g.s.Light.Flash; f > 0 {
		k *= 1 - f + f*1.5*math.Exp(-(u*u+v*v)/0.12)
	}
	if d := g.s.Scene.Shadow; d > 0 {
		k *= 1 - d/(1+math.Exp(-(0.8*u+0.6*v)*60))
	}
	return k
}

func (g *grid) colour(i int, x, y float64) [3]float64 {
	seed := g.s.Seed
	d := float64(g.inside[i])
	through := g.z[i] <= -float32(g.s.ThickMM)
	switch {
	case d <= 0 || through && d > g.f.crust:
		return g.ground(x, y)
	case d < g.f.crust:
		t := math.Min(1, math.Max(0, (d-g.f.crust+0.7)/0.7))
		k := 0.8 + 0.3*d/g.f.crust + 0.2*(noise(seed^5, x/1.5, y/1.5)-0.5)
		return mix(times(crustColour, k), breadColour, t)
	}
	// A speck lies in the dough: on a floor it shows at that floor's own place in it.
	deep := float64(g.z[i])
	speck := 2.4*(noise(seed^1, (x+0.7*deep)/g.s.GrainMM, (y-0.6*deep)/g.s.GrainMM)-0.5) + 2.4*(noise(seed^2, (x-deep)/(0.5*g.s.GrainMM), y/(0.5*g.s.GrainMM))-0.5)
	cloud := 0.06 * (noise(seed^3, x/9, y/9) - 0.5)
	return times(breadColour, 1+g.s.Grain*speck*1.25+cloud)
}

// ground is what lies under the slice and beside it.
func (g *grid) ground(x, y float64) [3]float64 {
	c := g.s.Scene.Ground
	seed := g.s.Seed
	k := 1 + 0.12*(noise(seed^11, x/20, y/20)-0.5) + 0.08*(noise(seed^12, x/1.1, y/1.1)-0.5)
	if w := g.s.Scene.Cloth; w > 0 {
		k *= 1 + w*(0.3*math.Sin(7*x)*math.Sin(7*y)+0.7*math.Round(0.5+0.5*math.Sin(x/3.1))-0.35)
	}
	c = times(c, k)
	switch g.s.Scene.Under {
	case Board:
		if math.Abs(x) < 1.25*g.f.a && math.Abs(y) < 1.45*g.f.b {
			ring := noise(seed^13, x/60, y/5)*8 + noise(seed^14, x/18, y/0.9)
			return times(boardColour, 1+0.10*math.Sin(4*ring))
		}
	case Plate:
		r := math.Hypot(x, y) / (1.22 * math.Max(g.f.a, g.f.b))
		if r < 1 {
			return times(plateColour, 1-0.10*math.Exp(-math.Pow((r-0.8)/0.03, 2)))
		}
	}
	return c
}

// second lays the slice beside itself, turned about.
func (g *grid) second(out []float32) {
	shift := int((2*g.f.a + 6) / g.step)
	for y := range g.h {
		for x := range g.w {
			from := x - shift
			if from < 0 || from >= g.w {
				continue
			}
			// Upside down about the middle, so that it is no plain copy.
			yy := int(2*g.f.cy*fine) - 1 - y
			if yy < 0 || yy >= g.h {
				continue
			}
			j := yy*g.w + from
			if g.inside[j] <= 0 {
				continue
			}
			i := y*g.w + x
			copy(out[3*i:3*i+3], out[3*j:3*j+3])
		}
	}
}

// photo takes the picture: pixels out of samples, the lens's blur, the sensor's noise.
func (g *grid) photo(v []float32) *image.RGBA {
	w, h := g.s.Width, g.s.Height
	px := make([]float32, 3*w*h)
	rows(h, func(y int) {
		for x := range w {
			for c := range 3 {
				var sum float32
				for dy := range fine {
					for dx := range fine {
						sum += v[3*((fine*y+dy)*g.w+fine*x+dx)+c]
					}
				}
				px[3*(y*w+x)+c] = sum / (fine * fine)
			}
		}
	})
	if g.s.Light.Blur > 0 {
		px = blurred(px, w, h, g.s.Light.Blur)
	}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	rows(h, func(y int) {
		for x := range w {
			i := y*w + x
			for c := range 3 {
				e := g.s.Light.Noise * gauss(g.s.Seed^0xe0, uint64(3*i+c))
				img.Pix[4*i+c] = uint8(math.Min(255, math.Max(0, float64(px[3*i+c])+e+0.5)))
			}
			img.Pix[4*i+3] = 255
		}
	})
	return img
}

// blurred is a Gaussian blur, cut at three standard deviations, the border repeated.
func blurred(v []float32, w, h int, sigma float64) []float32 {
	r := int(math.Ceil(3 * sigma))
	k, sum := make([]float32, 2*r+1), float32(0)
	for i := range k {
		d := float64(i-r) / sigma
		k[i] = float32(math.Exp(-d * d / 2))
		sum += k[i]
	}
	along := func(src []float32, dx, dy int) []float32 {
		out := make([]float32, len(src))
		rows(h, func(y int) {
			for x := range w {
				for c := range 3 {
					var s float32
					for j, q := range k {
						xx, yy := min(w-1, max(0, x+dx*(j-r))), min(h-1, max(0, y+dy*(j-r)))
						s += q * src[3*(yy*w+xx)+c]
					}
					out[3*(y*w+x)+c] = s / sum
				}
			}
		})
		return out
	}
	return along(along(v, 1, 0), 0, 1)
}

func times(c [3]float64, k float64) [3]float64 { return [3]float64{c[0] * k, c[1] * k, c[2] * k} }

func mix(a, b [3]float64, t float64) [3]float64 {
	for k := range a {
		a[k] += (b[k] - a[k]) * t
	}
	return a
}

// hash spreads a number over 64 bits: xorshift-multiply (Murmur3's finaliser, Appleby
// 2011, public domain). Chance by place keeps a picture the same on any number of
// processors.
func hash(n uint64) uint64 {
	n ^= n >> 33
	n *= 0xff51afd7ed558ccd
	n ^= n >> 33
	n *= 0xc4ceb9fe1a85ec53
	return n ^ n>>33
}

// noise is smooth between 0 and 1, with features about one unit wide.
func noise(seed uint64, x, y float64) float64 {
	ix, iy := math.Floor(x), math.Floor(y)
	u, v := x-ix, y-iy
	u, v = u*u*(3-2*u), v*v*(3-2*v)
	at := func(dx, dy int) float64 {
		return float64(hash(seed*0x9e3779b97f4a7c15^uint64(uint32(int32(ix)+int32(dx)))<<32^uint64(uint32(int32(iy)+int32(dy))))>>11) / (1 << 53)
	}
	top := at(0, 0) + (at(1, 0)-at(0, 0))*u
	low := at(0, 1) + (at(1, 1)-at(0, 1))*u
	return top + (low-top)*v
}

// gauss is a normal number that belongs to n (Box & Muller 1958).
func gauss(seed, n uint64) float64 {
	a, b := hash(seed*0x9e3779b97f4a7c15^n), hash(seed^n*0xd1342543de82ef95+1)
	u, v := (float64(a>>11)+0.5)/(1<<53), float64(b>>11)/(1<<53)
	return math.Sqrt(-2*math.Log(u)) * math.Cos(2*math.Pi*v)
}
