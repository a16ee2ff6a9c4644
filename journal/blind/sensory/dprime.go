package sensory

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"

	"twinloaf/journal/blind"
)

// greatestDPrime is where the search for d′ ends; by then every method is
// right in more than 0.9999 of answers.
const greatestDPrime = 20

// DPrime is how far apart two breads taste, in units of how much one bread
// tastes differently from bite to bite (Thurstone's model). 1 is about the
// least that people call a difference.
type DPrime struct {
	// Value is 0 at or below chance.
	Value float64
	// SE is sqrt(pc(1-pc)/n) divided by the slope of the method's curve, by
	// the delta method. It is 0, and Known false, at or below chance and when
	// all answers are right.
	SE    float64
	Known bool
	// Unbounded says that all answers were right: no finite d′ fits, and Value
	// is +Inf.
	Unbounded bool
}

// ProportionRight is the proportion of right answers that a d′ gives with a
// method: the psychometric function. It is NaN for scaling, and for
// two-out-of-five: five samples on a line fall into two and three in two ways, and
// which one a taster takes is a rule that we would have to choose. Ennis 2013
// (J Sens Stud 28:297) has analysed it; its tables are not at hand.
//
//	paired:   Φ(d/√2)
//	triangle: 2 ∫₀^∞ [Φ(-z√3 + d√(2/3)) + Φ(-z√3 - d√(2/3))] φ(z) dz
//	duo-trio: 1 - Φ(d/√2) - Φ(d/√6) + 2 Φ(d/√2) Φ(d/√6)
//	3-AFC:    ∫ φ(z-d) Φ(z)² dz
//	tetrad:   1 - 2 ∫ φ(z) [2 Φ(z) Φ(z-d) - Φ(z-d)²] dz
//
// (Ura 1960; Ennis 1993, J Sens Stud 8:353; Ennis & Jesionka 2011.)
func ProportionRight(m blind.Method, d float64) float64 {
	phi, pdf := distuv.UnitNormal.CDF, distuv.UnitNormal.Prob
	switch m {
	case blind.Paired:
		return phi(d / math.Sqrt2)
	case blind.DuoTrio:
		a, b := phi(d/math.Sqrt2), phi(d/math.Sqrt(6))
		return 1 - a - b + 2*a*b
	case blind.Triangle:
		shift := d * math.Sqrt(2.0/3)
		return 2 * quad.Fixed(func(z float64) float64 {
			return (phi(-z*math.Sqrt(3)+shift) + phi(-z*math.Sqrt(3)-shift)) * pdf(z)
		}, 0, 9, 120, nil, 0)
	case blind.ThreeAFC:
		return min(1, quad.Fixed(func(z float64) float64 {
			return pdf(z) * phi(z+d) * phi(z+d)
		}, -9, 9, 120, nil, 0))
	case blind.Tetrad:
		return 1 - 2*quad.Fixed(func(z float64) float64 {
			return pdf(z) * (2*phi(z)*phi(z-d) - phi(z-d)*phi(z-d))
		}, -9, 9, 120, nil, 0)
	}
	return math.NaN()
}

// HasDPrime reports whether d′ can be worked out for a method.
func HasDPrime(m blind.Method) bool { return !math.IsNaN(ProportionRight(m, 1)) }

// DPrimeFor is the d′ of a proportion of right answers: 0 at or below chance,
// +Inf at 1.
func DPrimeFor(m blind.Method, right float64) float64 {
	switch {
	case right <= m.Chance():
		return 0
	case right >= ProportionRight(m, greatestDPrime):
		return math.Inf(1)
	}
	low, high := 0.0, float64(greatestDPrime)
	for high-low > 1e-10 {
		mid := (low + high) / 2
		if ProportionRight(m, mid) < right {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// DPrimeOf is the d′ of k right of n answers, n at least 1, for a method that
// [HasDPrime].
func DPrimeOf(m blind.Method, k, n int) DPrime {
	right := float64(k) / float64(n)
	d := DPrime{Value: DPrimeFor(m, right)}
	switch {
	case math.IsInf(d.Value, 1):
		d.Unbounded = true
	case d.Value > 0:
		const step = 1e-4
		slope := (ProportionRight(m, d.Value+step) - ProportionRight(m, d.Value-step)) / (2 * step)
		d.SE = math.Sqrt(right*(1-right)/float64(n)) / slope
		d.Known = true
	}
	return d
}
