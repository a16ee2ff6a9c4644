package plan

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// A levain that is ripe between six and nine hours after its build, best at seven and a
// half, in a day with a night of sleep: whichever of the two is chosen, the other follows,
// and the build never falls into the night.
func TestLevainAndMixingBothWays(t *testing.T) {
	steps := append([]Step{{ID: "levain", Kind: Levain, Length: 450, Min: 360, Max: 540, Hands: HandsAtStart}}, CountryLoaf()...)
	at := func(h, m int) time.Time { return time.Date(2026, 3, 5, h, m, 0, 0, time.UTC) }
	for _, c := range []struct{ mix, build time.Time }{
		{at(15, 0), at(7, 30)}, // at its best
		{at(13, 0), at(6, 30)}, // an hour sooner than its best, for at half past five the baker sleeps
		{at(7, 0), at(-2, 29)}, // built just before bed, and ripe to the last
	} {
		s, err := Through(steps, "mix", c.mix, time.Time{}, sleep)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Plan.Start.Add(s.Plan.Steps[0].Length.Duration()); !got.Equal(c.mix) {
			t.Errorf("mixed at %v, want %v", got, c.mix)
		}
		if !s.Plan.Start.Equal(c.build) || holds(sleep, s.Plan.Start) {
			t.Errorf("to mix at %v the levain is built at %v, want %v", c.mix, s.Plan.Start, c.build)
		}
		// The other way: built then, it is mixed then, or at another hour at which it is ripe.
		back, err := Forward(steps, s.Plan.Start, sleep)
		if err != nil {
			t.Fatal(err)
		}
		if took := back.Plan.Steps[0].Length; took < 360 || took > 540 {
			t.Errorf("built at %v it is mixed after %v", s.Plan.Start, took)
		}
	}
	// Too soon: there is no time left for the levain.
	s, err := Through(steps, "mix", at(12, 0), at(8, 0), sleep)
	if err != nil || !s.TooSoon || s.Nearest == nil {
		t.Fatalf("%+v, %v", s, err)
	}
	if mixed := s.Nearest.Start.Add(s.Nearest.Steps[0].Length.Duration()); s.Nearest.Start.Before(at(8, 0)) || mixed.Sub(at(12, 0)) != s.Away.Duration() {
		t.Errorf("the nearest plan builds at %v and mixes at %v, %v away", s.Nearest.Start, mixed, s.Away)
	}
	words := ""
	for _, l := range s.Words() {
		words += l.String() + "\n"
	}
	if !strings.Contains(words, "Mix cannot begin at Thu 12:00") || !strings.Contains(words, "has Mix 2 h") {
		t.Errorf("it says %q", words)
	}
}

// The step begins when it is asked to, lengths stay within their bounds, and what is said
// to be broken is what falls into the night.
func TestThroughProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		steps, at, night := anySteps(t), anyTime(t), anyNight(t)
		id := rapid.SampledFrom(steps).Draw(t, "step").ID
		s, err := Through(steps, id, at, time.Time{}, night)
		if err != nil {
			return // more than is searched; [Check] says so
		}
		keepsBounds(t, steps, s.Plan)
		began := s.Plan.Start
		for _, st := range s.Plan.Steps {
			if st.ID == id {
				break
			}
			began = began.Add(st.Length.Duration())
		}
		if !began.Equal(at) {
			t.Fatalf("%s begins at %v, want %v", id, began, at)
		}
		if got := s.Plan.AtNight(night, time.Time{}); len(got) != len(s.Broken) {
			t.Fatalf("%d at night, %d said", len(got), len(s.Broken))
		}
		if s.Nearest != nil && len(s.Nearest.AtNight(night, time.Time{})) > 0 {
			t.Fatal("the nearest plan cannot be kept either")
		}
	})
}
