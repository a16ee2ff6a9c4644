package ferment

import (
	"math"
)

// What a culture's feedings have in common, which each feeding narrows.
const (
	sSpeed  = iota // logarithm of the thermal time to the top, at a usual feeding
	sRatio         // the power of its dependence on the dilution
	sWarm          // the power by which its dependence on warmth is off
	sRest          // by how much it is slower after a long rest
	sGrain         // by how much wholegrain makes it slower
	sMood          // by how much it is slower these days
	sCos           // by how much it is slower, without a thermometer, fed at midnight rather than noon
	sSin           // and at six rather than eighteen
	sRise          // logarithm of the rise at the top
	sBefore        // logarithms of the rates and the sharpness of the hump
	sAfter
	sSharp
	commons
)

type (
	commonMean = [commons]float64
	commonCov  = [commons][commons]float64
	design     = [latents][commons]float64
)

// A filter follows a culture from feeding to feeding under one assumption of the form of
// its rise, how it answers to warmth and how much it varies from day to day. It is a dynamic linear
// model (West & Harrison, Bayesian Forecasting and Dynamic Models, chapter 4): the
// figures of a feeding scatter about a linear function of what the culture's feedings
// have in common, and that drifts slowly. A feeding's own figures are seen only
// through its readings; [family.look] says what they tell, and the moments of that are
// passed on (assumed density filtering; Minka 2001, A family of algorithms for
// approximate Bayesian inference, chapter 3).
type filter struct {
	family family
	pace   paceTable
	day    [latents]float64 // variances from feeding to feeding
	mean   commonMean
	cov    commonCov
	log    float64 // logarithm of how well it has foretold so far

	misses, freedom float64 // of readings off their curves, for their scatter
	turns, turned   float64 // of tops off what was expected of them, for how sure it is
}

// paceTable is the pace at tenths of a degree, since it is asked for so often.
type paceTable []float64

const paceTop = 60.0 // °C

func newPaceTable(m GrowthModel) paceTable {
	t := make(paceTable, int(paceTop*10)+2)
	for i := range t {
		t[i] = pace(m, Celsius(float64(i)/10))
	}
	return t
}

func (p paceTable) at(t float64) float64 {
	x := clamp(t, 0, paceTop) * 10
	i := int(x)
	return p[i] + (p[i+1]-p[i])*(x-float64(i))
}

// scatter is the spread of readings over the usual one.
func (f *filter) scatter() float64 { return math.Sqrt(f.misses / f.freedom) }

// spreadKnown is how many feedings the spread of the tops that the figures give is thought
// to be worth, before any has shown how far off they are (our own guess).
const spreadKnown = 5.0

// surprise is by how much tops have been further off than was expected of them, as a factor
// to the spread: the variance of a dynamic linear model is learned from how far off its
// forecasts were, as the mean of a chi-square on a prior of so many degrees of freedom
// (West & Harrison, chapter 4.5).
func (f *filter) surprise() float64 { return math.Sqrt(f.turns / f.turned) }

// watch takes in how far off a top was: by how much its readings moved what was expected
// of it, over by how much they were expected to.
func (f *filter) watch(ahead, after gaussian) {
	told := ahead.cov[xTop][xTop] - after.cov[xTop][xTop]
	share := told / ahead.cov[xTop][xTop] // of what there was to learn
	if !(share > 0.05) {
		return
	}
	off := after.mean[xTop] - ahead.mean[xTop]
	f.turned = 0.98*f.turned + share
	f.turns = 0.98*f.turns + share*min(off*off/told, 9)
}

// ahead is what is expected of a feeding before anything is seen of it.
func (f *filter) ahead(d design) gaussian {
	var g gaussian
	var dc [latents][commons]float64
	for i := range latents {
		for k := range commons {
			g.mean[i] += d[i][k] * f.mean[k]
			for m := range commons {
				dc[i][m] += d[i][k] * f.cov[k][m]
			}
		}
	}
	for i := range latents {
		for j := range latents {
			for m := range commons {
				g.cov[i][j] += dc[i][m] * d[j][m]
			}
		}
		g.cov[i][i] += f.day[i]
	}
	return g
}

// learn takes in what a feeding's readings told: after is ahead conditioned on them.
func (f *filter) learn(d design, ahead, after gaussian) {
	inv, _, ok := invert(ahead.cov)
	if !ok {
		return
	}
	// gain = C Dᵀ S⁻¹
	var cd, gain [commons][latents]float64
	for k := range commons {
		for i := range latents {
			for m := range commons {
				cd[k][i] += f.cov[k][m] * d[i][m]
			}
		}
		for i := range latents {
			for j := range latents {
				gain[k][i] += cd[k][j] * inv[j][i]
			}
		}
	}
	var lost square // S - V
	for i := range latents {
		for j := range latents {
			lost[i][j] = ahead.cov[i][j] - after.cov[i][j]
		}
	}
	for k := range commons {
		var gl figures
		for i := range latents {
			f.mean[k] += gain[k][i] * (after.mean[i] - ahead.mean[i])
			for j := range latents {
				gl[j] += gain[k][i] * lost[i][j]
			}
		}
		for m := range commons {
			for j := range latents {
				f.cov[k][m] -= gl[j] * gain[m][j]
			}
		}
	}
	for k := range commons {
		for m := range k {
			v := (f.cov[k][m] + f.cov[m][k]) / 2
			f.cov[k][m], f.cov[m][k] = v, v
		}
		f.cov[k][k] = max(f.cov[k][k], 1e-8)
	}
	f.log = 0.98*f.log + after.log
}

// misread takes in how far readings were off the curve that they led to.
func (f *filter) misread(seen []sight, after gaussian) {
	n, sum := 0.0, 0.0
	h := f.family.hump(after.mean)
	for _, s := range seen {
		if s.trend != TrendUnnoted {
			continue
		}
		z := (s.rise - h.at(s.th)) / readingSD(s, h.rise)
		n++
		sum += min(z*z, 9)
	}
	if n > 3 {
		// A curve bends to its readings by about three of them.
		f.freedom = 0.98*f.freedom + n - 3
		f.misses = 0.98*f.misses + sum
	}
}

// drift is how a culture changes from one feeding to the next (variances).
var drift = commonMean{sSpeed: 0.01 * 0.01, sRise: 0.03 * 0.03, sBefore: 0.015 * 0.015, sAfter: 0.02 * 0.02, sSharp: 0.01 * 0.01}

// lasting is the share of the variance from feeding to feeding that does not go away with
// the day (our own guess).
const lasting = 0.3

// aged is a filter taken on to the next feeding: what it drifts by, and its mood, which dies
// away as weather does (an autoregression of the first order) and, without a thermometer,
// holds the weather, too.
func (f *filter) aged(x features) *filter {
	out := *f
	for k, v := range drift {
		out.cov[k][k] += v
	}
	mood := lasting / (1 - lasting) * f.day[xTop]
	if x.blind {
		mood += math.Pow(f.pace.lean(usualLevel)*usualWeather, 2)
	}
	keep := math.Exp(-x.gap / weatherHours)
	out.mean[sMood] *= keep
	for k := range commons {
		out.cov[k][sMood] *= keep
		out.cov[sMood][k] *= keep
	}
	out.cov[sMood][sMood] += (1 - keep*keep) * mood
	return &out
}

// features are what the figures of a feeding are linear in.
type features struct {
	dilution, rest, grain float64
	mood                  float64 // 1, or 0 if the days are not to count
	cos, sin              float64 // of the hour of the day, less what they usually are, if blind
	gap                   float64 // hours since the feeding before
	blind                 bool    // no temperature was ever noted there
}

// design lays out the features; warm is the logarithm of the mean pace to the top.
func (a Assumptions) design(x features, warm float64) design {
	var d design
	d[xTop] = commonMean{
		sSpeed: 1,
		sRatio: math.Log(a.PeakHours(x.dilution) / a.PeakHours(usualDilution)),
		sWarm:  warm, sRest: x.rest, sGrain: x.grain, sMood: x.mood, sCos: x.cos, sSin: x.sin,
	}
	d[xRise][sRise], d[xBefore][sBefore], d[xAfter][sAfter], d[xSharp][sSharp] = 1, 1, 1, 1
	return d
}

// foresee is ahead for a course: the mean pace until the top depends on when the top
// is, so it is found in a few rounds.
func (f *filter) foresee(a Assumptions, x features, line *timeline) (design, gaussian) {
	warm := math.Log(max(line.tail, 1e-3))
	var d design
	var g gaussian
	for range 3 {
		d = a.design(x, warm)
		top := 0.0
		for k := range commons {
			top += d[xTop][k] * f.mean[k]
		}
		th := math.Exp(top)
		if h, ok := line.clockAt(th); ok && h > 0 {
			warm = math.Log(th / h)
		}
	}
	g = f.ahead(d)
	return d, g
}
