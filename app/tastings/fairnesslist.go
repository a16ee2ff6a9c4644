package tastings

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/say"
)

// fairness lists what differs between bakes beyond what was meant; each is
// accepted, or noted. of is the record that keeps the answers.
func fairness(env *pages.Env, of journal.Ref, find func() ([]journal.Unfair, error)) fyne.CanvasObject {
	list, err := find()
	if err != nil {
		return kit.Body(env.Units().ErrorText(err))
	}
	column := kit.Stack(4, kit.Section(lang.L("Is the comparison fair?")))
	if len(list) == 0 {
		column.Add(kit.Faint(lang.L("No other difference is recorded; anything not written down is unknown.")))
		return column
	}
	column.Add(kit.Faint(fairnessState(list)))
	for _, u := range list {
		column.Add(unfairRow(env, of, u))
	}
	return column
}

// fairnessState says how many differences still want a word.
func fairnessState(list []journal.Unfair) string {
	open := 0
	for _, u := range list {
		if !u.Settled() {
			open++
		}
	}
	switch {
	case open == 0:
		return lang.L("Other differences, all accepted or explained. They are repeated in the verdict.")
	case open == 1:
		return lang.L("One difference besides the one that is meant waits for your word. The verdict repeats them all.")
	}
	return lang.L("{{.N}} differences besides the one that is meant wait for your word. The verdict repeats them all.", map[string]any{"N": open})
}

// bakeOf is what a bake is called in a sentence.
func bakeOf(b *journal.Bake, instead say.Line) say.Line {
	if name := strings.TrimSpace(b.Name); name != "" {
		return say.Of("{{.Bake}}", say.With{"Bake": name})
	}
	return instead
}

func unfairRow(env *pages.Env, of journal.Ref, u journal.Unfair) fyne.CanvasObject {
	sentence := env.Units().Say(u.Sentence(bakeOf(u.First, say.Of("the first")), bakeOf(u.Second, say.Of("the second"))))
	note := kit.NewTextField("", lang.L("note, if you like"))
	note.SetText(u.Note)
	accepted := kit.NewChoicePill(lang.L("accepted"), u.Accepted, nil)
	now := u.Accepted
	accepted.OnTapped = func() {
		now = !now
		accepted.SetChosen(now)
		env.Fail(env.Journal.AnswerFairness(of, u.Key, now, note.Text()))
	}
	note.OnChanged = func(words string) { env.Fail(env.Journal.AnswerFairness(of, u.Key, now, words)) }
	words := kit.NewText(kit.Span{Text: sentence, Color: look.ColorInk})
	return kit.Stack(1, words, kit.RowGrow(4, 1, accepted, note))
}
