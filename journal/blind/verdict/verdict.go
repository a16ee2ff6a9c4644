// Package verdict says what a tasting showed: in plain words first, then the
// figures. It never says that two loaves are the same.
package verdict

import (
	"fmt"
	"strings"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/fair"
	"twinloaf/journal/blind/sensory"
	"twinloaf/journal/say"
	"twinloaf/journal/stats"
)

// Input is an unsealed tasting and what the baker said to it.
type Input struct {
	Opened blind.Opened
	// Corrections were added after unsealing.
	Corrections []Correction
	// Differences are those of the fairness list, with what was said to them.
	Differences []fair.Difference
}

// Verdict is what a tasting showed.
type Verdict struct {
	// Headline is the verdict in a few plain words.
	Headline say.Line
	// Shown says that something was shown at the risk planned.
	Shown bool
	// Words explain it, one sentence each.
	Words []say.Line
	// Details are the figures behind it that fewer people want: d′, and in
	// scaling the lines on which nothing was shown.
	Details []say.Line
	// Cautions are what takes from it: an early end, missing answers,
	// replicates, corrections.
	Cautions []say.Line
	// Unfair are the differences between the bakes beyond the intended one, with
	// what the baker said to each.
	Unfair []say.Line

	Tally Tally
	// Votes is what the test counts where several tasters said more than once
	// which loaf they like better; nil elsewhere, where it counts answers. A
	// taster who has a taste says the same again and again, and that is no luck.
	Votes *Votes
	// P is the exact p-value; two-sided where no direction was planned. In scaling
	// it is the least of the attributes' own, after Holm's correction. It supposes
	// servings that know nothing of one another (see [blind.Setting.Balanced]);
	// with several rounds of several tasters it judges “nobody can tell them
	// apart” (Ennis & Bi 1998, J Sens Stud 13:389), which is why liking counts
	// tasters. 1 with nothing to count.
	P float64
	// Critical is the fewest agreeing answers, or tasters, that would have shown
	// something; 0 when not even all would.
	Critical int
	// Share and DPrime are nil where they mean nothing: in scaling, when liking was
	// asked, with no answers, and, DPrime, where it cannot be worked out.
	Share      *sensory.Share
	DPrime     *sensory.DPrime
	Attributes []AttributeResult // scaling only
	// Replicates says that some taster answered more than once: valid for "is
	// there a difference", not for "there is none".
	Replicates bool
	widened    bool // Share allows for tasters who differ
}

// ErrSeal is returned when the canonical text does not match the commitment.
var ErrSeal = say.NewError("the seal does not match: something was changed after sealing")

// Of works out the verdict of a tasting that [blind.Reopen] or Unseal gave. It
// checks the seal once more and returns ErrSeal when it is broken; a correction that is no answer or lacks its reason is refused
// with an error wrapping blind.ErrAnswer.
func Of(in Input) (Verdict, error) {
	setting := in.Opened.Setting
	if !blind.Verifies(in.Opened.Text, setting.Commitment) {
		return Verdict{}, ErrSeal
	}
	for _, c := range in.Corrections {
		serving, ok := setting.Serving(c.Taster, c.Round)
		if !ok || strings.TrimSpace(c.Reason) == "" {
			return Verdict{}, fmt.Errorf("correct round %d of taster %d: a tasted round and a reason are needed: %w", c.Round+1, c.Taster+1, blind.ErrAnswer)
		}
		if err := setting.CheckAnswer(serving, c.Answer); err != nil {
			return Verdict{}, fmt.Errorf("correct an answer: %w", err)
		}
	}
	v := judge(in.Opened, nil)
	v.Cautions, v.Unfair = cautions(in, v), unfair(in.Differences, setting.Plan.Loaves)
	return v, nil
}

// judge works out figures and words, with corrections in place when given.
func judge(o blind.Opened, corrections []Correction) Verdict {
	v := tallied(o, corrections)
	if o.Setting.Plan.Method == blind.Scaling {
		v.Attributes = attributes(o, corrections)
		v.sayScaling(o.Setting.Plan)
		return v
	}
	v.count(o.Setting.Plan)
	v.estimate(o.Setting.Plan)
	v.say(o.Setting.Plan)
	return v
}

// tallied counts the answers.
func tallied(o blind.Opened, corrections []Correction) Verdict {
	v := Verdict{Tally: tally(o, corrections), P: 1}
	for _, s := range v.Tally.PerTaster {
		v.Replicates = v.Replicates || s.Counted > 1
	}
	return v
}

// count puts what was counted to the test.
func (v *Verdict) count(plan blind.Plan) {
	if v.Tally.Counted == 0 {
		return
	}
	if plan.AsksLiking() && v.Replicates && v.Tally.people() > 1 {
		votes := v.Tally.votes()
		v.Votes = &votes
	}
	test, k, n := sensory.TestOf(plan), v.Tally.Agreeing, v.Tally.Counted
	if v.Votes != nil {
		k, n = v.Votes.Agreeing, v.Votes.Counted
	}
	if n > 0 {
		v.P = test.P(k, n)
		v.Critical, _ = test.Critical(n)
	}
	v.Shown = stats.Significant(v.P, plan.Risk())
}

// estimate gives the share of those who can tell, and d′, where they mean anything.
func (v *Verdict) estimate(plan blind.Plan) {
	k, n := v.Tally.Agreeing, v.Tally.Counted
	if n == 0 || plan.AsksLiking() {
		return
	}
	if !plan.OneSided() {
		k = max(k, n-k)
	}
	share := sensory.ShareOf(k, n, plan.Method.Chance(), 1-plan.Risk())
	if v.Replicates {
		share, v.widened = v.among(share, plan)
	}
	v.Share = &share
	if sensory.HasDPrime(plan.Method) {
		dprime := sensory.DPrimeOf(plan.Method, k, n)
		v.DPrime = &dprime
	}
}

// among widens the limits of a share for tasters who differ.
func (v *Verdict) among(share sensory.Share, plan blind.Plan) (sensory.Share, bool) {
	turned := !plan.OneSided() && 2*v.Tally.Agreeing < v.Tally.Counted
	var right, of []int
	for _, s := range v.Tally.PerTaster {
		if s.Counted == 0 {
			continue
		}
		if turned {
			s.Agreeing = s.Counted - s.Agreeing
		}
		right, of = append(right, s.Agreeing), append(of, s.Counted)
	}
	return share.Among(right, of, plan.Method.Chance())
}

// quoted is a loaf's name in a sentence.
func quoted(l blind.Loaf) say.Line { return say.Of("“{{.Loaf}}”", say.With{"Loaf": l.Name}) }
