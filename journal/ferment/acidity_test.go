package ferment

import (
	"math"
	"strings"
	"testing"
)

// The first row is acidity.csv's, printed for 10 g; the others are arithmetic.
func TestTitrationPerTenGrams(t *testing.T) {
	cases := []struct {
		ml     float64
		sample Grams
		want   float64
	}{
		{6.6, 10, 6.6}, // type-I wheat sourdough, Nutrients 2019;11:2954, table 2
		{9.9, 15, 6.6}, {3.3, 5, 6.6},
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

// The three states of one wheat sourdough in Nutrients 2019;11:2954, table 2: each is told
// by its own figure, and none of them is called a range or a judgement.
func TestAcidityBesideOneStudy(t *testing.T) {
	for _, row := range rows(t, "acidity.csv") {
		want := "and mature"
		switch {
		case strings.Contains(row[0], "24 h"):
			want = "after a day at 30 °C"
		case strings.Contains(row[0], "4 h at"):
			want = "four hours after mixing"
		}
		got := AcidityWords(num(t, row[1])).String()
		for _, part := range []string{want, "(pH " + row[1], "Nutrients 2019;11:2954", " one "} {
			if !strings.Contains(got, part) {
				t.Errorf("%s: %q does not say %q", row[0], got, part)
			}
		}
	}
	for pH, want := range map[float64]string{3.2: "at least as sour", 3.7: "more sour than one mature", 4.1: "between four hours after mixing", 5: "less sour"} {
		if got := AcidityWords(pH).String(); !strings.Contains(got, want) {
			t.Errorf("pH %v: %q, want %q in it", pH, got, want)
		}
	}
	for _, pH := range []float64{0, -1, 14, math.NaN()} {
		if got := AcidityWords(pH).String(); got != "" {
			t.Errorf("pH %v: %q", pH, got)
		}
	}
}
