package ferment

import (
	"errors"
	"math"
)

// RiseFit is one feeding's rise: the fitted curve and what it says.
// Heights are rises over the mark, so that 1 is doubled; hours count from the
// feeding.
type RiseFit struct {
	Best  CurveFit
	Other *CurveFit // the shape that was passed over, nil if it had no answer

	Used    []Point // readings the curve was fitted to
	LeftOut []Point // readings after the collapse

	Lag      Estimate // hours until it rises in earnest
	Rate     Estimate // greatest rate, rise per hour
	Peak     Estimate // the plateau, as rise over the mark
	PeakTime Estimate // hours until the curve is within 5 % of the plateau, or until the highest reading if it fell before
	RipeFrom Estimate // hours until 90 % of the peak

	RipeTo     float64 // hours at which it fell below 90 %, or of the last reading
	RipeOpen   bool    // it had not fallen by the last reading: RipeTo is "at least"
	RipeHours  float64 // hours above 90 % of the peak, "at least" if RipeOpen
	PeakSeen   bool    // the readings reach the plateau; else the peak is a guess ahead
	FellBefore bool    // the highest reading came before the curve was at its peak
}

// Collapsed says whether readings were left out for coming after the fall.
func (r RiseFit) Collapsed() bool { return len(r.LeftOut) > 0 }

// FitRise fits both shapes to the rise, leaves out what comes after a collapse,
// and keeps the shape with the lower AICc.
//
// Errors: [*TooFewError] with three usable readings or fewer, [ErrNoRise], or a
// sentence on a reading that cannot be believed.
func FitRise(points []Point, base Baseline) (RiseFit, error) {
	if err := believable(points); err != nil {
		return RiseFit{}, err
	}
	used, left := splitCollapse(tidy(points))
	fit := RiseFit{Used: used, LeftOut: left}
	gompertz, err := FitCurve(used, Gompertz, base)
	logistic, err2 := FitCurve(used, Logistic, base)
	switch {
	case err != nil && err2 != nil:
		var few *TooFewError
		if errors.As(err, &few) {
			few.LeftOut = len(left)
		}
		return RiseFit{}, err
	case err != nil:
		fit.Best = logistic
	case err2 != nil:
		fit.Best = gompertz
	case better(logistic, gompertz):
		fit.Best, fit.Other = logistic, &gompertz
	default:
		fit.Best, fit.Other = gompertz, &logistic
	}
	fit.describe()
	return fit, nil
}

// describe reads the figures off the chosen curve.
func (r *RiseFit) describe() {
	last := r.Used[len(r.Used)-1]
	top := r.Used[0]
	for _, p := range r.Used {
		if p.Height > top.Height {
			top = p
		}
	}
	r.Rate, r.Peak, r.Lag = r.Best.Rate, r.Best.A, r.Best.Lag
	if r.Lag.Value < 0 {
		r.Lag.Value, r.Lag.Low, r.Lag.High = 0, 0, max(0, r.Lag.High)
	}
	r.PeakTime, r.RipeFrom = r.Best.TimeAt(peakFraction), r.Best.TimeAt(ripeFraction)
	settled := r.Peak.SEKnown && r.Peak.High <= 1.25*r.Peak.Value
	r.PeakSeen = r.Collapsed() || (settled && r.PeakTime.Value <= last.Hours)
	r.RipeTo, r.RipeOpen = last.Hours, true
	if r.Collapsed() {
		r.fall(top, last)
	}
	r.RipeHours = max(0, r.RipeTo-r.RipeFrom.Value)
}

// fall finds when the culture sank below 90 % of its height, on the straight
// line between the last reading before the collapse and the first after it.
func (r *RiseFit) fall(top, last Point) {
	first := r.LeftOut[0]
	plateau := min(r.Best.Curve.A, top.Height-r.Best.Curve.Base)
	if r.PeakTime.Value > first.Hours {
		// It fell while the curve was still climbing: what was seen is the peak.
		r.FellBefore = true
		r.PeakTime = Estimate{Value: top.Hours}
		r.Peak = Estimate{Value: top.Height - r.Best.Curve.Base}
		fraction := clamp(ripeFraction*plateau/r.Best.Curve.A, 0.01, 0.99)
		r.RipeFrom = Estimate{Value: min(r.Best.Curve.TimeAt(fraction), top.Hours)}
	}
	r.RipeOpen = false
	line := r.Best.Curve.Base + ripeFraction*plateau
	if first.Height >= line {
		r.RipeTo, r.RipeOpen = first.Hours, true
		return
	}
	r.RipeTo = first.Hours
	if last.Height > line {
		r.RipeTo = last.Hours + (first.Hours-last.Hours)*(last.Height-line)/(last.Height-first.Height)
	}
}

// RisePoints turns readings of a course into points for [FitRise]: hours since
// the feeding, and rise over the mark.
func RisePoints(c Course) []Point {
	var out []Point
	for _, r := range c.after() {
		if r.Rise > 0 && !math.IsInf(float64(r.Rise), 0) {
			out = append(out, Point{Hours: c.Feeding.hoursSince(r.At), Height: float64(r.Rise) - 1, SD: r.SD})
		}
	}
	return out
}
