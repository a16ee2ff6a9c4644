package ferment

import (
	"math"
	"sort"
	"time"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// guess is what is believed of a rise that is under way, in thermal time: a
// normal distribution of its three figures.
type guess struct {
	line *timeline
	mean []float64  // ln thermal hours to the peak, ln rise at the peak, lag as a share
	root *mat.Dense // lower triangle: figures = mean + root · independent normals
	ripe float64    // ln of ripe window over time to the peak
	rpSD float64
}

// riseAt is the rise over the mark at a thermal time, on a modified Gompertz
// curve through the three figures.
func riseAt(x []float64, th float64) float64 {
	peak, lag := math.Exp(x[0]), clamp(x[2], 0, 0.9)
	k := Gompertz.reach(peakFraction)
	z := math.E*k*(lag*peak-th)/(peak*(1-lag)) + 1
	return math.Exp(x[1] - math.Exp(clamp(z, -500, 50)))
}

// guess joins what the past says of the three figures with the readings so far:
// the most probable figures by least squares, the prior standing in as three
// more residuals, and their spread from the curvature there.
func (f *Forecaster) guess(dilution float64, line *timeline, points []Point) *guess {
	mean, sd := f.prior(dilution, line)
	g := &guess{line: line, mean: mean, ripe: f.ripe, rpSD: f.rpSD}
	n := len(points) + 3
	prior := append([]float64(nil), mean...)
	at := make([]float64, len(points))
	for i, p := range points {
		at[i] = line.thermalAt(p.Hours)
	}
	fn := func(x, r []float64, j *mat.Dense) {
		j.Zero()
		for i := range prior {
			r[i] = (x[i] - prior[i]) / sd[i]
			j.Set(i, i, 1/sd[i])
		}
		step := append([]float64(nil), x...)
		for i, p := range points {
			row := 3 + i
			r[row] = (riseAt(x, at[i]) - p.Height) / f.reading
			for c := range x {
				const h = 1e-5
				step[c] = x[c] + h
				up := riseAt(step, at[i])
				step[c] = x[c] - h
				j.Set(row, c, (up-riseAt(step, at[i]))/(2*h)/f.reading)
				step[c] = x[c]
			}
		}
	}
	walls := &box{low: []float64{mean[0] - 4, mean[1] - 6, 0.01}, high: []float64{mean[0] + 4, mean[1] + 4, 0.85}}
	s, err := leastSquares(fn, n, mean, walls)
	cov := mat.NewSymDense(3, nil)
	for i := range sd {
		cov.SetSym(i, i, sd[i]*sd[i])
	}
	if err == nil && s.cov != nil {
		g.mean, cov = s.x, s.cov
	}
	g.root = lowerRoot(cov)
	return g
}

// prior is what the past says of the three figures. The mean pace until the peak
// depends on when the peak is, so it is found in a few rounds.
func (f *Forecaster) prior(dilution float64, line *timeline) (mean, sd []float64) {
	p := line.tail
	var m, s float64
	for range 4 {
		m, s = f.peak.predict(f.assume.features(dilution, p))
		if h, ok := line.clockAt(math.Exp(m)); ok && h > 0 {
			p = math.Exp(m) / h
		}
	}
	return []float64{m, f.rise, f.lag}, []float64{s, f.rsSD, f.lagSD}
}

func lowerRoot(cov *mat.SymDense) *mat.Dense {
	root := mat.NewDense(3, 3, nil)
	var chol mat.Cholesky
	if chol.Factorize(cov) {
		var l mat.TriDense
		chol.LTo(&l)
		root.Copy(&l)
		return root
	}
	for i := range 3 {
		root.Set(i, i, math.Sqrt(max(0, cov.At(i, i))))
	}
	return root
}

// members is how many curves a band is drawn from.
const members = 200

// fill works out the times and the band from a fixed, evenly spread set of
// curves (a Halton sequence: nothing is drawn at random).
func (g *guess) fill(out *Forecast, longest float64) error {
	mid, ok := g.line.clockAt(math.Exp(g.mean[0]))
	if !ok || !(mid < longest) {
		return ErrAsleep
	}
	curves, ripe := g.ensemble()
	clock := func(th float64) float64 {
		h, ok := g.line.clockAt(th)
		if !ok || !(h < 10*longest) {
			return 10 * longest
		}
		return h
	}
	peaks, froms, tos, rises := make([]float64, members), make([]float64, members), make([]float64, members), make([]float64, members)
	for i, x := range curves {
		peak := math.Exp(x[0])
		from := ripeShare(x[2]) * peak
		peaks[i], froms[i], tos[i] = clock(peak), clock(from), clock(from+ripe[i]*peak)
		rises[i] = 1 + math.Exp(x[1])
	}
	at := func(h float64) time.Time { return out.Fed.Add(hours(h)) }
	span := func(v []float64, mid float64) Span {
		low, _, high := middle80(v)
		return Span{Low: at(min(low, mid)), Mid: at(mid), High: at(max(high, mid))}
	}
	peak := math.Exp(g.mean[0])
	from := ripeShare(g.mean[2]) * peak
	to := clock(from + math.Exp(g.ripe)*peak)
	out.Peak, out.RipeFrom, out.RipeTo = span(peaks, mid), span(froms, clock(from)), span(tos, to)
	low, _, high := middle80(rises)
	out.PeakRise = RiseSpan{Low: Rise(low), Mid: Rise(1 + math.Exp(g.mean[1])), High: Rise(high)}
	out.Band = g.band(out.Fed, curves, to)
	return nil
}

// ensemble spreads curves over what is believed.
func (g *guess) ensemble() (curves [][]float64, ripe []float64) {
	for i := range members {
		z := mat.NewVecDense(3, []float64{normal(i, 2), normal(i, 3), normal(i, 5)})
		var v mat.VecDense
		v.MulVec(g.root, z)
		x := []float64{g.mean[0] + v.AtVec(0), g.mean[1] + v.AtVec(1), clamp(g.mean[2]+v.AtVec(2), 0, 0.85)}
		curves = append(curves, x)
		ripe = append(ripe, math.Exp(g.ripe+g.rpSD*normal(i, 7)))
	}
	return curves, ripe
}

// band is the rise at even steps from the feeding to the fall.
func (g *guess) band(fed time.Time, curves [][]float64, to float64) []BandPoint {
	const steps = 72
	band := make([]BandPoint, 0, steps+1)
	v := make([]float64, len(curves))
	for i := range steps + 1 {
		h := to * float64(i) / steps
		th := g.line.thermalAt(h)
		for k, x := range curves {
			v[k] = riseAt(x, th)
		}
		low, _, high := middle80(v)
		mid := riseAt(g.mean, th)
		band = append(band, BandPoint{
			At:       fed.Add(hours(h)),
			RiseSpan: RiseSpan{Low: Rise(1 + min(low, mid)), Mid: Rise(1 + mid), High: Rise(1 + max(high, mid))},
		})
	}
	return band
}

// middle80 is the tenth, fiftieth and ninetieth hundredth of v, which it sorts.
func middle80(v []float64) (low, mid, high float64) {
	sort.Float64s(v)
	at := func(q float64) float64 {
		pos := q*float64(len(v)) - 0.5
		i := int(pos)
		return v[i] + (v[i+1]-v[i])*(pos-float64(i))
	}
	return at(0.1), at(0.5), at(0.9)
}

// normal is the i-th normal deviate of the Halton sequence of a base.
func normal(i, base int) float64 {
	u, f := 0.0, 1.0
	for n := i + 1; n > 0; n /= base {
		f /= float64(base)
		u += f * float64(n%base)
	}
	return distuv.UnitNormal.Quantile(u)
}
