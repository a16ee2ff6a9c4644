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

// The pH of one wheat sourdough kept by daily refreshment: mature, four hours after it
// was mixed, and after a day at 30 °C. Source: Nutrients 2019;11:2954, table 2
// (testdata/ferment/acidity.csv). They are one culture's and judge no other.
const (
	maturePH    = 3.89
	fourHoursPH = 4.26
	dayWarmPH   = 3.55
)

// AcidityWords sets a pH beside those three figures. Nothing is said of a pH out of 2
// to 9.
func AcidityWords(pH float64) say.Line {
	with := say.With{"PH": say.Number{Value: pH, Decimals: 2}, "Mature": say.Number{Value: maturePH, Decimals: 2},
		"Hours": say.Number{Value: fourHoursPH, Decimals: 2}, "Warm": say.Number{Value: dayWarmPH, Decimals: 2}}
	switch {
	case !(pH >= 2 && pH <= 9):
		return say.Line{}
	case pH <= dayWarmPH:
		return say.Of("pH {{.PH}}: at least as sour as one wheat sourdough after a day at 30 °C (pH {{.Warm}}; Nutrients 2019;11:2954).", with)
	case pH < maturePH:
		return say.Of("pH {{.PH}}: more sour than one mature wheat sourdough (pH {{.Mature}}; {{.Warm}} after a day at 30 °C; Nutrients 2019;11:2954).", with)
	case pH <= fourHoursPH:
		return say.Of("pH {{.PH}}: as one wheat sourdough between four hours after mixing (pH {{.Hours}}) and mature (pH {{.Mature}}; Nutrients 2019;11:2954).", with)
	}
	return say.Of("pH {{.PH}}: less sour than one wheat sourdough four hours after mixing (pH {{.Hours}}; Nutrients 2019;11:2954).", with)
}
