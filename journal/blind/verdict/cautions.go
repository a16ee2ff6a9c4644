package verdict

import "fmt"

// cautions lists what takes from a verdict.
func cautions(in Input, v Verdict) []string {
	var list []string
	add := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	plan, t := in.Opened.Setting.Plan, v.Tally

	if reason := in.Opened.Progress.EndedEarly; reason != "" {
		add("The host ended early, after %d of %d rounds (“%s”). Stopping when the count looks good makes a false alarm more likely than the p-value says.", t.Planned-t.Never, t.Planned, reason)
	}
	if t.Missing > 0 {
		add("%s handed in without an answer and count for nothing.", counted(t.Missing, "round was", "rounds were"))
	}
	if v.Replicates {
		if len(plan.Tasters) == 1 {
			add("All answers are one taster's: they say what %s can do, not what others can. They are valid for “is there a difference”, not for “there is none”.", plan.Tasters[0])
		} else {
			add("Tasters answered more than once. That is valid for “is there a difference”, not for “there is none”.")
		}
	}
	list = append(list, habitWords(in.Opened, v)...)
	if t.SkippedRinses > 0 {
		add("%s cut short.", counted(t.SkippedRinses, "pause to rinse was", "pauses to rinse were"))
	}
	if t.OnPaper > 0 {
		add("%s typed in from printed sheets.", counted(t.OnPaper, "answer was", "answers were"))
	}
	list = append(list, corrected(in, v)...)
	for _, d := range in.Differences {
		said := "not yet accepted"
		switch {
		case d.Note != "":
			said = "noted: " + d.Note
		case d.Accepted:
			said = "accepted"
		}
		add("The bakes differed also otherwise. %s (%s)", d.Sentence(quoted(plan.Loaves[0]), quoted(plan.Loaves[1])), said)
	}
	return list
}

// corrected says what corrections would change; the verdict itself stands on
// the scores as they were handed in.
func corrected(in Input, v Verdict) []string {
	if len(in.Corrections) == 0 {
		return nil
	}
	other := judge(in.Opened, in.Corrections)
	words := []string{fmt.Sprintf("After unsealing %s added. The verdict stands on the scores as handed in.", counted(len(in.Corrections), "correction was", "corrections were"))}
	for _, c := range in.Corrections {
		words = append(words, fmt.Sprintf("Correction to round %d of %s: %s.", c.Round+1, in.Opened.Setting.Plan.Tasters[c.Taster], c.Reason))
	}
	switch {
	case other.Shown && !v.Shown:
		words = append(words, fmt.Sprintf("With the corrections it would read: %s (p %s)", other.Headline, figure(other.P)))
	case !other.Shown && v.Shown:
		words = append(words, fmt.Sprintf("With the corrections nothing would be shown (p %s).", figure(other.P)))
	default:
		words = append(words, fmt.Sprintf("With the corrections it would read the same (p %s).", figure(other.P)))
	}
	return words
}
