package ferment

import (
	"math"
	"slices"
	"time"
)

// reach is how far back from the ripe hour feedings are looked for when any time
// will do.
const reach = 48 * time.Hour

// slots are the times at which feeding is possible, in order.
func (a BuildAsk) slots() []time.Time {
	zone := a.RipeAt.Location()
	times := a.FeedAt
	if len(times) == 0 {
		first := a.RipeAt.Add(-reach)
		if first.Before(a.Now) {
			first = a.Now
		}
		for t := first.Truncate(30 * time.Minute); t.Before(a.RipeAt); t = t.Add(30 * time.Minute) {
			times = append(times, t)
		}
	}
	var out []time.Time
	for _, t := range times {
		t = t.In(zone)
		asleep := slices.ContainsFunc(a.Sleep, func(s Sleep) bool { return s.holds(t) })
		if !asleep && !t.Before(a.Now) && t.Before(a.RipeAt) {
			out = append(out, t)
		}
	}
	slices.SortFunc(out, time.Time.Compare)
	return slices.CompactFunc(out, time.Time.Equal)
}

// leg is the stretch from one feeding to the next, or to the ripe hour.
type leg struct {
	dilution float64
	cost     float64 // less is better: a mild ratio, a peak close to the hour
}

// stage finds the dilution that is ripe after h hours, within the limits. If none
// peaks then, a limit will do whose ripe window still holds the hour.
func stage(f *Forecaster, a BuildAsk, h float64) (leg, Obstacle) {
	least, most := a.Limits.LeastDilution, a.Limits.MostDilution
	if e, err := f.Expect(least, a.Temp); err != nil {
		return leg{}, WrongTemp
	} else if h < e.RipeFrom {
		return leg{}, TooSoon
	}
	e, err := f.Expect(most, a.Temp)
	if err == nil && h > e.RipeTo {
		return leg{}, TooLate
	}
	d := most
	if err != nil || h < e.Peak {
		d = f.dilutionFor(a.Temp, h, least, most)
	}
	e, err = f.Expect(d, a.Temp)
	if err != nil {
		return leg{}, WrongTemp
	}
	mild := math.Log(d / 5)
	off := (h - e.Peak) / max(e.RipeTo-e.RipeFrom, 0.1)
	return leg{dilution: d, cost: mild*mild + 4*off*off}, ""
}

// dilutionFor halves its way to the dilution that peaks after h hours: the time
// to the peak grows with the dilution.
func (f *Forecaster) dilutionFor(t Celsius, h, least, most float64) float64 {
	low, high := least, most
	for range 40 {
		mid := math.Sqrt(low * high)
		if e, err := f.Expect(mid, t); err == nil && e.Peak < h {
			low = mid
		} else {
			high = mid
		}
	}
	return math.Sqrt(low * high)
}

// worth ranks obstacles: the one met by the nearest try is told.
var worth = map[Obstacle]int{"": 0, NoTimeLeft: 1, WrongTemp: 2, TooSoon: 3, TooLate: 4, TooLittle: 5}

// search tries one feeding, then two, then three, and so on.
func search(f *Forecaster, a BuildAsk) (Build, Obstacle) {
	slots := a.slots()
	if len(slots) == 0 {
		return Build{}, NoTimeLeft
	}
	s := &searching{f: f, ask: a, slots: slots, legs: map[time.Duration]answer{}}
	for n := 1; n <= a.Limits.Feedings; n++ {
		if s.pick(a.RipeAt, len(slots), n, nil, 0); s.found {
			return s.best, ""
		}
	}
	return Build{}, s.obstacle
}

type answer struct {
	leg      leg
	obstacle Obstacle
}

type searching struct {
	f     *Forecaster
	ask   BuildAsk
	slots []time.Time
	legs  map[time.Duration]answer

	found    bool
	best     Build
	cost     float64
	obstacle Obstacle
}

// pick chooses n feedings, the last first, among slots[:before].
func (s *searching) pick(end time.Time, before, n int, chosen []stop, cost float64) {
	if n == 0 {
		s.offer(chosen, cost)
		return
	}
	for i := before - 1; i >= n-1; i-- {
		h := end.Sub(s.slots[i])
		got, ok := s.legs[h]
		if !ok {
			got.leg, got.obstacle = stage(s.f, s.ask, h.Hours())
			s.legs[h] = got
		}
		if got.obstacle != "" {
			s.note(got.obstacle)
			if got.obstacle == TooLate || got.obstacle == WrongTemp {
				return // earlier feedings are only worse
			}
			continue
		}
		if s.found && cost+got.leg.cost >= s.cost {
			continue
		}
		s.pick(s.slots[i], i, n-1, append(chosen, stop{s.slots[i], got.leg.dilution}), cost+got.leg.cost)
	}
}

type stop struct {
	at       time.Time
	dilution float64
}

func (s *searching) note(o Obstacle) {
	if worth[o] > worth[s.obstacle] {
		s.obstacle = o
	}
}

// offer weighs out a choice of feedings and keeps it if it is the best so far.
func (s *searching) offer(chosen []stop, cost float64) {
	b, obstacle := weigh(s.f, s.ask, chosen)
	if obstacle != "" {
		s.note(obstacle)
		return
	}
	// What is thrown away counts a little, so that of equals the thriftier wins.
	cost += 0.2 * float64(b.ThrowAway/(s.ask.Amount+s.ask.KeepBack))
	if !s.found || cost < s.cost {
		s.found, s.best, s.cost = true, b, cost
	}
}

// weigh works out the amounts from the last feeding back, in whole grams but for
// the water of the last, and checks that the rounded ratios are still ripe.
// chosen has the last feeding first.
func weigh(f *Forecaster, a BuildAsk, chosen []stop) (Build, Obstacle) {
	total := a.Amount + a.KeepBack
	steps := make([]BuildStep, len(chosen))
	end := a.RipeAt
	for k, c := range chosen {
		step := &steps[len(chosen)-1-k]
		step.At = c.at
		step.Kept = max(Grams(math.Round(float64(total)/c.dilution)), a.Limits.LeastKept)
		if total/step.Kept < 1.2 {
			return Build{}, TooSoon // so little is wanted that the piece kept is all of it
		}
		source := a.Hydration
		if k == len(chosen)-1 {
			source = a.Culture.Hydration()
		}
		kept := MixOf(step.Kept, source)
		step.Flour = Grams(math.Round(float64(MixOf(total, a.Hydration).Flour - kept.Flour)))
		step.Water = total - step.Kept - step.Flour
		if step.Flour <= 0 || step.Water < 0 {
			return Build{}, TooSoon // the piece kept is too wet or too stiff to be brought to this hydration
		}
		e, err := f.Expect(float64(total/step.Kept), a.Temp)
		if err != nil {
			return Build{}, WrongTemp
		}
		at := func(h float64) time.Time { return c.at.Add(hours(h)) }
		step.Expect.RipeFrom, step.Expect.Peak, step.Expect.RipeTo = at(e.RipeFrom), at(e.Peak), at(e.RipeTo)
		switch {
		case end.Before(step.Expect.RipeFrom):
			return Build{}, TooSoon
		case end.After(step.Expect.RipeTo):
			return Build{}, TooLate
		}
		end = c.at
		total = max(step.Kept, a.Limits.LeastMade)
	}
	have := a.Culture.Total()
	b := Build{RipeAt: a.RipeAt, Amount: a.Amount, KeepBack: a.KeepBack, Feedings: f.Feedings()}
	for i := range steps {
		if steps[i].Kept > have {
			return Build{}, TooLittle
		}
		steps[i].ThrowAway = have - steps[i].Kept
		b.ThrowAway += steps[i].ThrowAway
		have = steps[i].Total()
	}
	b.Steps = steps
	return b, ""
}

// Farthest is how far off another hour is looked for.
const Farthest = 36 * time.Hour

// nearest looks for the smallest change of one thing with which the ask is met.
func nearest(f *Forecaster, a BuildAsk) []Nearest {
	var out []Nearest
	try := func(b BuildAsk) bool {
		if b.check() != nil {
			return false
		}
		b.Limits.Feedings = min(b.Limits.Feedings, 2) // a third feeding costs too long a search here
		plan, obstacle := search(f, b)
		if obstacle == "" {
			out = append(out, Nearest{RipeAt: b.RipeAt, Temp: b.Temp, Amount: b.Amount, Plan: plan})
		}
		return obstacle == ""
	}
	outward(30*time.Minute, Farthest, func(d time.Duration) bool {
		b := a
		b.RipeAt = a.RipeAt.Add(d)
		return try(b)
	})
	outward(1, 12, func(d Celsius) bool {
		b := a
		b.Temp = a.Temp + d
		return b.Temp >= 16 && b.Temp <= 32 && try(b)
	})
	for less := a.Amount * 0.85; less >= 10; less *= 0.85 {
		b := a
		b.Amount = Grams(math.Floor(float64(less)))
		if try(b) {
			break
		}
	}
	return out
}

// outward tries +step, -step, +2 step, ... up to a limit until one works.
func outward[T ~int64 | ~float64](step, limit T, try func(T) bool) {
	for d := step; d <= limit; d += step {
		if try(d) || try(-d) {
			return
		}
	}
}
