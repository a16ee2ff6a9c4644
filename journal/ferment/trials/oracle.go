package trials

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"time"
)

// An oracle draws a rise as it may come for all that somebody knows who knows the law, the
// constants of the culture and of the kitchen, and every temperature until what the baker last
// wrote down of one: what is peculiar to the feeding, and the weather from there on, are drawn.
type oracle func(rng *rand.Rand, known time.Time) []float64

// draws is how many rises an oracle draws for a forecast.
const draws = 40

// A possibility is a rise that an oracle drew.
type possibility struct {
	heights []float64
	top     float64
}

// foretell is the hour of the top, at each hour of [At], as nobody can foretell it better from
// what is known then: the median of the tops that an oracle draws, each weighed by how well
// it goes with the readings so far (importance sampling). Who has to learn the culture from its
// diary is off by more, in the mean of many feedings.
func (f Feeding) foretell(rng *rand.Rand) (tops [len(At)]float64) {
	var all []possibility
	for i, at := range At {
		if i == 0 || f.measured[i] != f.measured[i-1] {
			all = all[:0]
			for range draws {
				p := possibility{heights: f.oracle(rng, f.measured[i])}
				p.top, _ = Top(p.heights)
				all = append(all, p)
			}
			slices.SortFunc(all, func(a, b possibility) int { return cmp.Compare(a.top, b.top) })
		}
		var weights [draws]float64
		total := 0.0
		for k, p := range all {
			if p.top > at {
				weights[k] = f.likelihood(p, at)
				total += weights[k]
			}
		}
		tops[i] = at
		for k, p := range all {
			if total -= 2 * weights[k]; total <= 0 && weights[k] > 0 {
				tops[i] = p.top
				break
			}
		}
	}
	return tops
}

// likelihood is how well a rise goes with what was written down of a feeding until an hour.
func (f Feeding) likelihood(p possibility, until float64) float64 {
	log := 0.0
	for _, r := range f.Course.Readings {
		h := r.At.Sub(f.Course.Feeding.At).Hours()
		if h > until {
			continue
		}
		off, sd := h-p.top, topSpread
		if r.Rise > 0 {
			rise := at(p.heights, h)
			off, sd = float64(r.Rise)-1-rise, math.Hypot(eyeSpread(rise), 0.05/math.Sqrt(12)) // written down in twentieths
		}
		log -= off*off/(sd*sd)/2 + math.Log(sd)
	}
	return math.Exp(log)
}
