package ferment

import "math"

// A hump is a rise with a top: it climbs, stands highest once, and falls. It has its
// greatest height, Rise, at u = 1 exactly, u = thermal time / Top. Nobody has published
// how a jar falls, so there are two families of curves, both our own choice; a culture's
// readings tell which is nearer.
type hump struct {
	family                          family
	top, rise, before, after, sharp float64
}

// A family is one form of a hump.
type family int

const (
	// Growth and loss, joined by the smooth maximum of the two:
	//
	//	y = Rise · (q/(p+q) e^(-p m (u-1)) + p/(p+q) e^(q m (u-1)))^(-1/m)
	//
	// with p = Before·(1 + 0.8/m). It begins to climb at the rate p and falls in the end at
	// the rate q (After), both in times to the top, as growth and loss by a constant share
	// do; m (Sharp) tells how abruptly one follows the other. As m goes to 0 the climb
	// becomes a Gompertz curve. With p put so, Before hardly depends on m among curves that
	// look alike.
	smooth family = iota
	// A stretched bell, whose climb and fall know nothing of each other:
	//
	//	y = Rise · e^(-(Before (1-u))^(1+Sharp))   up to the top
	//	y = Rise · e^(-(After (u-1))^(3/2))        from there on
	//
	// It stands about its top for longer than the other, and then falls faster and faster
	// for a while, as a dough does whose gluten gives way.
	bell
	families
)

// bellFall is the power by which a bell falls.
const bellFall = 1.5

// The latent figures of a hump, all in logarithms.
const (
	xTop = iota
	xRise
	xBefore
	xAfter
	xSharp
	latents
)

type (
	figures = [latents]float64
	square  = [latents][latents]float64
)

// bend ties the rate of the climb to the sharpness.
const bend = 0.8

func (f family) hump(x figures) hump {
	h := hump{f, math.Exp(x[xTop]), math.Exp(x[xRise]), math.Exp(x[xBefore]), math.Exp(x[xAfter]), math.Exp(x[xSharp])}
	if f == smooth {
		h.before *= 1 + bend/h.sharp
	}
	return h
}

// log is the logarithm of the height over that of the top at u = 1 + v, and its slope
// there.
func (h hump) log(v float64) (y, slope float64) {
	if h.family == bell {
		away, power := h.bell(v)
		return -away, -power * away / offTop(v)
	}
	p, q, m := h.before, h.after, h.sharp
	a := q / (p + q) * math.Exp(clamp(-p*m*v, -500, 500))
	b := p / (p + q) * math.Exp(clamp(q*m*v, -500, 500))
	return -math.Log(a+b) / m, (p*a - q*b) / (a + b)
}

// bell is minus the logarithm of the height at u = 1 + v over that of the top, and its
// power there.
func (h hump) bell(v float64) (away, power float64) {
	rate := h.after
	if power = bellFall; v < 0 {
		rate, power = h.before, 1+h.sharp
	}
	return math.Exp(power * math.Log(rate*math.Abs(offTop(v)))), power
}

// offTop keeps v off 0, where its logarithm has no value.
func offTop(v float64) float64 {
	if math.Abs(v) < 1e-9 {
		return 1e-9
	}
	return v
}

// at is the rise over the mark at a thermal time.
func (h hump) at(th float64) float64 {
	if th <= 0 {
		return 0
	}
	y, _ := h.log(th/h.top - 1)
	return h.rise * math.Exp(y)
}

// gradient is the rise and its derivatives by the five figures.
func (h hump) gradient(th float64) (y float64, d figures) {
	if th <= 0 {
		return 0, d
	}
	u := th / h.top
	v := u - 1
	if h.family == bell {
		away, power := h.bell(v)
		y = h.rise * math.Exp(-away)
		d[xTop] = y * power * away * u / offTop(v)
		d[xRise] = y
		if v < 0 {
			d[xBefore] = -y * power * away
			d[xSharp] = d[xBefore] / power * math.Log(away) / power * h.sharp
		} else {
			d[xAfter] = -y * power * away
		}
		return y, d
	}
	p, q, m := h.before, h.after, h.sharp
	a := q / (p + q) * math.Exp(clamp(-p*m*v, -500, 500))
	b := p / (p + q) * math.Exp(clamp(q*m*v, -500, 500))
	s := a + b
	a, b = a/s, b/s
	log := math.Log(s)
	y = h.rise * math.Exp(-log/m)
	slope := p*a - q*b
	d[xTop] = -y * u * slope
	d[xRise] = y
	d[xBefore] = -y * p / m * (a*(-1/(p+q)-m*v) + b*q/(p*(p+q)))
	d[xAfter] = -y * q / m * (a*p/(q*(p+q)) + b*(m*v-1/(p+q)))
	d[xSharp] = y*(log/m+v*slope) - d[xBefore]*bend/(m+bend)
	return y, d
}

// crossings are the thermal times, before and after the top, at which the hump
// stands at [ripeFraction] of its height. It may stand higher than that from the feeding on.
func (h hump) crossings() (up, down float64) {
	want := math.Log(ripeFraction)
	return h.top * (1 + h.cross(want, -1)), h.top * (1 + h.cross(want, 1))
}

// cross finds v, on one side of 0, at which the logarithm of the height is want: of a
// smooth hump by Newton's steps, halved where they leave the bracket.
func (h hump) cross(want, side float64) float64 {
	switch {
	case h.family == bell && side > 0:
		return math.Pow(-want, 1/bellFall) / h.after
	case h.family == bell:
		return -min(1, math.Pow(-want, 1/(1+h.sharp))/h.before)
	}
	inner, outer := 0.0, side
	if side > 0 {
		for y, _ := h.log(outer); y > want && outer < 1e3; y, _ = h.log(outer) {
			outer *= 2
		}
	} else if y, _ := h.log(outer); y > want {
		return outer
	}
	v := outer / 4
	for range 50 {
		y, slope := h.log(v)
		if math.Abs(y-want) < 1e-7 {
			break
		}
		if y > want {
			inner = v
		} else {
			outer = v
		}
		v -= (y - want) / slope
		if !((v-inner)*(v-outer) < 0) {
			v = (inner + outer) / 2
		}
	}
	return v
}
