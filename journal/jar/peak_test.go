package jar

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"twinloaf/journal/journaltest/race"
)

// The time of a peak is found to a fraction of the pictures' interval, whether the curve
// turns softly or breaks, with the noise of single pictures; by formulas that the
// estimate does not know. What is stated of it holds it nine times in ten.
func TestThePeakOfKnownCurves(t *testing.T) {
	start := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	const every, n = 5 * time.Minute, 90
	for name, rise := range map[string]func(h float64) float64{
		"a bell": func(h float64) float64 { return 1 + 1.2*math.Exp(-sq((h-4.21)/2)/2) },
		"slowly up, a break": func(h float64) float64 {
			return 1 + 1.2*math.Min(1-math.Pow(max(0, 4.21-h)/4.21, 2), 1-0.3*max(0, h-4.21))
		},
		"straight up, a break": func(h float64) float64 { return 1 + math.Min(0.25*h, 0.25*4.21-0.2*(h-4.21)) },
		"slowly up, a fall that slows down": func(h float64) float64 {
			up := func(h float64) float64 { return 2 - math.Exp(-h/1.5) }
			return up(math.Min(h, 4.21)) - 0.5*(1-math.Exp(-max(0, h-4.21)/2))
		},
		"a cosine": func(h float64) float64 { return 1.8 + 0.8*math.Cos((h-4.21)/1.6) },
	} {
		r := rand.New(rand.NewPCG(4, 2))
		worst, held, times := 0.0, 0, race.Cases(40, 4)
		for range times {
			var c Curve
			for i := range n {
				at := start.Add(time.Duration(i) * every)
				p := Point{At: at, Rise: rise(at.Sub(start).Hours()) + 0.006*r.NormFloat64(), SD: 0.006}
				if i%17 == 5 {
					p = Point{At: at, Lost: Covered}
				}
				c.Points = append(c.Points, p)
			}
			p, ok := c.Peak()
			if !ok || math.Abs(p.Rise-rise(4.21)) > 0.015 {
				t.Fatalf("%s: %.3f, %v", name, p.Rise, ok)
			}
			if truth := start.Add(time.Duration(4.21 * float64(time.Hour))); !truth.Before(p.From) && !truth.After(p.To) && p.To.Sub(p.From) < 8*every {
				held++
			}
			worst = max(worst, math.Abs(p.At.Sub(start).Hours()-4.21)/every.Hours())
		}
		t.Logf("%s: at most %.2f pictures off, %d of %d within what is stated", name, worst, held, times)
		if worst > 1 || 10*held < 9*times {
			t.Errorf("%s: %.2f pictures off, %d of %d within what is stated", name, worst, held, times)
		}
	}
}

// A peak that nobody saw, since it was dark, is somewhere in the gap: no less is stated of it, and that nobody did.
func TestAPeakInAGapIsSomewhereInIt(t *testing.T) {
	start := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	var c Curve
	for i := range 60 {
		h := float64(i) / 12
		p := Point{At: start.Add(time.Duration(i) * 5 * time.Minute), Rise: 2 - 0.3*math.Abs(h-2.5), SD: 0.01}
		if i >= 27 && i < 38 {
			p = Point{At: p.At, Lost: Dark}
		}
		c.Points = append(c.Points, p)
	}
	p, ok := c.Peak()
	if !ok || p.From.After(c.Points[26].At) || p.To.Before(c.Points[38].At) || !p.Unseen {
		t.Errorf("between %v and %v: %v, unseen: %v", p.From, p.To, ok, p.Unseen)
	}
	// Of a stretch that was lost long before it and a single picture beside it, nothing of that kind is said.
	for i := range c.Points {
		h := float64(i) / 12
		c.Points[i] = Point{At: c.Points[i].At, Rise: 2 - 0.3*math.Abs(h-2.5), SD: 0.01}
		if i > 4 && i < 9 || i == 31 {
			c.Points[i] = Point{At: c.Points[i].At, Lost: Dark}
		}
	}
	if p, ok := c.Peak(); !ok || p.Unseen {
		t.Errorf("between %v and %v: %v, unseen: %v", p.From, p.To, ok, p.Unseen)
	}
}
