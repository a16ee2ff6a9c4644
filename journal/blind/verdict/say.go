package verdict

import (
	"math"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/sensory"
	"twinloaf/journal/say"
)

// nothingShown is the headline when so; it is said plainly.
func nothingShown() say.Line { return say.Of("No difference shown.") }

// notTheSame is said wherever nothing was shown.
func notTheSame() say.Line { return say.Of("That does not mean that the loaves are the same.") }

// say puts a counting method's figures in words.
func (v *Verdict) say(plan blind.Plan) {
	k, n := v.Tally.Agreeing, v.Tally.Counted
	v.Headline = nothingShown()
	if n == 0 {
		v.Words = []say.Line{say.Of("There is no answer to count.")}
		return
	}
	if v.Votes != nil {
		k, n = v.Votes.Agreeing, v.Votes.Counted
	}
	if v.Shown {
		v.Headline = headline(plan, k, n)
	}
	v.Words = append(v.Words, countWords(plan, v.Tally))
	if v.Votes != nil {
		v.Words = append(v.Words, voteWords(plan, *v.Votes))
	}
	if n > 0 {
		v.Words = append(v.Words, chanceWords(plan, v.P))
	}
	if v.Tally.Ties > 0 {
		v.Words = append(v.Words, say.N("{{.N}} answer was “no preference”; it is listed here and not counted in the test.",
			"{{.N}} answers were “no preference”; they are listed here and not counted in the test.", v.Tally.Ties))
	}
	if !v.Shown {
		v.Words = append(v.Words, v.whatItTakes(plan)...)
	}
	v.sayShare(plan)
}

func headline(plan blind.Plan, k, n int) say.Line {
	if plan.Method == blind.ThreeAFC {
		return say.Of("“{{.Loaf}}” is more {{.Attribute}}.", say.With{"Loaf": plan.Loaves[plan.Expected-1].Name, "Attribute": plan.Attribute})
	}
	if plan.Method != blind.Paired {
		return say.Of("They can be told apart.")
	}
	winner := plan.Loaves[max(1, plan.Expected)-1]
	if plan.Expected == 0 && 2*k < n {
		winner = plan.Loaves[1]
	}
	switch {
	case plan.Attribute == "" && len(plan.Tasters) == 1:
		return say.Of("{{.Taster}} likes “{{.Loaf}}” better.", say.With{"Taster": plan.Tasters[0], "Loaf": winner.Name})
	case plan.Attribute == "":
		return say.Of("“{{.Loaf}}” is liked better.", say.With{"Loaf": winner.Name})
	}
	return say.Of("“{{.Loaf}}” is more {{.Attribute}}.", say.With{"Loaf": winner.Name, "Attribute": plan.Attribute})
}

// countWords says what was counted.
func countWords(plan blind.Plan, t Tally) say.Line {
	k, n := t.Agreeing, t.Counted
	if plan.Method != blind.Paired {
		if len(plan.Tasters) == 1 {
			return say.Of("{{.Taster}} was right in {{.Right}} of {{.Rounds}}.", say.With{"Taster": plan.Tasters[0], "Right": k, "Rounds": rounds(n)})
		}
		return say.Of("{{.Right}} of {{.Answers}} right.", say.With{"Right": k, "Answers": answers(n)})
	}
	named := max(1, plan.Expected) - 1
	with := say.With{"Count": k, "Answers": answers(n), "Loaf": plan.Loaves[named].Name,
		"Attribute": plan.Attribute, "Rest": n - k, "Other": plan.Loaves[1-named].Name}
	if plan.Attribute != "" {
		return say.Of("{{.Count}} of {{.Answers}} called “{{.Loaf}}” more {{.Attribute}}, {{.Rest}} “{{.Other}}”.", with)
	}
	return say.Of("{{.Count}} of {{.Answers}} liked “{{.Loaf}}” better, {{.Rest}} “{{.Other}}”.", with)
}

// voteWords says how many tasters lean which way.
func voteWords(plan blind.Plan, v Votes) say.Line {
	with := say.With{"For": v.Agreeing, "Of": v.Counted, "Loaf": plan.Loaves[0].Name, "Rest": v.Counted - v.Agreeing, "Other": plan.Loaves[1].Name, "Even": v.Even}
	if v.Even > 0 {
		return say.Of("One taster's rounds are not separate evidence, so each taster counts once, for the loaf named more often: {{.For}} of {{.Of}} for “{{.Loaf}}”, {{.Rest}} for “{{.Other}}”, {{.Even}} for neither.", with)
	}
	return say.Of("One taster's rounds are not separate evidence, so each taster counts once, for the loaf named more often: {{.For}} of {{.Of}} for “{{.Loaf}}”, {{.Rest}} for “{{.Other}}”.", with)
}

// chanceWords says how rare the count is by guessing alone.
func chanceWords(plan blind.Plan, p float64) say.Line {
	with := say.With{"Often": byChance(p), "P": Figure(p), "Taster": plan.Tasters[0]}
	switch {
	case plan.OneSided():
		return say.Of("By guessing alone that many or more comes up {{.Often}} (p\u00a0{{.P}}).", with)
	case plan.Attribute == "" && len(plan.Tasters) == 1:
		return say.Of("If {{.Taster}} liked neither better, a lead this large, either way, would come up {{.Often}} (p\u00a0{{.P}}).", with)
	case plan.Attribute == "":
		return say.Of("If neither were liked better, a lead this large, either way, would come up {{.Often}} (p\u00a0{{.P}}).", with)
	}
	return say.Of("By guessing alone a lead this large, either way, comes up {{.Often}} (p\u00a0{{.P}}).", with)
}

// whatItTakes follows "nothing was shown": what would have been found, and
// what it would take.
func (v *Verdict) whatItTakes(plan blind.Plan) []say.Line {
	test, n := sensory.TestOf(plan), v.Tally.Counted
	if v.Votes != nil {
		n = v.Votes.Counted
	}
	words := []say.Line{notTheSame()}
	if plan.Method == blind.Paired && plan.Expected != 0 && v.Tally.Agreeing*2 < n {
		words = append(words, say.Of("More answers named “{{.Named}}”, but the plan asked beforehand for “{{.Asked}}” alone, so this cannot be turned round now: plan a new tasting.",
			say.With{"Named": plan.Loaves[2-plan.Expected].Name, "Asked": plan.Loaves[plan.Expected-1].Name}))
	}
	found := Foresight{Answers: n, Power: test.Power(n, halfOfTheTime)}
	found.Needed, _ = test.Needed(halfOfTheTime, eightInTen)
	if found.Power > 0 {
		words = append(words, powerWords(plan, n, found.Power))
	} else {
		words = append(words, say.Begin(say.Of("{{.Answers}} cannot show anything, even if all agree.", say.With{"Answers": countedOf(plan, n)})))
	}
	if found.Needed == 0 || found.Needed > n {
		words = append(words, found.neededWords(plan))
	}
	return words
}

// shareWords gives the share of those who can tell, with the limits that belong
// to the test: one-sided where the test is. At or below what guessing gives there
// is nothing to give a share of.
func (v *Verdict) shareWords(plan blind.Plan) say.Line {
	share := v.Share
	with := say.With{"Share": percent(share.Telling), "Level": percent(share.Exact.Level), "Least": percent(share.Least), "Most": percent(share.Most),
		"From": percent(share.Exact.Lower), "To": percent(share.Exact.Upper)}
	subject := say.Of("Estimated share of tasters who can really tell")
	if v.Replicates {
		subject = say.Of("Estimated share of rounds in which the difference was really noticed")
	}
	with["What"] = subject
	switch {
	case share.Telling == 0 && plan.Method == blind.Paired && plan.Expected != 0:
		return say.Of("No more answers than guessing gives named “{{.Loaf}}”, so there is no share of those who can tell to give.", say.With{"Loaf": plan.Loaves[plan.Expected-1].Name})
	case share.Telling == 0:
		return say.Of("No more were right than guessing gives, so there is no share of those who can tell to give.")
	case !plan.OneSided():
		return say.Of("{{.What}}: {{.Share}} ({{.Level}} confidence interval {{.From}} to {{.To}}, two-sided as the test is).", with)
	case v.Shown && share.Least < 0.005 && !v.widened:
		return say.Of("{{.What}}: {{.Share}}, and more than none (one-sided {{.Level}} confidence limit, as the test is one-sided).", with)
	case v.Shown && share.Least < 0.005:
		return say.Of("{{.What}}: {{.Share}}. Between tasters who differ this much no lower limit above none can be given (one-sided {{.Level}} confidence limit).", with)
	case share.Most > 0.995 && !v.Shown:
		return say.Of("{{.What}}: {{.Share}}, but these answers leave everything open from none to all (one-sided {{.Level}} confidence limits).", with)
	case v.Shown:
		return say.Of("{{.What}}: {{.Share}}, and at least {{.Least}} (one-sided {{.Level}} confidence limit, as the test is one-sided).", with)
	}
	return say.Of("{{.What}}: {{.Share}}; it may be none, and is at most {{.Most}} (one-sided {{.Level}} confidence limit).", with)
}

// sayShare gives the share of those who can tell, and d′.
func (v *Verdict) sayShare(plan blind.Plan) {
	if v.Share == nil {
		return
	}
	v.Words = append(v.Words, v.shareWords(plan))
	if v.widened {
		v.Details = append(v.Details, say.Of("The confidence limits allow for tasters who differ from one another (beta-binomial model, Ennis & Bi 1998)."))
	}
	if v.DPrime == nil {
		v.Details = append(v.Details, say.Of("No d′ is given for two-out-of-five: its published analysis (Ennis 2013, J Sens Stud 28:297) is not built in."))
		return
	}
	switch d := v.DPrime; {
	case d.Unbounded:
		v.Details = append(v.Details, say.Of("All answers agree, so no upper end can be put to how different they are (d′ has no finite value)."))
	case d.Known:
		v.Details = append(v.Details, say.Of("Size of the difference: d′ {{.D}}, standard error {{.SE}} (by convention 1 is about the threshold).",
			say.With{"D": say.Number{Value: d.Value, Decimals: 2}, "SE": say.Number{Value: d.SE, Decimals: 2}}))
	default:
		v.Details = append(v.Details, say.Of("How different they taste: d′ 0, at or below what guessing gives."))
	}
}

// sayScaling puts scaling's figures in words.
func (v *Verdict) sayScaling(plan blind.Plan) {
	var shown []string
	for _, a := range v.Attributes {
		v.P = math.Min(v.P, a.Adjusted)
		if !a.Shown {
			v.Details = append(v.Details, a.sentence(plan.Loaves))
			continue
		}
		v.Shown = true
		shown = append(shown, a.Attribute.Name)
		v.Words = append(v.Words, a.sentence(plan.Loaves))
	}
	if n := len(v.Attributes); n > 0 && v.Replicates && v.Tally.people() > 1 {
		v.Details = append(v.Details, say.Of("Each taster counts once, with the mean of the rounds: one taster's rounds are not separate evidence."))
	}
	v.Headline = nothingShown()
	if v.Shown {
		v.Headline = say.Of("A difference was shown: {{.Attributes}}.", say.With{"Attributes": say.And(shown...)})
		return
	}
	v.Words = append(v.Words, notTheSame())
	pairs := v.Tally.Counted
	if people := v.Tally.people(); people > 1 {
		pairs = people
	}
	f := scalingFound(plan, pairs)
	v.Words = append(v.Words, f.Words[0])
	if f.Needed == 0 || f.Needed > pairs {
		v.Words = append(v.Words, f.neededWords(plan))
	}
}
