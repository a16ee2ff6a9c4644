package trials

import (
	"flag"
	"fmt"
	"slices"
	"strconv"
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
	const form = "%-3v %-10v %2v %2v %5v | %5.5v %5.5v %5.5v %5.5v | %5.5v %5.5v | %5.5v | %5.5v %5.5v | %5.5v %5.5v"
	t.Logf(form, "law", "knows", "n", "h", "feeds", "fcast", "five", "therm", "floor", "ratio", "+-", "told", "in80", "+-", "width", "bias")
	var rows, hopeless, beats, holds, both int
	worst, worstName := 0.0, ""
	for l, law := range Laws() {
		for _, knows := range []Knows{Nothing, Room, Readings, Log} {
			for _, looks := range []int{0, 1, 3, 8} {
				c := Case{Law: law, Knows: knows, Looks: looks}
				name := fmt.Sprint(l+1, " ", knows, " ", looks)
				if !slices.ContainsFunc(strings.Split(*only, ","), func(p string) bool { return strings.HasPrefix(name, p) }) {
					continue
				}
				for h, s := range c.Run(*seed, *cultures, 16) {
					r := func(v float64, digits int) string { return strconv.FormatFloat(v, 'f', digits, 64) }
					t.Logf(form, l+1, knows, looks, At[h], s.Feedings, r(s.Forecast, 0), r(s.FiveRead, 0), r(s.ThermRead, 0), r(s.Floor, 0),
						r(s.Ratio(), 2), r(s.RatioSE, 2), r(s.Forecast/s.Told(), 2), r(100*s.Inside, 0), r(100*s.InsideSE, 1), r(s.Width, 0), r(s.Bias, 0))
					rows++
					if s.Holds() {
						holds++
					}
					if s.Hopeless() {
						hopeless++
						continue
					}
					if s.Beats() {
						beats++
					}
					if s.Beats() && s.Holds() {
						both++
					}
					if s.Ratio() > worst {
						worst, worstName = s.Ratio(), fmt.Sprintf("law %s looks, after %.0f h: off by %.0f min, the simple rule by %.0f, %.0f %% inside", name, At[h], s.Forecast, s.Simple(), 100*s.Inside)
					}
				}
			}
		}
	}
	t.Logf("%d rows; in %d one who knows the law is off by more than 0.8 of the simple rule; in %d of the others the forecast is off by at most that", rows, hopeless, beats)
	t.Logf("the 80 %% interval holds 76 to 84 %% in %d of all rows; both in %d", holds, both)
	t.Logf("worst, %.2f: %s", worst, worstName)
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
