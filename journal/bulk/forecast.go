package bulk

import (
	"math"
	"time"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"twinloaf/journal/say"
)

// ErrNotBegun tells that it is not known when the dough was mixed.
var ErrNotBegun = say.NewError("it is not known when the dough was mixed")

// Span is a time with its interval, which should hold the true one eight times in ten.
type Span struct{ Low, Mid, High time.Time }

// Forecast is what is expected of a dough.
type Forecast struct {
	End Span // of the bulk, when it has risen as far as the baker lets it
	// Rise is as far as that, and from what to what it has been, eight times in ten.
	Rise, RiseLow, RiseHigh float64
	// Now is the rise that is reckoned for the time of the forecast.
	Now float64
	// Overdue says that by what is known the bulk should be over. The interval then no
	// longer leaves out what is past.
	Overdue bool
	// Learned is how many bulks it rests on, and Ends how many of them had a rise at
	// their end.
	Learned, Ends int
}

// Forecaster has learned from the bulks of a kitchen.
type Forecaster struct {
	model   *model
	target  target
	learned int
	scale   float64 // of every sd: what forecasts of the last bulks were off, over what they said
}

// Learn learns from bulks that are over, in any order. One whose rise was never noted
// tells that at its end it had risen as usual. How wide the intervals are is put right by
// how far the last bulks were off when they are foretold from those before them.
func Learn(past []Dough) *Forecaster {
	doughs := latest(past, mostDoughs)
	ws := make([]warmth, len(doughs))
	for i, d := range doughs {
		ws[i] = warmthOf(d)
	}
	f := learn(doughs, ws)
	sum, weight := scaleKnown, scaleKnown
	for i := max(leastToScale, len(doughs)-mostToScale); i < len(doughs); i++ {
		z := min(math.Abs(learn(doughs[:i], ws[:i]).surprise(doughs[i])), 3)
		sum, weight = sum+z*z, weight+1
	}
	f.scale = math.Sqrt(sum / weight)
	return f
}

// How the width of the intervals is put right (our own choice).
const (
	scaleKnown   = 1.0 // the scale is believed to be 1 as firmly as so many bulks tell
	leastToScale = 3   // bulks to learn from before one is foretold
	mostToScale  = 20  // bulks that are foretold, the last
)

// surprise is by how many sd the end of a bulk was later than foretold when it was mixed.
func (f *Forecaster) surprise(d Dough) float64 {
	w := warmthOf(d.known(d.Began.Add(AsMixed)))
	aim, spread := f.target.of(d, w), f.stray(w)
	mean, variance := f.own(d.known(d.Began.Add(AsMixed)), w).at(w.at(d.Ended.Sub(d.Began).Hours()))
	return (mean - aim) / math.Sqrt(variance+spread*spread)
}

// stray is how far the rise at the end may be off the aim, as the hour of the end goes by
// it. Where bulks were learned from and no rise was ever noted at their end, it does not
// matter how high the aim truly is: whatever it is, it was reached at those hours.
func (f *Forecaster) stray(w warmth) float64 {
	if f.learned > 0 && f.target.bulks == 0 {
		return f.target.spread
	}
	return math.Sqrt(f.target.variance(w))
}

func learn(doughs []Dough, ws []warmth) *Forecaster {
	f := &Forecaster{model: newModel(doughs), target: learnTarget(doughs, ws), learned: len(doughs), scale: 1}
	groups, all := make([][2]string, len(doughs)), make([][]seen, len(doughs))
	for i, d := range doughs {
		groups[i] = d.groups()
		all[i] = readings(d, ws[i])
		if _, ok := d.EndRise(); !ok {
			theta := ws[i].at(d.Ended.Sub(d.Began).Hours())
			all[i] = append(all[i], seen{effects(d, ws[i], theta), f.target.of(d, ws[i]), math.Hypot(f.target.spread, readNoise)})
		}
	}
	f.model.learn(groups, all)
	return f
}

// The quantiles of an interval that holds eight times in ten.
const low, middle, high = 0.1, 0.5, 0.9

// overdue is from which probability on that the bulk is over it is said to be (our own
// choice).
const overdue = 0.9

// End foretells when the bulk of a dough will be over, from what was known of it at a time.
func (f *Forecaster) End(d Dough, now time.Time) (Forecast, error) {
	if d.Began.IsZero() {
		return Forecast{}, ErrNotBegun
	}
	d = d.known(now)
	w := warmthOf(d)
	own := f.own(d, w)
	spread := math.Sqrt(f.target.variance(w))
	aim, stray := f.target.of(d, w), f.stray(w)
	out := Forecast{
		Rise: 1 + math.Exp(aim), RiseLow: 1 + math.Exp(aim-1.2816*spread), RiseHigh: 1 + math.Exp(aim+1.2816*spread),
		Learned: f.learned, Ends: f.target.bulks,
	}
	passed := now.Sub(d.Began).Hours()
	mean, _ := own.at(w.at(passed))
	out.Now = 1 + math.Exp(mean)
	gone := 0.0
	if passed > 0 {
		gone = own.over(w.at(passed), aim, stray)
	}
	if out.Overdue = gone > overdue; out.Overdue {
		gone = 0
	}
	when := func(q float64) time.Time {
		return d.Began.Add(time.Duration(own.reaches(w, gone+q*(1-gone), aim, stray) * float64(time.Hour)))
	}
	out.End = Span{Low: when(low), Mid: when(middle), High: when(high)}
	return out, nil
}

// ownLine is what is believed of one dough: ln(rise - 1) as a line in ln(θ/midway), with
// the covariance of its two figures.
type ownLine struct {
	height, slope        float64
	varAt, varSlope, cov float64
	scale                float64
	paceDoubt2           float64 // variance that comes of not knowing how warm it is
}

// paceSlope is by how much, in the logarithm, a dough ferments faster for a degree more: a
// factor of 2.2 for ten degrees (our own guess, on the wide side).
const paceSlope = 0.08

// own sums what is known of a dough up.
func (f *Forecaster) own(d Dough, w warmth) ownLine {
	all := readings(d, w)
	prec, rhs := f.model.widened(d.groups(), all).own(d.groups(), all)
	mean, chol := solve(prec, rhs)
	n := rhs.Len()
	// The line's height at midway, and its slope, as sums of the unknowns.
	up := f.model.row(d.groups(), effects(d, w, midway), n)
	up.SetVec(n-2, 1)
	along := mat.NewVecDense(n, nil)
	along.SetVec(slope, 1)
	along.SetVec(n-1, 1)
	var backUp, backAlong mat.VecDense
	line := ownLine{scale: f.scale, height: mat.Dot(up, mean), slope: max(mat.Dot(along, mean), 0.5)}
	if chol.SolveVecTo(&backUp, up) == nil && chol.SolveVecTo(&backAlong, along) == nil {
		line.varAt, line.varSlope, line.cov = mat.Dot(up, &backUp), mat.Dot(along, &backAlong), mat.Dot(up, &backAlong)
	}
	for _, g := range d.groups() {
		if _, known := f.model.places[g]; !known {
			line.varAt += groupSpread * groupSpread
		}
	}
	doubt := line.slope * paceSlope * w.doubt
	line.paceDoubt2 = doubt * doubt
	return line
}

// at is ln(rise - 1) at a thermal time, and its variance.
func (l ownLine) at(theta float64) (mean, variance float64) {
	x := math.Log(max(theta, 0.05) / midway)
	return l.height + l.slope*x, l.varAt + 2*x*l.cov + x*x*l.varSlope + l.paceDoubt2
}

// over is how likely a dough has risen as far as the aim by a thermal time.
func (l ownLine) over(theta, aim, spread float64) float64 {
	mean, variance := l.at(theta)
	return distuv.UnitNormal.CDF((mean - aim) / (l.scale * math.Sqrt(variance+spread*spread)))
}

// reaches gives the hours after mixing by which the dough is over with a probability. That
// grows with time wherever it matters, so that halving finds it.
func (l ownLine) reaches(w warmth, q, aim, spread float64) float64 {
	lo, hi := 0.0, horizon.Hours()
	for range 40 {
		mid := (lo + hi) / 2
		if l.over(w.at(mid), aim, spread) < q {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}
