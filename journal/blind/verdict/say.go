package verdict

import (
	"fmt"
	"math"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/sensory"
)

// nothingShown is the headline when so; it is said plainly.
const nothingShown = "Nothing was shown."

// say puts a counting method's figures in words.
func (v *Verdict) say(plan blind.Plan) {
	k, n := v.Tally.Agreeing, v.Tally.Counted
	if n == 0 {
		v.Headline = nothingShown
		v.Words = []string{"There is no answer to count."}
		return
	}
	v.Headline = nothingShown
	if v.Shown {
		v.Headline = headline(plan, k, n)
	}
	v.Words = append(v.Words, countWords(plan, v.Tally), chanceWords(plan, k, n, v.P))
	if v.Tally.Ties > 0 {
		v.Words = append(v.Words, fmt.Sprintf("%s “no preference”; they are told here and not counted in the test.", counted(v.Tally.Ties, "answer was", "answers were")))
	}
	if !v.Shown {
		v.Words = append(v.Words, v.whatItTakes(plan)...)
	}
	v.Words = append(v.Words, v.shareWords(plan)...)
}

func headline(plan blind.Plan, k, n int) string {
	if plan.Method != blind.Paired {
		return "They can be told apart."
	}
	winner := plan.Loaves[max(1, plan.Expected)-1]
	if plan.Expected == 0 && 2*k < n {
		winner = plan.Loaves[1]
	}
	if plan.Attribute == "" {
		return fmt.Sprintf("%s is liked better.", quoted(winner))
	}
	return fmt.Sprintf("%s is more %s.", quoted(winner), plan.Attribute)
}

// countWords says what was counted.
func countWords(plan blind.Plan, t Tally) string {
	k, n := t.Agreeing, t.Counted
	if plan.Method != blind.Paired {
		if len(plan.Tasters) == 1 {
			return fmt.Sprintf("%s was right in %d of %s.", plan.Tasters[0], k, counted(n, "round", "rounds"))
		}
		return fmt.Sprintf("%d of %s were right.", k, counted(n, "answer", "answers"))
	}
	verb := "liked %s better"
	if plan.Attribute != "" {
		verb = "called %s more " + plan.Attribute
	}
	named := max(1, plan.Expected) - 1
	return fmt.Sprintf("%d of %s "+verb+", %d %s.", k, counted(n, "answer", "answers"), quoted(plan.Loaves[named]), n-k, quoted(plan.Loaves[1-named]))
}

// chanceWords says how rare the count is by guessing alone.
func chanceWords(plan blind.Plan, k, n int, p float64) string {
	switch {
	case plan.OneSided():
		return fmt.Sprintf("By guessing alone that many or more comes up %s (p %s).", byChance(p), figure(p))
	case plan.Attribute == "":
		return fmt.Sprintf("If neither were liked better, a lead this large, either way, would come up %s (p %s).", byChance(p), figure(p))
	}
	return fmt.Sprintf("By guessing alone a lead this large, either way, comes up %s (p %s).", byChance(p), figure(p))
}

// whatItTakes follows "nothing was shown": what would have been found, and
// what it would take.
func (v *Verdict) whatItTakes(plan blind.Plan) []string {
	test, n := sensory.TestOf(plan), v.Tally.Counted
	words := []string{"That does not mean that the loaves are the same."}
	if plan.Expected != 0 && v.Tally.Agreeing*2 < n {
		words = append(words, fmt.Sprintf("More answers named %s, but the plan asked beforehand for %s alone, so this cannot be turned round now: plan a new tasting.", quoted(plan.Loaves[2-plan.Expected]), quoted(plan.Loaves[plan.Expected-1])))
	}
	found := Foresight{Answers: n, Power: test.Power(n, halfOfTheTime)}
	found.Needed, _ = test.Needed(halfOfTheTime, eightInTen)
	if found.Power > 0 {
		words = append(words, fmt.Sprintf("With %s, %s will be shown to do so %s.", answersOf(plan, n), whoTells(plan), timesIn(found.Power)))
	} else {
		words = append(words, fmt.Sprintf("%s cannot show anything, even if all agree.", sentenceCase(answersOf(plan, n))))
	}
	if found.Needed == 0 || found.Needed > n {
		words = append(words, found.neededWords(plan))
	}
	return words
}

// shareWords gives the share of those who can tell, and d′.
func (v *Verdict) shareWords(plan blind.Plan) []string {
	if v.Share == nil {
		return nil
	}
	who := "tasters who really can tell"
	if v.Replicates {
		who = "rounds in which it really was told"
	}
	words := []string{fmt.Sprintf("Share of %s: %s (95 %% limits %s to %s).", who,
		percent(v.Share.Telling), percent(v.Share.Exact.Lower), percent(v.Share.Exact.Upper))}
	switch d := v.DPrime; {
	case d.Unbounded:
		words = append(words, "All answers agree, so no upper end can be put to how different they are (d′ has no finite value).")
	case d.Known:
		words = append(words, fmt.Sprintf("How different they taste: d′ %.2f, standard error %.2f (1 is about the least that people call a difference).", d.Value, d.SE))
	default:
		words = append(words, "How different they taste: d′ 0, at or below what guessing gives.")
	}
	return words
}

// sayScaling puts scaling's figures in words.
func (v *Verdict) sayScaling(plan blind.Plan) {
	var shown []string
	for _, a := range v.Attributes {
		v.P = math.Min(v.P, a.Adjusted)
		if a.Shown {
			v.Shown = true
			shown = append(shown, a.Attribute.Name)
		}
		v.Words = append(v.Words, a.sentence(plan.Loaves))
	}
	v.Headline = nothingShown
	if v.Shown {
		v.Headline = fmt.Sprintf("A difference was shown: %s.", joined(shown))
		return
	}
	v.Words = append(v.Words, "That does not mean that the loaves are the same.")
	f := scalingFound(plan, v.Tally.Counted)
	v.Words = append(v.Words, f.Words[0])
	if f.Needed == 0 || f.Needed > v.Tally.Counted {
		v.Words = append(v.Words, f.neededWords(plan))
	}
}
