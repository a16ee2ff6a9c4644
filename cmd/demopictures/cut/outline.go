package cut

import (
	"math"
	"math/rand/v2"
)

// A Form is what the loaf was baked as.
type Form int

// The forms.
const (
	Boule   Form = iota // round, free standing
	Batard              // longer, so lower in its slice, with an ear
	Pan                 // in a tin: straight sides, a dome above the rim
	Brick               // in a tin, of a dough that hardly rises
	Slipper             // a wet dough laid flat
)

// A point is a place on the cut face in millimetres, y upwards from the loaf's floor.
type point struct{ x, y float64 }

// outline draws the loaf's contour, anticlockwise from its right. Its width is the
// description's; a loaf is never quite even.
func (s *Slice) outline(rng *rand.Rand) []point {
	const n = 720
	w := s.WidthMM / 2
	between := func(a, b float64) float64 { return a + (b-a)*rng.Float64() }
	lean := between(-0.10, 0.10)
	ear := between(0.9, 1.25) // where the cut opened, as an angle
	if rng.IntN(2) == 0 {
		ear = math.Pi - ear
	}
	earSize := 0.0
	var up, down, flat, round float64
	switch s.Form {
	case Batard:
		up, down, flat, round = w*between(1.0, 1.12), w*0.24, between(0.78, 0.9), 0.55
		earSize = between(0.05, 0.085)
	case Pan, Brick:
	case Slipper:
		up, down, flat, round = w*between(0.33, 0.40), w*between(0.20, 0.24), between(0.42, 0.55), 0.45
	default:
		up, down, flat, round = w*between(0.82, 0.95), w*between(0.24, 0.3), between(0.74, 0.86), 0.6
		earSize = between(0.015, 0.05)
	}
	wob := wobble(rng, s.Form == Slipper)
	out := make([]point, n)
	for i := range out {
		a := 2 * math.Pi * float64(i) / n
		sin, cos := math.Sincos(a)
		var p point
		if s.Form == Pan || s.Form == Brick {
			p = tin(a, w, s.Form == Brick, lean)
		} else {
			x := w * math.Copysign(math.Pow(math.Abs(cos), 0.86), cos)
			y := up * math.Pow(math.Max(0, sin), flat)
			if sin < 0 {
				y = -down * math.Pow(-sin, round)
			}
			p = point{x + lean*y*0.5, y}
			// The floor of a loaf is flat, its corners are round.
			if floor := -down * 0.86; p.y < floor {
				p.y = floor + 0.12*(p.y-floor)
			}
		}
		k := 1 + wob(a)
		if d := angle(a - ear); earSize > 0 {
			// A shoulder that stands up steeply on the side of the cut and falls
			// gently to the other.
			if d > 0 {
				k += earSize * math.Exp(-d*d/0.012)
			} else {
				k += earSize * math.Exp(-d*d/0.16)
			}
			k -= 0.35 * earSize * math.Exp(-(d-0.24)*(d-0.24)/0.02)
		}
		out[i] = point{p.x * k, p.y * k}
	}
	return centred(out)
}

// tin is a place of a loaf baked in one: flaring sides, a dome that swells over the rim.
func tin(a, w float64, low bool, lean float64) point {
	sin, cos := math.Sincos(a)
	high, dome, power := 0.62*w, 0.42*w, 0.12
	if low {
		high, dome, power = 0.72*w, 0.13*w, 0.10
	}
	x := math.Copysign(math.Pow(math.Abs(cos), power*2), cos)
	y := math.Copysign(math.Pow(math.Abs(sin), power*2), sin)
	px, py := 0.90*w*x*(1+0.045*y), high*y
	if y > 0 {
		t := math.Abs(x)
		py += dome * y * math.Sqrt(math.Max(0, 1-t*t*0.97)) * (1 + lean*x)
		if !low {
			px *= 1 + 0.075*math.Exp(-(y-0.72)*(y-0.72)/0.05) // what swelled over the rim
		}
	}
	return point{px, py}
}

// wobble is how far the contour strays, as a share of its distance from the middle.
func wobble(rng *rand.Rand, lumpy bool) func(a float64) float64 {
	size := 0.011
	if lumpy {
		size = 0.022
	}
	var amp, phase [7]float64
	for i := range amp {
		amp[i], phase[i] = size*rng.NormFloat64()/math.Sqrt(float64(i+1)), 2*math.Pi*rng.Float64()
	}
	return func(a float64) float64 {
		sum := 0.0
		for i := range amp {
			sum += amp[i] * math.Sin(float64(i+2)*a+phase[i])
		}
		return sum
	}
}

func angle(a float64) float64 { return math.Remainder(a, 2*math.Pi) }

// centred moves the contour so that the middle of what surrounds it is at 0.
func centred(ps []point) []point {
	lo, hi := ps[0], ps[0]
	for _, p := range ps {
		lo.x, lo.y = min(lo.x, p.x), min(lo.y, p.y)
		hi.x, hi.y = max(hi.x, p.x), max(hi.y, p.y)
	}
	for i := range ps {
		ps[i].x -= (lo.x + hi.x) / 2
		ps[i].y -= (lo.y + hi.y) / 2
	}
	return ps
}
