package trials

import (
	"math"
	"math/rand/v2"
	"time"

	"twinloaf/journal/ferment"
)

// Knows is what a baker writes down of the temperature.
type Knows int

// What is known of the temperature.
const (
	Nothing  Knows = iota // no thermometer
	Room                  // a glance at it at each feeding
	Readings              // that, and one with each look at the jar
	Log                   // a data logger beside the jar
)

var knowsWords = [...]string{"nothing", "room noted", "readings", "log"}

func (k Knows) String() string { return knowsWords[k] }

// A Case is one way of keeping a diary.
type Case struct {
	Law   Law
	Knows Knows
	// Looks is how many heights are read of each feeding. With none, the baker
	// only notes roughly when it stood highest, for the feedings that are past.
	Looks int
}

// A Feeding is one feeding as it truly went, beside what was written down of it.
type Feeding struct {
	Course   ferment.Course // everything that was written down
	Peak     float64        // true hours to the top
	Height   float64        // true rise over the mark there
	Dilution float64
	// Floor is the hour of the top as one would foretell it at each hour of [At] who knows
	// the law, the constants of the culture and of the kitchen, and the temperature up to
	// where the baker last wrote it down: all but what is peculiar to this feeding, and the
	// weather that nobody measured.
	Floor [len(At)]float64
	temp  func(h float64) float64 // true, by hours since the feeding
	// heights are the true rise over the mark, step by step.
	heights []float64
}

// kitchen is a made-up kitchen: a level of its own, a season, a day's swing and
// weather. It gives the temperature at every quarter of an hour.
type kitchen struct {
	start   time.Time
	temps   []float64
	weather []float64 // what of each is off the usual
}

// weatherKeeps is over how many hours the weather dies away.
const weatherKeeps = 30.0

const quarter = 0.25

func newKitchen(rng *rand.Rand, start time.Time, days int) *kitchen {
	k := &kitchen{start: start}
	level := 20 + 5*rng.Float64()
	season, phase := 2.5*rng.Float64(), 2*math.Pi*rng.Float64()
	swing, warmest := 0.5+1.7*rng.Float64(), 14+4*rng.Float64()
	weather, keep := 0.0, math.Exp(-quarter/weatherKeeps)
	for i := range days * 96 {
		h := float64(i) * quarter
		weather = keep*weather + 0.9*math.Sqrt(1-keep*keep)*rng.NormFloat64()
		k.temps = append(k.temps, level+season*math.Sin(2*math.Pi*h/24/365+phase)+
			swing*math.Cos(2*math.Pi*(h-warmest)/24)+weather)
		k.weather = append(k.weather, weather)
	}
	return k
}

// expected is the temperature that one expects at a time who knows the kitchen and every
// temperature until now; a zero now is for one who knows none.
func (k *kitchen) expected(now, t time.Time) float64 {
	if !now.IsZero() && !t.After(now) {
		return k.at(t)
	}
	of := func(t time.Time) float64 {
		return k.weather[min(max(int(t.Sub(k.start).Hours()/quarter), 0), len(k.weather)-1)]
	}
	usual := k.at(t) - of(t)
	if now.IsZero() {
		return usual
	}
	return usual + of(now)*math.Exp(-t.Sub(now).Hours()/weatherKeeps)
}

// measured is when the temperature was written down last, by a time; zero if never.
func (c Case) measured(f ferment.Course, by time.Time) time.Time {
	switch c.Knows {
	case Nothing:
		return time.Time{}
	case Log:
		return by
	}
	last := f.Feeding.At
	for _, r := range f.Readings {
		if r.Temp.Known && !r.At.After(by) {
			last = r.At
		}
	}
	return last
}

func (k *kitchen) at(t time.Time) float64 {
	x := t.Sub(k.start).Hours() / quarter
	i := min(max(int(x), 0), len(k.temps)-2)
	f := x - float64(i)
	return k.temps[i]*(1-f) + k.temps[i+1]*f
}

var begin = time.Date(2026, 2, 2, 0, 0, 0, 0, time.UTC)

// Diary lets a culture live for so many feedings, and writes down what the case
// says. The same rng gives the same diary.
func (c Case) Diary(rng *rand.Rand, feedings int) []Feeding {
	k := newKitchen(rng, begin, 2*feedings+4)
	nature := c.Law.Born(rng)
	usual := []float64{3, 3, 3, 5, 5, 9}[rng.IntN(6)]
	twice := rng.IntN(3) == 0
	when := begin.Add(8 * time.Hour)
	before := when.Add(-24 * time.Hour)
	last := 11.0 // hours after a feeding: until then the jar is looked at
	var out []Feeding
	for i := range feedings {
		fed := when.Add(time.Duration(rng.NormFloat64() * float64(50*time.Minute))).Round(5 * time.Minute)
		dilution := usual
		if rng.IntN(4) == 0 {
			dilution = []float64{2, 3, 5, 7, 9}[rng.IntN(5)]
		}
		f := Feeding{Dilution: dilution, temp: func(h float64) float64 { return k.at(fed.Add(hours(h))) }}
		rested := fed.Sub(before).Hours()
		heights := nature(rng, dilution, rested, f.temp)
		f.Peak, f.Height = Top(heights)
		f.heights = heights
		c.write(rng, &f, fed, heights, last)
		for i, at := range At {
			now := c.measured(f.Course, fed.Add(hours(at)))
			f.Floor[i], _ = Top(nature(nil, dilution, rested, func(h float64) float64 { return k.expected(now, fed.Add(hours(h))) }))
		}
		last = min(max(1.3*f.Peak, 8), 16)
		out = append(out, f)
		before = fed
		gap := 24 * time.Hour
		if twice && i%2 == 0 {
			gap = 11 * time.Hour
		} else if twice {
			gap = 13 * time.Hour
		} else if rng.IntN(8) == 0 {
			gap = 48 * time.Hour
		}
		when = when.Add(gap)
	}
	return out
}

// write puts down what the baker of this case writes down. A baker who knows the culture
// looks at it until somewhat after it was at its highest the last time.
func (c Case) write(rng *rand.Rand, f *Feeding, fed time.Time, heights []float64, last float64) {
	glance := func(h float64) ferment.Temperature {
		return ferment.Measured(ferment.Celsius(math.Round(2*(f.temp(h)+0.3*rng.NormFloat64())) / 2))
	}
	parts := ferment.Grams(f.Dilution-1) / 2
	f.Course.Feeding = ferment.Feeding{At: fed, Kept: 20, Flour: 20 * parts, Water: 20 * parts, Room: glance(0)}
	if c.Knows == Nothing {
		f.Course.Feeding.Room = ferment.Temperature{}
	}
	for i := range c.Looks {
		// One look in each of as many equal stretches of the day, at any minute of it.
		h := 0.5 + (last-0.5)*(float64(i)+rng.Float64())/float64(c.Looks)
		rise := at(heights, h)
		rise += rng.NormFloat64() * (0.03 + 0.03*rise)
		r := ferment.Reading{At: fed.Add(hours(h)), Rise: ferment.Rise(math.Max(0.5, math.Round(20*(1+rise))/20))}
		if c.Knows == Readings {
			r.Temp = glance(h)
		}
		f.Course.Readings = append(f.Course.Readings, r)
	}
	if c.Looks == 0 {
		h := f.Peak + 0.4*rng.NormFloat64()
		f.Course.Readings = append(f.Course.Readings, ferment.Reading{At: fed.Add(hours(math.Round(4*h) / 4)), Trend: ferment.TrendTop})
	}
	if c.Knows == Log {
		for h := 0.0; h <= 24; h += 0.5 {
			f.Course.Temps = append(f.Course.Temps, ferment.TempPoint{At: fed.Add(hours(h)), Temp: ferment.Celsius(f.temp(h) + 0.1*rng.NormFloat64())})
		}
	}
}

// hours turns a number of hours into a duration.
func hours(h float64) time.Duration { return time.Duration(h * float64(time.Hour)) }
