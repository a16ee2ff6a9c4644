package ferment

import (
	"math"
	"slices"
	"time"

	"gonum.org/v1/gonum/mat"
)

// A climate is what is known of how warm it usually is in one place at each hour
// of the day: a level with a daily swing and its first overtone, by Bayesian linear
// regression on all temperatures written down there (ridge regression: Hoerl &
// Kennard 1970, Technometrics 12:55), in which a day counts the less the longer ago
// it is, so that the season is followed. What the last temperature was off the
// usual of its hour is carried on, and dies away within a day or so.
type climate struct {
	normal *mat.SymDense
	rhs    [climateTerms]float64
	last   time.Time // of the last temperature added
	memory float64   // days

	squares, weight float64 // of residuals, for how far a day is off the usual
	solved          bool
	mean            *mat.VecDense
	chol            mat.Cholesky
}

const climateTerms = 5

// What is believed of a kitchen before anything is known (our own guesses).
const (
	usualLevel, levelSpread   = 22.0, 3.0 // °C
	swingSpread, overtone     = 0.7, 0.3  // °C
	usualWeather              = 1.0       // °C, sd of a day off the usual
	weatherHours              = 24.0      // over which that dies away
	sameSpell                 = 4.0       // hours; temperatures closer together tell the same thing
	climateMemory             = 12.0      // days
	weatherKnown              = 4.0       // as well known as from so many spells
	thermometer               = 0.15      // °C, sd of a glance
	longestBridge             = 2 * time.Hour
	timelineStep, timelineEnd = 0.25, 48.0 // hours
)

func newClimate() *climate {
	c := &climate{normal: mat.NewSymDense(climateTerms, nil), memory: climateMemory, weight: weatherKnown, squares: weatherKnown * usualWeather * usualWeather}
	for i, sd := range [climateTerms]float64{levelSpread, swingSpread, swingSpread, overtone, overtone} {
		c.normal.SetSym(i, i, usualWeather*usualWeather/(sd*sd))
	}
	return c
}

func (c *climate) clone() *climate {
	out := *c
	out.normal = mat.NewSymDense(climateTerms, nil)
	out.normal.CopySym(c.normal)
	out.solved, out.mean, out.chol = false, nil, mat.Cholesky{}
	return &out
}

// clockTerms are those of an hour of the day.
func clockTerms(t time.Time) [climateTerms]float64 {
	a := 2 * math.Pi * (float64(t.Hour()) + float64(t.Minute())/60) / 24
	return [climateTerms]float64{1, math.Cos(a), math.Sin(a), math.Cos(2 * a), math.Sin(2 * a)}
}

// add takes in temperatures in order of time.
func (c *climate) add(points []TempPoint) {
	c.solved = false
	stale := 0.0 // spells since it was solved: a log of every minute need not be each time
	for _, p := range points {
		if !p.At.After(c.last) {
			continue
		}
		share := 1.0
		if !c.last.IsZero() {
			gap := p.At.Sub(c.last).Hours()
			share = min(1, gap/sameSpell)
			c.forget(gap / 24)
		}
		x := clockTerms(p.At)
		y := float64(p.Temp) - usualLevel
		off := y + usualLevel - c.usual(p.At)
		c.squares += share * min(off*off, 25)
		c.weight += share
		for i := range x {
			for j := i; j < climateTerms; j++ {
				c.normal.SetSym(i, j, c.normal.At(i, j)+share*x[i]*x[j])
			}
			c.rhs[i] += share * x[i] * y
		}
		c.last = p.At
		if stale += share; stale > 0.25 {
			c.solved, stale = false, 0
		}
	}
	c.solved = false
}

// forget lets what is known fade towards what is believed of any kitchen.
func (c *climate) forget(days float64) {
	keep := math.Exp(-days / c.memory)
	for i, sd := range [climateTerms]float64{levelSpread, swingSpread, swingSpread, overtone, overtone} {
		prior := usualWeather * usualWeather / (sd * sd)
		for j := i; j < climateTerms; j++ {
			v := c.normal.At(i, j) * keep
			if i == j {
				v += (1 - keep) * prior
			}
			c.normal.SetSym(i, j, v)
		}
		c.rhs[i] *= keep
	}
}

func (c *climate) solve() {
	if c.solved {
		return
	}
	c.mean = mat.NewVecDense(climateTerms, nil)
	if c.chol.Factorize(c.normal) {
		// The normal matrix holds the prior, so this cannot fail on finite input.
		_ = c.chol.SolveVecTo(c.mean, mat.NewVecDense(climateTerms, c.rhs[:]))
	}
	c.solved = true
}

// usual is how warm it usually is at that hour.
func (c *climate) usual(t time.Time) float64 {
	c.solve()
	x, sum := clockTerms(t), usualLevel
	for i := range x {
		sum += x[i] * c.mean.AtVec(i)
	}
	return sum
}

// weather is the sd of a day off the usual.
func (c *climate) weather() float64 { return math.Sqrt(c.squares / c.weight) }

// doubt is the sd of what is foretold for a time so many hours after the last
// temperature; after is negative if there was none.
func (c *climate) doubt(t time.Time, after float64) float64 {
	c.solve()
	x := clockTerms(t)
	var w mat.VecDense
	known := 1.0
	if after >= 0 {
		known = 1 - math.Exp(-2*after/weatherHours)
	}
	s := c.weather()
	variance := s * s * known
	if c.chol.SolveVecTo(&w, mat.NewVecDense(climateTerms, x[:])) == nil {
		variance += s * s * known * mat.Dot(&w, mat.NewVecDense(climateTerms, x[:]))
	}
	return math.Sqrt(variance + thermometer*thermometer)
}

// fill gives the temperature at a time from the points known, in order of time,
// and the usual of the hour.
func (c *climate) fill(points []TempPoint, t time.Time) float64 {
	i, _ := slices.BinarySearchFunc(points, t, func(p TempPoint, t time.Time) int { return p.At.Compare(t) })
	if i < len(points) && points[i].At.Equal(t) {
		return float64(points[i].Temp)
	}
	if i > 0 && i < len(points) && points[i].At.Sub(points[i-1].At) <= longestBridge {
		return float64(between(points[i-1], points[i], t))
	}
	sum, weight := 0.0, 0.0
	off := func(p TempPoint) {
		w := math.Exp(-t.Sub(p.At).Abs().Hours() / weatherHours)
		sum += w * (float64(p.Temp) - c.usual(p.At))
		weight += w
	}
	if i > 0 {
		off(points[i-1])
	}
	if i < len(points) {
		off(points[i])
	}
	return c.usual(t) + sum/max(1, weight)
}
