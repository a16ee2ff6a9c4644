package verdict

import (
	"regexp"
	"testing"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/sensory"
)

// What is said of the share never contradicts itself, from no answer right to all,
// whether the test shows something or not.
func TestTheShareAtItsEdges(t *testing.T) {
	odd := regexp.MustCompile(`at least 0 %|at most 100 %|100 %; it may be none|is at most 0 %`)
	open := 0
	for _, m := range blind.Methods() {
		if !m.Discriminates() {
			continue
		}
		plan := blind.Plan{Method: m, Tasters: []string{"Ines", "Tom"}, Attribute: "sour", Expected: 1}
		for n := 1; n <= 40; n++ {
			for k := range n + 1 {
				share := sensory.ShareOf(k, n, m.Chance(), 0.95)
				v := Verdict{Share: &share, Shown: sensory.TestOf(plan).P(k, n) <= 0.05}
				words := v.shareWords(plan).String()
				if odd.MatchString(words) {
					t.Errorf("%s, %d of %d: %s", m, k, n, words)
				}
				if share.Most > 0.995 && !v.Shown && share.Telling > 0 {
					open++
				}
				if v.widened = true; v.Shown {
					share.Least = 0
					if words := v.shareWords(plan).String(); odd.MatchString(words) {
						t.Errorf("%s, %d of %d, tasters who differ: %s", m, k, n, words)
					}
				}
			}
		}
	}
	if open == 0 {
		t.Error("no count leaves everything open")
	}
	one := sensory.ShareOf(1, 1, 1.0/3, 0.95)
	v := Verdict{Share: &one}
	if got, want := v.shareWords(blind.Plan{Method: blind.Triangle}).String(), "Estimated share of tasters who can really tell: 100 %, but these answers leave everything open from none to all (one-sided 95 % confidence limits)."; got != want {
		t.Errorf("%q, not %q", got, want)
	}
}

func TestHowOftenByChance(t *testing.T) {
	for p, want := range map[float64]string{
		0.0039:    "about once in 260 tries",
		1.0 / 729: "about once in 730 tries",
		1e-4:      "about once in 10\u202f000 tries",
		1e-9:      "less than once in a million tries",
		0.05:      "about once in 20 tries",
		0.3196:    "about 32 times in 100 tries",
		0.9:       "about 90 times in 100 tries",
		0.999:     "nearly always",
		1:         "always",
	} {
		if got := byChance(p).String(); got != want {
			t.Errorf("%g: %q, want %q", p, got, want)
		}
	}
}

func TestPlainFractions(t *testing.T) {
	for p, want := range map[float64]string{
		0: "never", 0.005: "hardly ever", 0.02: "about one time in fifty", 0.351: "about one time in three",
		0.5: "about one time in two", 0.8: "about eight times in ten", 0.99: "nearly always",
	} {
		if got := timesIn(p).String(); got != want {
			t.Errorf("%g: %q, want %q", p, got, want)
		}
	}
}

func TestFiguresKeepTwoDigits(t *testing.T) {
	for p, want := range map[float64]string{0.00344: "0.0034", 0.5: "0.5", 1: "1", 0.00002: "below 0.0001", 0.0502: "0.0502", 0.0516: "0.052"} {
		if got := Figure(p).String(); got != want {
			t.Errorf("%g: %q, want %q", p, got, want)
		}
	}
}

// No p-value is written as a risk that it is not: 14 right of 28 triangles have 0.0503
// (exact binomial), which shows nothing at a risk of 0.05.
func TestNoPValueIsWrittenAsTheRisk(t *testing.T) {
	for _, m := range blind.Methods() {
		for _, risk := range []float64{0.01, 0.05, 0.1} {
			test := sensory.TestOf(blind.Plan{Method: m, Tasters: []string{"Ines"}})
			for n := 1; n <= 60 && m != blind.Scaling; n++ {
				for k := range n + 1 {
					if p := test.P(k, n); p > risk*(1+1e-9) && Figure(p).String() == Figure(risk).String() {
						t.Errorf("%s, %d of %d: p %v is written as %s", m, k, n, p, Figure(p))
					}
				}
			}
		}
	}
}
