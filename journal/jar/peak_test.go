package jar

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"
)

// The time of a peak is found to a fraction of the pictures' interval, whether the curve
// turns softly or breaks, with the noise of single pictures; by formulas that the
// estimate does not know.
func TestThePeakOfKnownCurves(t *testing.T) {
	start := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	const every, n = 5 * time.Minute, 90
	for name, rise := range map[string]func(h float64) float64{
		"a bell": func(h float64) float64 { return 1 + 1.2*math.Exp(-sq((h-4.21)/2)/2) },
		"slowly up, a break": func(h float64) float64 {
			return 1 + 1.2*math.Min(1-math.Pow(max(0, 4.21-h)/4.21, 2), 1-0.3*max(0, h-4.21))
		},
		"a cosine": func(h float64) float64 { return 1.8 + 0.8*math.Cos((h-4.21)/1.6) },
	} {
		r := rand.New(rand.NewPCG(4, 2))
		worst := 0.0
		for range 40 {
			var c Curve
			for i := range n {
				at := start.Add(time.Duration(i) * every)
				p := Point{At: at, Rise: rise(at.Sub(start).Hours()) + 0.006*r.NormFloat64(), SD: 0.006}
				if i%17 == 5 {
					p = Point{At: at, Lost: Covered}
				}
				c.Points = append(c.Points, p)
			}
			at, high, ok := c.Peak()
			if !ok || math.Abs(high-rise(4.21)) > 0.015 {
				t.Fatalf("%s: %.3f, %v", name, high, ok)
			}
			worst = max(worst, math.Abs(at.Sub(start).Hours()-4.21)/every.Hours())
		}
		t.Logf("%s: at most %.2f pictures off", name, worst)
		if worst > 1 {
			t.Errorf("%s: %.2f pictures off", name, worst)
		}
	}
}
