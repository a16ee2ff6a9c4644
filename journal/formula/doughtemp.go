package formula

import (
	"slices"

	"twinloaf/journal/say"
)

// Factors are the temperatures that meet in the bowl, beside the water's.
// Levain counts only when HasLevain is set: a straight dough has three factors,
// one with a levain four.
type Factors struct {
	Flour     Celsius
	Room      Celsius
	Levain    Celsius
	HasLevain bool
}

// count is the number of temperatures in the rule, the water's included.
func (f Factors) count() Celsius {
	if f.HasLevain {
		return 4
	}
	return 3
}

func (f Factors) sum() Celsius {
	if f.HasLevain {
		return f.Flour + f.Room + f.Levain
	}
	return f.Flour + f.Room
}

// WaterTemperature is the rule bakers use for the water that gives the wanted
// dough temperature: wanted x n - the other temperatures - friction, with n = 3
// factors or 4 with a levain. The rule looks at temperatures alone and not at
// how much there is of each, so it is a first guess that learned friction puts
// right.
//
// Source: San Francisco Baking Institute class notes; worked examples in
// testdata/formula/dough_temperature.csv.
func WaterTemperature(wanted Celsius, f Factors, friction CelsiusDiff) Celsius {
	return wanted*f.count() - f.sum() - Celsius(friction)
}

// Friction is what mixing added, in the sense of the same rule, when water of
// that temperature gave a dough of the temperature measured. It can be
// negative: a dough mixed by hand in a cold bowl loses heat.
//
// Source: the rule as printed for three factors by T. Lehmann, "In Lehmann's
// Terms", PMQ, spring 2003.
func Friction(measured Celsius, f Factors, water Celsius) CelsiusDiff {
	return CelsiusDiff(measured*f.count() - f.sum() - water)
}

// MixedDough is an earlier dough whose temperatures were written down.
type MixedDough struct {
	Factors
	Water    Celsius
	Measured Celsius // of the dough, right after mixing
}

// LearnedFriction is what earlier doughs say about friction, and how many.
type LearnedFriction struct {
	Median CelsiusDiff
	Doughs int
}

// LearnFriction takes the median over earlier doughs, so that one slip of the
// thermometer does not spoil it. It says false when there are none.
func LearnFriction(doughs []MixedDough) (LearnedFriction, bool) {
	if len(doughs) == 0 {
		return LearnedFriction{}, false
	}
	all := make([]CelsiusDiff, len(doughs))
	for i, d := range doughs {
		all[i] = Friction(d.Measured, d.Factors, d.Water)
	}
	slices.Sort(all)
	n := len(all)
	return LearnedFriction{Median: (all[(n-1)/2] + all[n/2]) / 2, Doughs: n}, true
}

// The limits at which a water temperature earns a word. Water is called hot for the yeast
// from where it no longer grows by M. Gänzle's rules of thumb (after Gänzle, Ehmann & Hammes
// 1998, Appl Environ Microbiol 64:2616; rounded, so approximate). That hotter water is not
// poured is common practice, no source.
const (
	YeastStops   Celsius = 35
	HottestWater Celsius = 60
	ColdestWater Celsius = 0
)

// WaterCaution is a reason not to pour water of that temperature.
type WaterCaution string

// The cautions.
const (
	WaterFreezes WaterCaution = "frozen" // below 0 °C: no kitchen has it
	WaterScalds  WaterCaution = "scalds" // above 60 °C: no kitchen should use it
	WaterHot     WaterCaution = "hot"    // warmer than where yeast grows
)

// CheckWater gives the caution that water of that temperature earns, or "".
func CheckWater(t Celsius) WaterCaution {
	switch {
	case t < ColdestWater:
		return WaterFreezes
	case t > HottestWater:
		return WaterScalds
	case t >= YeastStops:
		return WaterHot
	}
	return ""
}

// Line says the caution in a sentence; nothing when there is none.
func (c WaterCaution) Line() say.Line {
	at := func(t Celsius) say.With { return say.With{"T": say.Celsius(t, 0)} }
	switch c {
	case WaterFreezes:
		return say.Of("This dough needs water below {{.T}}, which no kitchen has: cool the flour, or let the dough come out warmer.", at(ColdestWater))
	case WaterScalds:
		return say.Of("This dough needs water above {{.T}}, which scalds hands and flour: warm the flour or the bowl, or give the dough a warmer place.", at(HottestWater))
	case WaterHot:
		return say.Of("Sourdough yeast stops growing at about {{.T}} (approximate, rules of thumb after Gänzle and others 1998): mix this water with the flour before the culture goes in, or warm the flour.", at(YeastStops))
	}
	return say.Line{}
}
