package ferment

import "math"

// Assumptions are what a forecast believes before it has seen the culture.
// None of it comes from the culture; a forecast resting on it alone says that it
// is guessing.
type Assumptions struct {
	Heats []Heat
	Days  []float64 // sds, from feeding to feeding, of the logarithm of the time to the peak, each as likely

	// For PeakHours, which says how the time to the peak depends on the dilution.
	PeakPerLog, PeakGrown float64

	SpeedSpread  float64 // sd, between cultures, of the logarithm of the time to the peak
	RatioSpread  float64 // sd of the power to which the dependence on dilution is taken, about 1
	WarmthSpread float64 // sd of the power by which the dependence on temperature is off, about 0
	RestSpread   float64 // sd of what twelve hours more of rest do, about 0
	GrainSpread  float64 // sd of what wholegrain alone does, about 0
	HourSpread   float64 // sd of what the hour of a feeding does where no temperature is noted, about 0

	LogPeak, PeakSpread, PeakDay float64        // logarithm of the rise over the mark at the peak, its sd between cultures and feedings
	Forms                        [families]Form // of the rise, each as likely
	Longest                      float64        // hours; no forecast is made beyond

	kitchen commonMean // by how much this kitchen's cultures are off the usual: see Pooled
	known   float64    // share of the variance between cultures that this takes away
}

// Form is what is believed of the form of a rise, whatever its height and hour: of the
// figures of a [hump], their logarithms and the sds of those between cultures and from
// feeding to feeding.
type Form struct {
	LogBefore, BeforeSpread, BeforeDay float64
	LogAfter, AfterSpread, AfterDay    float64
	LogSharp, SharpSpread, SharpDay    float64
}

// UsualAssumptions are assumptions for sourdough of wheat or rye. The spreads are
// our own guesses, wide on purpose.
func UsualAssumptions() Assumptions {
	return Assumptions{
		Heats: heats(), Days: []float64{0.02, 0.05, 0.11},
		PeakPerLog: 3.97, PeakGrown: 0.75,
		SpeedSpread: 0.40, RatioSpread: 0.45, WarmthSpread: 0.25, RestSpread: 0.05, GrainSpread: 0.15, HourSpread: 0.08,
		LogPeak: math.Log(1.3), PeakSpread: 0.35, PeakDay: 0.15,
		Forms: [families]Form{
			smooth: {
				LogBefore: math.Log(3.6), BeforeSpread: 0.40, BeforeDay: 0.15,
				LogAfter: math.Log(1.8), AfterSpread: 0.8, AfterDay: 0.25,
				LogSharp: 0, SharpSpread: 1.6, SharpDay: 0.18,
			},
			bell: {
				LogBefore: math.Log(2.7), BeforeSpread: 0.40, BeforeDay: 0.15,
				LogAfter: math.Log(1.7), AfterSpread: 0.6, AfterDay: 0.25,
				LogSharp: math.Log(0.8), SharpSpread: 0.8, SharpDay: 0.18,
			},
		},
		Longest: 14 * 24,
	}
}

// PeakHours are the hours at ReferenceTemp until the peak of a usual culture,
// PeakPerLog·ln(1 + PeakGrown·dilution): exponential growth has to make good the dilution,
// and somewhat more. The numbers put a feeding of 1:1:1 at about 4½ hours, 1:5:5 at 9 and
// 1:10:10 at 11 (common practice, no source). A straight line of ln(dilution) through those had
// 1:½:½ peak too soon, by 6 to 15 % on the first four laws of the package trials.
func (a Assumptions) PeakHours(dilution float64) float64 {
	return a.PeakPerLog * math.Log1p(a.PeakGrown*dilution)
}

// usualDilution is that of 1:2:2, at which a culture's speed is reckoned.
const usualDilution = 5

func (a Assumptions) newFilter(fam family, of10 float64, table paceTable, day float64) *filter {
	form := a.Forms[fam]
	sq := func(v float64) float64 { return v * v }
	f := &filter{family: fam, pace: table, log: math.Log(of10 / 10 / float64(len(a.Days)) / float64(families)), misses: 6, freedom: 6, turned: spreadKnown, turns: spreadKnown}
	f.day = figures{(1 - lasting) * sq(day), sq(a.PeakDay), sq(form.BeforeDay), sq(form.AfterDay), sq(form.SharpDay)}
	f.mean = commonMean{sSpeed: math.Log(a.PeakHours(usualDilution)), sRatio: 1, sRise: a.LogPeak, sBefore: form.LogBefore, sAfter: form.LogAfter, sSharp: form.LogSharp}
	for i, sd := range (commonMean{
		sSpeed: a.SpeedSpread, sRatio: a.RatioSpread, sWarm: a.WarmthSpread, sRest: a.RestSpread, sGrain: a.GrainSpread,
		sCos: a.HourSpread, sSin: a.HourSpread,
		sRise: a.PeakSpread, sBefore: form.BeforeSpread, sAfter: form.AfterSpread, sSharp: form.SharpSpread,
	}) {
		f.cov[i][i] = sq(sd)
	}
	a.settle(f)
	return f
}
