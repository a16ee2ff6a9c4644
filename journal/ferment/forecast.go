package ferment

import (
	"cmp"
	"math"
	"slices"
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
	Temp     Temperature // mean from the feeding to the peak; not Known if none was ever taken
	Kitchen  bool        // it leans on other cultures, too: see [Assumptions.Pooled]
	Outside  bool        // it stands, or will stand, colder or warmer than anything known
	Peak     Span        // the top: it falls from here on
	RipeFrom Span        // 90 % of the peak is reached
	RipeTo   Span        // it has fallen below 90 %
	PeakRise RiseSpan
	Band     []BandPoint // until well into the fall, for a chart
}

// Rests says what the forecast rests on.
func (f Forecast) Rests() say.Line {
	line := f.rests()
	if f.Outside {
		line = say.Join(line, say.Of("It stands at a temperature outside all that is known of this culture: take the hours as a wild guess."))
	}
	return line
}

func (f Forecast) rests() say.Line {
	n := say.With{"Past": f.Feedings, "Now": f.Readings}
	switch f.Basis {
	case BasisPublished:
		if f.Kitchen {
			return say.Of("Guessing from published rates and your other cultures, approximate: nothing has been read of this culture's rise.")
		}
		return say.Of("Guessing from published rates, approximate: nothing has been read of this culture's rise.")
	case BasisReadings:
		if f.Kitchen {
			return say.Of("Guessing from published rates, your other cultures and this feeding's readings ({{.Now}}), approximate.", n)
		}
		return say.Of("Guessing from published rates and this feeding's readings ({{.Now}}), approximate.", n)
	case BasisHistory:
		return say.Of("From its own past feedings ({{.Past}}), approximate.", n)
	}
	return say.Of("From its own past feedings ({{.Past}}) and this one's readings ({{.Now}}), approximate.", n)
}

// Forecaster predicts the feedings of one culture from those it has learned from.
// Make it with [NewForecaster]. Predicting does not alter it, and may be done from
// several goroutines.
//
// It is a mixture of filters (see filter.go), one for each form of the rise, each answer
// to warmth in heats and each size of the day-to-day spread, weighed by how well each has
// foretold the readings so far (Bayesian model averaging; Hoeting et al. 1999,
// Statistical Science 14:382). What a reading tells of a rise is worked out by
// Laplace's approximation, so any reading teaches: a single height, or that the
// jar was still rising at ten. The temperature that is to come is that of the same
// hours on earlier days and the last one measured. Where none was ever noted, what the
// hour of the feeding and the weather of these days do is learned as a part of the culture.
type Forecaster struct {
	assume   Assumptions
	filters  []*filter
	places   map[Place]*climate
	feedings int // from which something was learned
	last     time.Time
	coldest  float64 // mean temperatures of the feedings learned from
	warmest  float64
	heights  float64   // how many heights were learned from,
	told     float64   // and of how many feedings the top itself was noted
	flat     int       // latest feedings, one after the other, that were read and did not rise
	mixed    time.Time // the first mix of flour and water, if it is among them
	rose     bool      // a feeding since then was seen to rise

	cos, sin, blind float64 // sums over the feedings of which no temperature was known, for their usual hour
}

// NewForecaster learns from a culture's past feedings, oldest first. With none
// it guesses from the assumptions.
func NewForecaster(a Assumptions, past []Course) *Forecaster {
	f := &Forecaster{assume: a, places: map[Place]*climate{}, coldest: math.Inf(1), warmest: math.Inf(-1)}
	for _, h := range a.Heats {
		table := newPaceTable(h.Growth)
		for _, d := range a.Days {
			for fam := range families {
				f.filters = append(f.filters, a.newFilter(fam, h.Of10, table, d))
			}
		}
	}
	for _, c := range past {
		f.Learn(c)
	}
	return f
}

// Feedings is how many past feedings the forecaster has learned from.
func (f *Forecaster) Feedings() int { return f.feedings }

// climate is what is known of the place that a feeding stands in.
func (f *Forecaster) climate(p Place) *climate {
	c := f.places[p]
	if c == nil {
		c = newClimate()
		f.places[p] = c
	}
	return c
}

// where is the place that a feeding stands in.
func (f Feeding) where() Place {
	return cmp.Or(f.Place, Counter)
}

// Learn takes in a feeding that is over. Feedings are to come in order of time.
func (f *Forecaster) Learn(c Course) {
	defer func() { f.last = c.Feeding.At }()
	points := c.temperatures(time.Time{})
	where := f.climate(c.Feeding.where())
	where.add(points)
	if c.Feeding.Dilution() == 0 {
		f.mixed, f.rose = c.Feeding.At, false
		return
	}
	f.rose = f.rose || c.risen(time.Time{})
	if c.lay(points) {
		f.flat++
		return
	}
	x := f.features(c.Feeding, where)
	if terms := clockTerms(c.Feeding.At); x.blind {
		f.cos, f.sin, f.blind = f.cos+terms[1], f.sin+terms[2], f.blind+1
	}
	any, told, heights := false, false, 0.0
	temps := f.temps(c, points, where)
	for i, w := range f.filters {
		line := temps.timeline(w.pace)
		seen := sights(c, line, time.Time{})
		w = w.aged(x)
		f.filters[i] = w
		if len(seen) == 0 {
			continue
		}
		any, heights = true, 0
		for _, s := range seen {
			told = told || s.trend == TrendTop
			if s.trend == TrendUnnoted {
				heights++
			}
		}
		d, ahead := w.foresee(f.assume, x, line)
		ahead.cov[xTop][xTop] += temps.unmeasured(line, w.pace, ahead.mean[xTop])
		after := w.family.look(ahead, seen, w.scatter())
		w.learn(d, ahead, after)
		w.misread(seen, after)
		w.watch(ahead, after)
	}
	if any {
		f.feedings++
		f.heights += heights
		if told {
			f.told++
		}
		f.flat = 0
		mean := temps.mean(8)
		f.coldest, f.warmest = min(f.coldest, mean), max(f.warmest, mean)
	}
}

func (f *Forecaster) features(fed Feeding, where *climate) features {
	x := features{dilution: fed.Dilution(), mood: 1, gap: math.Inf(1), blind: where.last.IsZero()}
	if terms := clockTerms(fed.At); x.blind && f.blind > 0 {
		x.cos, x.sin = terms[1]-f.cos/f.blind, terms[2]-f.sin/f.blind
	}
	if !f.last.IsZero() {
		x.gap = max(0, fed.At.Sub(f.last).Hours())
		// Twelve hours of rest are usual; beyond three days nothing more is learned. It goes by
		// the hours, as if a hungry culture lost the same share of its cells in each.
		x.rest = (clamp(x.gap, 4, 72) - 12) / 12
	}
	if fed.GrainKnown {
		x.grain = clamp(fed.Wholegrain, 0, 1)
	}
	return x
}

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
	var used, peak, from, to float64
	for i, weight := range f.weights(nil) {
		w := f.filters[i]
		p := w.pace.at(float64(t))
		if p <= asleepPace {
			continue
		}
		g := w.ahead(f.assume.design(features{dilution: dilution}, math.Log(p)))
		h := w.family.hump(g.mean)
		up, down := h.crossings()
		used += weight
		peak += weight * math.Log(h.top/p)
		from += weight * math.Log(max(up, 0.01)/p)
		to += weight * math.Log(down/p)
	}
	e := Expected{Peak: math.Exp(peak / used), RipeFrom: math.Exp(from / used), RipeTo: math.Exp(to / used)}
	if used < 0.5 || !(e.Peak < f.assume.Longest) {
		return Expected{}, ErrAsleep
	}
	return e, nil
}

// asleepPace is the pace, against that at ReferenceTemp, at which a culture is as good
// as asleep.
const asleepPace = 0.02

// weights are those of the filters after what each makes of the present readings.
func (f *Forecaster) weights(now []gaussian) []float64 {
	out := make([]float64, len(f.filters))
	most := math.Inf(-1)
	for i, w := range f.filters {
		out[i] = w.log
		if now != nil {
			out[i] += now[i].log
		}
		most = max(most, out[i])
	}
	sum := 0.0
	for i := range out {
		out[i] = math.Exp(out[i] - most)
		sum += out[i]
	}
	for i := range out {
		out[i] /= sum
	}
	return out
}

// Predict forecasts a feeding made or planned from what is known at a time: readings
// and temperatures of the course that are later are not looked at.
//
// Errors: [ErrNoDilution], [ErrAsleep], [ErrNotYet], [ErrNotRising].
func (f *Forecaster) Predict(c Course, now time.Time) (Forecast, error) {
	return f.predict(c, now, true)
}

// predict leaves out the band of a chart unless it is asked for.
func (f *Forecaster) predict(c Course, now time.Time, band bool) (Forecast, error) {
	if c.Feeding.Dilution() == 0 {
		return Forecast{}, ErrNoDilution
	}
	if err := f.still(c.Feeding.At); err != nil && !c.risen(now) {
		return Forecast{}, err
	}
	if now.Before(c.Feeding.At) {
		now = c.Feeding.At
	}
	points := c.temperatures(now)
	where := newClimate()
	if known := f.places[c.Feeding.where()]; known != nil {
		where = known.clone()
	}
	where.add(points)
	temps := f.temps(c, points, where)
	e := f.believe(c, f.features(c.Feeding, where), temps, now)
	out := Forecast{Basis: BasisHistory, Feedings: f.feedings, Readings: e.readings, Kitchen: f.assume.known > 0, Fed: c.Feeding.At}
	switch {
	case f.feedings == 0 && out.Readings == 0:
		out.Basis = BasisPublished
	case f.feedings == 0:
		out.Basis = BasisReadings
	case out.Readings > 0:
		out.Basis = BasisBoth
	}
	if err := e.fill(&out, f.assume.Longest, band); err != nil {
		return Forecast{}, err
	}
	mean := temps.mean(out.Peak.Mid.Sub(out.Fed).Hours())
	out.Temp = Temperature{C: Celsius(mean), Known: !where.last.IsZero()}
	out.Outside = mean < min(float64(coldestShared), f.coldest-2) || mean > max(float64(warmestShared), f.warmest+2)
	return out, nil
}

// temperatures are those written down of a course up to a time, in order; a zero
// time is without end. A temperature log goes before what was noted by hand.
func (c Course) temperatures(until time.Time) []TempPoint {
	var out []TempPoint
	keep := func(p TempPoint) {
		if !p.At.Before(c.Feeding.At) && (until.IsZero() || !p.At.After(until)) && finite(float64(p.Temp)) {
			out = append(out, p)
		}
	}
	for _, p := range c.Temps {
		keep(p)
	}
	if len(out) == 0 {
		if c.Feeding.Room.Known {
			keep(TempPoint{At: c.Feeding.At, Temp: c.Feeding.Room.C})
		}
		for _, r := range c.after() {
			if r.Temp.Known {
				keep(TempPoint{At: r.At, Temp: r.Temp.C, Told: r.Told})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b TempPoint) int { return a.At.Compare(b.At) })
	return slices.CompactFunc(out, func(a, b TempPoint) bool { return a.At.Equal(b.At) })
}
