package trials

import (
	"flag"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"
)

var (
	table    = flag.Bool("table", false, "print the whole table")
	only     = flag.String("only", "", "only cases whose line begins with one of these, as in \"1 log 8,2 room\"")
	seed     = flag.Uint64("seed", 1, "of the table's cultures")
	cultures = flag.Int("cultures", 24, "cultures in each case of the table")
)

// The table of all laws and diaries.
func TestTable(t *testing.T) {
	if !*table {
		t.Log("not asked for: -table prints it")
		return
	}
	began := time.Now()
	t.Logf("%-7s %-10s %2s %2s %5s | %5s %5s %5s %5s | %5s %5s | %5s %5s | %4s %5s %5s",
		"law", "knows", "n", "h", "feeds", "fcast", "five", "therm", "floor", "ratio", "told", "5told", "ttold", "in80", "width", "bias")
	for l, law := range Laws() {
		for _, knows := range []Knows{Nothing, Room, Readings, Log} {
			for _, looks := range []int{0, 1, 3, 8} {
				c := Case{Law: law, Knows: knows, Looks: looks}
				name := fmt.Sprint(l+1, " ", knows, " ", looks)
				if !slices.ContainsFunc(strings.Split(*only, ","), func(p string) bool { return strings.HasPrefix(name, p) }) {
					continue
				}
				for h, s := range c.Run(*seed, *cultures, 16) {
					t.Logf("%-7d %-10s %2d %2.0f %5d | %5.0f %5.0f %5.0f %5.0f | %5.2f %5.2f | %5.0f %5.0f | %4.0f %5.0f %5.0f", l+1, knows, looks, At[h], s.Feedings,
						s.Forecast, s.FiveRead, s.ThermRead, s.Floor, s.Forecast/s.Simple(), s.Forecast/s.Told(), s.FiveTold, s.ThermTold, 100*s.Inside, s.Width, s.Bias)
				}
			}
		}
	}
	t.Log(time.Since(began))
}

// A few cases of the table, small enough for every run: over them the forecast has to be
// off by no more than 0.8 of what the better of the simple rules is off by with the same
// diary, at every hour, and its interval has to hold about as often as it says.
func TestForecastsBeatTheSimpleRules(t *testing.T) {
	laws := Laws()
	var off, simple [len(At)]float64
	inside, feedings := 0.0, 0
	for _, c := range []Case{{laws[0], Log, 8}, {laws[1], Readings, 3}, {laws[2], Room, 1}} {
		for h, s := range c.Run(2, 4, 12) {
			t.Logf("%s, %s, %d looks, after %.0f h: off by %.0f min, the simple rules by %.0f and %.0f; %.0f %% inside", c.Law.Name, c.Knows, c.Looks, At[h], s.Forecast, s.FiveRead, s.ThermRead, 100*s.Inside)
			off[h], simple[h] = off[h]+s.Forecast, simple[h]+s.Simple()
			inside, feedings = inside+s.Inside*float64(s.Feedings), feedings+s.Feedings
		}
	}
	for h := range At {
		if !(off[h] <= 0.8*simple[h]) {
			t.Errorf("after %.0f h the forecasts were off by %.0f min in all, the simple rules by %.0f", At[h], off[h], simple[h])
		}
	}
	if share := inside / float64(feedings); share < 0.7 || share > 0.9 {
		t.Errorf("the 80 %% interval held %.0f %% of %d peaks", 100*share, feedings)
	}
}

// What the laws make is a jar: it rises, peaks within the day, and falls.
func TestLawsMakeJars(t *testing.T) {
	for _, law := range Laws() {
		c := Case{Law: law, Knows: Log, Looks: 8}
		var peaks, tall []float64
		for k := range uint64(30) {
			for _, f := range c.Diary(newRand(k), 12) {
				peaks = append(peaks, f.Peak)
				tall = append(tall, f.Height)
				if f.Peak < 1 || f.Peak > 26 || f.Height < 0.1 || f.Height > 8 {
					t.Errorf("%s: 1:%.1f peaks after %.1f h at %.2f", law.Name, (f.Dilution-1)/2, f.Peak, f.Height)
				}
			}
		}
		t.Logf("%s: median peak %.1f h, rise %.2f", law.Name, median(peaks), median(tall))
	}
}
