package ferment

import (
	"math"
	"strings"
	"testing"
)

// Rows of acidity.csv: the ones per 15 g were printed so, with end point pH 6.6,
// and the table gives them per 10 g.
func TestTitrationPerTenGrams(t *testing.T) {
	cases := []struct {
		ml     float64
		sample Grams
		want   float64
	}{
		{13, 15, 8.7}, {15, 15, 10.0}, // "good and fully matured functional sour"
		{18, 15, 12.0}, {22, 15, 14.7}, // over-matured
		{6.6, 10, 6.6}, // type-I wheat sourdough, Nutrients 2019;11:2954, table 2
	}
	for _, c := range cases {
		got, ok := Titration{ML: c.ml, Sample: c.sample}.PerTenGrams()
		if !ok || math.Abs(got-c.want) > 0.05 {
			t.Errorf("%v mL on %v g: %v, want %v", c.ml, float64(c.sample), got, c.want)
		}
	}
	if _, ok := (Titration{ML: 5}).PerTenGrams(); ok {
		t.Error("a sample of unknown mass has no acidity for 10 g")
	}
	if (Titration{5, 10, 8.5}).Comparable(Titration{5, 10, 6.6}) || !(Titration{5, 10, 6.6}).Comparable(Titration{7, 15, 6.6}) {
		t.Error("only the same end point may be compared")
	}
}

func TestAcidityBesidePublishedRanges(t *testing.T) {
	for _, row := range rows(t, "acidity.csv") {
		var pH float64
		var want string
		switch {
		case row[1] == "3.9-4.1":
			pH, want = 4.0, "good and fully matured"
		case row[1] == "<=3.8":
			pH, want = 3.8, "over-matured"
		case strings.Contains(row[0], "4 h at") && !strings.Contains(row[0], "24"):
			pH, want = num(t, row[1]), "some hours after a feeding"
		case strings.Contains(row[0], "24 h"):
			pH, want = num(t, row[1]), "over-matured"
		default:
			pH, want = num(t, row[1]), "between fully matured and over-matured"
		}
		if got := AcidityWords(pH).String(); !strings.Contains(got, want) || !strings.Contains(got, "approximate") {
			t.Errorf("%s: %q", row[0], got)
		}
	}
	for _, pH := range []float64{0, -1, 14, math.NaN()} {
		if got := AcidityWords(pH).String(); got != "" {
			t.Errorf("pH %v: %q", pH, got)
		}
	}
}
