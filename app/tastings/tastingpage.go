package tastings

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
)

// tastingPage shows a tasting in the state that it is in: its plan, how far its
// scoring has come, or its verdict.
type tastingPage struct {
	pages.Base
	env   *pages.Env
	id    journal.ID
	page  *kit.Page
	state section
	keys  []kit.Key
	asks  bool // whether to unseal, once it is shown
}

// section is what a tasting page shows in one state.
type section interface {
	// show fills the page anew; changed is told of a change of the journal.
	show(t *journal.Tasting, s blind.Setting)
	changed(t *journal.Tasting, s blind.Setting)
	left()
}

func newTastingPage(env *pages.Env, id journal.ID) *tastingPage {
	p := &tastingPage{env: env, id: id, page: kit.NewPage(kit.PageOptions{})}
	p.Base = pages.Base{Body: p.page, Name: lang.L("Tasting"), Read: p.refresh,
		Of: []journal.Kind{journal.KindTasting, journal.KindTrial, journal.KindBake, journal.KindPhoto, journal.KindSettings}}
	return p
}

func (p *tastingPage) Keys() []kit.Key { return p.keys }

func (p *tastingPage) Shown() {
	p.state = nil
	p.Base.Shown()
}

func (p *tastingPage) Left() {
	p.Base.Left()
	if p.state != nil {
		p.state.left()
	}
}

// refresh tells the state of a change; a tasting that went into another state is shown anew.
func (p *tastingPage) refresh() {
	t, err := journal.Get[journal.Tasting](p.env.Journal, p.id)
	if err != nil || t.InBin() {
		p.gone()
		return
	}
	s, err := t.Setting()
	if p.env.Failed(err) {
		return
	}
	next := p.stateOf(t)
	if next == nil { // the same state as before
		p.state.changed(t, s)
		return
	}
	if p.state != nil {
		p.state.left()
	}
	p.state = next
	p.keys = nil
	p.page.SetFoot(nil)
	p.state.show(t, s)
	p.env.Turned()
	if v, sealed := p.state.(*sealedSection); sealed && p.asks {
		v.unseal()
	}
	p.asks = false
}

// Start puts the keyboard at the names of the tasters while there are none.
func (p *tastingPage) Start() fyne.Focusable {
	if v, planned := p.state.(*planSection); planned && v.who != nil && len(v.plan.Tasters) == 0 {
		return v.who.Entry()
	}
	return p.Base.Start()
}

// Reading says whether the verdict is still being worked out.
func (p *tastingPage) Reading() bool {
	v, verdict := p.state.(*verdictSection)
	return verdict && v.works
}

// gone is what is left of a tasting that was put in the bin.
func (p *tastingPage) gone() {
	p.state, p.keys = nil, nil
	p.page.SetEyebrow(lang.L("Tasting"))
	p.page.SetHeading(lang.L("This tasting is no longer here"))
	p.page.SetActions(nil, kit.PrimaryButton(lang.L("To the tastings"), func() { p.env.Go(pages.Route{Name: pages.Tastings}) }))
	p.page.SetBody(kit.Faint(lang.L("Moved to the bin. Undo, or restore it from there.")))
	p.page.SetFoot(nil)
	p.env.Turned()
}

// stateOf makes what shows the state of a tasting, or nil when that is there
// already.
func (p *tastingPage) stateOf(t *journal.Tasting) section {
	switch p.state.(type) {
	case *planSection:
		if t.Sealed.IsZero() {
			return nil
		}
	case *sealedSection:
		if t.IsSealed() {
			return nil
		}
	case *verdictSection:
		if t.IsOpen() {
			return nil
		}
	case *closedSection:
		if t.IsClosed() {
			return nil
		}
	}
	switch {
	case t.IsOpen():
		return newVerdictPart(p)
	case t.IsClosed():
		return &closedSection{p: p}
	case t.IsSealed():
		return &sealedSection{p: p}
	}
	return newPlanPart(p)
}

// bin puts the tasting in the bin and goes back to the list.
func (p *tastingPage) bin() {
	if p.env.Do(lang.L("moving a tasting to the bin"), func(tx *journal.Tx) error { return journal.MoveToBin[journal.Tasting](tx, p.id) }) {
		p.env.Go(pages.Route{Name: pages.Tastings})
		p.env.Say(lang.L("The tasting is in the bin."), true)
	}
}

// closedSection shows a tasting that was ended without being opened: its paper was
// lost. It tells no loaf, for nobody knows.
type closedSection struct{ p *tastingPage }

func (v *closedSection) left()                                       {}
func (v *closedSection) changed(t *journal.Tasting, s blind.Setting) { v.show(t, s) }

func (v *closedSection) show(t *journal.Tasting, s blind.Setting) {
	page := v.p.page
	page.SetEyebrow(lang.L("{{.Name}} · ended {{.When}}", map[string]any{"Name": pages.TastingName(t), "When": dayOf(v.p.env.Units(), t.Closed, v.p.env.Now())}))
	page.SetHeading(lang.L("Ended without being opened"))
	page.SetActions(nil, kit.QuietButton(lang.L("Move to the bin"), v.p.bin))
	page.SetBody(kit.Lead(kit.Span{Text: lang.L("The key was on the helper's paper, and the paper was lost. Which code was which loaf is not known to anybody, and what was said of the codes says nothing of the loaves. The scores stay in the journal.")}))
	v.p.keys = nil
}
