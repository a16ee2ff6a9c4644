// Package sensory holds the statistics of tasting methods: what a count of
// right answers says (share of those who can tell, d′), and what a plan can
// find beforehand (power). All of it is exact but for d′'s standard error,
// scaling's power and the limits among tasters who differ, and says so.
package sensory

import "twinloaf/journal/stats"

// Share is the share of answers that came from telling and not from guessing:
// of tasters who can tell, when each answers once; of rounds in which the
// taster could, when one answers several times.
type Share struct {
	// Telling is max(0, (c-chance)/(1-chance)), c the proportion of right answers:
	// ISO 4120, Annex B.
	Telling float64
	// Exact are two-sided limits for Telling, made of the Clopper-Pearson limits of c.
	Exact stats.Limits
	// Least and Most are one-sided limits for Telling, each at the level asked for
	// (Clopper-Pearson). Least is above 0 where a one-sided test at 1-level shows
	// something, and only there.
	Least, Most float64
}

// ShareOf works out the share from k right of n answers, n at least 1, where
// guessing is right with the given chance.
func ShareOf(k, n int, chance, level float64) Share {
	telling := func(pc float64) float64 { return max(0, (pc-chance)/(1-chance)) }
	l := stats.ClopperPearson(k, n, level)
	return Share{
		Telling: telling(float64(k) / float64(n)),
		Exact:   stats.Limits{Lower: telling(l.Lower), Upper: telling(l.Upper), Level: l.Level},
		Least:   telling(stats.ClopperPearsonLower(k, n, level)),
		Most:    telling(stats.ClopperPearsonUpper(k, n, level)),
	}
}

// Among widens the limits for tasters who answered several times and differ from
// one another, by a beta-binomial model of their right answers (see
// [stats.BetaBinomial]); no limit becomes narrower. It is false, and s as it was,
// with fewer than two tasters.
func (s Share) Among(right, of []int, chance float64) (Share, bool) {
	fit, err := stats.BetaBinomial(right, of, s.Exact.Level)
	if err != nil {
		return s, false
	}
	telling := func(pc float64) float64 { return max(0, (pc-chance)/(1-chance)) }
	s.Least, s.Most = min(s.Least, telling(fit.Lower)), max(s.Most, telling(fit.Upper))
	if two, err := stats.BetaBinomial(right, of, (1+s.Exact.Level)/2); err == nil {
		s.Exact.Lower, s.Exact.Upper = min(s.Exact.Lower, telling(two.Lower)), max(s.Exact.Upper, telling(two.Upper))
	}
	return s, true
}

// answersFor is the proportion of right answers when the share telling can
// tell and the rest guess.
func answersFor(telling, chance float64) float64 { return chance + (1-chance)*telling }
