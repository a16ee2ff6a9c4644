package ferment

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

var monday = time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC)

// nature is a made-up culture that behaves as the assumptions say cultures do.
type nature struct {
	a                    Assumptions
	rng                  *rand.Rand
	speed, ratio, warmth float64
	lag, rise, ripe      float64
}

func newNature(a Assumptions, rng *rand.Rand) *nature {
	return &nature{
		a: a, rng: rng,
		speed:  rng.NormFloat64() * a.SpeedSpread,
		ratio:  1 + rng.NormFloat64()*a.RatioSpread,
		warmth: rng.NormFloat64() * a.WarmthSpread,
		lag:    a.LagShare + rng.NormFloat64()*a.LagSpread,
		rise:   a.LogPeak + rng.NormFloat64()*a.PeakSpread,
		ripe:   a.LogRipe + rng.NormFloat64()*a.RipeSpread,
	}
}

// feed makes a feeding, tells the true hour of its peak, and reads the jar
// every hour until well after the fall.
func (n *nature) feed(i int) (Course, float64) {
	at := monday.Add(time.Duration(i) * 48 * time.Hour)
	parts := []float64{1, 2, 3, 5}[n.rng.IntN(4)]
	temp := Celsius(20 + 8*n.rng.Float64())
	c := Course{Feeding: Feeding{ID: fmt.Sprint("feeding ", i), At: at, Kept: 20, Flour: Grams(20 * parts), Water: Grams(20 * parts), Room: Measured(temp)}}
	x := n.a.features(c.Feeding.Dilution(), pace(n.a.Growth, temp))
	usual := n.a.PeakBase + n.a.PeakPerLog*math.Log(5)
	logPeak := math.Log(usual) + n.speed + n.ratio*x[1] + n.warmth*x[2] + n.rng.NormFloat64()*n.a.DaySpread
	figures := []float64{
		logPeak,
		n.rise + n.rng.NormFloat64()*n.a.PeakSpread/3,
		clamp(n.lag+n.rng.NormFloat64()*n.a.LagSpread, 0.02, 0.8),
	}
	p := pace(n.a.Growth, temp)
	peak := math.Exp(logPeak)
	fall := ripeShare(figures[2])*peak + peak*math.Exp(n.ripe+n.rng.NormFloat64()*n.a.RipeSpread/2)
	for h := 0.5; h*p < fall*1.3; h += 0.75 {
		rise := riseAt(figures, h*p)
		if h*p > fall {
			rise *= 0.7
		}
		rise += n.rng.NormFloat64() * n.a.ReadingError
		c.Readings = append(c.Readings, Reading{At: at.Add(hours(h)), Rise: Rise(max(0.01, 1+rise))})
	}
	return c, peak / p
}

func (c Course) until(t time.Time) Course {
	var kept []Reading
	for _, r := range c.Readings {
		if r.At.Before(t) {
			kept = append(kept, r)
		}
	}
	c.Readings = kept
	return c
}

// In a simulation with the assumed noise, the 80 % interval holds between 70 and
// 90 % of the peaks: with no history, with some, and part of the way up the jar.
func TestForecastIntervalCoversAsManyPeaksAsItClaims(t *testing.T) {
	const cultures = 120
	a := UsualAssumptions()
	shares := []float64{0, 0.5, 0.8}
	for _, history := range []int{0, 3, 10} {
		rng := rand.New(rand.NewPCG(20, uint64(history)))
		inside, width := make([]int, len(shares)), make([]float64, len(shares))
		for range cultures {
			n := newNature(a, rng)
			var past []Course
			for i := range history {
				c, _ := n.feed(i)
				past = append(past, c)
			}
			next, peak := n.feed(history)
			fed := next.Feeding.At
			forecaster := NewForecaster(a, FollowAll(a.Growth, past))
			for i, share := range shares {
				f, err := forecaster.Predict(next.until(fed.Add(hours(share * peak))))
				if err != nil {
					t.Fatal(err)
				}
				truth := fed.Add(hours(peak))
				if !truth.Before(f.Peak.Low) && !truth.After(f.Peak.High) {
					inside[i]++
				}
				width[i] += f.Peak.High.Sub(f.Peak.Low).Hours() / cultures
			}
		}
		for i, share := range shares {
			covered := float64(inside[i]) / cultures
			t.Logf("%2d feedings before, readings to %2.0f %% of the way: covered %.1f %%, mean width %.1f h", history, 100*share, 100*covered, width[i])
			if covered < 0.70 || covered > 0.90 {
				t.Errorf("with %d feedings and readings to %.0f %% of the way the 80 %% interval covered %.1f %% of the peaks", history, 100*share, 100*covered)
			}
			if i > 0 && width[i] >= width[i-1] {
				t.Errorf("with %d feedings the interval does not narrow: %.2f h, then %.2f h", history, width[i-1], width[i])
			}
		}
	}
}

func TestForecastNarrowsAsReadingsComeIn(t *testing.T) {
	a := UsualAssumptions()
	rng := rand.New(rand.NewPCG(7, 7))
	n := newNature(a, rng)
	c, peak := n.feed(0)
	f := NewForecaster(a, nil)
	last := math.Inf(1)
	for _, share := range []float64{0, 0.5, 0.75, 0.95} {
		got, err := f.Predict(c.until(c.Feeding.At.Add(hours(share * peak))))
		if err != nil {
			t.Fatal(err)
		}
		width := got.Peak.High.Sub(got.Peak.Low).Hours()
		if width >= last {
			t.Errorf("with readings to %.0f %% of the way the interval is %.2f h, no narrower than %.2f h", 100*share, width, last)
		}
		last = width
	}
	if last > 2 {
		t.Errorf("just before the peak the interval is still %.1f h", last)
	}
}

func TestForecastSaysWhenItIsGuessing(t *testing.T) {
	a := UsualAssumptions()
	c := Course{Feeding: Feeding{At: monday, Kept: 50, Flour: 50, Water: 50, Room: Measured(25)}}
	f, err := NewForecaster(a, nil).Predict(c)
	if err != nil {
		t.Fatal(err)
	}
	if f.Basis != BasisPublished || !strings.HasPrefix(f.Rests().String(), "Guessing from published rates, approximate") {
		t.Errorf("without history: %q", f.Rests())
	}
	// 1:1:1 at 25 °C: four to five hours (common practice, no source).
	if h := f.Peak.Mid.Sub(monday).Hours(); h < 4 || h > 5 {
		t.Errorf("1:1:1 at 25 °C peaks after %.1f h", h)
	}
	if !f.RipeFrom.Mid.Before(f.Peak.Mid) || !f.RipeTo.Mid.After(f.Peak.Mid) {
		t.Errorf("the ripe window does not hold the peak: %+v", f)
	}
}

func TestForecastComesSoonerWarmerAndWithMoreKept(t *testing.T) {
	f := NewForecaster(UsualAssumptions(), nil)
	expect := func(d float64, temp Celsius) float64 {
		e, err := f.Expect(d, temp)
		if err != nil {
			t.Fatal(err)
		}
		return e.Peak
	}
	if !(expect(3, 26) < expect(3, 21)) || !(expect(3, 24) < expect(11, 24)) {
		t.Error("warmth and a larger inoculation must hasten the peak")
	}
	for _, hot := range []Celsius{36, 60, -30} {
		if _, err := f.Expect(3, hot); !errors.Is(err, ErrAsleep) {
			t.Errorf("at %v °C: %v", hot, err)
		}
	}
	if _, err := f.Predict(Course{Feeding: Feeding{At: monday, Flour: 50, Water: 50}}); !errors.Is(err, ErrNoDilution) {
		t.Errorf("a first mix has no ratio: %v", err)
	}
}

func TestForecastFollowsTheTemperatureLog(t *testing.T) {
	f := NewForecaster(UsualAssumptions(), nil)
	c := Course{Feeding: Feeding{At: monday, Kept: 50, Flour: 50, Water: 50, Room: Measured(22)}}
	plain, _ := f.Predict(c)
	for m := range 120 {
		c.Temps = append(c.Temps, TempPoint{monday.Add(time.Duration(m) * time.Minute), 27})
	}
	warm, err := f.Predict(c)
	if err != nil {
		t.Fatal(err)
	}
	if !warm.Peak.Mid.Before(plain.Peak.Mid) {
		t.Errorf("two warm hours did not hasten the peak: %v, without %v", warm.Peak.Mid, plain.Peak.Mid)
	}
}

func TestBandHoldsItsMiddleAndEndsAtTheFall(t *testing.T) {
	a := UsualAssumptions()
	n := newNature(a, rand.New(rand.NewPCG(3, 4)))
	c, peak := n.feed(0)
	f, err := NewForecaster(a, nil).Predict(c.until(c.Feeding.At.Add(hours(peak / 2))))
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range f.Band {
		if !(b.Low <= b.Mid && b.Mid <= b.High) || b.Low < 1 {
			t.Errorf("at %v: %v", b.At, b.RiseSpan)
		}
	}
	if end := f.Band[len(f.Band)-1].At; !end.Equal(f.RipeTo.Mid) {
		t.Errorf("band ends at %v, the window at %v", end, f.RipeTo.Mid)
	}
}

func TestBackTestPredictsEachFeedingFromThoseBefore(t *testing.T) {
	a := UsualAssumptions()
	n := newNature(a, rand.New(rand.NewPCG(11, 5)))
	var courses []Course
	for i := range 16 {
		c, _ := n.feed(i)
		courses = append(courses, c)
	}
	test := Back(a, courses, 10)
	if len(test.Misses) != 10 {
		t.Fatalf("%d predictions, want the last ten", len(test.Misses))
	}
	if test.Misses[9].ID != "feeding 15" || test.Misses[0].Basis != BasisHistory {
		t.Errorf("first %+v, last %s", test.Misses[0], test.Misses[9].ID)
	}
	for _, m := range test.Misses {
		if m.Off != m.Actual.Sub(m.Predicted.Mid) {
			t.Errorf("%s: off by %v", m.ID, m.Off)
		}
	}
	if test.Median > 2*time.Hour || test.Inside < 5 {
		t.Errorf("median %v, %d of 10 inside: the history taught nothing", test.Median, test.Inside)
	}
	// What came later must not change an earlier prediction.
	if early := Back(a, courses[:12], 1); early.Misses[0] != Back(a, courses, 0).Misses[11] {
		t.Error("a prediction changed when later feedings were added")
	}
}

func TestFollowRefusesWhatTeachesNothing(t *testing.T) {
	a := UsualAssumptions()
	n := newNature(a, rand.New(rand.NewPCG(1, 2)))
	c, peak := n.feed(0)
	if _, err := Follow(a.Growth, c.until(c.Feeding.At.Add(hours(0.7*peak)))); !errors.Is(err, ErrPeakNotSeen) {
		t.Errorf("readings that end early: %v", err)
	}
	c.Feeding.Kept = 0
	if _, err := Follow(a.Growth, c); !errors.Is(err, ErrNoDilution) {
		t.Errorf("a first mix: %v", err)
	}
}

func BenchmarkOneFit(b *testing.B) {
	points := jar(b)
	for b.Loop() {
		if _, err := FitRise(points, BaselineMark); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkOneForecast(b *testing.B) {
	a := UsualAssumptions()
	n := newNature(a, rand.New(rand.NewPCG(1, 2)))
	var past []Course
	for i := range 10 {
		c, _ := n.feed(i)
		past = append(past, c)
	}
	next, peak := n.feed(10)
	next = next.until(next.Feeding.At.Add(hours(peak / 2)))
	for m := range 1000 {
		next.Temps = append(next.Temps, TempPoint{next.Feeding.At.Add(time.Duration(m) * 15 * time.Second), 24})
	}
	f := NewForecaster(a, FollowAll(a.Growth, past))
	for b.Loop() {
		if _, err := f.Predict(next); err != nil {
			b.Fatal(err)
		}
	}
}

// Whatever is read, a forecast is either refused or has its times in order and
// every figure of its band finite.
func TestForecastFromAnyReadingsIsSound(t *testing.T) {
	f := NewForecaster(UsualAssumptions(), nil)
	rapid.Check(t, func(t *rapid.T) {
		c := Course{Feeding: Feeding{
			At: monday, Kept: Grams(rapid.Float64Range(0.1, 500).Draw(t, "kept")),
			Flour: Grams(rapid.Float64Range(0, 500).Draw(t, "flour")), Water: Grams(rapid.Float64Range(0, 500).Draw(t, "water")),
			Room: Temperature{C: Celsius(rapid.Float64Range(-10, 50).Draw(t, "room")), Known: rapid.Bool().Draw(t, "known")},
		}}
		for range rapid.IntRange(0, 12).Draw(t, "readings") {
			c.Readings = append(c.Readings, Reading{
				At:   monday.Add(hours(rapid.Float64Range(-3, 60).Draw(t, "at"))),
				Rise: Rise(rapid.OneOf(rapid.Float64Range(0, 4), rapid.SampledFrom([]float64{math.Inf(1), math.NaN(), 1e300, -3})).Draw(t, "rise")),
				Temp: Temperature{C: Celsius(rapid.Float64Range(-20, 60).Draw(t, "temp")), Known: rapid.Bool().Draw(t, "taken")},
			})
		}
		got, err := f.Predict(c)
		if err != nil {
			return
		}
		for _, s := range []Span{got.Peak, got.RipeFrom, got.RipeTo} {
			if s.Low.After(s.Mid) || s.Mid.After(s.High) || s.Low.Before(monday) {
				t.Fatalf("span %v", s)
			}
		}
		for _, b := range got.Band {
			if !allFinite([]float64{float64(b.Low), float64(b.Mid), float64(b.High)}) || b.Low > b.Mid || b.Mid > b.High || b.Low < 1 {
				t.Fatalf("band %v", b)
			}
		}
	})
}
