package verdict

import (
	"crypto/sha256"
	"math"
	"math/rand/v2"

	"twinloaf/journal/blind"
	"twinloaf/journal/say"
	"twinloaf/journal/stats"
)

// redraws is how often the orders are drawn anew: p is right to about 0.004
// near 0.03.
const redraws = 2000

// mostRedrawn is the most answers for which it is done. With more, balance binds
// them so loosely that the two p-values hardly differ.
const mostRedrawn = 60

// habitP is the p-value of what was counted when the orders are drawn anew
// against the answers that were given. It reports false where that adds nothing:
// where the orders were not balanced, in large tastings, and in scaling, whose
// lines have p-values of their own. The draws follow from the seal, so that the
// same tasting always shows the same figure.
func habitP(o blind.Opened, t Tally) (float64, bool) {
	plan := o.Setting.Plan
	if !o.Setting.Balanced() || plan.Answers() > mostRedrawn || plan.Method == blind.Scaling || t.Counted == 0 {
		return 0, false
	}
	count := func(t Tally) int {
		k, n := t.Agreeing, t.Counted
		if plan.AsksLiking() {
			votes := t.votes()
			k, n = votes.Agreeing, votes.Counted
		}
		if !plan.OneSided() {
			k = max(k, n-k)
		}
		return k
	}
	seen := count(t)
	source := rand.NewChaCha8(sha256.Sum256([]byte(o.Setting.Commitment)))
	as := 1
	for range redraws {
		other, err := o.Redrawn(source)
		if err != nil {
			return 0, false // ChaCha8 never fails
		}
		if count(tally(other, nil)) >= seen {
			as++
		}
	}
	return float64(as) / (redraws + 1), true
}

// habitWords cautions where a guesser's habits could have helped.
func habitWords(o blind.Opened, v Verdict) say.Line {
	if !v.Shown {
		return say.Line{}
	}
	p, ok := habitP(o, v.Tally)
	noise := 3 * math.Sqrt(v.P*(1-v.P)/redraws)
	if !ok || p < 1.5*v.P || p < v.P+noise+1.0/redraws {
		return say.Line{}
	}
	words := say.Of("The orders were balanced, which helps guessers who name each place equally often: with these very answers and the orders drawn anew, that many agree {{.Often}} (p about {{.P}}).",
		say.With{"Often": byChance(p), "P": Figure(p)})
	if !stats.Significant(p, o.Setting.Plan.Risk()) {
		words = say.Join(words, say.Of("No difference shown this way; taste again with more answers."))
	}
	return words
}
