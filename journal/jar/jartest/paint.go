package jartest

import "math"

// A painter knows what is where in one picture.
type painter struct {
	s          *Scene
	i          int
	rise, most float64
}

// noise is smooth noise from 0 to 1 on a lattice, always the same for the same place.
func noise(seed uint64, x, y float64) float64 {
	fx, fy := math.Floor(x), math.Floor(y)
	tx, ty := x-fx, y-fy
	tx, ty = tx*tx*(3-2*tx), ty*ty*(3-2*ty)
	ix, iy := int64(fx), int64(fy)
	a, b := hash(seed, ix, iy), hash(seed, ix+1, iy)
	c, d := hash(seed, ix, iy+1), hash(seed, ix+1, iy+1)
	return (a+(b-a)*tx)*(1-ty) + (c+(d-c)*tx)*ty
}

func hash(seed uint64, x, y int64) float64 {
	h := seed*0x9E3779B97F4A7C15 ^ uint64(x)*0xBF58476D1CE4E5B9 ^ uint64(y)*0x94D049BB133111EB
	h ^= h >> 31
	h *= 0xD6E8FEB86659FD93
	h ^= h >> 32
	h *= 0xD6E8FEB86659FD93
	h ^= h >> 32
	return float64(h>>11) / (1 << 53)
}

// colour is what is seen at a place of the scene, in full light.
func (p painter) colour(u, v float64) rgb {
	s := p.s
	if s.hands[p.i] {
		// An arm from the side, over the jar.
		if edge := 0.45 + 0.1*noise(s.Seed+5, float64(p.i), 1); math.Abs(v-edge) < 0.2+0.03*noise(s.Seed+6, 9*u, 2) && u > 0.1 {
			return mix(rgb{0.72, 0.5, 0.4}, rgb{0.55, 0.36, 0.29}, noise(s.Seed+7, 12*u, 12*v))
		}
	}
	c := p.backdrop(u, v)
	m := marks
	if s.Lid && p.i >= s.lidAt && u > m.Left-0.03 && u < m.Right+0.03 && v > 0.07 && v < m.Top+0.012 {
		return mix(rgb{0.35, 0.36, 0.38}, rgb{0.62, 0.62, 0.6}, noise(s.Seed+8, 40*v, 3*u))
	}
	if u < m.Left-0.012 || u > m.Right+0.012 || v > m.Bottom+0.02 || v < 0.1 {
		return c
	}
	// The glass: dark at its sides, a little of its own colour between.
	side := math.Min(u-m.Left, m.Right-u)
	if side < 0 || v > m.Bottom {
		return mix(c, rgb{0.28, 0.33, 0.33}, 0.65)
	}
	c = mix(c, rgb{0.75, 0.8, 0.8}, 0.12)
	c = p.inside(c, u, v)
	if s.Condensation {
		if wet := 0.5 * float64(p.i) / float64(s.Frames) * max(0, min(1, (0.3-v)/0.08)) * (0.6 + 0.8*noise(s.Seed+9, 30*u, 30*v)); wet > 0 {
			c = mix(c, rgb{0.85, 0.87, 0.88}, min(0.7, wet))
		}
	}
	if s.Label && u > 0.42 && u < 0.55 && v > 0.42 && v < 0.62 {
		c = rgb{0.9, 0.88, 0.8}
		if math.Mod(v*60, 1) < 0.35 && noise(s.Seed+10, 90*u, math.Floor(v*60)) > 0.45 {
			c = rgb{0.2, 0.2, 0.25}
		}
	}
	if s.Reflections {
		shine := 0.35*math.Exp(-sq((u-0.37)/0.012)) + 0.2*math.Exp(-sq((u-0.61)/0.02))*noise(s.Seed+11, 1, 8*v)
		c = mix(c, rgb{1, 1, 1}, shine)
	}
	return mix(c, rgb{0.3, 0.34, 0.34}, 0.5*math.Exp(-side/0.012))
}

func sq(x float64) float64 { return x * x }

// inside is what is seen through the glass: dough, what it left, or the backdrop.
func (p painter) inside(c rgb, u, v float64) rgb {
	s, m := p.s, marks
	at := m.Rise(v)
	// A dome whose mean over the width is the height.
	across := 2*(u-m.Left)/(m.Right-m.Left) - 1
	dome := 0.03 * (1.0/3 - across*across)
	rough := 0.012 * (noise(s.Seed+12, 25*u, float64(p.i)*0.2) - 0.5)
	surface := p.rise + dome + rough
	dough := rgb{0.86, 0.78, 0.64}
	if at <= surface {
		stretched := 1 + (p.rise-1)*(1-s.Sticks)
		dough = mix(dough, rgb{0.72, 0.63, 0.49}, 0.5*noise(s.Seed+13, 14*u, 14*at/stretched))
		// Bubbles grow with the rise, and move up with the dough.
		size := 0.25 + 0.25*min(1, p.rise-1)
		if b := noise(s.Seed+14, 60*u, 30*at/stretched); b > 1-size*0.7 {
			dough = mix(dough, rgb{0.5, 0.42, 0.32}, min(1, 4*(b-1+size*0.7)))
		}
		if surface-at < 0.02 { // light catches the edge
			dough = mix(dough, rgb{0.95, 0.9, 0.8}, 0.5)
		}
		return dough
	}
	if s.Residue && at < p.most+dome {
		film := 0.3 + 0.25*noise(s.Seed+15, 40*u, 25*at)
		if p.most+dome-at < 0.03 { // the ridge where it stood
			film = 0.75
		}
		return mix(c, dough, film)
	}
	return c
}

// finer is how many samples the backdrop has for one pixel, across and down.
const finer = 2

// backdrop is what is behind the jar, from samples that are painted once.
func (p painter) backdrop(u, v float64) rgb {
	at := func(x, y int) rgb {
		x, y = max(0, min(finer*Width-1, x)), max(0, min(finer*Height-1, y))
		return p.s.behind[y*finer*Width+x]
	}
	x, y := u*finer*Width-0.5, v*finer*Height-0.5
	fx, fy := math.Floor(x), math.Floor(y)
	ix, iy := int(fx), int(fy)
	return mix(mix(at(ix, iy), at(ix+1, iy), x-fx), mix(at(ix, iy+1), at(ix+1, iy+1), x-fx), y-fy)
}

// kitchen paints the backdrop: a wall, a board, things of several colours.
func kitchen(seed uint64, u, v float64) rgb {
	c := mix(rgb{0.45, 0.5, 0.52}, rgb{0.62, 0.6, 0.55}, noise(seed, 2*u, 2*v))
	if v > 0.86 { // the worktop
		c = mix(rgb{0.4, 0.28, 0.2}, rgb{0.5, 0.37, 0.27}, noise(seed+1, 6*u, 60*v))
	}
	for k := range uint64(9) {
		x, y := hash(seed+2, int64(k), 0), hash(seed+2, int64(k), 1)*0.8
		w, h := 0.04+0.12*hash(seed+2, int64(k), 2), 0.04+0.15*hash(seed+2, int64(k), 3)
		if math.Abs(u-x) < w && math.Abs(v-y) < h {
			c = mix(c, rgb{hash(seed+3, int64(k), 0), hash(seed+3, int64(k), 1), hash(seed+3, int64(k), 2)}, 0.45)
		}
	}
	return mix(c, rgb{0.3, 0.3, 0.3}, 0.12*noise(seed+4, 80*u, 80*v))
}
