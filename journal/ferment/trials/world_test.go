package trials

import (
	"math"
	"math/rand/v2"
	"slices"
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
	// Learner lets one foretell, too, who knows the law and learns the rest.
	Learner bool
}

// A Feeding is one feeding as it truly went, beside what was written down of it.
type Feeding struct {
	Course   ferment.Course // everything that was written down
	Peak     float64        // true hours to the top
	Height   float64        // true rise over the mark there
	Dilution float64
	rested   float64 // hours since the feeding before
	oracle   oracle
	measured [len(At)]time.Time      // until when the temperature is known, at each hour of [At]
	temp     func(h float64) float64 // true, by hours since the feeding
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

// weatherSpread is how far the weather is off the usual, in °C, and weatherKeeps over how
// many hours it dies away.
const weatherSpread, weatherKeeps = 0.9, 30.0

const quarter = 0.25

func newKitchen(rng *rand.Rand, start time.Time, days int) *kitchen {
	k := &kitchen{start: start}
	usual := kitchenUsual(rng)
	weather, keep := 0.0, math.Exp(-quarter/weatherKeeps)
	for i := range days * 96 {
		weather = keep*weather + weatherSpread*math.Sqrt(1-keep*keep)*rng.NormFloat64()
		k.temps = append(k.temps, usual(float64(i)*quarter)+weather)
		k.weather = append(k.weather, weather)
	}
	return k
}

// kitchenUsual is how warm a kitchen usually is, by hours since its start.
func kitchenUsual(rng chance) func(h float64) float64 {
	level := 20 + 5*rng.Float64()
	season, phase := 2.5*rng.Float64(), 2*math.Pi*rng.Float64()
	swing, warmest := 0.5+1.7*rng.Float64(), 14+4*rng.Float64()
	return func(h float64) float64 {
		return level + season*math.Sin(2*math.Pi*h/24/365+phase) + swing*math.Cos(2*math.Pi*(h-warmest)/24)
	}
}

// drawn is a course of temperatures from a time on as one draws it who knows the kitchen and
// every temperature until another, by hours since the first.
func (k *kitchen) drawn(rng *rand.Rand, from, known time.Time) func(h float64) float64 {
	out := *k
	first := int(from.Sub(k.start).Hours() / quarter)
	n := min(first+int(horizon/quarter)+2, len(k.temps))
	out.start, out.temps = k.start.Add(hours(float64(first)*quarter)), slices.Clone(k.temps[first:n])
	weather, keep := weatherSpread*rng.NormFloat64(), math.Exp(-quarter/weatherKeeps)
	for i := range out.temps {
		truly := k.weather[first+i]
		if !out.start.Add(hours(float64(i) * quarter)).After(known) {
			weather = truly
		}
		out.temps[i] += weather - truly
		weather = keep*weather + weatherSpread*math.Sqrt(1-keep*keep)*rng.NormFloat64()
	}
	begun := from.Sub(out.start).Hours()
	return func(h float64) float64 { return out.after(begun + h) }
}

// measured is until when anything written down tells of the temperature, by a time: without
// a thermometer, the last top does.
func (c Case) measured(f ferment.Course, by, top time.Time) time.Time {
	switch c.Knows {
	case Nothing:
		return top
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

func (k *kitchen) at(t time.Time) float64 { return k.after(t.Sub(k.start).Hours()) }

// after is the temperature so many hours after the start.
func (k *kitchen) after(h float64) float64 {
	x := h / quarter
	i := min(max(int(x), 0), len(k.temps)-2)
	f := x - float64(i)
	return k.temps[i]*(1-f) + k.temps[i+1]*f
}

var begin = time.Date(2026, 2, 2, 0, 0, 0, 0, time.UTC)

// Diary lets a culture live for so many feedings, and writes down what the case
// says. The same rng gives the same diary.
func (c Case) Diary(rng *rand.Rand, feedings int) []Feeding {
	k := newKitchen(rng, begin, 2*feedings+4)
	nature, luck := c.Law.Born(rng), &Luck{chance: rng}
	usual := []float64{3, 3, 3, 5, 5, 9}[rng.IntN(6)]
	twice := rng.IntN(3) == 0
	when := begin.Add(8 * time.Hour)
	before := when.Add(-24 * time.Hour)
	last := 11.0 // hours after a feeding: until then the jar is looked at
	var top time.Time
	var out []Feeding
	for i := range feedings {
		fed := when.Add(time.Duration(rng.NormFloat64() * float64(50*time.Minute))).Round(5 * time.Minute)
		dilution := usual
		if rng.IntN(4) == 0 {
			dilution = []float64{2, 3, 5, 7, 9}[rng.IntN(5)]
		}
		f := Feeding{Dilution: dilution, temp: func(h float64) float64 { return k.at(fed.Add(hours(h))) }}
		rested := fed.Sub(before).Hours()
		f.rested = rested
		mood := luck.mood
		heights := nature(luck, dilution, rested, f.temp)
		f.Peak, f.Height = Top(heights)
		f.heights = heights
		c.write(rng, &f, fed, heights, last)
		f.oracle = func(rng *rand.Rand, known time.Time) []float64 {
			return nature(&Luck{rng, mood}, dilution, rested, k.drawn(rng, fed, known))
		}
		for i, at := range At {
			f.measured[i] = c.measured(f.Course, fed.Add(hours(at)), top)
		}
		last, top = min(max(1.3*f.Peak, 8), 16), fed.Add(hours(f.Peak))
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

// eyeSpread is by how much a height that is read is off, and topSpread by how many hours
// the time is that is written down of the top.
func eyeSpread(rise float64) float64 { return 0.03 + 0.03*rise }

const topSpread = 0.4

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
		rise += rng.NormFloat64() * eyeSpread(rise)
		r := ferment.Reading{At: fed.Add(hours(h)), Rise: ferment.Rise(math.Max(0.5, math.Round(20*(1+rise))/20))}
		if c.Knows == Readings {
			r.Temp = glance(h)
		}
		f.Course.Readings = append(f.Course.Readings, r)
	}
	if c.Looks == 0 {
		h := f.Peak + topSpread*rng.NormFloat64()
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
