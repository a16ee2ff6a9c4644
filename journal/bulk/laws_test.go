package bulk

import (
	"math"
	"math/rand/v2"
)

// The laws by which the doughs of the trials rise. None is the program's: it has a power
// of thermal time, they have biology, or none at all. All figures in them are ours.

const (
	lawStep = 0.05 // hours
	lawEnd  = 40.0
)

// recipe is what a law asks of a dough.
type recipe struct {
	inoculation, salt, wholegrain float64
	temp                          func(h float64) float64
}

// nature is a kitchen's law: the rise over the start at every step since mixing.
type nature func(recipe) []float64

func scatter(rng *rand.Rand, sd float64) float64 { return math.Exp(sd * rng.NormFloat64()) }

// cardinal is the cardinal temperature model with inflection (Rosso, Lobry & Flandrois
// 1993), written out here with cardinal temperatures that each kitchen draws.
func cardinal(t, lo, best, hi float64) float64 {
	if t <= lo || t >= hi {
		return 0
	}
	return (t - hi) * (t - lo) * (t - lo) / ((best - lo) * ((best-lo)*(t-best) - (best-hi)*(best+lo-2*t)))
}

// growing: yeasts double, each by its cardinal temperatures, wake after a lag, and their
// gas leaks from a dough that folds and acid weaken.
func growing(rng *rand.Rand) nature {
	best := 28 + 3*rng.Float64()
	hi := best + 8 + 2*rng.Float64()
	rate := 0.55 * scatter(rng, 0.15)
	gas := 9 * scatter(rng, 0.2)
	seed := 0.11 * scatter(rng, 0.2)
	lag := 0.8 * scatter(rng, 0.2)
	day := 0.12
	return func(r recipe) []float64 {
		y, held, out := seed*r.inoculation/100*scatter(rng, day), 0.0, []float64{0}
		for h := lawStep; h <= lawEnd; h += lawStep {
			up := (1 - math.Exp(-h/lag)) * rate * cardinal(r.temp(h), 3, best, hi) * (1 - 0.12*(r.salt-2)) * (1 + 0.15*r.wholegrain/100) * y * math.Max(0, 1-y)
			y += up * lawStep
			held += (gas*(up+0.25*y*cardinal(r.temp(h), 3, best, hi)) - (0.03+0.25*y)*held) * lawStep
			out = append(out, held)
		}
		return out
	}
}

// steady: yeasts that hardly grow make gas at a pace of Arrhenius (activation energy 60 to
// 80 kJ/mol), slowly at first, while a sugar lasts.
func steady(rng *rand.Rand) nature {
	energy := (60 + 20*rng.Float64()) * 1000 / 8.314
	pace := 0.34 * scatter(rng, 0.2)
	share := 0.55 + 0.25*rng.Float64()
	wake := 1.6 * scatter(rng, 0.25)
	sugar := 3.5 * scatter(rng, 0.2)
	return func(r recipe) []float64 {
		today, held, out, made := scatter(rng, 0.12), 0.0, []float64{0}, 0.0
		for h := lawStep; h <= lawEnd; h += lawStep {
			warm := math.Exp(energy * (1/298.15 - 1/(r.temp(h)+273.15)))
			awake := math.Pow(1-math.Exp(-h*warm/wake), 1.5)
			up := pace * today * warm * awake * math.Pow(r.inoculation/15, share) * (1 - 0.1*(r.salt-2)) * math.Max(0, 1-made/sugar)
			made += up * lawStep
			held += (up - 0.04*held) * lawStep
			out = append(out, held)
		}
		return out
	}
}

// moody: no biology. The hours to double follow the inoculation, a factor for ten degrees
// and a turn of their own each day; the curve is a smoothed ramp.
func moody(rng *rand.Rand) nature {
	ten := 2 + 0.8*rng.Float64()
	base := 6.5 * scatter(rng, 0.2)
	power := 0.35 + 0.25*rng.Float64()
	flat := 0.15 + 0.2*rng.Float64()
	return func(r recipe) []float64 {
		hours := base * math.Pow(r.inoculation/15, -power) * scatter(rng, 0.12) * (1 - 0.1*r.wholegrain/100) * (1 + 0.06*(r.salt-2))
		begin := flat * scatter(rng, 0.2)
		u, out := 0.0, []float64{0}
		for h := lawStep; h <= lawEnd; h += lawStep {
			u += lawStep / hours * math.Pow(ten, (r.temp(h)-25)/10)
			v := math.Max(0, (u-begin)/(1-begin))
			out = append(out, math.Min(1.8, v*v*(1.6-0.6*math.Min(v, 1.3))))
		}
		return out
	}
}

// filling: cells wake by a logistic curve and make gas by the square-root law of temperature
// (Ratkowsky et al. 1982, J Bacteriol 149:1); the dough holds the less of it the fuller it is, along a
// Weibull curve. It was written when all that the package takes for granted had been set,
// and nothing was set by it.
func filling(rng *rand.Rand) nature {
	least := 1 + 3*rng.Float64() // °C below which nothing grows
	pace := 0.19 * scatter(rng, 0.2)
	awake := 1.8 * scatter(rng, 0.3) // hours at 25 °C until half of the cells are
	share := 0.6 + 0.3*rng.Float64() // the power of the inoculation
	holds := 1.7 * scatter(rng, 0.15)
	bend := 1.2 + 0.5*rng.Float64()
	return func(r recipe) []float64 {
		today, gas, hours, out := scatter(rng, 0.12), 0.0, 0.0, []float64{0}
		for h := lawStep; h <= lawEnd; h += lawStep {
			root := math.Max(0, r.temp(h)-least) / (25 - least)
			warm := root * root
			hours += warm * lawStep
			gas += pace * today * warm / (1 + math.Exp(-2.2*(hours-awake)/awake)) * math.Pow(r.inoculation/15, share) *
				(1 - 0.11*(r.salt-2)) * (1 + 0.2*r.wholegrain/100) * lawStep
			out = append(out, holds*(1-math.Exp(-math.Pow(gas/holds*1.3, bend))))
		}
		return out
	}
}

var laws = []struct {
	name string
	born func(*rand.Rand) nature
}{{"yeasts that grow, gas that leaks", growing}, {"gas at a pace of Arrhenius", steady}, {"no biology", moody}, {"a dough that fills, written last", filling}}
