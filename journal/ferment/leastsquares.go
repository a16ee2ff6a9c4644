package ferment

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"twinloaf/journal/say"
)

// residuals fills r with what is left between model and readings at x, and j
// with its derivatives, one row per residual and one column per parameter.
type residuals func(x, r []float64, j *mat.Dense)

// solution is a point of least squares.
type solution struct {
	x   []float64
	rss float64
	cov *mat.SymDense // (JᵀJ)⁻¹, to be multiplied by the variance; nil if singular
}

var errNoSolution = say.NewError("no curve was found that fits these readings")

// box keeps the search where the model means something. A nil box has no walls.
type box struct{ low, high []float64 }

func (b *box) clamp(x []float64) {
	if b == nil {
		return
	}
	for i := range x {
		x[i] = min(max(x[i], b.low[i]), b.high[i])
	}
}

// leastSquares minimises the sum of squares of n residuals by the method of
// Levenberg 1944 and Marquardt 1963, J SIAM 11:431, with the damping of Nielsen
// 1999 (IMM-REP-1999-05). gonum/optimize knows only general minimisers, which
// reach fewer digits on sums of squares and give no covariance.
func leastSquares(f residuals, n int, start []float64, walls *box) (solution, error) {
	p := len(start)
	x, r, j := append([]float64(nil), start...), make([]float64, n), mat.NewDense(n, p, nil)
	walls.clamp(x)
	f(x, r, j)
	rss := sumSquares(r)
	if !finite(rss) {
		return solution{}, errNoSolution
	}
	scale := make([]float64, p)
	try, rTry, jTry := make([]float64, p), make([]float64, n), mat.NewDense(n, p, nil)
	lambda, grow := 1e-3, 2.0
	for range 300 {
		columnScales(j, scale)
		step, ok := dampedStep(j, r, scale, lambda)
		if !ok {
			lambda, grow = lambda*grow, grow*2
			if lambda > 1e20 {
				break
			}
			continue
		}
		for i := range try {
			try[i] = x[i] + step[i]
		}
		walls.clamp(try)
		f(try, rTry, jTry)
		rssTry := sumSquares(rTry)
		if finite(rssTry) && rssTry <= rss {
			small := stepIsSmall(x, try)
			x, try, r, rTry, j, jTry, rss = try, x, rTry, r, jTry, j, rssTry
			lambda, grow = max(lambda/3, 1e-15), 2
			if small {
				break
			}
			continue
		}
		if stepIsSmall(x, try) {
			break
		}
		lambda, grow = lambda*grow, grow*2
	}
	if !finite(rss) || !allFinite(x) {
		return solution{}, errNoSolution
	}
	return solution{x: x, rss: rss, cov: inverseNormal(j)}, nil
}

// columnScales remembers the greatest length of each column of j so far, which
// makes the damping independent of the units of the parameters.
func columnScales(j *mat.Dense, scale []float64) {
	n, p := j.Dims()
	for c := range p {
		sum := 0.0
		for i := range n {
			sum += j.At(i, c) * j.At(i, c)
		}
		scale[c] = cmp.Or(max(scale[c], math.Sqrt(sum)), 1e-12)
	}
}

// dampedStep solves (JᵀJ + λD²) step = -Jᵀr. The sums are formed in the scaled
// columns, where they are well conditioned for the three or four parameters here.
func dampedStep(j *mat.Dense, r, scale []float64, lambda float64) ([]float64, bool) {
	n, p := j.Dims()
	normal, rhs := mat.NewSymDense(p, nil), mat.NewVecDense(p, nil)
	for a := range p {
		for b := a; b < p; b++ {
			sum := 0.0
			for i := range n {
				sum += j.At(i, a) * j.At(i, b)
			}
			normal.SetSym(a, b, sum/scale[a]/scale[b])
		}
		normal.SetSym(a, a, normal.At(a, a)+lambda)
		sum := 0.0
		for i := range n {
			sum += j.At(i, a) * r[i]
		}
		rhs.SetVec(a, -sum/scale[a])
	}
	var chol mat.Cholesky
	if !chol.Factorize(normal) {
		return nil, false
	}
	var step mat.VecDense
	if err := chol.SolveVecTo(&step, rhs); err != nil {
		return nil, false
	}
	out := make([]float64, p)
	for i := range out {
		out[i] = step.AtVec(i) / scale[i]
	}
	return out, allFinite(out)
}

// inverseNormal is (JᵀJ)⁻¹, or nil where the readings do not settle every
// parameter.
func inverseNormal(j *mat.Dense) *mat.SymDense {
	n, p := j.Dims()
	scale := make([]float64, p)
	columnScales(j, scale)
	normal := mat.NewSymDense(p, nil)
	for a := range p {
		for b := a; b < p; b++ {
			sum := 0.0
			for i := range n {
				sum += j.At(i, a) / scale[a] * j.At(i, b) / scale[b]
			}
			normal.SetSym(a, b, sum)
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(normal) || chol.Cond() > 1e14 {
		return nil
	}
	var inv mat.SymDense
	if err := chol.InverseTo(&inv); err != nil {
		return nil
	}
	for a := range p {
		for b := a; b < p; b++ {
			v := inv.At(a, b) / scale[a] / scale[b]
			if !finite(v) || (a == b && v < 0) {
				return nil
			}
			inv.SetSym(a, b, v)
		}
	}
	return &inv
}

// stepIsSmall stops the search once no parameter moves in its twelfth digit.
func stepIsSmall(from, to []float64) bool {
	for i := range from {
		if math.Abs(to[i]-from[i]) > 1e-12*(math.Abs(from[i])+1e-6) {
			return false
		}
	}
	return true
}

func sumSquares(r []float64) float64 {
	sum := 0.0
	for _, v := range r {
		sum += v * v
	}
	return sum
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

func allFinite(xs []float64) bool {
	return !slices.ContainsFunc(xs, func(x float64) bool { return !finite(x) })
}
