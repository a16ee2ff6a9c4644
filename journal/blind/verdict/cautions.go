package verdict

import (
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/fair"
	"twinloaf/journal/say"
)

// cautions lists what takes from a verdict.
func cautions(in Input, v Verdict) []say.Line {
	var list []say.Line
	add := func(l say.Line) { list = append(list, l) }
	plan, t := in.Opened.Setting.Plan, v.Tally

	if reason := in.Opened.Progress.EndedEarly; reason != "" {
		add(say.Of("The host ended early, after {{.Done}} of {{.Planned}} rounds (“{{.Reason}}”). Stopping when the count looks good makes a false alarm more likely than the p-value says.",
			say.With{"Done": t.Planned - t.Never, "Planned": t.Planned, "Reason": reason}))
	}
	if len(t.Stopped) > 0 {
		add(say.Join(stoppedWords(t.Stopped), say.Of("Nobody knows while tasting what is right, so this makes no false alarm more likely; it only leaves fewer answers.")))
	}
	if t.Missing > 0 {
		add(say.N("{{.N}} round was handed in without an answer and counts for nothing.",
			"{{.N}} rounds were handed in without an answer and count for nothing.", t.Missing))
	}
	if v.Replicates {
		switch {
		case len(plan.Tasters) == 1 && plan.AsksLiking():
			add(say.Of("All answers are one taster's: they say what {{.Taster}} likes, not what others do.", say.With{"Taster": plan.Tasters[0]}))
		case len(plan.Tasters) == 1:
			add(say.Of("All answers are one taster's: they say what {{.Taster}} can do, not what others can. They are valid for “is there a difference”, not for “there is none”.",
				say.With{"Taster": plan.Tasters[0]}))
		default:
			add(replicates())
		}
	}
	if habit := habitWords(in.Opened, v); !habit.IsZero() {
		add(habit)
	}
	if t.SkippedRinses > 0 {
		add(say.N("{{.N}} pause to rinse was cut short.", "{{.N}} pauses to rinse were cut short.", t.SkippedRinses))
	}
	if t.OnPaper > 0 {
		add(say.N("{{.N}} answer was typed in from a printed sheet.", "{{.N}} answers were typed in from printed sheets.", t.OnPaper))
	}
	return append(list, corrected(in, v)...)
}

// stoppedWords says who tasted no more.
func stoppedWords(stopped []Stopped) say.Line {
	var lines []say.Line
	for _, s := range stopped {
		if s.After == 0 {
			lines = append(lines, say.Of("{{.Taster}} chose not to taste.", say.With{"Taster": s.Taster}))
		} else {
			lines = append(lines, say.N("{{.Taster}} stopped after {{.N}} round.", "{{.Taster}} stopped after {{.N}} rounds.", s.After, say.With{"Taster": s.Taster}))
		}
	}
	return say.Join(lines...)
}

// unfair says how the bakes differed in another way too.
func unfair(differences []fair.Difference, loaves [2]blind.Loaf) []say.Line {
	var list []say.Line
	for _, d := range differences {
		list = append(list, say.Of("{{.Difference}} ({{.Said}})",
			say.With{"Difference": d.Sentence(quoted(loaves[0]), quoted(loaves[1])), "Said": settled(d)}))
	}
	return list
}

// settled says what the baker said to a difference.
func settled(d fair.Difference) say.Line {
	switch {
	case d.Note != "":
		return say.Of("noted: {{.Note}}", say.With{"Note": d.Note})
	case d.Accepted:
		return say.Of("accepted")
	}
	return say.Of("not yet accepted")
}

// corrected says what corrections would change; the verdict itself stands on
// the scores as they were handed in.
func corrected(in Input, v Verdict) []say.Line {
	if len(in.Corrections) == 0 {
		return nil
	}
	other := judge(in.Opened, in.Corrections)
	words := []say.Line{say.N("After unsealing {{.N}} correction was added. The verdict stands on the scores as handed in.",
		"After unsealing {{.N}} corrections were added. The verdict stands on the scores as handed in.", len(in.Corrections))}
	for _, c := range in.Corrections {
		words = append(words, say.Of("Correction to round {{.Round}} of {{.Taster}}: {{.Reason}}.",
			say.With{"Round": c.Round + 1, "Taster": in.Opened.Progress.Name(in.Opened.Setting.Plan, c.Taster, c.Round), "Reason": c.Reason}))
	}
	with := say.With{"Headline": other.Headline, "P": Figure(other.P)}
	switch {
	case other.Shown && other.Headline.String() != v.Headline.String():
		return append(words, say.Of("With the corrections it would read: {{.Headline}} (p\u00a0{{.P}})", with))
	case !other.Shown && v.Shown:
		return append(words, say.Of("With the corrections nothing would be shown (p\u00a0{{.P}}).", with))
	}
	return append(words, say.Of("With the corrections it would read the same (p\u00a0{{.P}}).", with))
}

// replicates is said where tasters answered more than once.
func replicates() say.Line {
	return say.Of("Tasters answered more than once. That is valid for “is there a difference”, not for “there is none”.")
}
