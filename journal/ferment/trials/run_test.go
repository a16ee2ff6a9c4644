package trials

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"gonum.org/v1/gonum/stat"

	"twinloaf/journal/ferment"
)

// At are the hours after a feeding at which it is foretold.
var At = [...]float64{0, 2, 4}

// A Score is how forecasts fared in one case at one hour. Errors are medians, in
// minutes.
type Score struct {
	Feedings  int
	Forecast  float64
	Mean      float64 // of the forecast, the mean instead of the median
	FiveTold  float64 // mean of the last five, told the true hours of past tops
	FiveRead  float64 // the same from the diary
	ThermTold float64 // thermal time and ln(ratio), told
	ThermRead float64
	Floor     float64 // of one who knows the law and the culture: see [Feeding.foretell]
	Learner   float64 // of one who knows the law and learns the rest, if asked: see [learner]
	Inside    float64 // share of the tops inside the 80 % interval
	Width     float64 // median width of it, in minutes
	Bias      float64 // median of actual less foretold, in minutes

	// How far chance alone moves the ratio to the simple rules and Inside: their standard
	// errors, by drawing whole cultures anew (the bootstrap; Efron 1979, Ann Stat 7:1),
	// since the feedings of one culture are alike.
	RatioSE, InsideSE float64

	LearnerInside, LearnerSE float64 // the same of the learner: by its interval it learns as it should, and the error of its ratio
}

// Simple is the least error of the simple rules on the same diary.
func (s Score) Simple() float64 { return math.Min(s.FiveRead, s.ThermRead) }

// Ratio is the error of the forecast over that of the simple rules.
func (s Score) Ratio() float64 { return s.Forecast / s.Simple() }

// Told is the least error of the simple rules that were told the true hours of all
// tops that are past.
func (s Score) Told() float64 { return math.Min(s.FiveTold, s.ThermTold) }

// Hopeless says that not even one who knows the law, the culture and the kitchen is off by
// so little as 0.8 of what the simple rules are off by, or, beyond chance, one who knows the law and
// learns the rest from the diary.
func (s Score) Hopeless() bool {
	return s.Floor > 0.8*s.Simple() || s.Learner/s.Simple() > 0.8+2*s.LearnerSE
}

// Beats and Holds say that what is asked was reached: to be off by at most 0.8 of the
// simple rules, and to hold 76 to 84 % of the tops in the 80 % interval.
func (s Score) Beats() bool { return s.Ratio() <= 0.8 }
func (s Score) Holds() bool { return s.Inside >= 0.76 && s.Inside <= 0.84 }

// Misses says what of that was not reached, with a question mark where it is no further off
// than two standard errors.
func (s Score) Misses() string {
	say := func(what string, off, se float64) string {
		if off > 2*se {
			return what
		}
		return what + "?"
	}
	var out []string
	switch {
	case s.Hopeless():
		out = append(out, "floor")
	case !s.Beats():
		out = append(out, say("error", s.Ratio()-0.8, s.RatioSE))
	}
	if !s.Holds() {
		out = append(out, say("interval", math.Max(0.76-s.Inside, s.Inside-0.84), s.InsideSE))
	}
	return strings.Join(out, " ")
}

// The guesses that are compared, in the order of an outcome.
const (
	byForecast = iota
	byFiveTold
	byFiveRead
	byThermTold
	byThermRead
	byFloor
	byLearner
	guesses
)

// An outcome is how one feeding was foretold at one hour, in minutes.
type outcome struct {
	off         [guesses]float64
	inside      float64 // 1 or 0
	learned     float64 // the same of the learner's interval
	width, bias float64
}

// lived is how many feedings are past before the first is foretold.
const lived = 8

// Run lets cultures live and foretells their later feedings, each from those before
// it. Only feedings whose top is still ahead at the hour count.
func (c Case) Run(seed uint64, cultures, feedings int) [len(At)]Score {
	var all [len(At)][][]outcome // of each culture
	for k := range cultures {
		for h, o := range c.live(rand.New(rand.NewPCG(seed, uint64(k))), feedings) {
			all[h] = append(all[h], o)
		}
	}
	var out [len(At)]Score
	for h := range At {
		out[h] = score(all[h])
		rng := rand.New(rand.NewPCG(1, 1))
		var ratios, insides, learned []float64
		for range 60 {
			drawn := make([][]outcome, cultures)
			for i := range drawn {
				drawn[i] = all[h][rng.IntN(cultures)]
			}
			s := score(drawn)
			ratios, insides, learned = append(ratios, s.Ratio()), append(insides, s.Inside), append(learned, s.Learner/s.Simple())
		}
		out[h].RatioSE, out[h].InsideSE, out[h].LearnerSE = stat.StdDev(ratios, nil), stat.StdDev(insides, nil), stat.StdDev(learned, nil)
	}
	return out
}

// score sums up what came of the feedings of some cultures.
func score(cultures [][]outcome) Score {
	all := slices.Concat(cultures...)
	of := func(get func(o *outcome) float64) float64 {
		v := make([]float64, len(all))
		for i := range all {
			v[i] = get(&all[i])
		}
		return median(v)
	}
	off := func(j int) float64 { return of(func(o *outcome) float64 { return o.off[j] }) }
	inside, learned, sum := 0.0, 0.0, 0.0
	for _, o := range all {
		inside += o.inside
		learned += o.learned
		sum += o.off[byForecast]
	}
	n := math.Max(1, float64(len(all)))
	return Score{
		Feedings: len(all), Forecast: off(byForecast), Mean: sum / n, FiveTold: off(byFiveTold), FiveRead: off(byFiveRead),
		ThermTold: off(byThermTold), ThermRead: off(byThermRead), Floor: off(byFloor), Learner: off(byLearner),
		Inside: inside / n, LearnerInside: learned / n,
		Width: of(func(o *outcome) float64 { return o.width }), Bias: of(func(o *outcome) float64 { return o.bias }),
	}
}

// live foretells the later feedings of one culture at each hour of [At].
func (c Case) live(rng *rand.Rand, feedings int) (out [len(At)][]outcome) {
	diary := c.Diary(rng, lived+feedings)
	f := ferment.NewForecaster(ferment.UsualAssumptions(), nil)
	chance, dreams := rand.New(rand.NewPCG(3, 3)), rand.New(rand.NewPCG(4, 4))
	var law *learner
	if c.Learner {
		law = newLearner(c.Law, 2*len(diary)+4)
	}
	var told, read []float64
	var whole []func(float64) float64
	for i, now := range diary {
		if i >= lived {
			past := diary[:i]
			ta, tb := thermalRule(past, told, whole)
			ra, rb := thermalRule(past, read, whole)
			x, fed, floor := math.Log(now.Dilution), now.Course.Feeding.At, now.foretell(chance)
			var drawn []possibility
			if law != nil {
				drawn = law.foretell(dreams, now)
			}
			for h, at := range At {
				if now.Peak <= at {
					continue
				}
				got, err := f.Predict(now.Course, fed.Add(hours(at)))
				if err != nil {
					continue
				}
				mid, low, high := got.Peak.Mid.Sub(fed).Hours(), got.Peak.Low.Sub(fed).Hours(), got.Peak.High.Sub(fed).Hours()
				o := outcome{width: 60 * (high - low), bias: 60 * (now.Peak - mid)}
				held, learned := c.held(now, at), now.Peak // off by nothing where nobody is asked
				if drawn != nil {
					learned = now.among(drawn, at, 0.5)
					if now.among(drawn, at, 0.1) <= now.Peak && now.Peak <= now.among(drawn, at, 0.9) {
						o.learned = 1
					}
				}
				for j, guess := range [guesses]float64{mid, lastFive(told), lastFive(read), when(held, ta+tb*x), when(held, ra+rb*x), floor[h], learned} {
					if j != byForecast {
						guess = math.Max(guess, at) // it has not peaked yet: the rules may know that
					}
					o.off[j] = 60 * math.Abs(now.Peak-guess)
				}
				if low <= now.Peak && now.Peak <= high {
					o.inside = 1
				}
				out[h] = append(out[h], o)
			}
		}
		f.Learn(now.Course)
		if law != nil {
			law.learn(now)
		}
		told = append(told, now.Peak)
		r, ok := now.read()
		if !ok {
			r = 6 // nothing was written down: as a handbook would have it
		}
		read = append(read, r)
		whole = append(whole, c.held(now, 24))
	}
	return out
}

func median(v []float64) float64 {
	if len(v) == 0 {
		return math.NaN()
	}
	v = slices.Clone(v)
	slices.Sort(v)
	return (v[(len(v)-1)/2] + v[len(v)/2]) / 2
}
