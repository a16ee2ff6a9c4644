package ferment

import (
	"encoding/binary"
	"errors"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// sound fails the test if a figure of a fit is not a number, or a rate negative.
func sound(t interface {
	Helper()
	Errorf(string, ...any)
}, fit RiseFit) {
	t.Helper()
	figures := map[string]float64{}
	for name, e := range map[string]Estimate{"lag": fit.Lag, "rate": fit.Rate, "A": fit.Best.A} {
		figures[name], figures[name+" se"], figures[name+" low"], figures[name+" high"] = e.Value, e.SE, e.Low, e.High
		if e.SEKnown && (e.SE < 0 || e.Low > e.Value || e.Value > e.High) {
			t.Errorf("%s: %+v", name, e)
		}
	}
	for _, c := range []*CurveFit{&fit.Best, fit.Other} {
		if c == nil {
			continue
		}
		figures["RSS"], figures["AICc"] = c.RSS, c.AICc
		figures["curve"] = c.Curve.At(fit.Used[0].Hours)
		figures["other rate"] = c.Curve.Rate
		if c.Curve.Rate < 0 || c.Curve.A <= 0 || c.Rate.Low < 0 {
			t.Errorf("negative rate: %+v", c.Curve)
		}
	}
	for name, v := range figures {
		if !finite(v) {
			t.Errorf("%s is %v", name, v)
		}
	}
	if fit.Rate.Value < 0 || fit.Lag.Value < 0 {
		t.Errorf("rate %v, lag %v", fit.Rate.Value, fit.Lag.Value)
	}
}

func TestFitOfAnyReadingsIsSoundOrRefused(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 25).Draw(t, "n")
		var points []Point
		for range n {
			points = append(points, Point{
				Hours:  rapid.OneOf(rapid.Float64Range(0, 48), rapid.SampledFrom([]float64{0, 1, 1 + 1e-12, 1e6})).Draw(t, "hours"),
				Height: rapid.OneOf(rapid.Float64Range(-0.2, 3), rapid.SampledFrom([]float64{0, 1, -1e6, 1e6, 1e-300})).Draw(t, "height"),
			})
		}
		if fit, err := FitRise(points); err == nil {
			sound(t, fit)
		}
	})
}

func FuzzFitRise(f *testing.F) {
	pack := func(points []Point) []byte {
		var b []byte
		for _, p := range points {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(p.Hours))
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(p.Height))
		}
		return b
	}
	f.Add(pack(jar(f)), 0)
	f.Add(pack([]Point{{Hours: 0, Height: 0}, {Hours: 1, Height: 0}, {Hours: 2, Height: 1}, {Hours: 3, Height: 1}, {Hours: 4, Height: 1}}), 1)
	f.Add(pack([]Point{{Hours: 0, Height: math.MaxFloat64}, {Hours: 1, Height: -math.MaxFloat64}, {Hours: 2, Height: 5}, {Hours: 3, Height: math.NaN()}}), 2)
	f.Add(pack([]Point{{Hours: -5, Height: 3}, {Hours: -4, Height: 2}, {Hours: -3, Height: 3.0001}, {Hours: 0, Height: 3}, {Hours: 0, Height: 9}}), 2)
	f.Fuzz(func(t *testing.T, b []byte, _ int) {
		var points []Point
		for ; len(b) >= 16 && len(points) < 60; b = b[16:] {
			points = append(points, Point{
				Hours:  math.Float64frombits(binary.LittleEndian.Uint64(b)),
				Height: math.Float64frombits(binary.LittleEndian.Uint64(b[8:])),
			})
		}
		if fit, err := FitRise(points); err == nil {
			sound(t, fit)
		}
	})
}

// reach is k in: the curve reaches a fraction of A at Lag + k A/Rate.
func (s Shape) reach(fraction float64) float64 {
	if s == Logistic {
		return (2 + math.Log(fraction/(1-fraction))) / 4
	}
	return (1 - math.Log(-math.Log(fraction))) / math.E
}

// TimeAt is the hour at which the curve reaches a fraction of A, 0 < fraction < 1.
func (c Curve) TimeAt(fraction float64) float64 {
	return c.Lag + c.Shape.reach(fraction)*c.A/c.Rate
}

// What is put in comes out again, in any unit of height.
func TestFitFindsTheCurveTheReadingsLieOn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := Curve{
			Shape: rapid.SampledFrom([]Shape{Gompertz, Logistic}).Draw(t, "shape"),
			A:     rapid.Float64Range(0.5, 3).Draw(t, "A"),
			Lag:   rapid.Float64Range(0.5, 4).Draw(t, "lag"),
		}
		want.Rate = want.A / rapid.Float64Range(1.5, 6).Draw(t, "hours of rising")
		var points []Point
		for h := 0.0; h < want.TimeAt(0.99); h += want.TimeAt(0.99) / 12 {
			points = append(points, Point{Hours: h, Height: want.At(h)})
		}
		fit, err := FitRise(points)
		if err != nil {
			t.Fatal(err)
		}
		got := fit.Best.Curve
		if got.Shape != want.Shape || digits(got.A, want.A) < 5 || digits(got.Rate, want.Rate) < 5 || math.Abs(got.Lag-want.Lag) > 1e-5 {
			t.Errorf("got %+v, want %+v", got, want)
		}
	})
}

func TestThreePointsGiveNoCurveAndSayHowManyAreWanted(t *testing.T) {
	cases := []struct {
		name          string
		points        []Point
		have, leftOut int
	}{
		{"none", nil, 0, 0},
		{"three", []Point{{Hours: 0, Height: 0}, {Hours: 2, Height: 0.3}, {Hours: 4, Height: 0.9}}, 3, 0},
		{"four, two at the same time", []Point{{Hours: 0, Height: 0}, {Hours: 2, Height: 0.3}, {Hours: 2, Height: 0.4}, {Hours: 4, Height: 0.9}}, 3, 0},
		{"five, two after the fall", []Point{{Hours: 0, Height: 0}, {Hours: 2, Height: 0.3}, {Hours: 4, Height: 0.9}, {Hours: 6, Height: 0.4}, {Hours: 8, Height: 0.2}}, 3, 2},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := FitRise(c.points)
			var few *TooFewError
			if !errors.As(err, &few) {
				t.Fatalf("got %v", err)
			}
			if few.Have != c.have || few.Want != 4 || few.LeftOut != c.leftOut {
				t.Errorf("%+v", few)
			}
		})
	}
	if _, err := FitRise([]Point{{Hours: 0, Height: 0}, {Hours: 1, Height: 0}, {Hours: 2, Height: -0.01}, {Hours: 3, Height: 0}}); !errors.Is(err, ErrNoRise) {
		t.Errorf("a flat jar: %v", err)
	}
}

func TestPointsAfterTheCollapseAreLeftOut(t *testing.T) {
	c := Curve{Shape: Gompertz, A: 1.2, Rate: 0.4, Lag: 1.5}
	var points []Point
	for h := 0.0; h <= 8; h++ {
		points = append(points, Point{Hours: h, Height: c.At(h)})
	}
	fallen := []Point{{Hours: 9, Height: 0.9}, {Hours: 10, Height: 0.7}, {Hours: 11, Height: 0.65}}
	fit, err := FitRise(append(points, fallen...))
	if err != nil {
		t.Fatal(err)
	}
	if !fit.Collapsed() || len(fit.LeftOut) != 3 || len(fit.Used) != 9 {
		t.Fatalf("used %d, left out %d", len(fit.Used), len(fit.LeftOut))
	}
	if digits(fit.Best.Curve.A, 1.2) < 5 {
		t.Errorf("A %v", fit.Best.Curve.A)
	}
	// A dip that is made good, a bumped jar, is no collapse.
	points[4].Height -= 0.3
	if fit, err = FitRise(points); err != nil || fit.Collapsed() {
		t.Errorf("a dip counted as a collapse: %v", err)
	}
}

func TestTakingWarnsBeforeTheCultureIsGone(t *testing.T) {
	m := MixOf(100, 1)
	if got := m.Take(80); got.AllGone || got.Left != 20 {
		t.Errorf("80 of 100 g: %+v", got)
	}
	if got := m.Take(100); !got.AllGone {
		t.Errorf("100 of 100 g: %+v", got)
	}
	if got := m.Take(130); !got.AllGone || got.Short != 30 {
		t.Errorf("130 of 100 g: %+v", got)
	}
	if _, err := NewState(m).Feed(Refreshment{Flour: 50, Water: 50}); !errors.Is(err, ErrNothingKept) {
		t.Errorf("keeping nothing: %v", err)
	}
	if _, err := NewState(m).Feed(Refreshment{Kept: 101, Flour: 50, Water: 50}); err == nil {
		t.Error("more was kept than there is")
	}
}

// A height that is told surely counts for more than one that was read by eye: the curve
// goes by the sure ones.
func TestSureReadingsCountForMore(t *testing.T) {
	curve := Curve{Shape: Gompertz, A: 1.2, Rate: 0.5, Lag: 1}
	var sure, eye []Point
	for h := 0.5; h < 8; h += 0.5 {
		sure = append(sure, Point{Hours: h, Height: curve.At(h), SD: 0.01})
		eye = append(eye, Point{Hours: h, Height: curve.At(h)})
	}
	for h := 0.75; h < 8; h++ { // someone reads a tenth too high
		sure = append(sure, Point{Hours: h, Height: curve.At(h) + 0.1})
		eye = append(eye, Point{Hours: h, Height: curve.At(h) + 0.1})
	}
	weighed, err := FitRise(sure)
	if err != nil {
		t.Fatal(err)
	}
	alike, err := FitRise(eye)
	if err != nil {
		t.Fatal(err)
	}
	if off, was := math.Abs(weighed.Best.Curve.A-1.2), math.Abs(alike.Best.Curve.A-1.2); off > 0.02 || off > was/2 {
		t.Errorf("off by %.3f with weights, by %.3f without", off, was)
	}
}

// A forecast goes closer to a height that is told surely than to the same one read by eye.
func TestASureHeightNarrowsAForecast(t *testing.T) {
	fed := time.Date(2026, 3, 4, 8, 0, 0, 0, time.UTC)
	width := func(sd float64) time.Duration {
		c := Course{Feeding: Feeding{At: fed, Kept: 20, Flour: 20, Water: 20, Room: Measured(24)}}
		for _, h := range []float64{1.5, 2, 2.5, 3} {
			c.Readings = append(c.Readings, Reading{At: fed.Add(time.Duration(h * float64(time.Hour))), Rise: Rise(1 + 0.08*h*h), SD: sd})
		}
		f, err := NewForecaster(UsualAssumptions(), nil).Predict(c, fed.Add(3*time.Hour))
		if err != nil {
			t.Fatal(err)
		}
		return f.Peak.High.Sub(f.Peak.Low)
	}
	if sure, eye := width(0.005), width(0); sure >= eye {
		t.Errorf("%v with sure heights, %v by eye", sure, eye)
	}
}
