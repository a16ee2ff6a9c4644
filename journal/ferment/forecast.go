package ferment

import (
	"math"
	"time"

	"twinloaf/journal/say"
)

// Basis says what a forecast rests on.
type Basis string

// The bases, from the weakest on.
const (
	BasisPublished Basis = "published rates" // a guess: nothing is known of this culture
	BasisReadings  Basis = "published rates and the readings so far"
	BasisHistory   Basis = "its own past feedings"
	BasisBoth      Basis = "its own past feedings and the readings so far"
)

// Span is a time with its 80 % interval.
type Span struct {
	Low, Mid, High time.Time
}

// RiseSpan is a rise with its 80 % interval.
type RiseSpan struct {
	Low, Mid, High Rise
}

// BandPoint is one moment of a predicted rise curve with its 80 % interval.
type BandPoint struct {
	At time.Time
	RiseSpan
}

// Forecast is what is expected of one feeding. Every forecast is approximate.
type Forecast struct {
	Basis    Basis
	Feedings int // past feedings it rests on
	Readings int // readings of this feeding it rests on

	Fed      time.Time
	Temp     Temperature // that it reckons with from now on; not Known if assumed
	Peak     Span
	RipeFrom Span // 90 % of the peak is reached
	RipeTo   Span // it has fallen below 90 %
	PeakRise RiseSpan
	Band     []BandPoint // until it has fallen, for a chart
}

// Rests says what the forecast rests on.
func (f Forecast) Rests() say.Line {
	n := say.With{"Past": f.Feedings, "Now": f.Readings}
	switch f.Basis {
	case BasisPublished:
		return say.Of("Guessing from published rates, approximate: no feeding of this culture has been followed to its peak.")
	case BasisReadings:
		return say.Of("Guessing from published rates and this feeding's readings ({{.Now}}), approximate.", n)
	case BasisHistory:
		return say.Of("From its own past feedings ({{.Past}}), approximate.", n)
	}
	return say.Of("From its own past feedings ({{.Past}}) and this one's readings ({{.Now}}), approximate.", n)
}

// Forecaster predicts the feedings of one culture. Make it with [NewForecaster].
type Forecaster struct {
	assume      Assumptions
	peak        *learner
	feedings    int
	lag, lagSD  float64
	rise, rsSD  float64 // logarithm of the rise over the mark
	ripe, rpSD  float64 // logarithm of ripe window over time to peak
	reading     float64 // sd of one reading of the height
	temperature Celsius // assumed where none is known
}

// mostFeedings are remembered: a culture changes over the months.
const mostFeedings = 30

// NewForecaster learns from a culture's past feedings, oldest first. With none
// it guesses from the assumptions.
func NewForecaster(a Assumptions, past []Followed) *Forecaster {
	if len(past) > mostFeedings {
		past = past[len(past)-mostFeedings:]
	}
	f := &Forecaster{assume: a, peak: a.newLearner(), feedings: len(past), temperature: defaultAssumed}
	var x [][]float64
	var y, lags, rises, ripes []float64
	squares, freedom := priorShape*2*a.ReadingError*a.ReadingError, float64(priorShape*2)
	for _, p := range past {
		x = append(x, a.features(p.Dilution, p.PeakThermal/p.PeakHours))
		y = append(y, math.Log(p.PeakThermal))
		lags = append(lags, clamp(p.LagThermal/p.PeakThermal, 0, 0.9))
		if p.PeakRise > 0 {
			rises = append(rises, math.Log(p.PeakRise))
		}
		if p.RipeThermal > 0 {
			ripes = append(ripes, math.Log(p.RipeThermal/p.PeakThermal))
		}
		squares += p.Fit.Best.RSS
		freedom += float64(p.Fit.Best.N - p.Fit.Best.P)
	}
	f.peak.learn(x, y)
	f.lag, f.lagSD = level(a.LagShare, a.LagSpread, a.LagSpread, lags)
	f.rise, f.rsSD = level(a.LogPeak, a.PeakSpread, a.PeakSpread/3, rises)
	f.ripe, f.rpSD = level(a.LogRipe, a.RipeSpread, a.RipeSpread/2, ripes)
	f.reading = math.Sqrt(squares / freedom)
	return f
}

// Feedings is how many past feedings the forecaster rests on.
func (f *Forecaster) Feedings() int { return f.feedings }

// Expected is the middle of a forecast in hours since the feeding.
type Expected struct {
	Peak, RipeFrom, RipeTo float64
}

// Expect gives the middle of a forecast for a dilution at a steady temperature.
// The error is [ErrNoDilution] or [ErrAsleep].
func (f *Forecaster) Expect(dilution float64, t Celsius) (Expected, error) {
	if !(dilution > 1) || math.IsInf(dilution, 0) {
		return Expected{}, ErrNoDilution
	}
	p := pace(f.assume.Growth, t)
	if p <= 0 {
		return Expected{}, ErrAsleep
	}
	mean := f.peak.middle(f.assume.features(dilution, p))
	peak := math.Exp(mean) / p
	if !(peak < f.assume.Longest) {
		return Expected{}, ErrAsleep
	}
	from := ripeShare(f.lag) * peak
	return Expected{Peak: peak, RipeFrom: from, RipeTo: from + math.Exp(f.ripe)*peak}, nil
}

// ripeShare is the time to 90 % over the time to the peak for a modified
// Gompertz curve whose lag is the given share of the time to the peak.
func ripeShare(lag float64) float64 {
	return lag + (1-lag)*Gompertz.reach(ripeFraction)/Gompertz.reach(peakFraction)
}

// Predict forecasts a feeding made or planned. The readings of the course narrow
// it; readings after a collapse are left out. The temperature log of the course
// counts up to its last row, Feeding.Room from there on; with neither, 22 °C are
// assumed.
//
// Errors: [ErrNoDilution], [ErrAsleep].
func (f *Forecaster) Predict(c Course) (Forecast, error) {
	dilution := c.Feeding.Dilution()
	if dilution == 0 {
		return Forecast{}, ErrNoDilution
	}
	w := Warmth{Log: c.warmth(), Room: c.Feeding.Room, Assumed: f.temperature}
	end := c.Feeding.At
	for _, p := range w.Log {
		if p.At.After(end) {
			end = p.At
		}
	}
	line := w.timeline(f.assume.Growth, c.Feeding.At, end)
	if line.tail <= 0 {
		return Forecast{}, ErrAsleep
	}
	points, _ := splitCollapse(tidy(believed(RisePoints(c))))
	g := f.guess(dilution, line, points)
	out := Forecast{
		Basis: BasisHistory, Feedings: f.feedings, Readings: len(points),
		Fed: c.Feeding.At, Temp: Temperature{C: w.fill(), Known: w.Room.Known},
	}
	switch {
	case f.feedings == 0 && len(points) == 0:
		out.Basis = BasisPublished
	case f.feedings == 0:
		out.Basis = BasisReadings
	case len(points) > 0:
		out.Basis = BasisBoth
	}
	if err := g.fill(&out, f.assume.Longest); err != nil {
		return Forecast{}, err
	}
	return out, nil
}

// believed drops readings that no jar gives.
func believed(points []Point) []Point {
	var out []Point
	for _, p := range points {
		if finite(p.Height) && math.Abs(p.Height) < 100 {
			out = append(out, p)
		}
	}
	return out
}
