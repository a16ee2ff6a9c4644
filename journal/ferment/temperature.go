package ferment

import (
	"fmt"
	"math"
)

// GrowthModel gives the rate of growth at a temperature relative to the rate at
// the best temperature: 1 there, 0 where nothing grows.
//
// Both models of this package are approximate. They reproduce rounded rules of
// thumb (M. Gänzle's, after Gänzle, Ehmann & Hammes 1998, Appl Environ
// Microbiol 64:2616; to be taken as ±50 %) for organisms that need not be the
// ones in the jar. Say "approximate" wherever they are shown.
type GrowthModel interface {
	Relative(t Celsius) float64
}

// Cardinal is the cardinal temperature model, a curve through the lowest, best
// and highest temperature of growth. Source: Rosso, Lobry & Flandrois 1993,
// J Theor Biol 162:447. It falls too slowly on the hot side of the published
// points for sourdough.
type Cardinal struct {
	Min, Opt, Max Celsius
}

// CardinalYeast carries the parameters with which the check values are computed.
// Approximate.
func CardinalYeast() Cardinal { return Cardinal{Min: 8, Opt: 27, Max: 36} }

// Check reports parameters for which the curve has a pole or is upside down:
// the best temperature has to lie in the upper half of the span.
func (c Cardinal) Check() error {
	if !(c.Min < c.Opt && c.Opt < c.Max) || c.Opt <= (c.Min+c.Max)/2 {
		return fmt.Errorf("cardinal temperatures %.1f, %.1f and %.1f °C: the best must lie below the highest and in the upper half of the span",
			float64(c.Min), float64(c.Opt), float64(c.Max))
	}
	return nil
}

// Relative is the rate at t over the rate at c.Opt.
func (c Cardinal) Relative(t Celsius) float64 {
	if !(t > c.Min && t < c.Max) || c.Check() != nil {
		return 0
	}
	lo, opt, hi, x := float64(c.Min), float64(c.Opt), float64(c.Max), float64(t)
	top := (x - hi) * (x - lo) * (x - lo)
	bottom := (opt - lo) * ((opt-lo)*(x-opt) - (opt-hi)*(opt+lo-2*x))
	return max(0, top/bottom)
}

// Steep is a two-parameter alternative that falls as steeply on the hot side as
// the published points do:
//
//	((Tx-T)/(Tx-To))^(b(Tx-To)) · exp(b(T-To)), 0 from Tx on
//
// Our own reconstruction from the rules of thumb; approximate. Unlike
// [Cardinal] it has no lowest temperature: in a refrigerator it creeps on.
type Steep struct {
	B   float64 // per °C
	Opt Celsius // To, where the rate is greatest
	Max Celsius // Tx, where growth ends
}

// SteepYeast carries our parameters. Approximate.
func SteepYeast() Steep { return Steep{B: 0.336, Opt: 27.1, Max: 36.0} }

// Relative is the rate at t over the rate at s.Opt.
func (s Steep) Relative(t Celsius) float64 {
	if !(t < s.Max) || s.Opt >= s.Max {
		return 0
	}
	below := float64(s.Max - s.Opt)
	// In logarithms, so that a very cold t gives 0 and not infinity times 0.
	return math.Exp(s.B*below*math.Log(float64(s.Max-t)/below) + s.B*float64(t-s.Opt))
}

// ReferenceTemp is the temperature at which thermal time runs like the clock.
const ReferenceTemp Celsius = 25

// pace is the rate at t over the rate at the reference temperature: hours of
// thermal time in an hour of the clock.
func pace(m GrowthModel, t Celsius) float64 {
	ref := m.Relative(ReferenceTemp)
	if ref <= 0 {
		return 0
	}
	return m.Relative(t) / ref
}
