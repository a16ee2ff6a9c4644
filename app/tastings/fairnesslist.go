package tastings

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/say"
)

// fairness lists what differs between bakes beyond what was meant; each is
// accepted, or noted. of is the record that keeps the answers. Of two bakes the names may
// be given: figures then stand in columns below them, and not in sentences.
func fairness(env *pages.Env, of journal.Ref, names []string, find func() ([]journal.Unfair, error)) fyne.CanvasObject {
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
	headed := false
	for _, u := range list {
		first, second, apart, ok := u.Figures()
		if !ok || len(names) != 2 {
			pair := journal.PairNames(env.Journal, u.First, u.Second)
			column.Add(kit.Stack(1, kit.Body(env.Units().Say(u.Sentence(bakeOf(pair[0], say.Of("the first")), bakeOf(pair[1], say.Of("the second"))))), answer(env, of, u)))
			continue
		}
		if !headed {
			headed = true
			column.Add(figuresRow(kit.Small(""), kit.Small(kit.Fit(kit.Span{Text: names[0], Size: look.TextSmall}, figureWidth)),
				kit.Small(kit.Fit(kit.Span{Text: names[1], Size: look.TextSmall}, figureWidth)), kit.Small(lang.L("apart"))))
		}
		said := env.Units().Say
		column.Add(kit.Stack(1, figuresRow(kit.Strong(said(say.Begin(u.Figure.Name))), kit.Body(said(first)), kit.Body(said(second)), kit.Strong(said(apart))), answer(env, of, u)))
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
func bakeOf(name string, instead say.Line) say.Line {
	if name != "" {
		return say.Of("{{.Bake}}", say.With{"Bake": name})
	}
	return instead
}

// figuresRow is a name, and three figures below one another's.
func figuresRow(name *kit.Text, figures ...*kit.Text) fyne.CanvasObject {
	row := container.New(&figuresLayout{}, name)
	for _, f := range figures {
		f.SetAlign(fyne.TextAlignTrailing)
		row.Add(f)
	}
	return row
}

// figureWidth is the room for a figure with its unit.
const figureWidth = 84

// figuresLayout gives the name the room that the figures leave, which end at the right of
// their columns; a name for which that is too little stands above them. It remembers its
// width, from which its height follows.
type figuresLayout struct{ width float32 }

// above is how high a name is that stands above its figures.
func (l *figuresLayout) above(things []fyne.CanvasObject) float32 {
	name, _ := things[0].(*kit.Text)
	if l.width <= 0 || l.width >= look.Space(36)+float32(len(things)-1)*figureWidth || name == nil || name.String() == "" {
		return 0
	}
	return things[0].MinSize().Height
}

func (l *figuresLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	row := things[1].MinSize().Height
	if over := l.above(things); over > 0 {
		row += over
	} else {
		row = max(row, things[0].MinSize().Height)
	}
	return fyne.NewSize(float32(len(things)-1)*figureWidth, row)
}

func (l *figuresLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	figures, room := float32(len(things)-1)*figureWidth, size.Width
	over := l.above(things)
	if over == 0 {
		room -= figures
	}
	kit.FitHeight(things[0], room)
	things[0].Move(fyne.NewPos(0, 0))
	if over > 0 {
		over = things[0].MinSize().Height
	}
	for i, o := range things[1:] {
		kit.FitHeight(o, figureWidth)
		o.Move(fyne.NewPos(size.Width-figures+float32(i)*figureWidth, over))
	}
}

// answer is what the baker says to a difference.
func answer(env *pages.Env, of journal.Ref, u journal.Unfair) fyne.CanvasObject {
	note := kit.NewNoteField("", lang.L("note, if you like"))
	note.SetText(u.Note)
	accepted := kit.NewChoicePill(lang.L("accepted"), u.Accepted, nil)
	now := u.Accepted
	accepted.OnTapped = func() {
		now = !now
		accepted.SetChosen(now)
		env.Fail(env.Journal.AnswerFairness(of, u.Key, now, note.Text()))
	}
	note.OnChanged = func(words string) { env.Fail(env.Journal.AnswerFairness(of, u.Key, now, words)) }
	return kit.RowGrow(4, 1, accepted, note)
}
