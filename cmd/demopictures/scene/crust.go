package scene

// The crusts of each grain, from pale to burnt.
var crusts = [...][]rgb{
	White: {{236, 196, 130}, {214, 150, 76}, {176, 100, 42}, {122, 62, 26}, {66, 34, 20}},
	Brown: {{216, 172, 112}, {186, 126, 66}, {146, 86, 40}, {100, 54, 28}, {56, 32, 22}},
	Dark:  {{170, 124, 80}, {138, 92, 56}, {104, 64, 38}, {72, 44, 28}, {42, 28, 20}},
}

var (
	tornColour = [...]rgb{White: {240, 208, 150}, Brown: {216, 176, 122}, Dark: {150, 112, 76}}
	flourWhite = rgb{246, 240, 226}
	seedTints  = []rgb{{236, 214, 164}, {222, 196, 140}, {196, 190, 168}, {120, 96, 70}}
)

func (l *loaf) colour(c *canvas, i, j int, x, y float32) rgb {
	u, v := l.own(x, y)
	r := l.rims[j*c.w+i]
	rim := (1 - r) * l.b / c.pixel // pixels inside the rim, about
	if rim <= -0.5 {
		return l.beside(x, y, r)
	}
	dx, dy := c.slope(i, j)
	light, sheen := window.on(dx*1.15, dy*1.15)
	p := l.crust(x, y, u, v, r)
	// What turns away from the eye at the rim lies in the loaf's own shade.
	p = p.times(light * (0.62 + 0.38*step(1, 0.9, r))).add(26 * sheen)
	if rim < 0.5 {
		return l.beside(x, y, r).mix(p, rim+0.5)
	}
	return p
}

// beside is the ground with the loaf's shadow and the flour about it.
func (l *loaf) beside(x, y, r float32) rgb {
	p := l.p.ground(l.Ground, l.ox, x, y)
	p = l.p.dusted(p, l.ox, x, y, clamp(1.5-0.95*r)*l.Floured*0.9)
	u, v := l.own(x-0.07, y-0.09)
	cast := l.from(u, v)
	shade := 0.50*step(1.26, 0.92, cast) + 0.16*step(1.08, 1, r)
	return p.times(1.02 * (1 - min(shade, 0.7)))
}

// crust is the colour of the loaf before light falls on it.
func (l *loaf) crust(x, y, u, v, r float32) rgb {
	cloud := l.p.smooth.at(x*46+l.ox, y*46+l.ox)
	grain := l.p.fine.at(x*200, y*200+l.ox)
	tone := 0.18 + 0.70*l.Baked + 0.42*(cloud-0.5) + 0.16*(grain-0.5) - 0.16*r*r*r
	torn, ear := l.openness(u, v)
	tone += 0.45 * ear
	p := ramp(tone, crusts[l.Grain]...)
	if l.Grain != White { // bran
		p = p.times(1 - 0.22*step(0.66, 0.78, l.p.fine.at(x*330+l.ox, y*330)))
	}
	p = p.mix(flourWhite, l.flour(x, y, u, v, r)*(1-torn)*(1-0.8*ear))
	if torn > 0 {
		strand := l.p.fine.at(u*300, v*60+l.ox)
		inside := tornColour[l.Grain].mix(ramp(0.2+0.5*l.Baked, crusts[l.Grain]...), 0.34+0.5*strand*(0.3+0.7*l.Baked))
		p = p.mix(inside, torn)
	}
	return l.seedColour(p, u, v)
}

// openness tells how far a place lies in the torn part of a cut, and on an ear.
func (l *loaf) openness(u, v float32) (torn, ear float32) {
	for i := range l.cuts {
		c := &l.cuts[i]
		along, over, near := c.across(u, v)
		if !near {
			continue
		}
		taper := 1 - along*along
		torn = max(torn, step(1.1, 0.9, abs(over)))
		if c.ear > 0.3 {
			ear = max(ear, c.ear*taper*step(-1.7, -1.15, over)*step(-0.8, -1, over))
		}
	}
	return torn, ear
}

// flour is what the basket has left: rings where its cane pressed.
func (l *loaf) flour(x, y, u, v, r float32) float32 {
	if l.Floured <= 0 || l.Form == Tin && r > 0.96 {
		return 0
	}
	warp := 0.05 * (l.p.smooth.at(x*60, y*60+l.ox) - 0.5)
	rings := float32(0.5)
	if l.Form != Tin {
		rings = 0.5 + 0.5*sin((r+warp)*52)
	}
	patch := l.p.smooth.at(x*34+l.ox, y*34)
	speck := l.p.fine.at(x*420+l.ox, y*420)
	f := 0.55*rings + 0.55*patch + 0.42*speck - 0.10
	return 0.86 * l.Floured * step(0.62, 1.08, f+0.34*(l.Floured-0.5)) * step(1.0, 0.82, r)
}

func (l *loaf) seedColour(p rgb, u, v float32) rgb {
	for i := range l.seeds {
		s := &l.seeds[i]
		dx, dy := u-s.x, v-s.y
		if dx > s.r || dx < -s.r || dy > s.r || dy < -s.r {
			continue
		}
		if q := s.within(dx, dy); q < 1 {
			p = p.mix(seedTints[int(s.tint*float32(len(seedTints)))%len(seedTints)], step(1, 0.8, q))
		}
	}
	return p
}
