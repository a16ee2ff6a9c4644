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
			inOrder(all)
		}
		tops[i] = f.among(all, at, 0.5)
	}
	return tops
}

// among is the hour by which a share of the tops come that were drawn, which are in order: of
// those that are still ahead at an hour, each weighed by how well it goes with what was written
// down until then.
func (f Feeding) among(drawn []possibility, until, share float64) float64 {
	weights, total := make([]float64, len(drawn)), 0.0
	for k, p := range drawn {
		if p.top > until {
			log, _ := f.fits(p.heights, until)
			weights[k] = math.Exp(log)
			total += weights[k]
		}
	}
	sum := 0.0
	for k, p := range drawn {
		if sum += weights[k]; weights[k] > 0 && sum >= share*total {
			return p.top
		}
	}
	return until
}

// inOrder puts what was drawn in the order of the tops.
func inOrder(drawn []possibility) {
	slices.SortFunc(drawn, func(a, b possibility) int { return cmp.Compare(a.top, b.top) })
}

// fits is the logarithm of how well a rise goes with what was written down of a feeding until an
// hour, and how far each note is off, in standard deviations.
func (f Feeding) fits(heights []float64, until float64) (log float64, offs []float64) {
	for _, r := range f.Course.Readings {
		h := r.At.Sub(f.Course.Feeding.At).Hours()
		if h > until {
			continue
		}
		off, sd := 0.0, topSpread
		if r.Rise > 0 {
			rise := at(heights, h)
			off, sd = float64(r.Rise)-1-rise, math.Hypot(eyeSpread(rise), 0.05/math.Sqrt(12)) // written down in twentieths
		} else {
			top, _ := Top(heights)
			off = h - top
		}
		log -= off*off/(sd*sd)/2 + math.Log(sd)
		offs = append(offs, off/sd)
	}
	return log, offs
}
