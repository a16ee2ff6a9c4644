package bulk

import (
	"math"

	"twinloaf/journal/formula"
)

// A target is how far the baker lets a dough rise before shaping: ln(rise - 1) and how it
// goes with the dough's warmth, by Bayesian linear regression (ridge regression; Hoerl &
// Kennard 1970, Technometrics 12:55) on the bulks whose rise at the end was noted. Bulks
// of bread that was judged well count for more.
type target struct {
	at, perWarmth float64
	// of the two, the covariance
	varAt, varWarmth, cov float64
	spread                float64 // sd of a bulk about it
	bulks                 int     // with a rise at their end
	styles                map[string]float64
}

// What is believed of it before (our own guesses from common practice, no source: shape at
// half to three quarters more, sooner when the dough is warm and goes on rising).
const (
	usualEnd, endSpread             = -0.5, 0.35 // ln(rise - 1): 1.6 times
	usualPerWarmth, perWarmthSpread = -0.15, 0.2 // per 5 °C
	bulkSpread                      = 0.2
	styleSpread                     = 0.25 // of styles about the rest
)

func learnTarget(doughs []Dough, ws []warmth) target {
	spread := bulkSpread
	var t target
	for range 3 {
		w := 1 / (spread * spread)
		a, c := 1/(endSpread*endSpread), 1/(perWarmthSpread*perWarmthSpread)
		y, z, b := usualEnd*a, usualPerWarmth*c, 0.0
		t.bulks = 0
		for i, d := range doughs {
			rise, ok := d.EndRise()
			if !ok {
				continue
			}
			t.bulks++
			x, v := (ws[i].mean-usualWarmth)/5, w*formula.Worth(d.Score)
			over := math.Log(max(rise-1, leastRise)) - t.styles[d.Style]
			a, b, c = a+v, b+v*x, c+v*x*x
			y, z = y+v*over, z+v*x*over
		}
		det := a*c - b*b
		t.at, t.perWarmth = (c*y-b*z)/det, (a*z-b*y)/det
		t.varAt, t.varWarmth, t.cov = c/det, a/det, -b/det
		t.styles = t.apart(doughs, ws, spread)
		sum, weight := spreadKnown*bulkSpread*bulkSpread, spreadKnown
		for i, d := range doughs {
			if rise, ok := d.EndRise(); ok {
				off := math.Log(max(rise-1, leastRise)) - t.of(d, ws[i])
				sum, weight = sum+formula.Worth(d.Score)*min(off*off, 1), weight+formula.Worth(d.Score)
			}
		}
		spread = math.Sqrt(sum / weight)
	}
	t.spread = spread
	return t
}

// apart is how far each style is off the rest, drawn towards it as there are few bulks of it.
func (t target) apart(doughs []Dough, ws []warmth, spread float64) map[string]float64 {
	sum, weight := map[string]float64{}, map[string]float64{}
	for i, d := range doughs {
		if rise, ok := d.EndRise(); ok {
			sum[d.Style] += formula.Worth(d.Score) * (math.Log(max(rise-1, leastRise)) - t.usual(ws[i]))
			weight[d.Style] += formula.Worth(d.Score)
		}
	}
	for k := range sum {
		sum[k] /= weight[k] + spread*spread/(styleSpread*styleSpread)
	}
	return sum
}

// usual is the target of doughs as warm as that.
func (t target) usual(w warmth) float64 { return t.at + t.perWarmth*(w.mean-usualWarmth)/5 }

// of is the target of a dough.
func (t target) of(d Dough, w warmth) float64 { return t.usual(w) + t.styles[d.Style] }

// variance is how unsure that is, and how far one bulk is off it.
func (t target) variance(w warmth) float64 {
	x := (w.mean - usualWarmth) / 5
	return t.varAt + 2*x*t.cov + x*x*t.varWarmth + t.spread*t.spread
}
