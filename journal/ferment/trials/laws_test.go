package trials

import "math"

// A Law makes cultures. Each culture draws its own constants, and behaves by
// them from feeding to feeding.
type Law struct {
	Name string
	Born func(rng chance) Nature
}

// A Nature is one culture's law: the rise over the mark after a feeding, at every
// step from 0 on, with the kitchen's temperature given by hours since the feeding.
// rested is how many hours ago it was fed before. What is peculiar to the feeding comes
// from luck.
type Nature func(luck *Luck, dilution, rested float64, temp func(h float64) float64) []float64

// Luck is what is peculiar to the feedings of a culture, one after the other.
type Luck struct {
	chance
	mood float64 // of a culture whose days are like the days before
}

// step is the time between two heights of a Nature, in hours, and horizon how
// long it is followed.
const (
	step    = 0.05
	horizon = 30.0
)

// Laws are the laws of the trials.
func Laws() []Law {
	return []Law{
		{"yeasts and lactics, gas that leaks as acid weakens the dough", leaking},
		{"growth on a sugar that runs out, square-root law of temperature", exhausted},
		{"a day of its own for each feeding, doubling every so many degrees", moody},
		{"acid on a clock of its own, at which a dough that stands gives way", souring},
		{"bubbles out of a dough that has its fill of gas, films that thin and tear", filming},
		{"a pulse over degree-hours, with moods that last for days and strays far off", pulsing},
	}
}

// cardinal is the cardinal temperature model with inflection (Rosso, Lobry &
// Flandrois 1993), written out here so that the trials share no code with what
// they try.
func cardinal(t, low, best, high float64) float64 {
	if t <= low || t >= high {
		return 0
	}
	return (t - high) * (t - low) * (t - low) /
		((best - low) * ((best-low)*(t-best) - (best-high)*(best+low-2*t)))
}

// spread is a factor whose logarithm scatters.
func spread(rng chance, sd float64) float64 {
	return math.Exp(sd * rng.NormFloat64())
}

// leaking: yeasts and lactic bacteria grow on one sugar, each by its own cardinal
// temperatures. Yeast gas raises the dough; acid slows the yeast and opens the
// dough, so that the gas escapes ever faster. What a long rest does: acid carried
// over, and yeasts that need a while.
func leaking(rng chance) Nature {
	best := 27 + 4*rng.Float64()
	high := best + 8 + 3*rng.Float64()
	yeast := 0.85 * spread(rng, 0.18) // per hour at the best temperature
	lactic := 1.15 * spread(rng, 0.18)
	cells := 0.045 * spread(rng, 0.25) // in a ripe culture, of what the sugar could feed
	gas := 9.0 * spread(rng, 0.25)
	day := 0.06 + 0.04*rng.Float64()
	return func(luck *Luck, dilution, rested float64, temp func(float64) float64) []float64 {
		tired := math.Max(0, rested-12) / 12
		y := cells / dilution * math.Exp(-0.12*tired) * spread(luck, day)
		l := 2.0 * cells / dilution
		acid := (0.10 + 0.02*tired) / dilution * 3
		sugar, held, lag := 1.0, 0.0, 0.6+0.3*tired
		out := make([]float64, 0, int(horizon/step)+1)
		for i := 0; i <= int(horizon/step); i++ {
			out = append(out, held)
			t := temp(float64(i) * step)
			awake := 1 - math.Exp(-float64(i)*step/lag)
			fed := sugar / (sugar + 0.15)
			up := awake * yeast * cardinal(t, 4, best, high) * fed * math.Max(0, 1-acid/1.6) * y
			sour := awake * lactic * cardinal(t, 4, 33.5, 42) * fed * math.Max(0, 1-acid/1.4) * l
			leak := 0.05 + 0.55*acid*acid*acid/(acid*acid*acid+0.35)
			y += up * step
			l += sour * step
			sugar = math.Max(0, sugar-(1.6*up+0.5*sour)*step)
			acid += 1.0 * sour * step
			held += (gas*up - leak*held) * step
		}
		return out
	}
}

// exhausted: Monod growth on a sugar that runs out, waking by Baranyi & Roberts
// (1994), temperature by Ratkowsky's square-root law (1983); gas in proportion to
// the sugar eaten, lost through the surface, and a dough that sinks once nothing
// holds it up.
func exhausted(rng chance) Nature {
	low, high := 2+4*rng.Float64(), 39+5*rng.Float64()
	root := func(t float64) float64 {
		if t <= low || t >= high {
			return 0
		}
		r := (t - low) * (1 - math.Exp(0.25*(t-high)))
		return r * r / (20 * 20)
	}
	rate := 1.0 * spread(rng, 0.18)
	ripe := 0.09 * spread(rng, 0.3)
	asleep := 1.2 * spread(rng, 0.3)
	yield := 2.6 * spread(rng, 0.25)
	loss := 0.05 + 0.05*rng.Float64()
	day := 0.05 + 0.05*rng.Float64()
	return func(luck *Luck, dilution, rested float64, temp func(float64) float64) []float64 {
		n := ripe / dilution
		today := spread(luck, day)
		q := 1 / (math.Exp(asleep*(0.7+0.3*math.Min(3, rested/12))) - 1) // Baranyi's waking
		sugar, held := 1.0, 0.0
		out := make([]float64, 0, int(horizon/step)+1)
		for i := 0; i <= int(horizon/step); i++ {
			out = append(out, held)
			mu := rate * today * root(temp(float64(i)*step))
			q += mu * q * step
			grow := mu * q / (1 + q) * sugar / (sugar + 0.2) * n
			n += grow * step
			eaten := math.Min(sugar, (grow+0.12*mu*n)*step)
			sugar -= eaten
			held += yield*eaten - loss*held*step
			if sugar < 0.05 {
				held -= 0.10 * held * step * (1 - sugar/0.05)
			}
		}
		return out
	}
}

// moody: no biology. The hours to the top follow the ratio and a constant factor
// for every ten degrees, with a turn of their own each time; the curve is a
// smoothed ramp and a slide, whose shares also change from feeding to feeding.
func moody(rng chance) Nature {
	ten := 2.0 + 0.9*rng.Float64() // factor for ten degrees
	base := 4.6 * spread(rng, 0.25)
	ratio := 0.45 + 0.2*rng.Float64()
	tall := 1.2 * spread(rng, 0.3)
	flat := 0.10 + 0.15*rng.Float64()  // share of the time in which nothing is seen
	slide := 0.5 + 0.6*rng.Float64()   // how far it falls in the time it took to rise
	day := 0.05 + 0.06*rng.Float64()   // sd from feeding to feeding
	tiring := 0.05 * rng.NormFloat64() // for each twelve hours more of rest
	return func(luck *Luck, dilution, rested float64, temp func(float64) float64) []float64 {
		top := base * math.Pow(dilution/3, ratio) * spread(luck, day) * math.Exp(tiring*(rested-12)/12)
		high := tall * spread(luck, 0.12)
		begin := flat * spread(luck, 0.25)
		out := make([]float64, 0, int(horizon/step)+1)
		u := 0.0
		for i := 0; i <= int(horizon/step); i++ {
			v := (u - begin) / (1 - begin)
			switch {
			case v <= 0:
				out = append(out, 0)
			case v < 1:
				// A ramp that begins and ends gently.
				out = append(out, high*(0.6*math.Pow(math.Sin(v*math.Pi/2), 2)+0.4*math.Sin(v*math.Pi/2)))
			default:
				out = append(out, high*math.Exp(-slide*math.Pow(u-1, 1.5)*2))
			}
			t := temp(float64(i) * step)
			pace := math.Pow(ten, (t-25)/10)
			if t > 33 {
				pace *= math.Max(0.05, 1-(t-33)/8)
			}
			u += pace * step / top
		}
		return out
	}
}

// souring: gas fills the dough along a Weibull curve and then hardly adds to it; the top
// comes when lactic bacteria, which follow Arrhenius' law and like it warmer than the
// yeasts, have made so much acid that the gluten gives way. Two clocks, then, and a plateau
// between them that may be short or long.
func souring(rng chance) Nature {
	heat := func(activation, best float64) func(float64) float64 {
		return func(t float64) float64 {
			k := math.Exp(activation * (1/298.15 - 1/(t+273.15)))
			return k / (1 + math.Exp(0.6*(t-best-6)))
		}
	}
	yeast, lactic := heat(7500+1500*rng.Float64(), 28+3*rng.Float64()), heat(6000+1500*rng.Float64(), 34)
	rise := 3.3 * spread(rng, 0.2)                   // hours at 25 °C to the steepest, at 1:1:1
	bend := 2.2 + 0.8*rng.Float64()                  // of the Weibull curve
	sour := (1.15 + 0.25*rng.Float64()) * 1.6 * rise // hours at 25 °C until it gives way
	tall := 1.3 * spread(rng, 0.25)
	power := 0.40 + 0.15*rng.Float64() // of the dilution
	sink := 0.25 + 0.25*rng.Float64()
	carried := 0.04 * rng.Float64() // of the acid, for each half day of rest
	day, dayAcid := 0.04+0.04*rng.Float64(), 0.03+0.04*rng.Float64()
	return func(luck *Luck, dilution, rested float64, temp func(float64) float64) []float64 {
		grow := rise * math.Pow(dilution/3, power) * spread(luck, day)
		give := sour * math.Pow(dilution/3, 0.8*power) * spread(luck, dayAcid) * math.Exp(-carried*(rested-12)/12)
		high := tall * spread(luck, 0.08)
		out := make([]float64, 0, int(horizon/step)+1)
		gas, acid, stands := 0.0, 0.0, 1.0
		for i := 0; i <= int(horizon/step); i++ {
			full := 1 - math.Exp(-math.Pow(gas/grow, bend))
			out = append(out, high*full*(1+0.02*gas/grow)*stands)
			t := temp(float64(i) * step)
			gas += yeast(t) * step
			acid += lactic(t) * step / give
			stands *= math.Exp(-sink * step / (1 + math.Exp(-(acid-1)/0.04)))
		}
		return out
	}
}

// filming: a population that fills its dough (Verhulst), slowed by cold as Arrhenius says
// and by heat as its enzymes unfold. Its gas dissolves until the dough has its fill; from
// then on it makes bubbles, and leaks through films that thin as they stretch and that an
// enzyme of the flour wears out.
func filming(rng chance) Nature {
	unfolds := 308 + 5*rng.Float64() // kelvin at which half of it has
	quick := 6500 + 2500*rng.Float64()
	pace := func(t float64) float64 {
		k := math.Exp(quick * (1/298.15 - 1/(t+273.15)))
		return k / (1 + math.Exp(45000*(1/unfolds-1/(t+273.15))))
	}
	growth := 0.62 * spread(rng, 0.2)
	first := 0.16 * spread(rng, 0.3)
	power := 0.85 + 0.3*rng.Float64()
	fill := 0.10 + 0.10*rng.Float64()
	gas, upkeep := 1.9*spread(rng, 0.2), 0.10+0.08*rng.Float64()
	wear := (6.5 + 3*rng.Float64()) // hours at 25 °C
	thin := 0.03 + 0.03*rng.Float64()
	day, dayGas := 0.10+0.10*rng.Float64(), 0.04+0.04*rng.Float64()
	weak := 0.08 * rng.Float64() // of the cells, for each half day of rest
	return func(luck *Luck, dilution, rested float64, temp func(float64) float64) []float64 {
		n := first * math.Pow(3/dilution, power) * math.Exp(-weak*(rested-12)/12) * spread(luck, day)
		making := gas * spread(luck, dayGas)
		dissolved, held, worn := 0.0, 0.0, 0.0
		var out []float64
		for i := 0; i <= int(horizon/step); i++ {
			out = append(out, held)
			t := temp(float64(i) * step)
			k := pace(t)
			grown := growth * k * n * (1 - n)
			made := making * (grown + upkeep*k*n*math.Max(0, 1-worn/4)) * step
			n += grown * step
			worn += math.Exp(5000*(1/298.15-1/(t+273.15))) * step / wear
			if dissolved < fill {
				dissolved += made
				made = 0
			}
			held += made - held*thin*(1+2*held)*(1+worn*worn*worn)*step
		}
		return out
	}
}

// pulsing: no biology. A pulse over hours above a least temperature, as gardeners reckon;
// how slow a culture is today lies near to how slow it was yesterday, and now and then it
// is far off.
func pulsing(rng chance) Nature {
	least := 6 + 5*rng.Float64()
	base := 5.2 * spread(rng, 0.25)
	ratio := 0.35 + 0.25*rng.Float64()
	tall := 1.1 * spread(rng, 0.3)
	up, down := 2.5+3*rng.Float64(), 1+2.5*rng.Float64()
	moods, stray := 0.02+0.03*rng.Float64(), 0.02+0.03*rng.Float64()
	longer := 0.04 * rng.NormFloat64()
	return func(luck *Luck, dilution, rested float64, temp func(float64) float64) []float64 {
		keep := math.Exp(-rested / 48)
		luck.mood = keep*luck.mood + moods*math.Sqrt(1-keep*keep)*luck.NormFloat64()
		// Student's t with three degrees of freedom.
		chi := 0.0
		for range 3 {
			z := luck.NormFloat64()
			chi += z * z / 3
		}
		today := luck.mood + clampTo(stray*luck.NormFloat64()/math.Sqrt(chi), 0.6)
		high := tall * spread(luck, 0.10)
		top := base * math.Pow(dilution/3, ratio) * math.Exp(today+longer*(rested-12)/12)
		var out []float64
		u := 0.0
		for i := 0; i <= int(horizon/step); i++ {
			power := up
			if u > 1 {
				power = down
			}
			out = append(out, high*math.Pow(u*math.Exp(1-u), power))
			t := temp(float64(i) * step)
			warm := math.Max(0, t-least) / (25 - least)
			if t > 32 {
				warm *= math.Max(0.05, 1-(t-32)/9)
			}
			u += warm * step / top
		}
		return out
	}
}

func clampTo(v, most float64) float64 { return math.Min(math.Max(v, -most), most) }

// Top is the hour of the greatest height, and that height.
func Top(heights []float64) (hour, height float64) {
	best := 0
	for i, h := range heights {
		if h > heights[best] {
			best = i
		}
	}
	return float64(best) * step, heights[best]
}

// at is the height at an hour.
func at(heights []float64, h float64) float64 {
	i := min(max(int(h/step), 0), len(heights)-2)
	f := h/step - float64(i)
	return heights[i]*(1-f) + heights[i+1]*f
}
