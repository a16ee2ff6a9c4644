package trials

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"twinloaf/journal/ferment"
	"twinloaf/journal/jar"
	"twinloaf/journal/journaltest/race"
)

var dense = flag.Int("dense", race.Cases(4, 1), "cultures of each law whose jar is photographed")

// photographed is what pictures of a jar, one each five minutes, tell of a feeding in so many
// hours: a rise that is right to 0.8 % of the first height, as made-up series of
// pictures come out (see the tests of journal/jar), taken together as the journal does.
func photographed(rng *rand.Rand, f Feeding, until float64) ferment.Course {
	c := f.Course
	c.Readings = nil
	const sd = 0.008
	var curve jar.Curve
	for h := 1.0 / 12; h <= until; h += 1.0 / 12 {
		curve.Points = append(curve.Points, jar.Point{At: c.Feeding.At.Add(hours(h)), Rise: 1 + at(f.heights, h) + sd*rng.NormFloat64(), SD: sd})
	}
	for _, r := range curve.Readings(20 * time.Minute) {
		c.Readings = append(c.Readings, ferment.Reading{At: r.At, Rise: ferment.Rise(r.Rise), SD: r.SD})
	}
	return c
}

// looked is what two looks at the jar tell in the same time.
func looked(rng *rand.Rand, f Feeding) ferment.Course {
	c := f.Course
	c.Readings = nil
	for _, h := range []float64{1, 2} {
		rise := at(f.heights, h)
		rise += rng.NormFloat64() * (0.03 + 0.03*rise)
		c.Readings = append(c.Readings, ferment.Reading{At: c.Feeding.At.Add(hours(h)), Rise: ferment.Rise(math.Max(0.5, math.Round(20*(1+rise))/20))})
	}
	return c
}

// Two hours after a feeding the peak is foretold once from pictures of the jar and once
// from two readings, for the same feedings of cultures that were read three times a day
// before, and once more from pictures where all feedings before were photographed, too, until
// they had fallen. What a jar does in its first two hours tells little of what is peculiar to a
// feeding, however closely it is looked at; what pictures tell is the whole form of the rise,
// and that the next forecasts have from them. 768 feedings: 28 minutes off from two readings, 29
// from pictures of these two hours alone, 23 with all feedings before in pictures.
//
// That is no fault of how pictures are weighed. On 192 of these feedings it was 28.3 minutes with
// no look at all, 27.8 with two readings and 28.4 with pictures, before a forecast knew what it now
// does of ratios; trusting the form of our curves
// in the beginning of a rise two and a half times as much, so that pictures there say more, makes
// it 28.9, and more still, 34.3; and a line fitted by law, on the other cultures of it, to what
// the forecast without a look was off by, on the heights at one and two hours of the pictures,
// gives 31.8, on no heights 29.1. By hand:
// -run Photographed -v -dense 16
func TestForecastsFromAPhotographedJar(t *testing.T) {
	var all [3][]float64
	for _, law := range Laws() {
		c := Case{Law: law, Knows: Readings, Looks: 3}
		var off [3][]float64
		var inside [3]int
		for k := range *dense {
			rng := rand.New(rand.NewPCG(7, uint64(k)))
			forecaster := ferment.NewForecaster(ferment.UsualAssumptions(), nil)
			used := ferment.NewForecaster(ferment.UsualAssumptions(), nil) // to pictures
			for i, f := range c.Diary(rng, lived+8) {
				if i >= lived && f.Peak > 2.2 {
					now := photographed(rng, f, 2)
					for way, course := range []ferment.Course{looked(rng, f), now, now} {
						by := []*ferment.Forecaster{forecaster, forecaster, used}[way]
						p, err := by.Predict(course, f.Course.Feeding.At.Add(hours(2)))
						if err != nil {
							t.Fatal(err)
						}
						truth := f.Course.Feeding.At.Add(hours(f.Peak))
						off[way] = append(off[way], math.Abs(p.Peak.Mid.Sub(truth).Minutes()))
						if !truth.Before(p.Peak.Low) && !truth.After(p.Peak.High) {
							inside[way]++
						}
					}
				}
				forecaster.Learn(f.Course)
				used.Learn(photographed(rng, f, max(8, 1.3*f.Peak)))
			}
		}
		n := float64(max(1, len(off[0])))
		t.Logf("%-12s %3d feedings: two readings off by %3.0f min (%.0f %% inside), pictures by %3.0f min (%.0f %%), pictures of all before, too, by %3.0f min (%.0f %%)", law.Name, len(off[0]),
			median(off[0]), 100*float64(inside[0])/n, median(off[1]), 100*float64(inside[1])/n, median(off[2]), 100*float64(inside[2])/n)
		for way := range all {
			all[way] = append(all[way], off[way]...)
		}
	}
	t.Logf("all: two readings %.0f min, pictures %.0f min, pictures of all before, too, %.0f min", median(all[0]), median(all[1]), median(all[2]))
	if !race.Enabled && (median(all[1]) > 1.15*median(all[0]) || median(all[2]) > 0.95*median(all[0])) { // one culture says nothing of that
		t.Errorf("off by %.0f min from two readings, %.0f from pictures, %.0f with those before in pictures, too", median(all[0]), median(all[1]), median(all[2]))
	}
}
