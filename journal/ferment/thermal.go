package ferment

import (
	"math"
	"slices"
	"sort"
	"time"
)

// Gap is a stretch of time that no temperature log covers.
type Gap struct {
	From, To time.Time
}

// Warmth is what is known of the temperature a culture stands at.
type Warmth struct {
	Log     []TempPoint   // in any order
	Room    Temperature   // taken where the log is silent
	MaxGap  time.Duration // longest stretch bridged by a straight line; 0 means two hours
	Assumed Celsius       // taken where neither log nor room is known; 0 means 22 °C
}

const (
	defaultMaxGap  = 2 * time.Hour
	defaultAssumed = Celsius(22)
)

// Thermal is a stretch of time weighed by how fast a culture grows at its
// temperature.
type Thermal struct {
	Hours   float64       // hours at ReferenceTemp that would do the same
	Mean    Celsius       // mean temperature over the time
	Covered time.Duration // lies under the log
	Gaps    []Gap         // filled with the room temperature, or an assumed one
	Assumed bool          // a gap was filled with no temperature measured at all
}

// ThermalTime integrates the growth rate over the temperature from one time to
// another. Stretches of the log longer than Warmth.MaxGap, and what lies before
// and after it, are filled with the room temperature and listed as gaps.
func ThermalTime(m GrowthModel, w Warmth, from, to time.Time) Thermal {
	if !to.After(from) {
		return Thermal{}
	}
	line := w.timeline(m, from, to)
	th := Thermal{Hours: line.thermalAt(to.Sub(from).Hours()), Gaps: line.gaps, Assumed: len(line.gaps) > 0 && !w.Room.Known}
	th.Covered = to.Sub(from)
	for _, g := range line.gaps {
		th.Covered -= g.To.Sub(g.From)
	}
	th.Mean = Celsius(line.degreeHours / to.Sub(from).Hours())
	return th
}

// timeline maps hours of the clock since a feeding to hours of thermal time and
// back: straight between its knots, and at the fill rate after the last.
type timeline struct {
	clock, thermal []float64
	tail           float64 // thermal hours per hour after the last knot
	gaps           []Gap
	degreeHours    float64
}

func (w Warmth) fill() Celsius {
	switch {
	case w.Room.Known:
		return w.Room.C
	case w.Assumed != 0:
		return w.Assumed
	default:
		return defaultAssumed
	}
}

// timeline lays the knots from one time to another.
func (w Warmth) timeline(m GrowthModel, from, to time.Time) *timeline {
	line := &timeline{clock: []float64{0}, thermal: []float64{0}, tail: pace(m, w.fill())}
	maxGap := w.MaxGap
	if maxGap <= 0 {
		maxGap = defaultMaxGap
	}
	add := func(a, b TempPoint) {
		if a.At.Before(from) {
			a.Temp, a.At = between(a, b, from), from
		}
		if b.At.After(to) {
			b.Temp, b.At = between(a, b, to), to
		}
		line.segment(func(t Celsius) float64 { return pace(m, t) }, b.At.Sub(a.At).Hours(), a.Temp, b.Temp)
	}
	gap := func(a, b time.Time) {
		if a.Before(from) {
			a = from
		}
		if b.After(to) {
			b = to
		}
		if b.After(a) {
			line.gaps = append(line.gaps, Gap{a, b})
			add(TempPoint{At: a, Temp: w.fill()}, TempPoint{At: b, Temp: w.fill()})
		}
	}
	last := from
	points := w.sortedLog()
	for i := range points {
		p := points[i]
		if i > 0 && p.At.Sub(points[i-1].At) <= maxGap {
			if p.At.After(from) && points[i-1].At.Before(to) {
				add(points[i-1], p)
			}
		} else if p.At.After(last) {
			gap(last, p.At)
		}
		if p.At.After(last) {
			last = p.At
		}
	}
	gap(last, to)
	return line
}

func (w Warmth) sortedLog() []TempPoint {
	less := func(a, b TempPoint) int { return a.At.Compare(b.At) }
	finite := func(p TempPoint) bool { return !math.IsNaN(float64(p.Temp)) && !math.IsInf(float64(p.Temp), 0) }
	points := w.Log
	if slices.ContainsFunc(points, func(p TempPoint) bool { return !finite(p) }) {
		points = slices.DeleteFunc(slices.Clone(points), func(p TempPoint) bool { return !finite(p) })
	}
	if !slices.IsSortedFunc(points, less) {
		points = slices.Clone(points)
		slices.SortStableFunc(points, less)
	}
	return points
}

// between is the temperature at t on the straight line from a to b.
func between(a, b TempPoint, t time.Time) Celsius {
	span := b.At.Sub(a.At)
	if span <= 0 {
		return b.Temp
	}
	return a.Temp + (b.Temp-a.Temp)*Celsius(float64(t.Sub(a.At))/float64(span))
}

// segment adds one straight piece of temperature by Simpson's rule, in steps of
// at most a degree, for the rate bends where growth begins and ends.
func (l *timeline) segment(rate func(Celsius) float64, h float64, a, b Celsius) {
	if h <= 0 {
		return
	}
	l.degreeHours += h * float64(a+b) / 2
	steps := int(min(100, math.Ceil(math.Abs(float64(b-a)))))
	steps = max(1, steps)
	dt, dT := h/float64(steps), (b-a)/Celsius(steps)
	for i := range steps {
		lo := a + dT*Celsius(i)
		sum := dt * (rate(lo) + 4*rate(lo+dT/2) + rate(lo+dT)) / 6
		n := len(l.clock) - 1
		l.clock = append(l.clock, l.clock[n]+dt)
		l.thermal = append(l.thermal, l.thermal[n]+sum)
	}
}

// thermalAt is the thermal time at an hour of the clock.
func (l *timeline) thermalAt(h float64) float64 {
	n := len(l.clock) - 1
	if h >= l.clock[n] {
		return l.thermal[n] + (h-l.clock[n])*l.tail
	}
	if h <= 0 {
		return 0
	}
	i := sort.SearchFloat64s(l.clock, h)
	return lerp(l.clock[i-1], l.thermal[i-1], l.clock[i], l.thermal[i], h)
}

// clockAt is the hour of the clock at which a thermal time is reached, and
// false if it never is at this temperature.
func (l *timeline) clockAt(th float64) (float64, bool) {
	n := len(l.thermal) - 1
	if th > l.thermal[n] {
		if l.tail <= 0 {
			return 0, false
		}
		return l.clock[n] + (th-l.thermal[n])/l.tail, true
	}
	if th <= 0 {
		return 0, true
	}
	i := sort.SearchFloat64s(l.thermal, th)
	return lerp(l.thermal[i-1], l.clock[i-1], l.thermal[i], l.clock[i], th), true
}

// lerp is y at x on the line from (x0, y0) to (x1, y1).
func lerp(x0, y0, x1, y1, x float64) float64 {
	if x1 <= x0 {
		return y1
	}
	return y0 + (y1-y0)*(x-x0)/(x1-x0)
}
