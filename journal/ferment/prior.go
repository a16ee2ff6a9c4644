package ferment

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Assumptions are what a forecast believes before it has seen the culture.
// None of it comes from the culture; a forecast resting on it alone says that it
// is guessing.
type Assumptions struct {
	Growth GrowthModel

	// Hours at ReferenceTemp until the peak are PeakBase + PeakPerLog·ln(dilution):
	// exponential growth has to make good the dilution. The numbers put a feeding
	// of 1:1:1 at 4½ hours, 1:5:5 at 9 and 1:10:10 at 11 (common practice, no
	// source).
	PeakBase, PeakPerLog float64

	SpeedSpread  float64 // sd, between cultures, of the logarithm of the time to the peak
	RatioSpread  float64 // sd of the power to which the dependence on dilution is taken, about 1
	WarmthSpread float64 // sd of the power by which the dependence on temperature is off, about 0
	DaySpread    float64 // sd, from feeding to feeding, of the logarithm of the time to the peak

	LagShare, LagSpread float64 // the lag as a share of the time to the peak, and its sd
	LogPeak, PeakSpread float64 // logarithm of the rise over the mark at the peak, and its sd
	LogRipe, RipeSpread float64 // logarithm of the ripe window over the time to the peak, and its sd
	ReadingError        float64 // sd of one reading of the height, as rise
	Longest             float64 // hours; no forecast is made beyond
}

// UsualAssumptions are assumptions for sourdough of wheat or rye. The spreads are
// our own guesses, wide on purpose.
func UsualAssumptions() Assumptions {
	return Assumptions{
		Growth:   SteepYeast(),
		PeakBase: 0.7, PeakPerLog: 3.46,
		SpeedSpread: 0.40, RatioSpread: 0.25, WarmthSpread: 0.20, DaySpread: 0.12,
		LagShare: 0.25, LagSpread: 0.08,
		LogPeak: math.Log(1.3), PeakSpread: 0.35,
		LogRipe: math.Log(0.35), RipeSpread: 0.40,
		ReadingError: 0.04,
		Longest:      14 * 24,
	}
}

// features are what the logarithm of the thermal time to the peak is linear in.
func (a Assumptions) features(dilution, meanPace float64) []float64 {
	usual := a.PeakBase + a.PeakPerLog*math.Log(5)
	return []float64{1, math.Log((a.PeakBase + a.PeakPerLog*math.Log(dilution)) / usual), math.Log(meanPace)}
}

// learner is a linear regression with a normal-inverse-gamma prior, the textbook
// conjugate one (Gelman et al., Bayesian Data Analysis, chapter 14). With no
// rows it is the prior; every past feeding narrows it.
type learner struct {
	mean      *mat.VecDense
	precision *mat.SymDense // in units of 1/variance of a day
	shape     float64
	scale     float64
	widen     float64 // Student's t over the normal, at the bounds of 80 %
}

// priorShape makes the day-to-day spread as well known as from six feedings.
const priorShape = 3

func (a Assumptions) newLearner() *learner {
	day := a.DaySpread * a.DaySpread
	l := &learner{
		mean:      mat.NewVecDense(3, []float64{math.Log(a.PeakBase + a.PeakPerLog*math.Log(5)), 1, 0}),
		precision: mat.NewSymDense(3, nil),
		shape:     priorShape,
		scale:     priorShape * day,
	}
	l.widen = widening(l.shape)
	for i, sd := range []float64{a.SpeedSpread, a.RatioSpread, a.WarmthSpread} {
		l.precision.SetSym(i, i, day/(sd*sd))
	}
	return l
}

// learn adds the rows of features x with their logarithms y.
func (l *learner) learn(x [][]float64, y []float64) {
	if len(x) == 0 {
		return
	}
	rhs, square := mat.NewVecDense(3, nil), 0.0
	rhs.MulVec(l.precision, l.mean)
	square += mat.Dot(l.mean, rhs)
	post := mat.NewSymDense(3, nil)
	post.CopySym(l.precision)
	for i := range x {
		v := mat.NewVecDense(3, x[i])
		post.SymRankOne(post, 1, v)
		rhs.AddScaledVec(rhs, y[i], v)
		square += y[i] * y[i]
	}
	var chol mat.Cholesky
	if !chol.Factorize(post) {
		return // cannot be: the prior alone is positive definite
	}
	mean := mat.NewVecDense(3, nil)
	if chol.SolveVecTo(mean, rhs) != nil {
		return
	}
	l.scale += max(0, (square-mat.Dot(mean, rhs))/2)
	l.shape += float64(len(x)) / 2
	l.mean, l.precision, l.widen = mean, post, widening(l.shape)
}

// predict gives the mean of y at x and the sd of a normal whose 80 % interval is
// that of the Student's t that the prediction follows.
func (l *learner) predict(x []float64) (mean, sd float64) {
	v := mat.NewVecDense(3, x)
	var chol mat.Cholesky
	var w mat.VecDense
	spread := 1.0
	if chol.Factorize(l.precision) && chol.SolveVecTo(&w, v) == nil {
		spread += mat.Dot(v, &w)
	}
	return mat.Dot(l.mean, v), math.Sqrt(l.scale/l.shape*spread) * l.widen
}

// middle is the mean of y at x alone.
func (l *learner) middle(x []float64) float64 {
	return mat.Dot(l.mean, mat.NewVecDense(3, x))
}

func widening(shape float64) float64 {
	return distuv.StudentsT{Sigma: 1, Nu: 2 * shape}.Quantile(0.9) / z80
}

// z80 is the normal quantile that bounds a central 80 %.
const z80 = 1.2815515655446004

// level learns a figure that has its own mean in each culture: a normal mean with
// a normal prior and a known spread from day to day.
func level(prior, between, within float64, seen []float64) (mean, sd float64) {
	precision, sum := 1/(between*between), prior/(between*between)
	for _, v := range seen {
		precision += 1 / (within * within)
		sum += v / (within * within)
	}
	return sum / precision, math.Sqrt(1/precision + within*within)
}
