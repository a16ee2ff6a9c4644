package tastings

import (
	"context"
	"io"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
)

// platePage draws a tasting, shows the plating card to whoever plates, and
// seals. Leaving it before that throws the drawing away.
type platePage struct {
	pages.Base
	env   *pages.Env
	id    journal.ID
	frame *bare

	plan    blind.Plan
	plating *journal.Plating
	card    blind.Card
	act     *kit.Button
	keys    []kit.Key
}

func newPlatePage(env *pages.Env, id journal.ID) *platePage {
	p := &platePage{env: env, id: id, frame: newBare()}
	p.Base = pages.Base{Body: p.frame, Name: lang.L("Plating"), Read: p.begin} // what it does itself it shows itself
	return p
}

func (p *platePage) Bare() bool      { return true }
func (p *platePage) Keys() []kit.Key { return p.keys }

// Start is nothing of its own: the first button is one that leaves or prints, so that an
// Enter too many neither shows the card to those who taste nor seals.
func (p *platePage) Start() fyne.Focusable { return nil }

// Left forgets the card, and the drawing with it.
func (p *platePage) Left() {
	p.Base.Left()
	p.plating, p.card, p.act = nil, blind.Card{}, nil
	p.frame.show(nil, nil, nil, nil, nil)
}

// MayLeave asks before a drawing that somebody may have plated by is thrown
// away.
func (p *platePage) MayLeave(leave func()) {
	if p.plating == nil {
		leave()
		return
	}
	kit.ConfirmLoss(p.env.Window, lang.L("Leave before sealing?"),
		lang.L("The card is thrown away, and the next one has other codes. What was plated by it cannot be used."),
		lang.L("Throw the card away"), leave)
}

// begin goes on where the tasting stands.
func (p *platePage) begin() {
	t, err := journal.Get[journal.Tasting](p.env.Journal, p.id)
	if p.env.Failed(err) {
		return
	}
	if !t.Sealed.IsZero() {
		p.showSealed(t)
		return
	}
	setting, err := t.Setting()
	if p.env.Failed(err) {
		return
	}
	p.plan = setting.Plan
	p.showBefore()
}

func (p *platePage) put(left string, body, hint fyne.CanvasObject, act *kit.Button) {
	p.act = act
	var button fyne.CanvasObject
	p.keys = []kit.Key{{Name: "Esc", Doc: lang.L("Cancel"), Do: func() { p.env.Go(to(p.id, "")) }}}
	if act != nil {
		button = act.WithKey("G")
		p.keys = append(p.keys, kit.Key{Name: "G", Doc: lang.L("Go on"), Do: func() {
			if !act.Disabled() {
				act.OnTapped()
			}
		}})
	}
	p.frame.show(kit.Faint(left), nil, inset(body), hint, button)
	p.env.Turned()
}

// showBefore tells what comes, before anything that must not be seen.
func (p *platePage) showBefore() {
	column := kit.Stack(6)
	act := kit.InkButton("", p.draw)
	if p.plan.Mode == blind.Alone {
		column.Add(kit.Heading(lang.L("Plate it alone")))
		act.SetLabel(lang.L("Generate the codes"))
	} else {
		column.Add(kit.Heading(lang.L("Tasters, look away")))
		column.Add(kit.Lead(kit.Span{Text: lang.L("The next screen shows which code is which loaf. One person who does not taste reads it; everybody else leaves the room or looks away until the plates are set out.")}))
		act.SetLabel(lang.L("Nobody is looking: show the card"))
	}
	steps := kit.Stack(4)
	for _, g := range blind.Guide(p.plan) {
		if !g.EachRound {
			steps.Add(kit.Stack(0.5, kit.Strong(p.env.Units().Say(g.Title)), kit.Faint(p.env.Units().Say(g.Words)).Wide()))
		}
	}
	column.Add(widthOf(720, steps))
	p.put(p.size(), column, kit.Row(0, kit.NewButton(lang.L("Cancel"), func() { p.env.Go(to(p.id, "")) })), act)
}

func (p *platePage) size() string {
	return lang.L("{{.Method}} · {{.Tasters}} · {{.Rounds}}", map[string]any{
		"Method": lang.L(p.plan.Method.Title()), "Tasters": tastersOf(p.plan), "Rounds": roundsEach(p.plan.Rounds)})
}

// draw draws the tasting and shows its card. The card is asked for here and
// nowhere else.
func (p *platePage) draw() {
	plating, err := p.env.Journal.Plate(p.id)
	if err != nil {
		kit.Message(p.env.Window, lang.L("This cannot be plated yet"), p.env.Units().ErrorText(err))
		return
	}
	card, err := plating.Card()
	if p.env.Failed(err) {
		return
	}
	p.plating, p.card, p.plan = plating, card, plating.Plan()
	p.showCard()
}

// showCard shows the card until it is sealed.
func (p *platePage) showCard() {
	lines, err := p.card.Lines()
	if p.env.Failed(err) {
		return
	}
	heading, words := lang.L("For the helper alone"), lang.L("Write each code on its own plate and fill it with the loaf beside it. Set the plates out from left to right.")
	if p.plan.Mode == blind.Alone {
		heading, words = lang.L("Write the slips"), lang.L("Write each code on its own slip of paper, all of one size, and fold each twice. Keep this list for laying out each round, printed or copied: it goes blank when you seal.")
	}
	column := kit.Stack(4, kit.Heading(heading), widthOf(900, kit.Lead(kit.Span{Text: words}).Wide()))
	if p.plan.Mode == blind.WithHelper && len(lines) > 1 {
		column.Add(widthOf(900, kit.Faint(lang.L("The order of each round is drawn by lot, so several rounds running may begin with the same loaf: leave it so.")).Wide()))
	}
	allergens := kit.Stack(0.5)
	for _, loaf := range p.plan.Loaves {
		if len(loaf.Allergens) > 0 {
			allergens.Add(kit.Faint(lang.L("{{.Loaf}} contains {{.What}}.", map[string]any{"Loaf": loaf.Name, "What": listed(allergenWords(loaf.Allergens))})))
		}
	}
	column.Add(allergens)
	if code := p.card.Code(); code != "" {
		column.Add(kit.Stack(1, kit.Strong(lang.L("To unseal: {{.Code}}", map[string]any{"Code": code})),
			kit.Body(lang.L("This code is on no other page and nowhere in the journal. Print the card or copy the code, and keep it until the tasting is unsealed: if the paper is lost, the tasting can only be ended."))))
	}
	column.Add(cardTable(lines))
	act := kit.InkButton(lang.L("Seal"), p.askSeal)
	hint := kit.Row(3, kit.NewButton(lang.L("Print the card"), p.print),
		kit.NewText(kit.Span{Text: lang.L("Sealing blanks the card for good."), Color: look.ColorFaint}))
	p.put(p.size(), column, hint, act)
}

// cardTable lays the card out: a row for each round of a taster, and the tasters side by side
// where there is room, so that none of them is overlooked below.
func cardTable(lines []blind.CardLine) fyne.CanvasObject {
	const number, plate, gap = 80, 190, 5
	widest, coded := 0, float32(0) // how many plates a row has, and the room of a code
	code := func(p blind.CardPlate) kit.Span {
		return kit.Span{Text: label(p.Label), Size: look.TextTitle, Serif: true}
	}
	for _, l := range lines {
		widest = max(widest, len(l.Plates))
		for _, p := range l.Plates {
			coded = max(coded, code(p).Extent().Width)
		}
	}
	var tasters []fyne.CanvasObject
	var rows *fyne.Container
	last := -1
	for _, l := range lines {
		if l.Taster != last {
			last = l.Taster
			rows = kit.Stack(2, kit.Subheading(l.TasterName))
			tasters = append(tasters, rows)
		}
		row := kit.Flow(gap, kit.Width(number, kit.Faint(lang.L("Round {{.N}}", map[string]any{"N": l.Round + 1}))))
		for _, p := range l.Plates {
			row.Add(kit.Width(plate, kit.Row(2, kit.Width(coded, kit.NewLine(code(p))), kit.NewText(kit.Span{Text: p.LoafName}))))
		}
		rows.Add(row)
	}
	return kit.Tiles(number+float32(widest)*(plate+look.Space(gap)), 7, tasters...)
}

// print saves the card as a PDF. What it holds is read now, so that sealing in
// the meantime does not blank it.
func (p *platePage) print() {
	lines, err := p.card.Lines()
	if p.env.Failed(err) {
		return
	}
	plan, code, style := p.plan, p.card.Code(), p.env.Paper()
	p.env.SaveFile(lang.L("Print the card"), lang.L("plating card")+".pdf", func(w io.Writer) error {
		return writeCard(w, plan, lines, code, style)
	})
}

func (p *platePage) askSeal() {
	kit.Confirm(p.env.Window, lang.L("Seal the tasting?"),
		lang.L("The card goes blank and cannot be called back. Which code is which is shown after the last score."),
		lang.L("Seal"), p.seal)
}

// seal seals. To lock the assignment up with the paper's code takes a while, and is
// done away from the main goroutine.
func (p *platePage) seal() {
	if err := barredLoaves(p.env.Journal, p.plan); err != nil {
		kit.Message(p.env.Window, lang.L("Nobody is to taste these"), p.env.Units().ErrorText(err))
		return
	}
	plating := p.plating
	done := func(err error) {
		if err != nil {
			p.act.Enable() // with room on the disk it can be tried again
			p.env.Fail(err)
			return
		}
		p.plating, p.card = nil, blind.Card{}
		p.Shown()
	}
	if !p.plan.KeyOnPaper {
		done(plating.Seal())
		return
	}
	p.act.Disable()
	pages.Try(p.env, func(ctx context.Context) error {
		if err := ctx.Err(); err != nil {
			return err
		}
		return plating.Seal() // once begun it is finished
	}, done)
}

// showSealed shows the commitment, to be written down or photographed.
func (p *platePage) showSealed(t *journal.Tasting) {
	p.plating, p.card = nil, blind.Card{}
	words := strings.Join([]string{
		lang.L("This is the fingerprint of what was sealed: the plan, which code is which loaf, and a random number. Photograph it: after unsealing it proves that nothing of that was changed."),
		sealSentence(t.Locked != ""),
	}, " ")
	column := kit.Stack(6, kit.Heading(lang.L("Sealed")), kit.Lead(kit.Span{Text: words}),
		newFingerprint(t.Commitment, look.TextTitle, 32))
	if !t.IsOpen() {
		act := kit.InkButton(lang.L("Begin tasting"), func() { p.env.Go(to(p.id, scoring)) })
		p.put("", column, kit.Row(0, kit.NewButton(lang.L("Later"), func() { p.env.Go(to(p.id, "")) })), act)
		return
	}
	p.put("", column, nil, kit.InkButton(lang.L("To the tasting"), func() { p.env.Go(to(p.id, "")) }))
}
