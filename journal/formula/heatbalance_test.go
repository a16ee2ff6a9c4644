package formula

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The balance by hand: 1000 g of flour at 20 °C and 700 g of water at 30 °C hold 1.84 and
// 2.9295 kJ/K, so that they meet at (1.84·20 + 2.9295·30)/4.7695 = 26.142 °C.
func TestBowlMeetsAtTheMeanByHeat(t *testing.T) {
	b := Bowl{Flour: 1000, Water: 700, FlourAt: 20, RoomAt: 22}
	if got := b.Mixed(30); math.Abs(float64(got)-26.142) > 0.001 {
		t.Errorf("%v", got)
	}
	k := Kitchen{Mixing: 1.5, Drawn: 0.2}
	if got := k.Dough(b, k.WaterFor(b, 25)); math.Abs(float64(got-25)) > 1e-9 {
		t.Errorf("the water for 25 °C gives %v", got)
	}
}

// A levain out of the refrigerator is a fifth of the dough, and not a fourth of all
// temperatures: the rule asks for scalding water where the balance asks for warm.
func TestColdLevainByWeight(t *testing.T) {
	b := Bowl{Flour: 800, Water: 520, LevainFlour: 100, LevainWater: 100, FlourAt: 20, RoomAt: 20, LevainAt: 5}
	rule := WaterTemperature(26, Factors{Flour: 20, Room: 20, Levain: 5, HasLevain: true}, 0)
	got := LearnKitchen(nil).WaterFor(b, 26)
	if rule != 59 || got < 33 || got > 40 {
		t.Errorf("the rule asks for %v, the balance for %v", rule, got)
	}
}

// After a year of measured doughs the balance knows the kitchen and is nowhere off by
// season, where the rule with its learned friction is.
func TestKitchenIsLearned(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 2))
	truth := Kitchen{Mixing: 2.2, Drawn: 0.22}
	var past []Measured
	var rule []MixedDough
	season := func(i int) Celsius { return Celsius(20 + 5*math.Sin(2*math.Pi*float64(i)/50)) }
	bowl := func(i int) (Bowl, Celsius) {
		room := season(i)
		b := Bowl{Flour: 800, Water: 540, LevainFlour: 100, LevainWater: 100, FlourAt: room - 0.5, RoomAt: room, LevainAt: room + 1}
		return b, truth.WaterFor(b, 26) + Celsius(2*rng.NormFloat64())
	}
	for i := range 50 {
		b, water := bowl(i)
		d := Measured{Bowl: b, WaterAt: water}
		d.Dough = truth.Dough(b, water) + Celsius(0.4*rng.NormFloat64())
		past = append(past, d)
		rule = append(rule, MixedDough{Factors: Factors{b.FlourAt, b.RoomAt, b.LevainAt, true}, Water: water, Measured: d.Dough})
	}
	k := LearnKitchen(past)
	friction, _ := LearnFriction(rule)
	if k.Doughs != 50 || math.Abs(float64(k.Mixing-truth.Mixing)) > 0.5 || math.Abs(k.Drawn-truth.Drawn) > 0.08 {
		t.Errorf("learned %+v", k)
	}
	worst, worstRule := 0.0, 0.0
	for i := range 50 {
		b, _ := bowl(i)
		off := math.Abs(float64(truth.Dough(b, k.WaterFor(b, 26)) - 26))
		byRule := WaterTemperature(26, Factors{b.FlourAt, b.RoomAt, b.LevainAt, true}, friction.Median)
		worst, worstRule = max(worst, off), max(worstRule, math.Abs(float64(truth.Dough(b, byRule)-26)))
	}
	t.Logf("at the worst off by %.2f °C, the rule by %.2f", worst, worstRule)
	if worst > 0.6 || worst > worstRule/3 {
		t.Errorf("off by %.2f °C at the worst, the rule by %.2f", worst, worstRule)
	}
}
