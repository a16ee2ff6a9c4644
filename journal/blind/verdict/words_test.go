package verdict

import "testing"

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
	for p, want := range map[float64]string{0.00344: "0.0034", 0.5: "0.5", 1: "1", 0.00002: "below 0.0001", 0.0502: "0.05"} {
		if got := figure(p).String(); got != want {
			t.Errorf("%g: %q, want %q", p, got, want)
		}
	}
}
