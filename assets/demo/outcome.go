package demo

import (
	"math"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// The attributes that the cook scores, beside the overall one.
const (
	crust    = "crust"
	openness = "openness"
	sourness = "sourness"
	chew     = "chew"
	aroma    = "aroma"
)

// made is what a bread's outcome hangs on.
type made struct {
	hyd, cold, doughC float64
	skill             float64 // 0 at the beginning, 1 today
	young             bool    // from the new culture
}

// outcome makes up how a bake came out. There is something to find in it: a
// longer rest in the cold helps, up to a day; 25 °C is the best dough; wetter
// doughs open more and stand less high; practice tells. The rest is chance.
func (s *story) outcome(d *bread, m made, dough formula.Grams) journal.Outcome {
	whole, rye := d.wholeShare(), d.ryeShare()
	open := 4.6 + 0.10*(m.hyd-72) + 0.8*m.skill - 0.03*whole - 0.045*rye + 0.03*min(m.cold, 24) + s.scatter(0, 0.6)
	off := m.doughC - 25.2
	overall := 4.7 + 0.085*min(m.cold, 24) + 1.0*m.skill - 0.16*off*off - 0.03*math.Abs(m.hyd-75) + s.scatter(0, 0.85)
	if len(d.adds) > 0 {
		overall += 0.3
	}
	if rye > 50 {
		overall += 1.1
	}
	sour := 2.6 + 0.09*m.cold + 0.035*rye + s.scatter(0, 0.5)
	if m.young {
		sour -= 1.1
	}
	loss := clamp(11.6+0.07*(m.hyd-72)+s.scatter(0, 0.7)+1.5*float64(d.loaves-1)/2, 8.5, 16)
	weight := round(float64(dough)*0.992, 1)
	loaf := round(weight*(1-loss/100), 1)
	out := journal.Outcome{
		DoughWeight: new(formula.Grams(weight)), LoafWeight: new(formula.Grams(loaf)),
		HeightMM: new(round(clamp(104-0.9*(m.hyd-70)-0.22*whole-0.30*rye+2.2*(open-5)+s.scatter(0, 3), 45, 130), 1)),
		WidthMM:  new(round(clamp(127+0.6*(m.hyd-70)+s.scatter(0, 4), 100, 160), 1)),
		Inside:   new(celsius(s.scatter(97.4, 0.8))), CooledFor: 2 * time.Hour,
		Scores: []journal.AttributeScore{
			{Attribute: journal.Overall, Score: points(overall)},
			{Attribute: crust, Score: points(5.2 + 0.8*m.skill + s.scatter(0, 0.9))},
			{Attribute: openness, Score: points(open)},
			{Attribute: sourness, Score: points(sour)},
			{Attribute: chew, Score: points(4.6 + 0.01*whole + 0.12*(m.hyd-72)*0.4 + s.scatter(0, 0.8))},
			{Attribute: aroma, Score: points(4.8 + 0.05*min(m.cold, 24) + 0.01*rye + s.scatter(0, 0.8))},
		},
	}
	if s.rng.IntN(5) < 2 {
		specific := clamp(3.0+0.16*(open-5)-0.006*whole-0.008*rye+s.scatter(0, 0.12), 1.6, 4.6)
		out.VolumeML, out.DisplacedBy = new(round(specific*loaf, 10)), "millet"
	}
	return out
}

// points is a score on the nine-point scale.
func points(x float64) int { return int(math.Round(clamp(x, 1, 9))) }
