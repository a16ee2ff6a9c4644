package ferment

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"twinloaf/journal/say"
)

// Baseline says what a rise starts from.
type Baseline int

// The baselines. The zero value takes the mark on the jar as it is.
const (
	BaselineMark Baseline = iota // the heights are counted from the mark: base 0
	BaselineFree                 // the mark may be off: the base is fitted too
	BaselineBest                 // whichever AICc prefers
)

// FewestPoints is how many readings a curve wants at least: one more than it
// has parameters.
const FewestPoints = 4

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
	N     int     // points fitted
	P     int     // parameters
	RSS   float64 // residual sum of squares
	RSD   float64 // residual standard deviation, over N-P degrees of freedom

	// AICc is Akaike's criterion with the correction for few readings, n ln(RSS/n)
	// + 2k + 2k(k+1)/(n-k-1), k counting the variance too (Hurvich & Tsai 1989,
	// Biometrika 76:297). It wants n > k+1; AICcKnown says if it has that.
	AICc      float64
	AICcKnown bool

	A, Rate, Lag, Base Estimate

	cov  *mat.SymDense // of ln A, ln Rate, Lag[, Base]; nil if unsettled
	tail float64       // Student's t for 95 %
}

// FitCurve fits one shape by least squares to at least FewestPoints points at
// distinct times. A and Rate are searched for as logarithms and so are never
// negative; their intervals are symmetrical in the logarithm.
//
// Errors: [*TooFewError], [ErrNoRise], or a sentence on a reading that cannot be
// believed (not finite, or beyond a million in size).
func FitCurve(points []Point, shape Shape, base Baseline) (CurveFit, error) {
	if err := believable(points); err != nil {
		return CurveFit{}, err
	}
	points = tidy(points)
	if base == BaselineBest {
		return fitEitherBase(points, shape)
	}
	want := FewestPoints
	if base == BaselineFree {
		want++
	}
	if len(points) < want {
		return CurveFit{}, &TooFewError{Have: len(points), Want: want}
	}
	f, err := newFitting(points, shape, base == BaselineFree)
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

func fitEitherBase(points []Point, shape Shape) (CurveFit, error) {
	mark, err := FitCurve(points, shape, BaselineMark)
	if err != nil {
		return CurveFit{}, err
	}
	free, err := FitCurve(points, shape, BaselineFree)
	if err != nil || !better(free, mark) {
		return mark, nil
	}
	return free, nil
}

// better says whether AICc prefers a to b. Where it cannot be had for both, as
// with four or five readings, only curves of as many parameters are compared.
func better(a, b CurveFit) bool {
	if a.AICcKnown && b.AICcKnown {
		return a.AICc < b.AICc
	}
	return a.P == b.P && a.RSS < b.RSS
}

// fitting is one search, with the heights scaled by the rise and the hours by
// the span of the readings, so that its walls and tolerances fit any unit.
type fitting struct {
	points     []Point
	shape      Shape
	free       bool
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

func newFitting(points []Point, shape Shape, free bool) (*fitting, error) {
	low, high := 0.0, points[0].Height
	if free {
		low = points[0].Height
	}
	gap := math.Inf(1)
	for i, p := range points {
		high = max(high, p.Height)
		if free {
			low = min(low, p.Height)
		}
		if i > 0 {
			gap = min(gap, p.Hours-points[i-1].Hours)
		}
	}
	f := &fitting{points: points, shape: shape, free: free, rise: high - low, span: points[len(points)-1].Hours - points[0].Hours, weights: weightsOf(points)}
	if f.rise <= 1e-9*max(1, math.Abs(low)) || high <= points[0].Height {
		return nil, ErrNoRise
	}
	// Nothing steeper than a full rise in a tenth of the closest pair of readings
	// can be told from the readings, and no plateau ten times what was seen.
	steepest := math.Log(10 * f.span / max(gap, 1e-6*f.span))
	f.walls = &box{
		low:  []float64{math.Log(0.05), math.Log(1e-3), -1},
		high: []float64{math.Log(10), steepest, 1},
	}
	if free {
		f.walls.low = append(f.walls.low, -1)
		f.walls.high = append(f.walls.high, 1)
	}
	return f, nil
}

// curve is the scaled curve for parameters ln A, ln Rate, Lag[, Base], with
// hours counted from the first reading.
func (f *fitting) curve(x []float64) Curve {
	c := Curve{Shape: f.shape, A: math.Exp(x[0]), Rate: math.Exp(x[1]), Lag: x[2]}
	if f.free {
		c.Base = x[3]
	}
	return c
}

func (f *fitting) residuals(x, r []float64, j *mat.Dense) {
	c := f.curve(x)
	shift := f.shift()
	for i, p := range f.points {
		y, dA, dRate, dLag := c.derivatives((p.Hours - f.points[0].Hours) / f.span)
		w := 1.0
		if f.weights != nil {
			w = f.weights[i]
		}
		r[i] = w * (c.Base + y - (p.Height-shift)/f.rise)
		j.Set(i, 0, w*dA*c.A)
		j.Set(i, 1, w*dRate*c.Rate)
		j.Set(i, 2, w*dLag)
		if f.free {
			j.Set(i, 3, w)
		}
	}
}

// shift is what is taken off heights before scaling: a free base is sought
// around the first reading.
func (f *fitting) shift() float64 {
	if f.free {
		return f.points[0].Height
	}
	return 0
}

// starts are where the search begins: lag and rate, of the scaled curve.
var starts = [...][2]float64{{0.1, 1.5}, {0.4, 5}, {0.1, 5}, {0.4, 1.5}}

// run searches from several starts, for a sum of squares may have more than one
// valley when readings are few, and keeps the deepest. Once two starts have come to
// the same place the others are spared.
func (f *fitting) run() (CurveFit, error) {
	n, p := len(f.points), 3
	if f.free {
		p = 4
	}
	var best solution
	found := false
	for _, at := range starts {
		start := []float64{0, math.Log(at[1]), at[0], 0}[:p]
		s, err := leastSquares(f.residuals, n, start, f.walls)
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
	return f.unscale(best, n, p), nil
}

// unscale brings a solution back to the units of the readings and adds what is
// known of its certainty.
func (f *fitting) unscale(s solution, n, p int) CurveFit {
	c := f.curve(s.x)
	c.A *= f.rise
	c.Rate *= f.rise / f.span
	c.Lag = c.Lag*f.span + f.points[0].Hours
	c.Base = c.Base*f.rise + f.shift()
	fit := CurveFit{Curve: c, N: n, P: p, RSS: s.rss * f.rise * f.rise}
	fit.RSD = math.Sqrt(fit.RSS / float64(n-p))
	fit.AICc, fit.AICcKnown = aicc(fit.RSS, n, p+1)
	fit.A, fit.Rate, fit.Lag, fit.Base = Estimate{Value: c.A}, Estimate{Value: c.Rate}, Estimate{Value: c.Lag}, Estimate{Value: c.Base}
	if s.cov == nil || f.onWall(s.x) {
		return fit
	}
	fit.tail = distuv.StudentsT{Sigma: 1, Nu: float64(n - p)}.Quantile(0.975)
	variance := s.rss / float64(n-p)
	unit := []float64{1, 1, f.span, f.rise}[:p]
	cov := mat.NewSymDense(p, nil)
	for a := range p {
		for b := a; b < p; b++ {
			cov.SetSym(a, b, s.cov.At(a, b)*variance*unit[a]*unit[b])
		}
	}
	fit.cov = cov
	fit.A = fit.logEstimate(c.A, math.Sqrt(cov.At(0, 0)))
	fit.Rate = fit.logEstimate(c.Rate, math.Sqrt(cov.At(1, 1)))
	fit.Lag = fit.estimate(c.Lag, math.Sqrt(cov.At(2, 2)))
	if f.free {
		fit.Base = fit.estimate(c.Base, math.Sqrt(cov.At(3, 3)))
	}
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

// estimate is a figure with a symmetrical interval.
func (fit CurveFit) estimate(v, se float64) Estimate {
	e := Estimate{Value: v, SE: se, Low: v - fit.tail*se, High: v + fit.tail*se, SEKnown: true}
	if !finite(e.Low) || !finite(e.High) {
		return Estimate{Value: v}
	}
	return e
}

// logEstimate is a positive figure whose logarithm has the standard error se.
func (fit CurveFit) logEstimate(v, se float64) Estimate {
	e := Estimate{Value: v, SE: v * se, Low: v * math.Exp(-fit.tail*se), High: v * math.Exp(fit.tail*se), SEKnown: true}
	if !finite(e.SE) || !finite(e.High) {
		return Estimate{Value: v}
	}
	return e
}

// TimeAt is the hour at which the curve reaches a fraction of A, with an
// interval by the delta method.
func (fit CurveFit) TimeAt(fraction float64) Estimate {
	at := fit.Curve.TimeAt(fraction)
	if fit.cov == nil {
		return Estimate{Value: at}
	}
	run := at - fit.Curve.Lag
	g := mat.NewVecDense(fit.P, nil)
	g.SetVec(0, run)
	g.SetVec(1, -run)
	g.SetVec(2, 1)
	return fit.estimate(at, math.Sqrt(max(0, mat.Inner(g, fit.cov, g))))
}
