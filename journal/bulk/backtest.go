package bulk

import (
	"math"
	"slices"
	"time"
)

// Miss is one earlier forecast beside what came.
type Miss struct {
	Began time.Time
	Told  Span
	Ended time.Time
	Off   time.Duration // how much later than foretold the bulk ended; negative for earlier
}

// Inside says that the end fell into the interval.
func (m Miss) Inside() bool { return !m.Ended.Before(m.Told.Low) && !m.Ended.After(m.Told.High) }

// BackTest is how far off the forecasts of past bulks would have been, beside a rule of
// thumb that looks at the clock alone.
type BackTest struct {
	Misses []Miss        // oldest first
	Median time.Duration // of how far off, early or late
	Inside int
	// Rule is the same of the mean length of the last five bulks before each, from the
	// bulks that had any before them; RuleMisses is of how many.
	Rule       time.Duration
	RuleMisses int
}

// lastFew bulks make the rule of thumb.
const lastFew = 5

// Back foretells each of the last n bulks from those that were over before it, after hours
// of it: with nothing but what was known then.
func Back(past []Dough, n int, after time.Duration) BackTest {
	over := latest(past, len(past))
	var out BackTest
	var off, ruleOff []float64
	for i := max(0, len(over)-n); i < len(over); i++ {
		d := over[i]
		before := Before(over[:i], d.Began)
		m, ok := Learn(before).miss(d, after)
		if !ok {
			continue
		}
		out.Misses = append(out.Misses, m)
		off = append(off, m.Off.Abs().Hours())
		if m.Inside() {
			out.Inside++
		}
		if few := latest(before, lastFew); len(few) > 0 {
			sum := time.Duration(0)
			for _, f := range few {
				sum += f.Ended.Sub(f.Began)
			}
			ruleOff = append(ruleOff, math.Abs((d.Ended.Sub(d.Began) - sum/time.Duration(len(few))).Hours()))
		}
	}
	out.Median, out.Rule, out.RuleMisses = median(off), median(ruleOff), len(ruleOff)
	return out
}

// AsMixed is when a forecast made at mixing is made: once the dough's temperature is taken.
const AsMixed = 20 * time.Minute

// Miss foretells a bulk that is over as it would have been when it was mixed. It says
// false for one that is not over, or was over by then.
func (f *Forecaster) Miss(d Dough) (Miss, bool) { return f.miss(d, AsMixed) }

func (f *Forecaster) miss(d Dough, after time.Duration) (Miss, bool) {
	if !d.Over() || d.Ended.Sub(d.Began) <= after {
		return Miss{}, false
	}
	told, err := f.End(d, d.Began.Add(after))
	return Miss{Began: d.Began, Told: told.End, Ended: d.Ended, Off: d.Ended.Sub(told.End.Mid)}, err == nil
}

// Before gives the bulks that were over before a time.
func Before(past []Dough, t time.Time) []Dough {
	return slices.DeleteFunc(slices.Clone(past), func(d Dough) bool { return !d.Over() || !d.Ended.Before(t) })
}

// median gives the median of hours; 0 of none.
func median(hours []float64) time.Duration {
	if len(hours) == 0 {
		return 0
	}
	slices.Sort(hours)
	h := (hours[(len(hours)-1)/2] + hours[len(hours)/2]) / 2
	return time.Duration(h * float64(time.Hour))
}
