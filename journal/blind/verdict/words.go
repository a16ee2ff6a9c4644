package verdict

import (
	"math"
	"strconv"

	"twinloaf/journal/say"
)

// percent writes a share as a whole per cent.
func percent(x float64) say.Quantity { return say.Percent(math.Round(100*x), 0) }

// Figure writes a p-value with two digits that count, and with up to four where those would be
// zeros: 0.0503 is no 0.05, the risk that is usually taken.
func Figure(p float64) say.Line {
	if p < 0.0001 {
		return say.Of("below {{.Least}}", say.With{"Least": say.Number{Value: 0.0001, Decimals: 4}})
	}
	digits := 2
	for digits < 4 && rounded(p, digits) == rounded(p, digits-1) {
		digits++
	}
	return say.Of("{{.P}}", say.With{"P": say.Number{Value: rounded(p, digits), Decimals: say.AsNeeded}})
}

// rounded keeps so many digits that count.
func rounded(x float64, digits int) float64 {
	short, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
	if err != nil {
		return x
	}
	return short
}

// byChance says how often something with probability p comes up.
func byChance(p float64) say.Line {
	switch {
	case p >= 1:
		return say.Of("always")
	case p > 0.995:
		return say.Of("nearly always")
	case p > 0.2:
		return say.Of("about {{.Times}} times in 100 tries", say.With{"Times": int(math.Round(100 * p))})
	case p < 1e-6:
		return say.Of("less than once in a million tries")
	}
	return say.Of("about once in {{.Tries}} tries", say.With{"Tries": say.Thousands(rounded(1/p, 2))})
}

// shares are the plain fractions that a chance is rounded to.
func shares() []share {
	return []share{
		{1.0 / 50, say.Of("about one time in fifty")}, {1.0 / 20, say.Of("about one time in twenty")},
		{1.0 / 10, say.Of("about one time in ten")}, {1.0 / 7, say.Of("about one time in seven")},
		{1.0 / 5, say.Of("about one time in five")}, {1.0 / 4, say.Of("about one time in four")},
		{1.0 / 3, say.Of("about one time in three")}, {2.0 / 5, say.Of("about two times in five")},
		{1.0 / 2, say.Of("about one time in two")}, {3.0 / 5, say.Of("about three times in five")},
		{2.0 / 3, say.Of("about two times in three")}, {3.0 / 4, say.Of("about three times in four")},
		{4.0 / 5, say.Of("about eight times in ten")}, {9.0 / 10, say.Of("about nine times in ten")},
		{19.0 / 20, say.Of("about nineteen times in twenty")},
	}
}

type share struct {
	value float64
	words say.Line
}

// timesIn says a chance as a plain fraction.
func timesIn(p float64) say.Line {
	switch {
	case p <= 0:
		return say.Of("never")
	case p < 0.012:
		return say.Of("hardly ever")
	case p > 0.97:
		return say.Of("nearly always")
	}
	all := shares()
	best := all[0]
	for _, s := range all[1:] {
		if math.Abs(s.value-p) < math.Abs(best.value-p) {
			best = s
		}
	}
	return best.words
}

func rounds(n int) say.Line { return say.N("{{.N}} round", "{{.N}} rounds", n) }

func answers(n int) say.Line { return say.N("{{.N}} answer", "{{.N}} answers", n) }
