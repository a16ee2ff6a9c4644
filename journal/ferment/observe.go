package ferment

import (
	"math"
	"sort"
	"time"
)

// A sight is one thing seen of a rise: a height, or on which side of its top it
// stood.
type sight struct {
	th    float64 // thermal time
	rise  float64 // over the mark, of a height
	sd    float64 // its standard deviation; 0 where it was read by eye
	near  float64 // how many more heights were read at about that time
	trend Trend   // TrendUnnoted for a height
	with  bool    // noted with a height, in one reading
}

// sameMoment is the thermal time within which a curve is taken to be off alike (our own
// guess): more heights read there tell no more of it than one.
const sameMoment = 0.4

// How surely a look tells on which side of the top a jar stands, and what hour it
// stood highest, as shares of the time to the top (our own guesses).
const (
	sideSpread = 0.08
	topSpread  = 0.06
)

// tailFreedom are the degrees of freedom of the Student-t by which readings
// scatter about the curve, so that one that was misread does no harm.
const tailFreedom = 5.0

// readingSD is how far a height is usually off the curve of a culture that rises to tall:
// what the eye misses, or the camera, and what the curve does.
func readingSD(s sight, tall float64) float64 {
	return math.Hypot(eyeOr(s.sd, s.rise), 0.04*tall*math.Sqrt(1+s.near))
}

// eyeOr is the standard deviation of a height: as told, or as the eye reads it.
func eyeOr(sd, rise float64) float64 {
	if sd > 0 {
		return sd
	}
	return 0.03 + 0.03*max(0, rise)
}

// gaussian is a normal distribution of the figures, with the logarithm of the
// evidence for it.
type gaussian struct {
	mean figures
	cov  square
	log  float64
}

// look conditions a prior on what was seen: the most probable figures by
// Gauss-Newton steps with Student-t weights, their spread from the curvature there
// (Laplace's approximation; Tierney & Kadane 1986, J Am Stat Assoc 81:82). A height
// may lie on the way up or on the way down, so several starts are tried and joined by
// their evidence.
func (fam family) look(prior gaussian, seen []sight, scatter float64) gaussian {
	if len(seen) == 0 {
		return prior
	}
	inverse, logDet, ok := invert(prior.cov)
	if !ok {
		return prior
	}
	var found []gaussian
	for _, top := range startingTops(prior, seen) {
		x := prior.mean
		x[xTop] = top
		g, ok := fam.climb(prior, inverse, logDet, seen, scatter, x)
		if !ok {
			continue
		}
		same := false
		for _, f := range found {
			same = same || math.Abs(f.mean[xTop]-g.mean[xTop]) < 0.02
		}
		if !same {
			found = append(found, g)
		}
	}
	return join(found, prior)
}

// startingTops are the tops from which the most probable is looked for.
func startingTops(prior gaussian, seen []sight) []float64 {
	out := []float64{prior.mean[xTop]}
	best, n := sight{}, 0
	for _, s := range seen {
		if s.trend == TrendUnnoted {
			n++
			if s.rise > best.rise {
				best = s
			}
		}
	}
	sd := math.Sqrt(prior.cov[xTop][xTop])
	if best.th > 0 && n > 1 {
		if t := math.Log(best.th); math.Abs(t-prior.mean[xTop]) < 4*sd {
			out = append(out, t)
		}
	} else if n == 1 {
		out = append(out, prior.mean[xTop]-1.5*sd)
	}
	return out
}

// join is the normal with the moments of a mixture.
func join(found []gaussian, prior gaussian) gaussian {
	switch len(found) {
	case 0:
		return prior
	case 1:
		return found[0]
	}
	most := math.Inf(-1)
	for _, f := range found {
		most = max(most, f.log)
	}
	total := 0.0
	for _, f := range found {
		total += math.Exp(f.log - most)
	}
	out := gaussian{log: most + math.Log(total)}
	for _, f := range found {
		w := math.Exp(f.log-most) / total
		for i := range f.mean {
			out.mean[i] += w * f.mean[i]
		}
	}
	for _, f := range found {
		w := math.Exp(f.log-most) / total
		for i := range f.mean {
			for j := range f.mean {
				out.cov[i][j] += w * (f.cov[i][j] + (f.mean[i]-out.mean[i])*(f.mean[j]-out.mean[j]))
			}
		}
	}
	return out
}

// climb finds a most probable point and the normal there.
func (fam family) climb(prior gaussian, inverse square, logDet float64, seen []sight, scatter float64, x figures) (gaussian, bool) {
	value, grad, curve := fam.posterior(prior, inverse, seen, scatter, x)
	damp := 1e-3
	for range 30 {
		damped := curve
		for i := range damped {
			damped[i][i] += damp * curve[i][i]
		}
		step, ok := solveFor(damped, grad)
		if !ok {
			return gaussian{}, false
		}
		next, size := x, 0.0
		for i := range x {
			next[i] += clamp(step[i], -0.7, 0.7)
			size = max(size, math.Abs(step[i]))
		}
		v, g, c := fam.posterior(prior, inverse, seen, scatter, next)
		if v >= value-1e-12 {
			x, value, grad, curve = next, v, g, c
			damp = max(damp/8, 1e-9)
			if size < 1e-4 {
				break
			}
			continue
		}
		if damp *= 6; damp > 1e8 {
			break
		}
	}
	cov, logCurve, ok := invert(curve)
	if !ok {
		return gaussian{}, false
	}
	return gaussian{mean: x, cov: cov, log: value - logDet/2 - logCurve/2}, true
}

// posterior is the logarithm of prior times likelihood at x, less its constant, with its
// gradient and the Gauss-Newton curvature.
func (fam family) posterior(prior gaussian, inverse square, seen []sight, scatter float64, x figures) (value float64, grad figures, curve square) {
	curve = inverse
	for i := range x {
		for j := range x {
			grad[i] -= inverse[i][j] * (x[j] - prior.mean[j])
		}
		value += grad[i] * (x[i] - prior.mean[i]) / 2
	}
	h, tall := fam.hump(x), math.Exp(prior.mean[xRise])
	for _, s := range seen {
		if s.trend != TrendUnnoted {
			v, g, c := side(s, x[xTop])
			value, grad[xTop], curve[xTop][xTop] = value+v, grad[xTop]+g, curve[xTop][xTop]+c
			continue
		}
		y, d := h.gradient(s.th)
		sd := scatter * readingSD(s, tall)
		z := (s.rise - y) / sd
		value -= (tailFreedom+1)/2*math.Log1p(z*z/tailFreedom) + math.Log(sd)
		w := (tailFreedom + 1) / (tailFreedom + z*z)
		for i := range d {
			if d[i] == 0 {
				continue
			}
			grad[i] += w * z * d[i] / sd
			for j := range d {
				curve[i][j] += w * d[i] * d[j] / (sd * sd)
			}
		}
	}
	return value, grad, curve
}

// side is what is told by a look that saw the rise going on, past, or at its top: a
// probit of how far off the top is, or a normal.
func side(s sight, top float64) (value, grad, curve float64) {
	off := top - math.Log(max(s.th, 0.05))
	if s.trend == TrendTop {
		z := off / topSpread
		return -z * z / 2, -z / topSpread, 1 / (topSpread * topSpread)
	}
	sign := 1.0
	if s.trend == TrendFallen {
		sign = -1
	}
	z := sign * off / sideSpread
	// φ/Φ, by its limit where both are next to nothing.
	p := math.Erfc(-z/math.Sqrt2) / 2
	ratio := -z
	if p > 1e-12 {
		ratio = math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) / p
		value = math.Log(p)
	} else {
		value = -z*z/2 - math.Log(-z*math.Sqrt(2*math.Pi))
	}
	return value, sign * ratio / sideSpread, max(0, ratio*(ratio+z)) / (sideSpread * sideSpread)
}

// invert gives the inverse of a positive definite matrix and the logarithm of its
// determinant.
func invert(a square) (inv square, logDet float64, ok bool) {
	l, ok := lower(a)
	if !ok {
		return inv, 0, false
	}
	for i := range latents {
		logDet += 2 * math.Log(l[i][i])
		var e figures
		e[i] = 1
		col := backward(l, e)
		for j := range latents {
			inv[j][i] = col[j]
		}
	}
	return inv, logDet, true
}

func solveFor(a square, b figures) (figures, bool) {
	l, ok := lower(a)
	if !ok {
		return figures{}, false
	}
	return backward(l, b), true
}

// lower is Cholesky's lower triangle.
func lower(a square) (l square, ok bool) {
	for i := range latents {
		for j := 0; j <= i; j++ {
			sum := a[i][j]
			for k := range j {
				sum -= l[i][k] * l[j][k]
			}
			if i == j {
				if !(sum > 0) || math.IsInf(sum, 1) {
					return l, false
				}
				l[i][i] = math.Sqrt(sum)
			} else {
				l[i][j] = sum / l[j][j]
			}
		}
	}
	return l, true
}

// backward solves L Lᵀ x = b.
func backward(l square, b figures) figures {
	for i := range latents {
		for k := range i {
			b[i] -= l[i][k] * b[k]
		}
		b[i] /= l[i][i]
	}
	for i := latents - 1; i >= 0; i-- {
		for k := i + 1; k < latents; k++ {
			b[i] -= l[k][i] * b[k]
		}
		b[i] /= l[i][i]
	}
	return b
}

// sights are what was seen of a course, in thermal time, up to a time; a zero
// time is without end.
func sights(c Course, line *timeline, by time.Time) []sight {
	var out []sight
	for _, r := range c.after() {
		h := c.Feeding.hoursSince(r.At)
		if !by.IsZero() && r.At.After(by) {
			continue
		}
		th := line.thermalAt(h)
		rise := float64(r.Rise) - 1
		high := r.Rise > 0 && finite(rise) && rise < 30 && th > 0.05
		if high {
			out = append(out, sight{th: th, rise: rise, sd: r.SD})
		}
		if r.Trend != TrendUnnoted && th > 0.05 {
			out = append(out, sight{th: th, trend: r.Trend, with: high})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].th < out[j].th })
	for i := range out {
		for j := i + 1; j < len(out) && out[j].th < out[i].th+sameMoment; j++ {
			if out[i].trend == TrendUnnoted && out[j].trend == TrendUnnoted {
				out[i].near++
				out[j].near++
			}
		}
	}
	return out
}
