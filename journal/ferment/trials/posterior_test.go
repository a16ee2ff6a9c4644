package trials

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat"

	"twinloaf/journal/ferment"
)

// Where culture and luck are normal and add up, what can be known is known in closed form
// (Gelman et al., Bayesian Data Analysis, chapter 2.5): the learner has to draw by that.
func TestLearnerDrawsByThePosterior(t *testing.T) {
	const middle, between, day = 1.5, 0.3, 0.15
	law := Law{"as high all the time, whatever the kitchen", func(rng chance) Nature {
		usual := middle + between*rng.NormFloat64()
		return func(luck *Luck, _, _ float64, _ func(float64) float64) []float64 {
			out := make([]float64, int(horizon/step)+1)
			today := usual + day*luck.NormFloat64()
			for i := range out {
				out[i] = today
			}
			return out
		}
	}}
	l := newLearner(law, 12)
	feeding := func(i int, rises ...float64) Feeding {
		f := Feeding{Dilution: 3, rested: 24}
		f.Course.Feeding.At = begin.AddDate(0, 0, i)
		for k, r := range rises {
			f.Course.Readings = append(f.Course.Readings, ferment.Reading{At: f.Course.Feeding.At.Add(hours(float64(2 + k))), Rise: ferment.Rise(1 + r)})
		}
		return f
	}
	seen := []float64{1.75, 1.9, 1.65, 1.85}
	precision, sum := 1/(between*between), middle/(between*between)
	for i, r := range seen {
		l.learn(feeding(i, r, r))
		eye := math.Hypot(eyeSpread(r), 0.05/math.Sqrt(12))
		tells := 1 / (day*day + eye*eye/2)
		precision, sum = precision+tells, sum+tells*r
	}
	want, spread := sum/precision, math.Sqrt(1/precision+day*day)
	var drawn []float64
	rng := rand.New(rand.NewPCG(1, 2))
	for range 4 {
		for _, p := range l.foretell(rng, feeding(len(seen))) {
			drawn = append(drawn, p.heights[0])
		}
	}
	mean, sd := stat.MeanStdDev(drawn, nil)
	t.Logf("%d draws: %.3f ± %.3f, in closed form %.3f ± %.3f", len(drawn), mean, sd, want, spread)
	if math.Abs(mean-want) > spread/6 || math.Abs(sd/spread-1) > 0.1 {
		t.Errorf("drew %.3f ± %.3f, in closed form %.3f ± %.3f", mean, sd, want, spread)
	}
}
