package ferment

import (
	"math"

	"twinloaf/journal/say"
)

// Shape is the form of a growth curve.
type Shape int

// The shapes a rise is fitted with.
const (
	Gompertz Shape = iota // rises fast and levels off slowly
	Logistic              // the same before and after its middle
)

// String is the name of the shape in print.
func (s Shape) String() string { return s.Line().String() }

// Line is the name of the shape.
func (s Shape) Line() say.Line {
	if s == Logistic {
		return say.Of("logistic")
	}
	return say.Of("modified Gompertz")
}

// Curve is a growth curve above the mark:
//
//	modified Gompertz  y = A exp(-exp(Rate e / A (Lag - t) + 1))
//	logistic           y = A / (1 + exp(4 Rate / A (Lag - t) + 2))
//
// Source: Zwietering et al. 1990, Appl Environ Microbiol 56:1875. Time is in
// hours, y and A in whatever unit the readings have, and Rate in that unit per
// hour. The curve at t = 0 is a little above 0.
type Curve struct {
	Shape Shape
	A     float64 // height of the plateau
	Rate  float64 // greatest slope
	Lag   float64 // where the steepest tangent meets the mark; may be just below 0
}

// At is the height of the curve at t hours.
func (c Curve) At(t float64) float64 {
	y, _, _, _ := c.derivatives(t)
	return y
}

// derivatives gives the height and its derivatives with respect to A, Rate and Lag.
func (c Curve) derivatives(t float64) (y, dA, dRate, dLag float64) {
	early := c.Lag - t
	if c.Shape == Logistic {
		// Beyond 500 the exponential is past the range of a float64 and the
		// curve is 0 or A to the last bit anyway.
		z := clamp(4*c.Rate/c.A*early+2, -500, 500)
		s := 1 / (1 + math.Exp(z))
		bend := s * (1 - s)
		return c.A * s, s + bend*(z-2), -4 * bend * early, -4 * c.Rate * bend
	}
	z := clamp(c.Rate*math.E/c.A*early+1, -500, 50)
	u := math.Exp(z)
	s := math.Exp(-u)
	return c.A * s, s * (1 + u*(z-1)), -s * u * math.E * early, -s * u * c.Rate * math.E
}

// ripeFraction bounds the ripe window: 90 % of the peak.
const ripeFraction = 0.90

// Point is one height at one hour since the feeding.
type Point struct {
	Hours  float64
	Height float64
	SD     float64 // the standard deviation of Height; 0 if it was read by eye
}

// TooFewError tells that there are not enough readings for a curve.
type TooFewError struct {
	Have    int // usable: at distinct times, before the collapse
	Want    int
	LeftOut int // after the collapse
}

func (e *TooFewError) Error() string { return e.Line().String() }

// Line says it in a sentence.
func (e *TooFewError) Line() say.Line {
	few := say.Of("A curve needs at least {{.Want}} readings at different times before it falls; you have {{.Have}}.", say.With{"Want": e.Want, "Have": e.Have})
	if e.LeftOut == 0 {
		return few
	}
	return say.Join(few, say.Of("Readings that came after the fall: {{.N}}.", say.With{"N": e.LeftOut}))
}

func clamp(v, low, high float64) float64 { return min(max(v, low), high) }
