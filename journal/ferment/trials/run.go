package trials

import (
	"math"
	"math/rand/v2"
	"slices"

	"twinloaf/journal/ferment"
)

// At are the hours after a feeding at which it is foretold.
var At = [...]float64{0, 2, 4}

// A Score is how forecasts fared in one case at one hour. Errors are medians, in
// minutes.
type Score struct {
	Feedings  int
	Forecast  float64
	FiveTold  float64 // mean of the last five, told the true hours of past tops
	FiveRead  float64 // the same from the diary
	ThermTold float64 // thermal time and ln(ratio), told
	ThermRead float64
	Floor     float64 // of one who knows the law and the culture: see [Feeding]
	Inside    float64 // share of the tops inside the 80 % interval
	Width     float64 // median width of it, in minutes
	Bias      float64 // median of actual less foretold, in minutes
}

// Simple is the least error of the simple rules on the same diary.
func (s Score) Simple() float64 { return math.Min(s.FiveRead, s.ThermRead) }

// Told is the least error of the simple rules that were told the true hours of all
// tops that are past.
func (s Score) Told() float64 { return math.Min(s.FiveTold, s.ThermTold) }

// lived is how many feedings are past before the first is foretold.
const lived = 8

// Run lets cultures live and foretells their later feedings, each from those before
// it. Only feedings whose top is still ahead at the hour count.
func (c Case) Run(seed uint64, cultures, feedings int) [len(At)]Score {
	var off [len(At)][6][]float64
	var inside [len(At)]int
	var width, bias [len(At)][]float64
	for k := range cultures {
		rng := rand.New(rand.NewPCG(seed, uint64(k)))
		diary := c.Diary(rng, lived+feedings)
		f := ferment.NewForecaster(ferment.UsualAssumptions(), nil)
		var told, read []float64
		var whole []func(float64) float64
		for i, now := range diary {
			if i >= lived {
				past := diary[:i]
				ta, tb := thermalRule(past, told, whole)
				ra, rb := thermalRule(past, read, whole)
				for hour, at := range At {
					if now.Peak <= at {
						continue
					}
					when0 := now.Course.Feeding.At.Add(hours(at))
					got, err := f.Predict(now.Course, when0)
					if err != nil {
						continue
					}
					fed := now.Course.Feeding.At
					mid := got.Peak.Mid.Sub(fed).Hours()
					held := c.held(now, at)
					x := math.Log(now.Dilution)
					for j, guess := range [...]float64{mid, lastFive(told), lastFive(read), when(held, ta+tb*x), when(held, ra+rb*x), now.Floor[hour]} {
						if j > 0 {
							guess = math.Max(guess, at) // it has not peaked yet: the rules may know that
						}
						off[hour][j] = append(off[hour][j], 60*math.Abs(now.Peak-guess))
					}
					low, high := got.Peak.Low.Sub(fed).Hours(), got.Peak.High.Sub(fed).Hours()
					if low <= now.Peak && now.Peak <= high {
						inside[hour]++
					}
					width[hour] = append(width[hour], 60*(high-low))
					bias[hour] = append(bias[hour], 60*(now.Peak-mid))
				}
			}
			f.Learn(now.Course)
			told = append(told, now.Peak)
			r, ok := now.read()
			if !ok {
				r = 6 // nothing was written down: as a handbook would have it
			}
			read = append(read, r)
			whole = append(whole, c.held(now, 24))
		}
	}
	var out [len(At)]Score
	for h := range At {
		n := len(off[h][0])
		out[h] = Score{
			Feedings: n, Forecast: median(off[h][0]), FiveTold: median(off[h][1]), FiveRead: median(off[h][2]),
			ThermTold: median(off[h][3]), ThermRead: median(off[h][4]), Floor: median(off[h][5]),
			Inside: float64(inside[h]) / math.Max(1, float64(n)), Width: median(width[h]), Bias: median(bias[h]),
		}
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
