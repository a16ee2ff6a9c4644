package tastings

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
)

// rinseFor is how long a pause to rinse the palate lasts: common practice, no
// source.
const rinseFor = time.Minute

// scorePage walks the tasters through their rounds. What it shows follows from
// what the journal keeps of the scoring; only whose turn it is, how long the
// pause still lasts and how far the plates are laid out is its own.
type scorePage struct {
	pages.Base
	env   *pages.Env
	id    journal.ID
	frame *bare

	session     *blind.Session
	plan        blind.Plan
	sealChecked bool
	taster      int
	// handover is up while the screen waits for the next taster to sit down.
	handover bool
	// laid counts the steps of laying out this round's plates that are done,
	// alone; laidRound is the round that they are of.
	laid, laidRound int

	rinseUntil time.Time
	stop       func() // the ticking of the pause

	act  *kit.Button
	keys []kit.Key
}

func newScorePage(env *pages.Env, id journal.ID) *scorePage {
	p := &scorePage{env: env, id: id, frame: newBare(), taster: -1, laidRound: -1}
	p.Base = pages.Base{Body: p.frame, Name: lang.L("Tasting"), Read: p.refresh} // what it does itself it shows itself
	return p
}

func (p *scorePage) Bare() bool      { return true }
func (p *scorePage) Keys() []kit.Key { return p.keys }

// Start is the button that goes on, which Enter presses from anywhere on the page.
func (p *scorePage) Start() fyne.Focusable {
	if p.act == nil {
		return nil
	}
	return p.act
}

func (p *scorePage) Left() {
	p.Base.Left()
	p.stopRinse()
	p.frame.show(nil, nil, nil, nil, nil)
}

// refresh reads the scoring anew and shows where it stands.
func (p *scorePage) refresh() {
	p.stopRinse()
	session, err := p.env.Journal.Session(p.id)
	if err == nil {
		err = p.sealHolds()
	}
	if err != nil {
		var body fyne.CanvasObject // nothing, where it was unsealed in the meantime or is gone
		if t, gone := journal.Get[journal.Tasting](p.env.Journal, p.id); gone == nil && t.IsSealed() {
			body = inset(guideText(lang.L("The seal does not hold"), brokenWords(p.env.Units(), err)))
		}
		p.frame.show(nil, nil, body, nil, kit.InkButton(lang.L("To the tasting"), p.leave))
		p.setKeys()
		return
	}
	p.session, p.plan = session, session.Setting().Plan
	if why := barredLoaves(p.env.Journal, p.plan); why != nil {
		// The culture may have been seen to be bad after the sealing; it can still be ended.
		p.frame.show(nil, nil, inset(guideText(lang.L("Nobody is to taste these"), p.env.Units().ErrorText(why))), nil, kit.InkButton(lang.L("To the tasting"), p.leave))
		p.setKeys()
		return
	}
	if p.taster < 0 {
		p.taster = nextTaster(session)
		p.handover = p.taster >= 0 && len(p.plan.Tasters) > 1 && !underWay(session.Progress().Sheets[p.taster])
	}
	switch {
	case p.taster < 0 || session.Progress().EndedEarly != "":
		p.showEnd()
	case p.handover:
		p.showHandover()
	default:
		p.showStep()
	}
	p.env.Retitle()
}

// sealHolds checks the seal once before anybody tastes; each step checks the
// answers that it goes on from.
func (p *scorePage) sealHolds() error {
	if p.sealChecked {
		return nil
	}
	if err := p.env.Journal.CheckSeal(p.id); err != nil {
		return err
	}
	p.sealChecked = true
	return nil
}

// underWay reports whether a taster is in the middle of a round.
func underWay(s blind.ScoreSheet) bool {
	return s.Phase == blind.PhaseAnswer || s.Sample > 0 || s.Phase == blind.PhaseSample
}

// nextTaster is who tastes now: whoever is in the middle of a round, and else
// the first of those who have handed in the fewest. It is -1 when all is in.
func nextTaster(s *blind.Session) int {
	best := -1
	sheets := s.Progress().Sheets
	for i, sheet := range sheets {
		switch {
		case sheet.Over():
		case underWay(sheet):
			return i
		case best < 0 || len(sheet.Answers) < len(sheets[best].Answers):
			best = i
		}
	}
	return best
}

func (p *scorePage) leave() { p.env.Go(to(p.id, "")) }

// step does one step of the scoring and shows the next.
func (p *scorePage) step(do func(*blind.Session) error) {
	if p.env.Failed(p.env.Journal.Score(p.id, do)) {
		return
	}
	p.refresh()
}

// top is what stands over every step: who tastes which round, and what is
// never hidden.
func (p *scorePage) top(words string) (left, right fyne.CanvasObject) {
	seal := newFingerprint(shortSeal(p.session.Setting().Commitment), look.TextBody, 8)
	spans := append([]kit.Span{{Text: "· ", Color: look.ColorFaint}}, contains(allergensOf(p.env.Journal, p.plan))...)
	if unknown := unknownIn(p.env.Journal, p.plan); len(unknown) > 0 {
		spans = append(spans, kit.Span{Text: " · " + lang.L("read the label of {{.What}}", map[string]any{"What": listed(unknown)}), Color: look.ColorInk, Bold: true})
	}
	return kit.Faint(words), newTrailing(kit.NewLine(kit.Span{Text: lang.L("Sealed"), Color: look.ColorFaint}), seal, spans)
}

func (p *scorePage) roundWords(step blind.Turn) string {
	return lang.L("Round {{.N}} of {{.Of}} · {{.Who}}", map[string]any{
		"N": step.Round + 1, "Of": p.plan.Rounds, "Who": p.name(p.taster)})
}

// setKeys puts the page's keys in force; Enter does what the button at the foot
// does.
func (p *scorePage) setKeys(more ...kit.Key) {
	p.keys = append([]kit.Key{
		{Name: "Enter", Doc: lang.L("Go on"), Do: func() {
			if p.act != nil && p.act.OnTapped != nil && !p.act.Disabled() {
				p.act.OnTapped()
			}
		}},
		{Name: "Esc", Doc: lang.L("Leave; it goes on at the same sample"), Do: p.leave},
	}, more...)
	p.env.Retitle()
}

// put shows a step: its parts, and the button that goes on (nil for none).
func (p *scorePage) put(topLeft string, body, hint fyne.CanvasObject, act *kit.Button, more ...kit.Key) {
	p.act = act
	left, right := p.top(topLeft)
	var button fyne.CanvasObject
	if act != nil {
		button = act.WithKey("Enter")
	}
	p.frame.show(left, right, inset(body), hint, button)
	p.setKeys(more...)
	p.env.Turned()
}

func (p *scorePage) showStep() {
	step, err := p.session.At(p.taster)
	if p.env.Failed(err) {
		return
	}
	if p.laying(step) {
		p.showLaying(step)
		return
	}
	switch step.Phase {
	case blind.PhaseAllergens:
		p.showAllergens(step)
	case blind.PhaseSample:
		p.showSample(step)
	case blind.PhaseRinse:
		p.showRinse(step)
	case blind.PhaseAnswer:
		p.showAnswer(step)
	case blind.PhaseDone, blind.PhaseStopped:
		p.taster = -1
		p.refresh()
	}
}

// showAllergens comes before the first bite of each taster.
func (p *scorePage) showAllergens(step blind.Turn) {
	allergens := allergensOf(p.env.Journal, p.plan)
	spans := contains(allergens)
	for i := range spans {
		spans[i].Size, spans[i].Color = look.TextTitle, look.ColorInk
	}
	if len(allergens) > 0 {
		spans[0].Text = lang.L("Both loaves together contain") + " "
	}
	column := kit.Stack(5, kit.Heading(lang.L("Before the first bite")), kit.NewText(spans...))
	if unknown := unknownIn(p.env.Journal, p.plan); len(unknown) > 0 {
		column.Add(kit.Strong(lang.L("Nothing certain can be said of {{.What}}: read the label before you taste.", map[string]any{"What": listed(unknown)})))
	}
	column.Add(kit.Faint(lang.L("This is read from the ingredients that were written down and is no guarantee. If any of it could hurt you, do not taste.")))
	seen := kit.InkButton(lang.L("I have seen it"), func() {
		p.step(func(s *blind.Session) error { return s.AllergensShown(p.taster) })
	})
	hint := kit.Row(5, kit.Faint(p.name(p.taster)), kit.NewButton(lang.L("I will not taste"), p.decline))
	if p.plan.Mode == blind.WithHelper {
		hint.Add(inkLink(lang.L("Hand over…"), p.askLeaving))
	}
	p.put(p.roundWords(step), column, hint, seen)
}

// showHandover waits for the next taster.
func (p *scorePage) showHandover() {
	step, err := p.session.At(p.taster)
	if p.env.Failed(err) {
		return
	}
	who := p.name(p.taster)
	column := kit.Stack(4, kit.Heading(lang.L("Now {{.Who}}", map[string]any{"Who": who})),
		kit.Lead(kit.Span{Text: lang.L("Round {{.N}} of {{.Of}}. {{.In}} of {{.All}} rounds are in.", map[string]any{
			"N": step.Round + 1, "Of": p.plan.Rounds, "In": p.session.HandedIn(), "All": p.plan.Answers()})}))
	others := kit.Flow(2)
	for i, sheet := range p.session.Progress().Sheets {
		if i != p.taster && !sheet.Over() {
			others.Add(kit.NewButton(p.name(i), func() { p.taster, p.handover = i, true; p.refresh() }))
		}
	}
	if len(others.Objects) > 0 {
		column.Add(kit.Gap(4))
		column.Add(kit.Faint(lang.L("Or somebody else first:")))
		column.Add(others)
	}
	act := kit.InkButton(lang.L("I am {{.Who}}", map[string]any{"Who": who}), func() { p.handover = false; p.refresh() })
	p.put(lang.L("Hand over"), column, kit.Row(0, inkLink(lang.L("{{.Who}} does not go on…", map[string]any{"Who": who}), p.askLeaving)), act)
}

// showEnd is shown when no more is to be scored.
func (p *scorePage) showEnd() {
	if wanted := p.session.SlipsWanted(); len(wanted) > 0 {
		p.showSlips(wanted[0])
		return
	}
	body := guideText(lang.L("Every score is in"), lang.L("Nothing can be changed any more. Unseal the tasting to see what was which."))
	if p.session.Progress().EndedEarly != "" {
		body = guideText(lang.L("The tasting was ended early"), lang.L("What was handed in stands. Unseal the tasting to see what was which."))
	}
	if print := p.session.Fingerprint(); print != "" {
		body = kit.Stack(6, body, kit.Faint(lang.L("This is the fingerprint of the answers. Photograph it: with it nobody can change one of them unseen.")),
			newFingerprint(print, look.TextTitle, 32))
	}
	act := kit.InkButton(lang.L("To the tasting"), p.leave)
	unseal := func() { p.env.Go(to(p.id, unsealing)) }
	p.put("", body, kit.Row(0, kit.NewButton(lang.L("Unseal"), unseal).WithKey("U")), act, kit.Key{Name: "U", Doc: lang.L("Unseal"), Do: unseal})
}
