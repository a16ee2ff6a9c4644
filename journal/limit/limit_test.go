package limit_test

import (
	"math"
	"testing"

	"twinloaf/journal/limit"
)

// The first and the last figure that can be, and those beyond them. The limits are the
// program's own choice, no source.
func TestCheckRefusesWhatCannotBe(t *testing.T) {
	for _, c := range []struct {
		kind limit.Kind
		v    float64
		ok   bool
	}{
		{limit.Weight, 0, true}, {limit.Weight, -5, false}, {limit.Weight, 1e6, true}, {limit.Weight, 1e6 + 1, false},
		{limit.Temperature, -60, true}, {limit.Temperature, 99999, false}, {limit.Temperature, -61, false},
		{limit.Difference, -20, true}, {limit.Difference, 101, false},
		{limit.Length, 1e300, false}, {limit.Length, 120, true}, {limit.Volume, -1, false},
		{limit.Percent, 250, true}, {limit.Percent, -0.1, false}, {limit.Share, 100.5, false},
		{limit.Minutes, 1e18, false}, {limit.Minutes, 366 * 24 * 60, true}, {limit.Shift, -30, true}, {limit.Hours, 9000, false},
		{limit.Rise, 20, false}, {limit.Rise, 2, true}, {limit.Rise, 0, false},
		{limit.PH, 14, true}, {limit.PH, 14.1, false}, {limit.PH, -1, false},
		{limit.Parts, 1001, false}, {limit.Count, 2.5, false}, {limit.Count, 12, true}, {limit.Score, 0, false}, {limit.Score, 9, true},
		{limit.Number, math.NaN(), false}, {limit.Number, math.Inf(1), false},
	} {
		if err := limit.Check(c.kind, c.v); (err == nil) != c.ok {
			t.Errorf("kind %d, %v: %v", c.kind, c.v, err)
		}
	}
}

func TestSentenceNamesTheLimits(t *testing.T) {
	if got, want := limit.Check(limit.Temperature, 99999).Error(), "This must be between -60 °C and 600 °C."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := limit.Check(limit.PH, 15).Error(), "This must be between 0 and 14."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestEveryKindHasItsNameAndLimits(t *testing.T) {
	for k := limit.Number; k <= limit.Score; k++ {
		if r := limit.Of(k); !(r.Low < r.High) {
			t.Errorf("kind %d runs from %v to %v", k, r.Low, r.High)
		}
	}
	seen := map[limit.Kind]bool{}
	for _, word := range []string{"number", "weight", "temperature", "difference", "length", "volume", "percent", "share",
		"minutes", "shift", "hours", "days", "age", "rise", "ph", "parts", "count", "loaves", "turns", "score"} {
		k, ok := limit.Named(word)
		if !ok || seen[k] {
			t.Errorf("%q names kind %d, known %v, twice %v", word, k, ok, seen[k])
		}
		seen[k] = true
	}
	if len(seen) != int(limit.Score)+1 {
		t.Errorf("%d kinds have a name, of %d", len(seen), limit.Score+1)
	}
}
