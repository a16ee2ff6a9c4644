//go:build yardstick && linux

package ferment

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os/exec"
	"slices"
	"strconv"
	"syscall"
	"testing"
	"time"
)

// BenchmarkBesideYardstick fits one jar here and with SciPy's curve_fit, one after the
// other, and sets the processor time of a fit, and of a whole forecast, beside it. It
// wants python3 with scipy, hence its build tag.
func BenchmarkBesideYardstick(b *testing.B) {
	const data, times = "../../testdata/ferment/jar_synthetic_data.csv", 201
	points := jar(b)
	a := UsualAssumptions()
	n := newNature(a, rand.New(rand.NewPCG(1, 2)))
	var past []Course
	for i := range 10 {
		c, _ := n.feed(i)
		past = append(past, c)
	}
	f := NewForecaster(a, past)
	next, peak := n.feed(10)
	for b.Loop() {
		out, err := exec.Command("/usr/bin/python3", "../../testdata/ferment/yardstick.py", data, strconv.Itoa(times)).Output()
		if err != nil {
			b.Fatalf("running the yardstick, which wants python3 with scipy: %v", err)
		}
		var theirs struct{ Seconds, A, Mu, Lag float64 }
		if err := json.Unmarshal(out, &theirs); err != nil {
			b.Fatal(err)
		}
		fit := processor(b, times, func() {
			got, err := FitRise(points)
			if err != nil {
				b.Fatal(err)
			}
			c := got.Best.Curve
			if math.Abs(c.A/theirs.A-1) > 1e-3 || math.Abs(c.Rate/theirs.Mu-1) > 1e-3 {
				b.Fatalf("fitted %+v, the yardstick %+v", c, theirs)
			}
		})
		forecast := processor(b, 21, func() {
			if _, err := f.Predict(next, next.Feeding.At.Add(hours(peak/2))); err != nil {
				b.Fatal(err)
			}
		})
		learning := processor(b, 5, func() { NewForecaster(a, past) })
		b.ReportMetric(1e3*fit, "fit-ms")
		b.ReportMetric(1e3*theirs.Seconds, "yardstick-ms")
		b.ReportMetric(fit/theirs.Seconds, "fit/yardstick")
		b.ReportMetric(1e3*forecast, "forecast-ms")
		b.ReportMetric(forecast/theirs.Seconds, "forecast/yardstick")
		b.ReportMetric(1e3*learning, "learning-ten-ms")
		b.ReportMetric(0, "ns/op") // of all together: it says nothing
	}
}

// processor is the middle processor time of a call, in seconds.
func processor(b *testing.B, times int, do func()) float64 {
	spent := func() float64 {
		var u syscall.Rusage
		if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
			b.Fatal(err)
		}
		return time.Duration(u.Utime.Nano() + u.Stime.Nano()).Seconds()
	}
	var all []float64
	for range times {
		began := spent()
		do()
		all = append(all, spent()-began)
	}
	slices.Sort(all)
	return all[len(all)/2]
}
