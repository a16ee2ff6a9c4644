package charts

import "math"

// A tick is a labelled place on an axis.
type tick struct {
	at    float64
	label string
	sub   string // a second line: the date under an hour, the year under a month
	major bool   // a midnight, the first of a month: its grid line is stronger
}

// mostTicks ends every loop that makes ticks, whatever it was given.
const mostTicks = 2000

// tickStep is the least of 1, 2 and 5 times a power of ten that cuts a range
// into no more than want parts.
func tickStep(lo, hi float64, want int, whole bool) float64 {
	rough := (hi - lo) / float64(max(1, want))
	power := math.Pow(10, math.Floor(math.Log10(rough)))
	step := power * 10
	for _, m := range []float64{1, 2, 5} {
		if m*power >= rough*(1-1e-9) {
			step = m * power
			break
		}
	}
	if whole {
		step = max(1, math.Round(step))
	}
	return step
}

// evenStep is a round step that cuts a fixed range into equal parts, so that a
// scale from 1 to 9 has ticks at both its ends.
func evenStep(lo, hi float64, want int, whole bool) (float64, bool) {
	length := hi - lo
	rough := length / float64(max(1, want))
	power := math.Pow(10, math.Floor(math.Log10(rough)))
	for _, m := range []float64{1, 2, 2.5, 4, 5, 10} {
		step := m * power
		parts := length / step
		if step < rough*(1-1e-9) || math.Abs(parts-math.Round(parts)) > 1e-9 || parts < 1 {
			continue
		}
		if whole && step != math.Round(step) {
			continue
		}
		return step, true
	}
	return 0, false
}

// numberTicks are the multiples of a round step between lo and hi.
func (a Axis) numberTicks(lo, hi float64, want int, w Words) []tick {
	step, origin := tickStep(lo, hi, want, a.Whole), 0.0
	if a.Max > a.Min {
		if even, ok := evenStep(lo, hi, want, a.Whole); ok {
			step, origin = even, lo
		}
	}
	format := a.format(w.decimals(step))
	if a.Ratio {
		format = func(v float64) string { return w.Number(v, 6) + "×" }
	}
	var out []tick
	first := math.Ceil((lo-origin)/step - 1e-9)
	for i := range mostTicks {
		v := origin + (first+float64(i))*step
		if v > hi+step*1e-9 {
			break
		}
		if v == 0 {
			v = 0 // not minus zero
		}
		out = append(out, tick{at: v, label: format(v)})
	}
	return out
}

// nameTicks are the rows that have names, between lo and hi.
func (a Axis) nameTicks(lo, hi float64) []tick {
	var out []tick
	for i, name := range a.Names {
		if at := float64(i + 1); lo <= at && at <= hi {
			out = append(out, tick{at: at, label: name})
		}
	}
	return out
}

// ticks are those of the axis, in its zone's clock or as plain numbers.
func (a Axis) ticks(lo, hi float64, want int, w Words) []tick {
	switch {
	case a.Zone != nil:
		return clockTicks(lo, hi, want, a.Zone, w)
	case a.Names != nil:
		return a.nameTicks(lo, hi)
	}
	return a.numberTicks(lo, hi, want, w)
}
