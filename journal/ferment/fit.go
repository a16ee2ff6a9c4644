package ferment

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"twinloaf/journal/say"
)

// parameters is how many a curve has.
const parameters = 3

// FewestPoints is how many readings a curve wants at least: one more than it
// has parameters.
const FewestPoints = parameters + 1

// Estimate is a figure with its standard error and its 95 % interval by
// Student's t. Without SEKnown the readings do not settle the figure, and
// SE, Low and High are 0.
type Estimate struct {
	Value     float64
	SE        float64
	Low, High float64
	SEKnown   bool
}

// ErrNoRise tells that no reading stands above the first.
var ErrNoRise = say.NewError("no reading stands above the mark")

// CurveFit is one shape fitted to one set of points.
type CurveFit struct {
	Curve Curve
	RSS   float64 // residual sum of squares

	// AICc is Akaike's criterion with the correction for few readings, n ln(RSS/n)
	// + 2k + 2k(k+1)/(n-k-1), k counting the variance too (Hurvich & Tsai 1989,
	// Biometrika 76:297). It wants n > k+1; AICcKnown says if it has that.
	AICc      float64
	AICcKnown bool

	A, Rate, Lag Estimate
}

// fitCurve fits one shape by least squares to at least FewestPoints points, sorted and at
// distinct times. A and Rate are searched for as logarithms and so are never
// negative; their intervals are symmetrical in the logarithm.
//
// Errors: [*TooFewError], [ErrNoRise].
func fitCurve(points []Point, shape Shape) (CurveFit, error) {
	if len(points) < FewestPoints {
		return CurveFit{}, &TooFewError{Have: len(points), Want: FewestPoints}
	}
	f, err := newFitting(points, shape)
	if err != nil {
		return CurveFit{}, err
	}
	return f.run()
}

func believable(points []Point) error {
	for _, p := range points {
		if !finite(p.Hours) || !finite(p.Height) || math.Abs(p.Hours) > 1e6 || math.Abs(p.Height) > 1e6 {
			return say.NewError("a height of {{.Height}} times the mark, {{.Hours}} hours after the feeding, cannot be believed",
				say.With{"Height": say.Round(1+p.Height, 2), "Hours": say.Round(p.Hours, 1)})
		}
	}
	return nil
}

// better says whether AICc, or with four or five readings, where it cannot be had, the sum
// of squares prefers a to b.
func better(a, b CurveFit) bool {
	if a.AICcKnown && b.AICcKnown {
		return a.AICc < b.AICc
	}
	return a.RSS < b.RSS
}

// fitting is one search, with the heights scaled by the rise and the hours by
// the span of the readings, so that its walls and tolerances fit any unit.
type fitting struct {
	points     []Point
	shape      Shape
	rise, span float64
	weights    []float64 // of the readings; nil where all were read by eye
	walls      *box
}

// weightsOf are the weights of residuals where some heights are told more surely than
// others: one over their standard deviation, by the curve's own scatter at the least, with
// a mean square of 1, so that sums of squares stay in the unit of the readings.
func weightsOf(points []Point) []float64 {
	const curve = 0.01
	known := false
	w, sum := make([]float64, len(points)), 0.0
	for i, p := range points {
		known = known || p.SD > 0
		w[i] = 1 / math.Hypot(eyeOr(p.SD, p.Height), curve)
		sum += w[i] * w[i]
	}
	if !known {
		return nil
	}
	mean := math.Sqrt(sum / float64(len(w)))
	for i := range w {
		w[i] /= mean
	}
	return w
}

func newFitting(points []Point, shape Shape) (*fitting, error) {
	rise, gap := points[0].Height, math.Inf(1)
	for i, p := range points[1:] {
		rise, gap = max(rise, p.Height), min(gap, p.Hours-points[i].Hours)
	}
	f := &fitting{points: points, shape: shape, rise: rise, span: points[len(points)-1].Hours - points[0].Hours, weights: weightsOf(points)}
	if rise <= 1e-9 || rise <= points[0].Height {
		return nil, ErrNoRise
	}
	// Nothing steeper than a full rise in a tenth of the closest pair of readings
	// can be told from the readings, and no plateau ten times what was seen.
	steepest := math.Log(10 * f.span / max(gap, 1e-6*f.span))
	f.walls = &box{
		low:  []float64{math.Log(0.05), math.Log(1e-3), -1},
		high: []float64{math.Log(10), steepest, 1},
	}
	return f, nil
}

// curve is the scaled curve for parameters ln A, ln Rate, Lag, with hours counted from
// the first reading.
func (f *fitting) curve(x []float64) Curve {
	return Curve{Shape: f.shape, A: math.Exp(x[0]), Rate: math.Exp(x[1]), Lag: x[2]}
}

func (f *fitting) residuals(x, r []float64, j *mat.Dense) {
	c := f.curve(x)
	for i, p := range f.points {
		y, dA, dRate, dLag := c.derivatives((p.Hours - f.points[0].Hours) / f.span)
		w := 1.0
		if f.weights != nil {
			w = f.weights[i]
		}
		r[i] = w * (y - p.Height/f.rise)
		j.Set(i, 0, w*dA*c.A)
		j.Set(i, 1, w*dRate*c.Rate)
		j.Set(i, 2, w*dLag)
	}
}

// starts are where the search begins: lag and rate, of the scaled curve.
var starts = [...][2]float64{{0.1, 1.5}, {0.4, 5}, {0.1, 5}, {0.4, 1.5}}

// run searches from several starts, for a sum of squares may have more than one
// valley when readings are few, and keeps the deepest. Once two starts have come to
// the same place the others are spared.
func (f *fitting) run() (CurveFit, error) {
	var best solution
	found := false
	for _, at := range starts {
		s, err := leastSquares(f.residuals, len(f.points), []float64{0, math.Log(at[1]), at[0]}, f.walls)
		if err != nil {
			continue
		}
		if found && math.Abs(s.rss-best.rss) <= 1e-9*best.rss {
			break
		}
		if !found || s.rss < best.rss {
			best, found = s, true
		}
	}
	if !found {
		return CurveFit{}, errNoSolution
	}
	return f.unscale(best), nil
}

// unscale brings a solution back to the units of the readings and adds what is
// known of its certainty.
func (f *fitting) unscale(s solution) CurveFit {
	c := f.curve(s.x)
	c.A *= f.rise
	c.Rate *= f.rise / f.span
	c.Lag = c.Lag*f.span + f.points[0].Hours
	n := len(f.points)
	fit := CurveFit{Curve: c, RSS: s.rss * f.rise * f.rise, A: Estimate{Value: c.A}, Rate: Estimate{Value: c.Rate}, Lag: Estimate{Value: c.Lag}}
	fit.AICc, fit.AICcKnown = aicc(fit.RSS, n, parameters+1)
	if s.cov == nil || f.onWall(s.x) {
		return fit
	}
	tail := distuv.StudentsT{Sigma: 1, Nu: float64(n - parameters)}.Quantile(0.975)
	se := func(i int) float64 { return math.Sqrt(s.cov.At(i, i) * s.rss / float64(n-parameters)) }
	fit.A = logEstimate(c.A, se(0), tail)
	fit.Rate = logEstimate(c.Rate, se(1), tail)
	fit.Lag = estimate(c.Lag, se(2)*f.span, tail)
	return fit
}

func (f *fitting) onWall(x []float64) bool {
	for i := range x {
		if x[i] <= f.walls.low[i] || x[i] >= f.walls.high[i] {
			return true
		}
	}
	return false
}

// aicc is Akaike's criterion, corrected, for k parameters with the variance.
// Readings that lie on the curve to the last bit would make it minus infinity,
// so their residuals are taken as a thousandth of a millionth at least.
func aicc(rss float64, n, k int) (float64, bool) {
	if n <= k+1 {
		return 0, false
	}
	nf, kf := float64(n), float64(k)
	return nf*math.Log(max(rss/nf, 1e-18)) + 2*kf + 2*kf*(kf+1)/(nf-kf-1), true
}

// estimate is a figure with a symmetrical interval; tail is Student's t.
func estimate(v, se, tail float64) Estimate {
	e := Estimate{Value: v, SE: se, Low: v - tail*se, High: v + tail*se, SEKnown: true}
	if !finite(e.Low) || !finite(e.High) {
		return Estimate{Value: v}
	}
	return e
}

// logEstimate is a positive figure whose logarithm has the standard error se.
func logEstimate(v, se, tail float64) Estimate {
	e := Estimate{Value: v, SE: v * se, Low: v * math.Exp(-tail*se), High: v * math.Exp(tail*se), SEKnown: true}
	if !finite(e.SE) || !finite(e.High) {
		return Estimate{Value: v}
	}
	return e
}
