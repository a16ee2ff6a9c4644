package ferment

import "twinloaf/journal/say"

// Titration is a titratable acidity as it was measured: millilitres of 0.1 molar
// sodium hydroxide. Sample mass and end point differ between conventions, so both
// belong to the figure; 0 is "not noted".
type Titration struct {
	ML       float64
	Sample   Grams
	EndPoint float64 // pH titrated to; 8.5 and 6.6 are both in use
}

// PerTenGrams is the acidity for a sample of 10 g, and false if the sample's mass
// was not noted. Figures to different end points are still not to be compared.
func (t Titration) PerTenGrams() (ml float64, ok bool) {
	if t.Sample <= 0 || t.ML < 0 {
		return 0, false
	}
	return t.ML * 10 / float64(t.Sample), true
}

// Comparable says whether two titrations may be set side by side.
func (t Titration) Comparable(u Titration) bool {
	return t.Sample > 0 && u.Sample > 0 && t.EndPoint > 0 && t.EndPoint == u.EndPoint
}

// AcidityWords sets a pH beside published ones. "Good and fully matured" at 3.9 to
// 4.1 and "over-matured" at 3.8 and below come from one published answer (acidity.csv names it); a
// wheat sourdough was at pH 4.26 four hours after mixing and at 3.55 after a day at
// 30 °C (Nutrients 2019;11:2954, table 2). They are ranges of some cultures, no
// judgement of this one, and nothing is said of a pH out of 2 to 9.
func AcidityWords(pH float64) say.Line {
	figure := say.With{"PH": say.Number{Value: pH, Decimals: 2}}
	switch {
	case !(pH >= 2 && pH <= 9):
		return say.Line{}
	case pH <= 3.8:
		return say.Of("pH {{.PH}}: as sour as one called over-matured (published ranges, approximate)", figure)
	case pH < 3.9:
		return say.Of("pH {{.PH}}: between fully matured and over-matured (published ranges, approximate)", figure)
	case pH <= 4.1:
		return say.Of("pH {{.PH}}: where a good and fully matured sour lies (published ranges, approximate)", figure)
	case pH <= 4.5:
		return say.Of("pH {{.PH}}: souring, as some hours after a feeding (published ranges, approximate)", figure)
	default:
		return say.Of("pH {{.PH}}: little acid yet (published ranges, approximate)", figure)
	}
}
