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

	Lag  Estimate // hours until it rises in earnest
	Rate Estimate // greatest rate, rise per hour
}

// Collapsed says whether readings were left out for coming after the fall.
func (r RiseFit) Collapsed() bool { return len(r.LeftOut) > 0 }

// FitRise fits both shapes to the rise, leaves out what comes after a collapse,
// and keeps the better: see [better].
//
// Errors: [*TooFewError] with three usable readings or fewer, [ErrNoRise], or a
// sentence on a reading that cannot be believed.
func FitRise(points []Point) (RiseFit, error) {
	if err := believable(points); err != nil {
		return RiseFit{}, err
	}
	used, left := splitCollapse(tidy(points))
	fit := RiseFit{Used: used, LeftOut: left}
	gompertz, err := fitCurve(used, Gompertz)
	logistic, err2 := fitCurve(used, Logistic)
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
	fit.Rate, fit.Lag = fit.Best.Rate, fit.Best.Lag
	if fit.Lag.Value < 0 {
		fit.Lag.Value, fit.Lag.Low, fit.Lag.High = 0, 0, max(0, fit.Lag.High)
	}
	return fit, nil
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
