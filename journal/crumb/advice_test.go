package crumb_test

import (
	"strings"
	"testing"

	"twinloaf/journal/crumb"
	"twinloaf/journal/crumb/foam"
	"twinloaf/journal/crumb/phantom"
	"twinloaf/journal/journaltest/race"
)

func TestFitness(t *testing.T) {
	rate := func(s phantom.Slice) (crumb.Fitness, string) {
		p, want := drawTruth(t, s)
		r, err := crumb.Measure(t.Context(), p.Photo, 0, crumb.Options{PxPerMM: want.PxPerMM})
		if err != nil {
			t.Fatal(err)
		}
		fit, all := r.Fitness()
		words := ""
		for _, a := range all {
			if a.Why.IsZero() || a.Do.IsZero() {
				t.Errorf("%q has no advice: %q", a.Why, a.Do)
			}
			words += a.Why.String() + " " + a.Do.String() + "\n"
		}
		return fit, words
	}
	type rated struct {
		name string
		pan  func(*phantom.Slice)
		fit  crumb.Fitness
		says string
	}
	for _, c := range race.Few([]rated{
		{"a good one", noChange, crumb.Fit, ""},
		{"too few pixels", func(s *phantom.Slice) { s.Width, s.Height = 360, 340 }, crumb.FitInPart, "Go nearer"},
		{"blurred", func(s *phantom.Slice) { s.Light.Blur = 3 }, crumb.FitInPart, "Rest the camera"},
		{"very dark", func(s *phantom.Slice) { s.Light.Gain, s.Light.Noise = 0.1, 4 }, crumb.Unfit, "by a window"},
		{"fills the picture", func(s *phantom.Slice) { s.Fill = 1.6 }, crumb.Unfit, "Step back"},
		{"blown out", func(s *phantom.Slice) { s.Light.Gain = 1.6 }, crumb.Unfit, "out of the sun"},
	}, 1) {
		fit, words := rate(pan(c.pan))
		if fit != c.fit || !strings.Contains(words, c.says) {
			t.Errorf("%s: rated %d rather than %d, and told %q", c.name, fit, c.fit, words)
		}
	}
	p, err := foam.Draw(t.Context(), foam.Slice{Seed: 4018, Width: 400, Height: 320, WidthMM: 60, Share: 0.42, MedianMM: 1.5, Light: foam.Light{Direction: 200}, Scene: foam.Scene{Second: true}})
	if err != nil {
		t.Fatal(err)
	}
	r, err := crumb.Measure(t.Context(), p.Photo, 0, crumb.Options{})
	if err != nil {
		t.Fatal(err)
	}
	fit, all := r.Fitness()
	if fit != crumb.Unfit || len(all) == 0 || !strings.Contains(all[0].Why.String(), "there are two slices") || !strings.Contains(all[0].Do.String(), "a box round one of them") {
		t.Errorf("two slices: %d, %v", fit, all)
	}
}
