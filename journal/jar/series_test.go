package jar_test

import (
	"context"
	"flag"
	"fmt"
	"image"
	"math"
	"slices"
	"testing"
	"time"

	"twinloaf/journal/jar"
	"twinloaf/journal/jar/jartest"
	"twinloaf/journal/journaltest/race"
)

// The table of made-up series, by hand:
//
//	go test ./journal/jar -run MadeUpSeries -v -series 40 -pictures 300
var (
	series   = flag.Int("series", race.Cases(3, 1), "how many series to make up")
	from     = flag.Int("from", 0, "the number of the first series")
	pictures = flag.Int("pictures", 60, "how many pictures the longest has; the shortest has 60")
)

// followed is the curve of a made-up series.
func followed(t *testing.T, s *jartest.Scene, fixed map[int]float64) jar.Curve {
	t.Helper()
	load := func(_ context.Context, i int) (*image.RGBA, error) { return s.Picture(i), nil }
	curves, err := jar.Follow(t.Context(), s.Times(), load, []jar.Job{{Marks: s.Marks(), Fixed: fixed}})
	if err != nil {
		t.Fatal(err)
	}
	return curves[0]
}

// A judgement is how a curve stands to the truth.
type judgement struct {
	median, worst float64 // of the errors, in first heights
	inside        float64 // share of errors within two standard deviations
	lost, flagged int     // pictures on which nobody could tell, and those of them that it says so of
	given         int     // pictures that it gave up though it could be told
	peakOff       float64 // in pictures; not a number where there is no one peak
	peakHeld      bool    // it is within what is stated of it
	peakUnseen    bool    // it was while no height could be told
	peakTold      bool    // that it may have been then is said, and it is placed then, to one picture
}

func judge(s *jartest.Scene, c jar.Curve) judgement {
	var j judgement
	var errs []float64
	for i, p := range c.Points {
		truth := s.Rise(i)
		switch {
		case s.Lost(i):
			j.lost++
			if p.Lost != jar.Kept {
				j.flagged++
			}
			continue
		case p.Lost != jar.Kept:
			j.given++
			continue
		}
		e := math.Abs(p.Rise - truth)
		errs = append(errs, e)
		if e <= 2*p.SD {
			j.inside++
		}
	}
	if len(errs) > 0 {
		j.inside /= float64(len(errs))
		slices.Sort(errs)
		j.median, j.worst = errs[len(errs)/2], errs[len(errs)-1]
	}
	j.peakOff = math.NaN()
	if p, ok := c.Peak(); ok && s.Course != jartest.Stirred && s.Course != jartest.Never {
		truth := s.Start.Add(s.ToPeak)
		j.peakOff = p.At.Sub(truth).Hours() / s.Every.Hours()
		j.peakHeld = !truth.Before(p.From) && !truth.After(p.To)
		var from, to time.Time
		from, to, j.peakUnseen = gapAt(c, truth, s.Every)
		j.peakTold = p.Unseen && !p.At.Before(from.Add(-s.Every)) && !p.At.After(to.Add(s.Every))
	}
	return j
}

// gapAt is from the last height before a moment to the first after, and whether more than
// one picture between them is lost.
func gapAt(c jar.Curve, at time.Time, every time.Duration) (from, to time.Time, gap bool) {
	for _, p := range c.Points {
		switch {
		case p.Lost != jar.Kept:
		case !p.At.After(at):
			from = p.At
		case to.IsZero():
			to = p.At
		}
	}
	return from, to, !from.IsZero() && !to.IsZero() && to.Sub(from) > 2*every
}

// Made-up series with everything that happens in a kitchen: the height is known to
// 1 % of the first height in the middle, in each series; pictures on which nobody could
// tell are given up, few others are; the time of a peak that was seen is known to one picture, and
// one that was while nothing could be told lies in that gap, and is said to be an estimate.
//
// 40 series of 60 to 300 pictures (0 to 39, on some of which the method was set): at most 0.99 % in the
// middle (34; of most 0.2 %), the worst single height 2.0 % off (27), 348 of 348 lost pictures told, 21
// of 7053 others given up, 23 of 23 peaks that were seen within one picture (0.7 at the most: 37), three in the
// dark (8, 15, 36), each placed in its gap and told. 26 others, which nothing was set on (300 to 325): at most
// 0.35 % in the middle, the worst single height 1.2 % off, 223 of 223 told, 9 of 4568 others given up, 14 of 14
// peaks that were seen within one picture, three in the dark (302, 310, 316), placed and told. All 43 are within
// what is stated of them. That a film is not held for the surface rests on dough whose texture moves with it;
// of one that hangs on to the glass, a peak may be found one or two pictures late.
func TestMadeUpSeries(t *testing.T) {
	var lost, flagged, given, all, seen, late, unseen, told, held int
	for seed := *from; seed < *from+*series; seed++ {
		frames := 60 + seed*37%max(1, *pictures-59)
		s := jartest.Random(uint64(seed), frames)
		j := judge(s, followed(t, s, nil))
		line := fmt.Sprintf("series %2d, %3d pictures, course %d, peak %.2f: median error %.2f %%, worst %.1f %%, within 2 SD %.0f %%, lost %d of %d told, %d given up, peak off by %.1f",
			seed, frames, s.Course, s.Peak, 100*j.median, 100*j.worst, 100*j.inside, j.flagged, j.lost, j.given, j.peakOff)
		if j.peakUnseen {
			line += fmt.Sprintf(", not seen, told: %v", j.peakTold)
		}
		t.Log(line)
		if j.median > 0.01 {
			t.Errorf("far off: %s", line)
		}
		lost, flagged, given, all = lost+j.lost, flagged+j.flagged, given+j.given, all+frames
		if math.IsNaN(j.peakOff) {
			continue
		}
		if j.peakHeld {
			held++
		}
		switch {
		case !j.peakUnseen:
			if seen++; math.Abs(j.peakOff) > 1 {
				late++
			}
		default:
			if unseen++; j.peakTold {
				told++
			}
		}
	}
	t.Logf("%d of %d lost pictures told; %d of %d others given up; %d of %d peaks that were seen more than a picture off; %d of %d that were not told to be in their gap; %d of all within what is stated",
		flagged, lost, given, all-lost, late, seen, told, unseen, held)
	if 20*flagged < 19*lost || 50*given > all || 20*late > seen || told < unseen || 10*held < 9*(seen+unseen) {
		t.Errorf("too much of it")
	}
}

// What hardly rises has no peak, and what still rises has none yet.
func TestNoPeakIsInvented(t *testing.T) {
	never := plain(20)
	never.Course = jartest.Never
	rising := plain(20)
	rising.ToPeak = 4 * time.Hour
	for name, s := range map[string]*jartest.Scene{"never": never, "rising": rising} {
		if p, ok := followed(t, s, nil).Peak(); ok {
			t.Errorf("%s: a peak %+v", name, p)
		}
	}
}
