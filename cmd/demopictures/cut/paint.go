package cut

import "math"

// The colours of crumb, of its crust from pale to burnt, and of bran, by flour.
var (
	crumbColour = [...]rgb{White: {240, 221, 184}, Brown: {212, 184, 142}, Rye: {150, 112, 78}}
	crumbDeep   = [...]rgb{White: {1, 0.905, 0.775}, Brown: {0.985, 0.865, 0.71}, Rye: {0.97, 0.85, 0.72}}
	crustColour = [...][4]rgb{
		White: {{222, 172, 104}, {190, 124, 60}, {142, 80, 36}, {84, 46, 26}},
		Brown: {{192, 140, 84}, {158, 100, 52}, {116, 66, 34}, {72, 42, 26}},
		Rye:   {{122, 84, 56}, {98, 64, 42}, {74, 47, 32}, {48, 32, 24}},
	}
	branColour = [...]rgb{White: {176, 128, 84}, Brown: {140, 92, 56}, Rye: {92, 62, 42}}
)

// crust reads its colour off the scale.
func (b *body) crust(t float64) rgb {
	scale := crustColour[b.Flour]
	t = max(0, min(1, t)) * 3
	k := min(int(t), 2)
	return scale[k].mix(scale[k+1], float32(t-float64(k)))
}

// paint gives each place its colour before the light falls on it. What lies deep is darker
// and warmer than the light alone makes it, since what little light gets there went through
// walls and came off others.
func (b *body) paint(n *noise) {
	b.colour = make([]rgb, b.w*b.h)
	narrow, wide := b.level.blurred(places(0.5)), b.level.blurred(places(1.7))
	opened := newField(b.w, b.h)
	for p, d := range b.depth.v {
		opened.v[p] = max(0, min(1, (d-0.12)/0.4))
	}
	opened = opened.blurred(1)
	for j := range b.h {
		for i := range b.w {
			p := j*b.w + i
			x, y := b.mm(i, j)
			d := float64(b.edge.v[p])
			c := crumbColour[b.Flour]
			c = c.times(float32(1 + 0.02*n.many(x/16, y/16, 2) + 0.02*n.many(x/1.3, y/1.3, 2)))
			bran := n.many(x/0.34+9, y/0.5, 2)
			over := [...]float64{White: 0.86, Brown: 0.46, Rye: 0.40}[b.Flour]
			if bran > over {
				c = c.mix(branColour[b.Flour], float32(min(0.85, (bran-over)*4)))
			}
			deep := float64(b.level.v[p])
			sunk := 0.30*max(0, deep-float64(narrow.v[p])) + 0.12*max(0, deep-float64(wide.v[p]))
			lit := 1 - float64(opened.v[p])*(1-math.Exp(-sunk-0.075*deep))
			t := crumbDeep[b.Flour]
			k := float64(1 - lit)
			c = c.tint(rgb{float32(math.Pow(float64(t.r), 4*k)), float32(math.Pow(float64(t.g), 4*k)), float32(math.Pow(float64(t.b), 4*k))})
			c = c.times(float32(0.42+0.58*lit) * (1 - 0.30*opened.v[p])) // a bubble's skin is darker than a cut
			// The crust: dark outside, its colour fading into the crumb.
			bottom := max(0, math.Sin(-float64(b.toward[p])))
			thickness := (1.5 + 1.3*b.Baked) * (1 + 0.30*n.many(x/11, y/11, 2) + 0.25*bottom)
			e := d / thickness
			if e < 2.1 {
				rim := b.crust(b.Baked*0.72 + 0.30 - 0.30*e + 0.16*n.many(x/3, y/3, 2))
				k := 1 - math.Pow(min(1, max(0, (e-0.55)/1.5)), 0.55)
				c = c.mix(rim.times(float32(0.75+0.25*lit)), float32(k))
			}
			b.colour[p] = c
		}
	}
	b.paintSeeds(n)
}
