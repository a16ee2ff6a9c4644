package tastings

import (
	"fmt"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal/blind"
)

// label writes what a sample is called: a code as it is, a place as a word.
func label(l string) string {
	if l == "" || l == blind.ReferenceLabel || l[0] >= '0' && l[0] <= '9' {
		return l
	}
	return lang.L(l)
}

// bigLabel shows what is being tasted large enough to be read across a table, and in a low window
// as large as leaves the plates in sight.
func bigLabel(l string, window fyne.Size) fyne.CanvasObject {
	const others = 440 // the height of the rest
	words := label(l)
	size := min(look.TextCode, max(look.TextCode/2, window.Height-others))
	if len([]rune(words)) > 3 {
		size *= 0.55
	}
	return kit.NewLine(kit.Span{Text: words, Size: size, Serif: true})
}

// row shows every sample of a round: those tasted, the one whose turn it is, as it is now,
// and those to come.
func (p *scorePage) row(step blind.Turn, now plateState) fyne.CanvasObject {
	row := kit.Row(3.5)
	for i, l := range p.session.Setting().Tasted(step.Serving) {
		state := plateToCome
		switch {
		case i == step.Sample:
			state = now
		case i < step.Sample:
			state = plateDone
		}
		row.Add(newPlate(label(l), state, 64))
	}
	return row
}

// showSample is one sample by its code, huge, and in scaling its lines.
func (p *scorePage) showSample(step blind.Turn) {
	left := kit.Stack(0, kit.NewText(kit.Span{Text: lang.L("Now taste"), Size: look.TextLead, Color: look.ColorFaint}),
		bigLabel(step.Label, p.env.Window.Canvas().Size()), kit.Gap(4),
		kit.NewText(kit.Span{Text: lang.L("Smell first, then crumb, then crust."), Size: look.TextLead, Color: look.ColorFaint}),
		kit.NewText(kit.Span{Text: instruction(p.plan), Size: look.TextLead, Color: look.ColorFaint}),
		kit.Gap(8), p.row(step, plateNow))
	last := step.Sample == step.Samples-1
	words, hint := lang.L("Done, and rinse"), lang.L("Next: rinse with water, one minute")
	if last {
		words, hint = lang.L("Done"), lang.L("Next: the answer of this round")
	}
	act := kit.InkButton(words, func() {
		p.step(func(s *blind.Session) error { return s.Tasted(p.taster) })
	})
	body := fyne.CanvasObject(left)
	var rows []*kit.ScoreRow
	if len(p.plan.Attributes) > 0 {
		right := kit.Stack(5)
		for _, a := range p.plan.Attributes {
			r := kit.NewScoreRow(a.Name, a.Low, a.High, nil)
			r.SetScore(step.Current.Scores[step.Label][a.Name])
			r.OnChanged = func(n int) { p.score(r, a.Name, n); p.mayGoOn(rows) }
			rows = append(rows, r)
			right.Add(r)
		}
		body = container.New(&twoSides{at: 500}, left, right)
	}
	if len(rows) > 0 {
		hint = lang.L("Keys 1 to 9 score, Tab goes to the next line. {{.Next}}", map[string]any{"Next": hint})
	}
	p.put(p.roundWords(step), body, p.wayOut(kit.Faint(hint)), act)
	p.mayGoOn(rows)
	if len(rows) > 0 {
		p.env.Window.Canvas().Focus(rows[p.firstUnscored(rows)])
	}
}

func (p *scorePage) firstUnscored(rows []*kit.ScoreRow) int {
	return max(0, slices.IndexFunc(rows, func(r *kit.ScoreRow) bool { return r.Score() == 0 }))
}

// mayGoOn lets the sample be ended once every line of it has its score.
func (p *scorePage) mayGoOn(rows []*kit.ScoreRow) {
	kit.SetEnabled(p.act, !slices.ContainsFunc(rows, func(r *kit.ScoreRow) bool { return r.Score() == 0 }))
}

// score keeps a score as it is given. One that is taken back must be given
// anew; until then the one before it stands.
func (p *scorePage) score(r *kit.ScoreRow, attribute string, n int) {
	if n == 0 {
		return
	}
	err := p.env.Journal.Score(p.id, func(s *blind.Session) error { return s.Score(p.taster, attribute, n) })
	if err != nil {
		r.SetScore(0)
		p.env.Fail(err)
	}
}

// showAnswer asks for the answer of the round.
func (p *scorePage) showAnswer(step blind.Turn) {
	column := kit.Stack(6, kit.Heading(choosing(p.plan)))
	act := kit.InkButton(p.handInWords(step), func() { p.handIn() })
	var more []kit.Key
	if n := p.plan.Method.Picks(); n > 0 {
		column.Add(p.choices(step, n, act, &more))
	}
	remark := kit.NewNoteField(lang.L("In your own words"), lang.L("if you like"))
	remark.SetText(step.Current.Remark)
	remark.OnDone = func(words string) {
		if words == step.Current.Remark {
			return
		}
		step.Current.Remark = words
		p.env.Fail(p.env.Journal.Score(p.id, func(s *blind.Session) error { return s.Remark(p.taster, words) }))
	}
	column.Add(widthOf(560, remark))
	column.Add(kit.Row(0, kit.NewButton(lang.L("I cannot answer this round"), p.askMissing)))
	hint := kit.Faint(lang.L("Once it is handed in, a round cannot be changed before the end."))
	p.put(p.roundWords(step), column, p.wayOut(hint), act, more...)
}

func (p *scorePage) handInWords(step blind.Turn) string {
	if step.Round+1 == p.plan.Rounds {
		return lang.L("Hand in")
	}
	return lang.L("Hand in and rinse")
}

// choices offers the samples of a round to choose n of.
func (p *scorePage) choices(step blind.Turn, n int, act *kit.Button, keys *[]kit.Key) fyne.CanvasObject {
	picked := slices.Clone(step.Current.Picks)
	tie := step.Current.Tie
	row := kit.Flow(5)
	var plates []*choicePlate
	var none *choicePlate
	show := func() {
		for i, c := range plates {
			c.choose(slices.Contains(picked, step.Serving.Samples[i]))
		}
		if none != nil {
			none.choose(tie)
		}
		kit.SetEnabled(act, len(picked) == n || tie)
	}
	keep := func() {
		show()
		if len(picked) != n && !tie {
			return
		}
		p.env.Fail(p.env.Journal.Score(p.id, func(s *blind.Session) error {
			if tie {
				return s.ChooseTie(p.taster)
			}
			return s.Choose(p.taster, picked...)
		}))
	}
	for i, l := range step.Serving.Samples {
		take := func() {
			tie = false
			picked = pick(picked, l, n)
			keep()
		}
		c := newChoicePlate(label(l), false, 112, take)
		plates = append(plates, c)
		row.Add(c)
		*keys = append(*keys, kit.Key{Name: fmt.Sprint(i + 1), Doc: lang.L("Choose {{.What}}", map[string]any{"What": label(l)}), Do: take})
	}
	if p.plan.AllowsTie() {
		neither := func() { picked, tie = nil, true; keep() }
		none = newChoicePlate(lang.L("neither"), false, 112, neither)
		row.Add(none)
		*keys = append(*keys, kit.Key{Name: "0", Doc: lang.L("Neither"), Do: neither})
	}
	show()
	return row
}

// pick chooses a label among those chosen, of which there are to be n: a
// chosen one is let go, and with n chosen the first makes room.
func pick(chosen []string, label string, n int) []string {
	if i := slices.Index(chosen, label); i >= 0 {
		return slices.Delete(slices.Clone(chosen), i, i+1)
	}
	out := append(slices.Clone(chosen), label)
	return out[max(0, len(out)-n):]
}

func (p *scorePage) handIn() {
	p.env.Window.Canvas().Unfocus() // keeps the words being typed
	p.afterRound(p.env.Journal.Score(p.id, func(s *blind.Session) error { return s.HandIn(p.taster) }))
}

// afterRound goes on to whoever is next.
func (p *scorePage) afterRound(err error) (kept bool) {
	if p.env.Failed(err) {
		return false
	}
	was := p.taster
	session, err := p.env.Journal.Session(p.id)
	if p.env.Failed(err) {
		return true
	}
	p.taster = nextTaster(session)
	p.handover = p.taster >= 0 && p.taster != was
	p.refresh()
	return true
}

// askMissing hands in a round without an answer, for a reason.
func (p *scorePage) askMissing() {
	askReason(p.env.Window, lang.L("No answer for this round"),
		lang.L("Handed in without an answer; not counted. The reason is kept."),
		lang.L("such as: a plate was dropped"), lang.L("Hand in without an answer"), func(reason string) bool {
			return p.afterRound(p.env.Journal.Score(p.id, func(s *blind.Session) error { return s.HandInMissing(p.taster, reason) }))
		})
}

// askReason asks for a reason, without which nothing is done. The dialog stays, with the
// reason, until do reports that it was kept.
func askReason(win fyne.Window, title, sentence, hint, yes string, do func(reason string) bool) {
	var sheet *kit.Dialog
	field := kit.NewTextField(lang.L("Reason"), hint)
	ok := kit.InkButton(yes, nil)
	ok.Disable()
	ok.OnTapped = func() {
		if do(field.Text()) {
			sheet.Close()
		}
	}
	field.OnChanged = func(s string) { kit.SetEnabled(ok, s != "") }
	sheet = kit.ShowDialog(win, kit.DialogOptions{
		Title: title, Content: kit.Stack(4, kit.Body(sentence), field),
		Buttons: []fyne.CanvasObject{ok}, Width: 520,
	})
	field.Focus()
}

// twoSides puts the second of two things at a fixed distance from the left, or
// beneath the first where there is no room.
type twoSides struct{ at, width float32 }

func (l *twoSides) stacked(things []fyne.CanvasObject) bool {
	return l.width > 0 && l.width < l.at+things[1].MinSize().Width
}

func (l *twoSides) MinSize(things []fyne.CanvasObject) fyne.Size {
	a, b := things[0].MinSize(), things[1].MinSize()
	if l.stacked(things) {
		return fyne.NewSize(max(a.Width, b.Width), a.Height+look.Space(8)+b.Height)
	}
	return fyne.NewSize(a.Width, max(a.Height, b.Height))
}

func (l *twoSides) Layout(things []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	things[0].Move(fyne.NewPos(0, 0))
	if l.stacked(things) {
		h := kit.FitHeight(things[0], size.Width)
		things[1].Move(fyne.NewPos(0, h+look.Space(8)))
		kit.FitHeight(things[1], size.Width)
		return
	}
	kit.FitHeight(things[0], l.at-look.Space(8))
	things[1].Move(fyne.NewPos(l.at, 0))
	kit.FitHeight(things[1], size.Width-l.at)
}

// rinse is the pause between two samples: a clock that runs down, and a button
// that cuts it short, which is noted, or goes on once it is over.
type rinse struct {
	left *kit.Text
	act  *kit.Button
	next string
}

// tell shows how long the pause still lasts.
func (r *rinse) tell(left time.Duration) {
	left = max(0, left.Round(time.Second))
	r.left.SetText(fmt.Sprintf("%d:%02d", int(left.Minutes()), int(left.Seconds())%60))
	if left > 0 {
		r.act.SetLabel(lang.L("Skip the pause"))
		return
	}
	r.act.SetLabel(lang.L("Go on to {{.Next}}", map[string]any{"Next": r.next}))
}

func (p *scorePage) showRinse(step blind.Turn) {
	p.rinseUntil = p.env.Now().Add(rinseFor)
	r := &rinse{next: label(step.Label), left: kit.NewLine(kit.Span{Size: look.TextCode, Serif: true})}
	r.act = kit.InkButton("", func() {
		skipped := p.env.Now().Before(p.rinseUntil)
		p.step(func(s *blind.Session) error { return s.Rinsed(p.taster, skipped) })
	})
	column := kit.Stack(0, kit.NewText(kit.Span{Text: lang.L("Rinse"), Size: look.TextLead, Color: look.ColorFaint}),
		r.left, kit.Gap(4),
		kit.NewText(kit.Span{Text: lang.L("Water, or a plain cracker. Wait until the taste is gone.") + " " + cleanser(), Size: look.TextLead, Color: look.ColorFaint}),
		kit.Gap(8), p.row(step, plateToCome))
	r.tell(rinseFor)
	p.put(p.roundWords(step), column, p.wayOut(kit.Faint(lang.L("A pause that is cut short is noted. Next: {{.Next}}", map[string]any{"Next": r.next}))), r.act)
	p.stop = p.env.Every(time.Second, func() {
		left := p.rinseUntil.Sub(p.env.Now())
		if r.tell(left); left <= 0 && p.env.Window.Canvas().Overlays().Top() == nil { // the next is shown by itself
			p.step(func(s *blind.Session) error { return s.Rinsed(p.taster, false) })
		}
	})
}

func (p *scorePage) stopRinse() {
	kit.End(&p.stop)
}
