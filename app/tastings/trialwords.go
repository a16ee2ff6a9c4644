package tastings

import (
	"slices"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
)

// trialName is what a trial is called.
func trialName(t *journal.Trial) string {
	if t.Name != "" {
		return t.Name
	}
	if len(t.Arms) > 1 {
		return lang.L("{{.One}} against {{.Other}}", map[string]any{"One": t.Arms[0].Value, "Other": t.Arms[len(t.Arms)-1].Value})
	}
	return lang.L("A trial")
}

// trialState says in words how far the bakes of a trial are.
func trialState(t *journal.Trial, bakes []*journal.Bake) string {
	count := map[journal.BakeState]int{}
	for _, b := range bakes {
		count[b.State]++
	}
	what := map[string]any{"N": len(bakes), "What": variedWord(t.Varied)}
	switch {
	case len(bakes) < 2:
		return lang.L("A bake of this trial is gone")
	case count[journal.Running] > 0:
		return lang.L("Under way: {{.N}} bakes that differ in {{.What}}", what)
	case count[journal.Planned] == len(bakes):
		return lang.L("Planned: {{.N}} bakes that differ in {{.What}}", what)
	case count[journal.Planned] > 0:
		return lang.L("Begun: {{.N}} bakes that differ in {{.What}}", what)
	}
	return lang.L("Baked: {{.N}} bakes that differ in {{.What}}", what)
}

// variedWord says what is varied in the baker's language.
func variedWord(varied string) string {
	switch varied {
	case "":
		return lang.L("one thing")
	case journal.VaryCulture:
		return lang.L("the culture")
	case journal.VaryFlour:
		return lang.L("the flour")
	case journal.VarySalt:
		return lang.L("the salt")
	case journal.VaryColdRest:
		return lang.L("hours of cold proof")
	}
	return varied
}

// trialHeading says what comes next in a trial; nothing of two that are baked, of which it is
// said whether they are a fair pair.
func trialHeading(t *journal.Trial, bakes []*journal.Bake, tastings []*journal.Tasting) string {
	done := !slices.ContainsFunc(bakes, func(b *journal.Bake) bool { return !b.State.Over() })
	sealed := slices.ContainsFunc(tastings, func(t *journal.Tasting) bool { return t.IsSealed() })
	switch {
	case sealed:
		return lang.L("Baked, and waiting to be tasted")
	case done && len(bakes) == 2:
		return ""
	case done && len(bakes) > 2:
		return lang.L("All are baked")
	case slices.ContainsFunc(bakes, func(b *journal.Bake) bool { return b.State != journal.Planned }):
		return lang.L("Under way, side by side")
	}
	if arm := first(t, func(a journal.Arm) int { return a.MixOrder }); arm != nil {
		return lang.L("Mix the bowl with the {{.Mark}} first", map[string]any{"Mark": lang.L(arm.Mark)})
	}
	return trialName(t)
}

// first is the arm that comes first in an order that was drawn.
func first(t *journal.Trial, order func(journal.Arm) int) *journal.Arm {
	for i := range t.Arms {
		if order(t.Arms[i]) == 1 {
			return &t.Arms[i]
		}
	}
	return nil
}

// lotsOf tells what was drawn for a trial, a sentence each.
func lotsOf(t *journal.Trial) []string {
	say := func(a *journal.Arm) map[string]any { return map[string]any{"Value": a.Value, "Mark": lang.L(a.Mark)} }
	var out []string
	if a := first(t, func(a journal.Arm) int { return a.MixOrder }); a != nil {
		out = append(out, lang.L("Mixed first: {{.Value}}, the bowl with the {{.Mark}}.", say(a)))
	}
	if a := first(t, func(a journal.Arm) int { return a.BakeOrder }); a != nil {
		out = append(out, lang.L("Baked first: {{.Value}}, the bowl with the {{.Mark}}.", say(a)))
	}
	return out
}
