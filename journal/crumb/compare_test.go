package crumb_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"twinloaf/journal/crumb"
	"twinloaf/journal/crumb/phantom"
	"twinloaf/journal/journaltest/race"
)

// summary is one with every figure good and the given ones set.
func summary(values map[crumb.MeasureID]float64) crumb.Summary {
	s := crumb.Summary{Method: crumb.MethodVersion, LargeFrom: 5}
	for _, d := range crumb.Definitions() {
		s.Figures = append(s.Figures, crumb.Measurement{ID: d.ID, Value: values[d.ID]})
	}
	return s
}

func porosities(v ...float64) []crumb.Summary {
	var out []crumb.Summary
	for _, x := range v {
		out = append(out, summary(map[crumb.MeasureID]float64{crumb.Porosity: x}))
	}
	return out
}

func row(t *testing.T, all []crumb.Difference, id crumb.MeasureID) crumb.Difference {
	t.Helper()
	for _, d := range all {
		if d.ID == id {
			return d
		}
	}
	t.Fatalf("no row for %s", id)
	return crumb.Difference{}
}

func TestWithoutRetakesNothingCanBeTold(t *testing.T) {
	all := crumb.Compare(porosities(0.3)[0], porosities(0.5)[0])
	if len(all) != len(crumb.Definitions()) {
		t.Fatalf("%d rows", len(all))
	}
	for _, d := range all {
		if d.Verdict != crumb.CannotTell || d.Why.IsZero() {
			t.Errorf("%s: verdict %d, %q", d.ID, d.Verdict, d.Why)
		}
	}
	if d := row(t, crumb.Compare(porosities(0.3)[0], porosities(0.5)[0], porosities(0.3)), crumb.Porosity); d.Verdict != crumb.CannotTell {
		t.Errorf("one photo is no repeat, yet the verdict is %d", d.Verdict)
	}
}

// The share of sure voids grows with a photo's contrast: no two photos are compared by it, whatever
// retakes there are.
func TestSureVoidsAreNotCompared(t *testing.T) {
	sure := func(v float64) crumb.Summary { return summary(map[crumb.MeasureID]float64{crumb.SureVoids: v}) }
	d := row(t, crumb.Compare(sure(0.05), sure(0.4), []crumb.Summary{sure(0.05), sure(0.06)}), crumb.SureVoids)
	if d.Verdict != crumb.CannotTell || d.Change != 0 || !strings.Contains(d.Why.String(), "contrast") {
		t.Errorf("%+v", d)
	}
}

func TestRetakeLimit(t *testing.T) {
	// Worked by hand: groups (0.30, 0.32, 0.31) and (0.40, 0.42) have sums of
	// squares 0.0002 and 0.0002 on 2 + 1 degrees of freedom, so s = 0.011547;
	// Student's t for 95 % at 3 is 3.1824 (any table); the limit is
	// 3.1824 × √2 × 0.011547 = 0.05197.
	groups := [][]crumb.Summary{porosities(0.30, 0.32, 0.31), porosities(0.40, 0.42)}
	for _, c := range []struct {
		a, b float64
		want crumb.Verdict
	}{{0.30, 0.35, crumb.Alike}, {0.30, 0.353, crumb.Differs}, {0.353, 0.30, crumb.Differs}, {0.3, 0.3, crumb.Alike}} {
		d := row(t, crumb.Compare(porosities(c.a)[0], porosities(c.b)[0], groups...), crumb.Porosity)
		if math.Abs(d.Spread-0.011547) > 1e-6 || math.Abs(d.Limit-0.05197) > 1e-5 {
			t.Fatalf("spread %.6f and limit %.5f, want 0.011547 and 0.05197", d.Spread, d.Limit)
		}
		if d.Verdict != c.want || math.Abs(d.Change-(c.b-c.a)) > 1e-12 {
			t.Errorf("%g against %g: verdict %d by %g, want %d", c.a, c.b, d.Verdict, d.Change, c.want)
		}
	}
}

func TestDirectionsWrapRound(t *testing.T) {
	at := func(v float64) crumb.Summary {
		return summary(map[crumb.MeasureID]float64{crumb.Direction: v})
	}
	d := row(t, crumb.Compare(at(175), at(5), []crumb.Summary{at(179), at(1), at(0)}), crumb.Direction)
	if math.Abs(d.Change-10) > 1e-9 {
		t.Errorf("from 175° to 5° is a turn of 10°, not %g°", d.Change)
	}
	if math.Abs(d.Spread-1) > 1e-9 {
		t.Errorf("179°, 1° and 0° spread by 1°, not %g°", d.Spread)
	}
}

func TestUnlikeTermsAreNotCompared(t *testing.T) {
	base := summary(map[crumb.MeasureID]float64{crumb.Porosity: 0.3, crumb.MeanArea: 2, crumb.LargeShare: 0.4})
	repeats := []crumb.Summary{base, base}
	for _, c := range []struct {
		name   string
		change func(*crumb.Summary)
		id     crumb.MeasureID
		told   bool
	}{
		{"another method", func(s *crumb.Summary) { s.Method++ }, crumb.Porosity, false},
		{"another sensitivity", func(s *crumb.Summary) { s.Sensitivity = 0.3 }, crumb.Porosity, false},
		{"no true length: areas", func(s *crumb.Summary) { s.Relative = true }, crumb.MeanArea, false},
		{"no true length: shares", func(s *crumb.Summary) { s.Relative = true }, crumb.Porosity, true},
		{"another size of large", func(s *crumb.Summary) { s.LargeFrom = 8 }, crumb.LargeShare, false},
		{"another size of large: others", func(s *crumb.Summary) { s.LargeFrom = 8 }, crumb.Porosity, true},
		{"withheld", func(s *crumb.Summary) { s.Figures[0].Trust = crumb.Withheld }, crumb.Porosity, false},
	} {
		other := base
		other.Figures = append([]crumb.Measurement(nil), base.Figures...)
		c.change(&other)
		d := row(t, crumb.Compare(base, other, repeats), c.id)
		if (d.Verdict != crumb.CannotTell) != c.told || d.Why.IsZero() {
			t.Errorf("%s: verdict %d, %q", c.name, d.Verdict, d.Why)
		}
	}
}

func TestDoubtIsCarriedIntoTheVerdict(t *testing.T) {
	a, b := porosities(0.3)[0], porosities(0.6)[0]
	b.Figures[0].Trust = crumb.Doubtful
	d := row(t, crumb.Compare(a, b, porosities(0.3, 0.31)), crumb.Porosity)
	if d.Verdict != crumb.Perhaps || !strings.Contains(d.Why.String(), "doubtful") {
		t.Errorf("verdict %d, %q", d.Verdict, d.Why)
	}
	a.Figures[0].Off, b.Figures[0].Off = 0.1, 0.1 // root of the sum of squares 0.14, the change 0.3
	if d := row(t, crumb.Compare(a, b), crumb.Porosity); d.Verdict != crumb.Perhaps || !strings.Contains(d.Why.String(), "doubtful") {
		t.Errorf("without retakes: verdict %d, %q", d.Verdict, d.Why)
	}
}

// Two loaves drawn apart are told apart by retakes under other light; a retake
// is told from neither.
func TestRetakenPhotos(t *testing.T) {
	take := func(seed uint64, porosity, gain, gradient float64) crumb.Summary {
		p, want := drawTruth(t, pan(func(s *phantom.Slice) {
			s.Seed, s.Cells.Porosity, s.Light.Gain, s.Light.Gradient = seed, porosity, gain, gradient
		}))
		r, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{PxPerMM: want.PxPerMM})
		if err != nil {
			t.Fatal(err)
		}
		return r.Summary
	}
	var fine []crumb.Summary
	for _, light := range race.Few([][2]float64{{1, 0}, {1.05, 0.35}, {0.7, 0.2}}, 2) {
		fine = append(fine, take(1, 0.26, light[0], light[1]))
	}
	open := take(2, 0.38, 1, 0.1)
	if d := row(t, crumb.Compare(fine[0], open, fine), crumb.Porosity); d.Verdict != crumb.Differs {
		t.Errorf("0.26 against 0.38 drawn: verdict %d, change %.3f, limit %.3f", d.Verdict, d.Change, d.Limit)
	}
	if d := row(t, crumb.Compare(fine[0], fine[1], fine), crumb.Porosity); d.Verdict != crumb.Alike {
		t.Errorf("the same slice again: verdict %d, change %.3f, limit %.3f", d.Verdict, d.Change, d.Limit)
	}
}

// Where nothing was photographed again, what is stated of both figures judges; and where
// something was, a change within it says so.
func TestUncertaintiesJudge(t *testing.T) {
	with := func(v, off float64) crumb.Summary {
		s := porosities(v)[0]
		s.Figures[0].Off = off
		return s
	}
	for _, c := range []struct {
		name    string
		b       float64
		off     float64
		retakes []crumb.Summary
		want    crumb.Verdict
		says    string
	}{
		// The root of 0.03² and 0.04² is 0.05.
		{"beyond both", 0.351, 0.04, nil, crumb.Differs, "Larger than the uncertainties"},
		{"within both", 0.349, 0.04, nil, crumb.CannotTell, "No larger than the uncertainties"},
		{"unknown of one", 0.5, 0, nil, crumb.CannotTell, "No repeat photos"},
		{"retakes tell finer", 0.34, 0.04, porosities(0.300, 0.301, 0.302), crumb.Perhaps, "may say otherwise"},
		{"beyond retakes and both", 0.351, 0.04, porosities(0.300, 0.301, 0.302), crumb.Differs, "Larger than retaking"},
	} {
		var groups [][]crumb.Summary
		if c.retakes != nil {
			groups = append(groups, c.retakes)
		}
		d := row(t, crumb.Compare(with(0.30, 0.03), with(c.b, c.off), groups...), crumb.Porosity)
		if d.Verdict != c.want || !strings.Contains(d.Why.String(), c.says) || c.off > 0 && math.Abs(d.Apart-0.05) > 1e-12 {
			t.Errorf("%s: %v, apart %.3f, %q", c.name, d.Verdict, d.Apart, d.Why)
		}
	}
}
