package verdict

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// percent writes a share as a whole per cent.
func percent(x float64) string { return strconv.Itoa(int(math.Round(100*x))) + " %" }

// figure writes a p-value with two digits that count.
func figure(p float64) string {
	if p < 0.0001 {
		return "below 0.0001"
	}
	return strconv.FormatFloat(rounded(p), 'f', -1, 64)
}

// rounded keeps two digits that count.
func rounded(x float64) float64 {
	short, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 1, 64), 64)
	if err != nil {
		return x
	}
	return short
}

// byChance says how often something with probability p comes up.
func byChance(p float64) string {
	switch {
	case p >= 1:
		return "always"
	case p > 0.995:
		return "nearly always"
	case p > 0.2:
		return fmt.Sprintf("about %d times in 100 tries", int(math.Round(100*p)))
	case p < 1e-6:
		return "less than once in a million tries"
	}
	return fmt.Sprintf("about once in %s tries", thousands(rounded(1/p)))
}

// thousands writes a whole number with narrow gaps.
func thousands(x float64) string {
	digits := strconv.FormatFloat(math.Round(x), 'f', 0, 64)
	var groups []string
	for len(digits) > 3 {
		groups = append([]string{digits[len(digits)-3:]}, groups...)
		digits = digits[:len(digits)-3]
	}
	return strings.Join(append([]string{digits}, groups...), "\u202f")
}

// shares are the plain fractions that a chance is rounded to.
var shares = []struct {
	value float64
	words string
}{
	{1.0 / 50, "about one time in fifty"}, {1.0 / 20, "about one time in twenty"},
	{1.0 / 10, "about one time in ten"}, {1.0 / 7, "about one time in seven"},
	{1.0 / 5, "about one time in five"}, {1.0 / 4, "about one time in four"},
	{1.0 / 3, "about one time in three"}, {2.0 / 5, "about two times in five"},
	{1.0 / 2, "about one time in two"}, {3.0 / 5, "about three times in five"},
	{2.0 / 3, "about two times in three"}, {3.0 / 4, "about three times in four"},
	{4.0 / 5, "about eight times in ten"}, {9.0 / 10, "about nine times in ten"},
	{19.0 / 20, "about nineteen times in twenty"},
}

// timesIn says a chance as a plain fraction.
func timesIn(p float64) string {
	switch {
	case p <= 0:
		return "never"
	case p < 0.012:
		return "hardly ever"
	case p > 0.97:
		return "nearly always"
	}
	best := shares[0]
	for _, s := range shares[1:] {
		if math.Abs(s.value-p) < math.Abs(best.value-p) {
			best = s
		}
	}
	return best.words
}

// counted writes a number with its noun.
func counted(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + more
}

// joined lists words as a sentence does.
func joined(words []string) string {
	switch len(words) {
	case 0:
		return ""
	case 1:
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
