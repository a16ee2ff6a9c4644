package ferment

import (
	"math"
	"sort"
	"time"
)

// timeline maps hours of the clock since a feeding to hours of thermal time and
// back: straight between its knots, and at the fill rate after the last.
type timeline struct {
	thermal []float64 // at each knot
	tail    float64   // thermal hours per hour after the last knot
}

// clock is the hour of knot i.
func (*timeline) clock(i int) float64 { return float64(i) * timelineStep }

// between is the temperature at t on the straight line from a to b.
func between(a, b TempPoint, t time.Time) Celsius {
	span := b.At.Sub(a.At)
	if span <= 0 {
		return b.Temp
	}
	return a.Temp + (b.Temp-a.Temp)*Celsius(float64(t.Sub(a.At))/float64(span))
}

// thermalAt is the thermal time at an hour of the clock.
func (l *timeline) thermalAt(h float64) float64 {
	n := len(l.thermal) - 1
	if h >= l.clock(n) {
		return l.thermal[n] + (h-l.clock(n))*l.tail
	}
	if h <= 0 {
		return 0
	}
	i := int(math.Ceil(h / timelineStep))
	return lerp(l.clock(i-1), l.thermal[i-1], l.clock(i), l.thermal[i], h)
}

// clockAt is the hour of the clock at which a thermal time is reached, and
// false if it never is at this temperature.
func (l *timeline) clockAt(th float64) (float64, bool) {
	n := len(l.thermal) - 1
	if th > l.thermal[n] {
		if l.tail <= 0 {
			return 0, false
		}
		return l.clock(n) + (th-l.thermal[n])/l.tail, true
	}
	if th <= 0 {
		return 0, true
	}
	i := sort.SearchFloat64s(l.thermal, th)
	return lerp(l.thermal[i-1], l.clock(i-1), l.thermal[i], l.clock(i), th), true
}

// lerp is y at x on the line from (x0, y0) to (x1, y1).
func lerp(x0, y0, x1, y1, x float64) float64 {
	if x1 <= x0 {
		return y1
	}
	return y0 + (y1-y0)*(x-x0)/(x1-x0)
}
