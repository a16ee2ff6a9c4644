package ferment

import (
	"math"
	"time"
)

// A warmthLine is the temperature of a course from its feeding on, known and
// expected, at even steps.
type warmthLine struct {
	from   time.Time
	temps  []float64 // every timelineStep hours
	known  float64   // hours after the feeding up to which it was measured
	doubts float64   // °C, sd of the mean that is expected beyond
}

// temps lays out the temperature of a course.
func (f *Forecaster) temps(c Course, points []TempPoint, where *climate) *warmthLine {
	w := &warmthLine{from: c.Feeding.At}
	n := int(timelineEnd/timelineStep) + 1
	w.temps = make([]float64, 0, n)
	if c.Feeding.Steady && c.Feeding.Room.Known {
		for range n {
			w.temps = append(w.temps, float64(c.Feeding.Room.C))
		}
		w.known, w.doubts = timelineEnd, thermometer
		return w
	}
	for i := range n {
		w.temps = append(w.temps, where.fill(points, w.from.Add(hours(float64(i)*timelineStep))))
	}
	if len(points) > 0 {
		w.known = points[len(points)-1].At.Sub(w.from).Hours()
	}
	if where.last.IsZero() && f.feedings > 0 {
		// No thermometer was ever read there. How warm it usually is lies in the hours that
		// were learned, and how warm these days are in its mood.
		w.doubts = thermometer
		return w
	}
	// The doubt grows with the hours: taken as it is three hours on, about half-way
	// to what is asked for.
	after := -1.0
	if !where.last.IsZero() {
		after = max(0, w.from.Add(hours(w.known)).Sub(where.last).Hours()) + 3
	}
	w.doubts = where.doubt(w.from.Add(hours(w.known+3)), after)
	return w
}

// unmeasured is the variance that the warmth nobody measured brings into the logarithm of
// the thermal time to the top, of a feeding that is over. It is no whim of the culture's.
func (w *warmthLine) unmeasured(line *timeline, pace paceTable, top float64) float64 {
	h, ok := line.clockAt(math.Exp(top))
	if !ok || !(h > w.known) {
		return 0
	}
	sd := pace.lean(w.mean(8)) * min(w.doubts, usualWeather) * (1 - w.known/h)
	return sd * sd
}

// mean is the mean temperature of the first so many hours.
func (w *warmthLine) mean(h float64) float64 {
	n := min(max(1, int(h/timelineStep)), len(w.temps))
	sum := 0.0
	for _, t := range w.temps[:n] {
		sum += t
	}
	return sum / float64(n)
}

// timeline turns the temperatures into thermal time.
func (w *warmthLine) timeline(pace paceTable) *timeline {
	line := &timeline{thermal: make([]float64, len(w.temps))}
	before := pace.at(w.temps[0])
	for i := 1; i < len(w.temps); i++ {
		p := pace.at(w.temps[i])
		line.thermal[i] = line.thermal[i-1] + (before+p)/2*timelineStep
		before = p
	}
	day := int(24 / timelineStep)
	line.tail = (line.thermal[len(line.thermal)-1] - line.thermal[len(line.thermal)-1-day]) / 24
	return line
}

// lean is by how much the logarithm of the pace changes per degree about a mean.
func (p paceTable) lean(t float64) float64 {
	a, b := p.at(t-1), p.at(t+1)
	if a <= 1e-6 || b <= 1e-6 {
		return 0.3
	}
	return math.Log(b/a) / 2
}
