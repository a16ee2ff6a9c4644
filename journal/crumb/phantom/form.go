package phantom

import (
	"math"
	"math/rand/v2"
)

// A form is the slice's outline in millimetres about its middle, with a
// signed distance that is cheap to ask for at every pixel.
type form struct {
	pxPerMM float64
	ox, oy  float64 // picture position of the middle, pixels
	full    bool
	outline []Point // mm
	lo, hi  Point   // its bounds
	crust   float64
	seed    uint64

	// Distance on a coarse grid, read bilinearly. The crumb is defined by this
	// very function, so its coarseness costs no exactness.
	x0, y0, step float64
	w, h         int
	dist         []float32
}

func newForm(s Slice) *form {
	f := &form{full: s.Shape == Full, crust: s.CrustMM, seed: s.Seed}
	if f.full {
		f.pxPerMM = float64(s.Width) / s.SliceMM
		f.ox, f.oy = float64(s.Width)/2, float64(s.Height)/2
		hw, hh := f.ox/f.pxPerMM, f.oy/f.pxPerMM
		f.outline = []Point{{-hw, -hh}, {hw, -hh}, {hw, hh}, {-hw, hh}}
		f.lo, f.hi = f.outline[0], f.outline[2]
		return f
	}
	rng := rand.New(rand.NewPCG(s.Seed, 0x5eed0f0f))
	f.outline = silhouette(s.Shape, s.SliceMM, rng)
	f.lo, f.hi = bounds(f.outline)
	f.pxPerMM = s.Fill * math.Min(float64(s.Width)/(f.hi.X-f.lo.X), float64(s.Height)/(f.hi.Y-f.lo.Y))
	f.ox = float64(s.Width)*(0.5+s.ShiftX) - (f.lo.X+f.hi.X)/2*f.pxPerMM
	f.oy = float64(s.Height)*(0.5+s.ShiftY) - (f.lo.Y+f.hi.Y)/2*f.pxPerMM
	f.fillGrid()
	return f
}

// silhouette returns the outline of a shape of the given width, in mm.
func silhouette(shape Shape, width float64, rng *rand.Rand) []Point {
	const n = 480
	a := width / 2
	var wobble [6][2]float64
	for k := range wobble {
		amp := 0.010 / float64(k+1)
		wobble[k] = [2]float64{amp * rng.NormFloat64(), amp * rng.NormFloat64()}
	}
	pts := make([]Point, n)
	for i := range pts {
		t := 2 * math.Pi * float64(i) / n
		x, y := shapePoint(shape, t)
		r := 1.0
		for k, c := range wobble {
			r += c[0]*math.Cos(float64(k+2)*t) + c[1]*math.Sin(float64(k+2)*t)
		}
		pts[i] = Point{a * x * r, a * y * r}
	}
	return pts
}

// shapePoint gives the outline of a shape of half-width one at parameter t.
func shapePoint(shape Shape, t float64) (x, y float64) {
	c, s := math.Cos(t), math.Sin(t)
	spow := func(v, e float64) float64 { return math.Copysign(math.Pow(math.Abs(v), e), v) }
	switch shape {
	case Pan:
		x, y = spow(c, 0.28), spow(s, 0.28)
		if y < 0 {
			// The dome: the top bulges over the tin's rim.
			y = -0.72*math.Abs(y) - 0.30*math.Sqrt(math.Max(0, 1-x*x*0.95))
			bulge := math.Exp(-math.Pow((y+0.62)/0.22, 2))
			x *= 1 + 0.07*bulge
		} else {
			y *= 0.95
			x *= 1 - 0.03*y
		}
		return x * 0.95, y
	case Flat:
		if s < 0 {
			return spow(c, 0.8), spow(s, 0.9) * 0.30
		}
		return spow(c, 0.8), spow(s, 0.55) * 0.18
	default:
		if s < 0 {
			return spow(c, 0.95), spow(s, 0.95) * 0.80
		}
		return spow(c, 0.95), spow(s, 0.62) * 0.42
	}
}

func bounds(pts []Point) (lo, hi Point) {
	lo, hi = pts[0], pts[0]
	for _, p := range pts {
		lo.X, lo.Y = math.Min(lo.X, p.X), math.Min(lo.Y, p.Y)
		hi.X, hi.Y = math.Max(hi.X, p.X), math.Max(hi.Y, p.Y)
	}
	return lo, hi
}

// depth returns how far inside the outline a place is, in mm: negative
// outside. x and y are mm about the slice's middle.
func (f *form) depth(x, y float64) float64 {
	if f.full {
		return 1e3
	}
	gx, gy := (x-f.x0)/f.step, (y-f.y0)/f.step
	if gx < 0 || gy < 0 || gx >= float64(f.w-1) || gy >= float64(f.h-1) {
		return -1e3
	}
	i, j := int(gx), int(gy)
	u, v := float32(gx-float64(i)), float32(gy-float64(j))
	r := f.dist[j*f.w+i:]
	q := f.dist[(j+1)*f.w+i:]
	top := r[0] + (r[1]-r[0])*u
	low := q[0] + (q[1]-q[0])*u
	return -float64(top + (low-top)*v)
}

// crustAt is the thickness of the crust near a place, in mm.
func (f *form) crustAt(x, y float64) float64 {
	if f.full {
		return 0
	}
	return f.crust * (1 + 0.3*(float64(valueNoise(f.seed^77, x/9, y/9))-0.5))
}

// inCrumb tells whether a place of known depth lies in the crumb, or at least
// more millimetres inside it. Far from the crust's edge its grain need not be
// asked for.
func (f *form) inCrumb(x, y, depth, more float64) bool {
	if f.full {
		return true
	}
	switch d := depth - more; {
	case d < 0.85*f.crust:
		return false
	case d > 1.15*f.crust:
		return true
	default:
		return d >= f.crustAt(x, y)
	}
}

// toMM turns a picture position in pixels into mm about the slice's middle.
func (f *form) toMM(px, py float64) (x, y float64) {
	return (px - f.ox) / f.pxPerMM, (py - f.oy) / f.pxPerMM
}
