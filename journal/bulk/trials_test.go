package bulk

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"
)

var (
	large = flag.Bool("table", false, "try many kitchens, for the table of the forecasts")
	seed  = flag.Uint64("seed", 0, "of the kitchens")
)

// kitchen makes a year and a half of one kitchen's doughs by a law: two cultures, rooms of
// 18 to 27 °C by the season, levains of 6 to 30 % of the flour. reads rises of each are
// noted before the end, and the end's when any are; warmths says what is known of how warm
// it was: 0 nothing, 1 the dough after mixing, 2 the room as well. temps are the true
// temperatures of each, by hours since mixing.
func kitchen(rng *rand.Rand, born func(*rand.Rand) nature, reads, warmths int) (all []Dough, temps []func(float64) float64) {
	cultures := []nature{born(rng), born(rng)}
	aim := 0.5 + 0.3*rng.Float64()
	for i := range 40 {
		began := time.Date(2025, 1, 3, 9, 0, 0, 0, time.UTC).AddDate(0, 0, 13*i)
		room := 22.2 - 3.2*math.Cos(2*math.Pi*float64(began.YearDay())/365) + 0.9*rng.NormFloat64()
		mixed := 24.5 + 1.3*rng.NormFloat64()
		draw := 0.25 + 0.15*rng.Float64()
		temp := func(h float64) float64 {
			return room + (mixed-room)*math.Exp(-draw*h) + 0.5*math.Sin(h*2*math.Pi/24)
		}
		which := rng.IntN(2)
		r := recipe{inoculation: 6 + 24*rng.Float64(), salt: 2 + 0.15*rng.NormFloat64(), wholegrain: 60 * rng.Float64(), temp: temp}
		curve := cultures[which](r)
		stop := aim * scatter(rng, 0.12)
		end := slices.IndexFunc(curve, func(v float64) bool { return v >= stop })
		if end < 0 {
			continue
		}
		hours := float64(end) * lawStep
		d := Dough{ID: fmt.Sprint(i), Culture: fmt.Sprint(which), Inoculation: r.inoculation, Salt: r.salt, Wholegrain: r.wholegrain,
			Grams: 1750, Began: began, Ended: began.Add(time.Duration(hours * float64(time.Hour)))}
		at := func(h float64) time.Time { return began.Add(time.Duration(h * float64(time.Hour))) }
		read := func(h float64) {
			seen := 1 + curve[int(h/lawStep)] + 0.04*rng.NormFloat64()
			d.Rises = append(d.Rises, Rise{At: at(h), Times: math.Max(1, math.Round(seen*20)/20)})
		}
		for k := range reads {
			read(hours * (float64(k) + 1) / (float64(reads) + 0.7))
		}
		if reads > 0 {
			read(hours)
		}
		if warmths > 0 {
			d.Dough = []Temp{{at(0.2), math.Round(10*(temp(0.2)+0.3*rng.NormFloat64())) / 10}}
		}
		if warmths > 1 {
			d.Air = []Temp{{at(0), math.Round(room)}}
		}
		all, temps = append(all, d), append(temps, temp)
	}
	return all, temps
}

// byThermal is the simple rule of thermal time: the mean of the last five bulks, each hour
// counted double for ten degrees. It is given the true temperatures of every past bulk,
// and of this one up to the hour; from then on the last one stays.
func byThermal(past []Dough, temps []func(float64) float64, temp func(float64) float64, after float64) float64 {
	sum, n := 0.0, 0
	for i := max(0, len(past)-5); i < len(past); i++ {
		for h := 0.0; h < past[i].Ended.Sub(past[i].Began).Hours(); h += lawStep {
			sum += lawStep * math.Pow(2, (temps[i](h)-25)/10)
		}
		n++
	}
	want, h := sum/float64(n), 0.0
	for got := 0.0; got < want && h < lawEnd; h += lawStep {
		got += lawStep * math.Pow(2, (temp(math.Min(h, after))-25)/10)
	}
	return h
}

// tally sums forecasts up.
type tally struct {
	off, five, thermal []float64
	inside, n          int
}

func (t *tally) line() string {
	mid := func(v []float64) float64 { return 60 * median(slices.Clone(v)).Hours() }
	o, f, th := mid(t.off), mid(t.five), mid(t.thermal)
	return fmt.Sprintf("%3.0f min, last five %3.0f (%.2f), thermal time %3.0f (%.2f), inside %2.0f %% of %d", o, f, o/f, th, o/th, 100*float64(t.inside)/float64(t.n), t.n)
}

func (t *tally) ratio() float64 {
	best := min(median(slices.Clone(t.five)), median(slices.Clone(t.thermal)))
	return float64(median(slices.Clone(t.off))) / float64(best)
}

func (t *tally) cover() float64 { return float64(t.inside) / float64(t.n) }

// TestForecastsBesideRules foretells bulks of four laws that the package does not share,
// at mixing, after two hours and after four, with what was known then, beside the mean of
// the last five bulks and the rule of thermal time. What the package takes for granted was
// set on the first three laws; only how firmly the scale of the intervals is believed
// (scaleKnown) was set on all four, on the kitchens of seed 0.
//
// Asked is, of each law and at each hour, to be off by no more than 0.8 of the better rule
// in the median, over all ways of keeping the record; and over all that the interval of 80 %
// holds 76 to 84 % of the time. With the flag -table, which prints it, and seeds 7 and 8, on
// which nothing was set, it is off by 0.63 of that rule at the worst, holds 80 % of all, 76
// to 87 % of each law at each hour, and 79 to 83 % of the last. A way of keeping the record
// by itself is too few to tell (some 50 bulks, 95 of 100 times within 11 of what it holds);
// where one rise and no room is noted the rule of thermal time, which is given the true
// temperatures, may be the better.
func TestForecastsBesideRules(t *testing.T) {
	kitchens := 3
	if *large {
		kitchens = 8
	}
	hours := []float64{0.25, 2, 4}
	var all tally
	var table []string
	for li, law := range laws {
		ofLaw := map[float64]*tally{0.25: {}, 2: {}, 4: {}}
		for _, reads := range []int{0, 1, 3} {
			for _, warmths := range []int{1, 2} {
				tallies := map[float64]*tally{0.25: {}, 2: {}, 4: {}}
				for k := range kitchens {
					rng := rand.New(rand.NewPCG(*seed*1000+uint64(li*100+reads*10+warmths), uint64(k)))
					doughs, temps := kitchen(rng, law.born, reads, warmths)
					for i := 12; i < len(doughs); i += 4 {
						f := Learn(doughs[:i])
						for _, after := range hours {
							foretell(t, f, doughs, temps, i, after, tallies[after], ofLaw[after], &all)
						}
					}
				}
				for _, after := range hours {
					table = append(table, fmt.Sprintf("%-34s %d rises, %d warmths, %4.2f h: %s", law.name, reads, warmths, after, tallies[after].line()))
				}
			}
		}
		for _, after := range hours {
			table = append(table, fmt.Sprintf("%-34s all together, %4.2f h: %s", law.name, after, ofLaw[after].line()))
			if ofLaw[after].ratio() > 0.8 {
				t.Errorf("%s, after %v h: %s", law.name, after, ofLaw[after].line())
			}
		}
	}
	if c := all.cover(); c < 0.76 || c > 0.84 {
		t.Errorf("the intervals hold %.0f %% of the time", 100*c)
	}
	t.Logf("\n%s\nall: %s", strings.Join(table, "\n"), all.line())
}

// foretell adds one forecast to tallies, if the bulk was still on then.
func foretell(t *testing.T, f *Forecaster, doughs []Dough, temps []func(float64) float64, i int, after float64, to ...*tally) {
	d := doughs[i]
	took := d.Ended.Sub(d.Began).Hours()
	if took <= after+0.3 {
		return
	}
	told, err := f.End(d, d.Began.Add(time.Duration(after*float64(time.Hour))))
	if err != nil {
		t.Fatal(err)
	}
	five := 0.0
	for _, p := range doughs[i-5 : i] {
		five += p.Ended.Sub(p.Began).Hours() / 5
	}
	for _, s := range to {
		s.off = append(s.off, math.Abs(told.End.Mid.Sub(d.Ended).Hours()))
		s.five = append(s.five, math.Abs(math.Max(five, after)-took))
		s.thermal = append(s.thermal, math.Abs(math.Max(byThermal(doughs[:i], temps[:i], temps[i], after), after)-took))
		s.n++
		if !d.Ended.Before(told.End.Low) && !d.Ended.After(told.End.High) {
			s.inside++
		}
	}
}
