package bulk

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
)

var mixed = time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)

func hour(h float64) time.Time { return mixed.Add(time.Duration(h * float64(time.Hour))) }

func usual() Dough {
	return Dough{ID: "1", Culture: "Gorse", Inoculation: 15, Salt: 2, Grams: 1750, Began: mixed, Dough: []Temp{{mixed, 25}}, Air: []Temp{{mixed, 25}}}
}

func end(t interface {
	Helper()
	Fatal(...any)
}, f *Forecaster, d Dough, now time.Time) Forecast {
	t.Helper()
	out, err := f.End(d, now)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// The first dough of a kitchen that has written down nothing: at 20 to 23 °C a naturally
// leavened dough wants 6 to 8 hours to double (G. Guilbert's notes for bakers, breadnz.com,
// "Bulk fermentation"). At 21.5 °C, with the quarter of the flour in the levain that is
// usual there, it must stand at about double then.
func TestFirstDough(t *testing.T) {
	d := usual()
	d.Inoculation, d.Dough, d.Air = 28, []Temp{{mixed, 21.5}}, []Temp{{mixed, 21.5}}
	got := end(t, Learn(nil), d, hour(7))
	if got.Now < 1.6 || got.Now > 2.4 {
		t.Errorf("after seven hours it stands at %.2f", got.Now)
	}
	if got.Learned != 0 || got.Ends != 0 {
		t.Errorf("it says that it has learned from %d", got.Learned)
	}
	wide := end(t, Learn(nil), usual(), mixed)
	if h := wide.End.High.Sub(wide.End.Low).Hours(); h < 2 || h > 8 {
		t.Errorf("of a first dough it is sure to %.1f h", h)
	}
}

// What is written down of later hours changes nothing of what is told now.
func TestNothingLaterIsKnown(t *testing.T) {
	d := usual()
	before := end(t, Learn(nil), d, hour(2))
	d.Rises = []Rise{{At: hour(3), Times: 1.9}}
	d.Dough = append(d.Dough, Temp{hour(2.5), 30})
	d.Ended, d.Score = hour(4), 9
	if after := end(t, Learn(nil), d, hour(2)); after != before {
		t.Errorf("told %+v, and with what came later %+v", before, after)
	}
	if _, err := Learn(nil).End(Dough{}, mixed); !errors.Is(err, ErrNotBegun) {
		t.Errorf("of a dough that was not mixed: %v", err)
	}
}

// Warmer, with more levain, or seen to be further on, it is over sooner; and whatever is
// known, the interval is in order and not before the time it was told at.
func TestForecastProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	past, _ := kitchen(rng, steady, 2, 2)
	f := Learn(past)
	lasts := func(d Dough, now time.Time) time.Duration { return end(t, f, d, now).End.Mid.Sub(now) }
	rapid.Check(t, func(t *rapid.T) {
		d := usual()
		d.Culture = rapid.SampledFrom([]string{"0", "1", "new"}).Draw(t, "culture")
		d.Inoculation = rapid.Float64Range(4, 40).Draw(t, "inoculation")
		warm := rapid.Float64Range(17, 26).Draw(t, "warmth")
		d.Dough, d.Air = []Temp{{mixed, warm}}, []Temp{{mixed, warm}}
		told := end(t, f, d, mixed)
		if !told.End.Low.Before(told.End.Mid) || !told.End.Mid.Before(told.End.High) || told.RiseLow >= told.Rise || told.Rise >= told.RiseHigh {
			t.Fatalf("out of order: %+v", told)
		}
		warmer := d
		warmer.Dough, warmer.Air = []Temp{{mixed, warm + 1}}, []Temp{{mixed, warm + 1}}
		if got := end(t, f, warmer, mixed); !got.End.Mid.Before(told.End.Mid) {
			t.Errorf("warmer by a degree it is over at %v, not before %v", got.End.Mid, told.End.Mid)
		}
		more := d
		more.Inoculation *= 1.3
		if got := end(t, f, more, mixed); !got.End.Mid.Before(told.End.Mid) {
			t.Errorf("with more levain it is over at %v, not before %v", got.End.Mid, told.End.Mid)
		}
		// A reading well below what is expected makes it last, one well above hurries it.
		h := rapid.Float64Range(0.4, 0.9).Draw(t, "share") * told.End.Mid.Sub(mixed).Hours()
		behind, ahead := d, d
		expects := end(t, f, d, hour(h)).Now - 1
		behind.Rises, ahead.Rises = []Rise{{At: hour(h), Times: 1 + expects*0.6}}, []Rise{{At: hour(h), Times: 1 + expects*1.6}}
		if a, b, c := lasts(ahead, hour(h)), lasts(d, hour(h)), lasts(behind, hour(h)); !(a < b && b < c) {
			t.Errorf("after %.1f h it lasts %v more, and %v and %v seen ahead and behind", h, b, a, c)
		}
		if got := end(t, f, behind, hour(h)); !got.Overdue && got.End.Low.Before(hour(h)) {
			t.Errorf("told at %v, it is over at %v", hour(h), got.End.Low)
		}
	})
}

// A reading near the end says more than none, and a dough that has risen further than the
// baker ever lets it is said to be overdue.
func TestReadingsTell(t *testing.T) {
	past, _ := kitchen(rand.New(rand.NewPCG(2, 5)), growing, 3, 2)
	f := Learn(past)
	d := usual()
	d.Culture = "0"
	blind := end(t, f, d, hour(2))
	d.Rises = []Rise{{At: hour(2), Times: 1.3}}
	seen := end(t, f, d, hour(2))
	if w, v := blind.End.High.Sub(blind.End.Low), seen.End.High.Sub(seen.End.Low); v >= w {
		t.Errorf("without a reading it is sure to %v, with one to %v", w, v)
	}
	d.Rises = append(d.Rises, Rise{At: hour(3), Times: 2.6})
	if got := end(t, f, d, hour(3)); !got.Overdue || got.Now < got.Rise {
		t.Errorf("risen far beyond it is %+v", got)
	}
}

// It took from 15:39 to 20:05, as a clock shows them, however many seconds there were.
func TestABulkTookWhatLiesBetweenTheMinutesShown(t *testing.T) {
	at := func(h, m, s int) time.Time { return time.Date(2026, 2, 28, h, m, s, 0, time.UTC) }
	m := Miss{Began: at(15, 39, 50), Ended: at(20, 5, 10), Told: Span{Low: at(19, 0, 0), Mid: at(20, 0, 0), High: at(21, 0, 0)}}
	if got := m.Line().String(); !strings.Contains(got, "it took 4 h 26 min.") {
		t.Errorf("it says %q", got)
	}
}

// The rise at which bulks of good bread ended counts for more than that of poor bread.
func TestWhatCameOfIt(t *testing.T) {
	bulks := func(good, poor int) []Dough {
		var out []Dough
		for i := range 12 {
			d := usual()
			d.Began = mixed.AddDate(0, 0, -7*(i+1))
			d.Dough, d.Air = []Temp{{d.Began, 25}}, nil
			d.Ended = d.Began.Add(5 * time.Hour)
			rise, score := 1.4, good
			if i%2 == 0 {
				rise, score = 1.9, poor
			}
			d.Rises, d.Score = []Rise{{At: d.Ended, Times: rise}}, score
			out = append(out, d)
		}
		return out
	}
	low, high := end(t, Learn(bulks(9, 2)), usual(), mixed), end(t, Learn(bulks(2, 9)), usual(), mixed)
	if !(low.Rise < high.Rise-0.1) || low.Ends != 12 {
		t.Errorf("bread was better at 1.4: %.2f; at 1.9: %.2f (of %d)", low.Rise, high.Rise, low.Ends)
	}
}

// A style of bread that is shaped sooner is foretold sooner, in a kitchen where others are
// not, and at a lower rise.
func TestStylesAreToldApart(t *testing.T) {
	var past []Dough
	for i := range 20 {
		d := usual()
		d.Began = mixed.AddDate(0, 0, -4*(i+1))
		d.Dough, d.Air, d.Style = []Temp{{d.Began, 25}}, nil, "loaf"
		hours, rise := 5.0, 1.7
		if i%2 == 0 {
			d.Style, hours, rise = "rye tin", 1.75, 1.3
		}
		d.Ended = d.Began.Add(time.Duration(hours * float64(time.Hour)))
		d.Rises = []Rise{{At: d.Ended, Times: rise}}
		past = append(past, d)
	}
	f := Learn(past)
	for style, want := range map[string]float64{"loaf": 5, "rye tin": 1.75} {
		d := usual()
		d.Style = style
		told := end(t, f, d, mixed)
		if h := told.End.Mid.Sub(mixed).Hours(); math.Abs(h-want) > 0.2*want || told.End.High.Sub(told.End.Low).Hours() > want {
			t.Errorf("%s: foretold %.2f h (%v to %v), want %v", style, h, told.End.Low, told.End.High, want)
		}
	}
	rye := usual()
	rye.Style = "rye tin"
	if a, b := end(t, f, rye, mixed).Rise, end(t, f, usual(), mixed).Rise; a > 1.45 || b < a {
		t.Errorf("rye is shaped at %.2f, others at %.2f", a, b)
	}
}

// The back-test replays what was known, counts what it says, and is what forecasts made at
// the time were.
func TestBack(t *testing.T) {
	past, _ := kitchen(rand.New(rand.NewPCG(3, 1)), moody, 1, 2)
	b := Back(past, 10, AsMixed)
	if len(b.Misses) != 10 || b.RuleMisses != 10 {
		t.Fatalf("%d bulks, %d by the rule", len(b.Misses), b.RuleMisses)
	}
	inside := 0
	for i, m := range b.Misses {
		d := past[len(past)-10+i]
		f := end(t, Learn(past[:len(past)-10+i]), d, d.Began.Add(AsMixed))
		if f.End != m.Told || m.Off != d.Ended.Sub(f.End.Mid) {
			t.Errorf("bulk %d: told %v, and then %v", i, m.Told, f.End)
		}
		if m.Inside() {
			inside++
		}
	}
	if b.Inside != inside || b.Median <= 0 || b.Rule <= 0 {
		t.Errorf("%d inside of %d, off by %v, the rule by %v", b.Inside, inside, b.Median, b.Rule)
	}
	if got := Back(nil, 10, 0); len(got.Misses) != 0 || got.Median != 0 {
		t.Errorf("of nothing: %+v", got)
	}
}

// A dough between two readings is as warm as the line between them, one without air stays,
// and one in a warm room draws near to it, a large one more slowly.
func TestWarmth(t *testing.T) {
	d := Dough{Began: mixed, Grams: 1000, Dough: []Temp{{mixed, 20}, {hour(2), 24}}}
	w := warmthOf(d)
	if want := (20*4.0/2+24*4.0/2)/4 + (24-22)*2.0/4; math.Abs(w.mean-23) > 0.1 {
		t.Errorf("over four hours it is %.2f °C in the mean, want about 23 (%v)", w.mean, want)
	}
	flat := Dough{Began: mixed, Dough: []Temp{{mixed, 25}}}
	if got := warmthOf(flat).at(6); math.Abs(got-6) > 1e-9 {
		t.Errorf("six hours at 25 °C are %v hours of thermal time", got)
	}
	small, big := flat, flat
	small.Grams, big.Grams = 700, 4000
	small.Air, big.Air = []Temp{{mixed, 18}}, []Temp{{mixed, 18}}
	if a, b := warmthOf(small).mean, warmthOf(big).mean; !(18 < a && a < b && b < 25) {
		t.Errorf("in a room of 18 °C a small dough is at %.1f in the mean, a large one at %.1f", a, b)
	}
}

func BenchmarkLearn(b *testing.B) {
	past, _ := kitchen(rand.New(rand.NewPCG(1, 1)), growing, 3, 2)
	for b.Loop() {
		Learn(past)
	}
}
