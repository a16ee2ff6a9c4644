package tastings

import (
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/fair"
)

// trialPage shows bakes that run side by side: what is done to all of them is
// entered once, what differs apart.
type trialPage struct {
	pages.Base
	env  *pages.Env
	id   journal.ID
	page *kit.Page
	keys []kit.Key

	trial    *journal.Trial
	bakes    []*journal.Bake
	tastings []*journal.Tasting
	unfair   []journal.Unfair
	alike    []fair.Difference
	// busy tells of each field whether it is being typed in: then the page is
	// not built anew under the cursor.
	busy  []func() bool
	stale bool
}

func newTrialPage(env *pages.Env, id journal.ID) *trialPage {
	p := &trialPage{env: env, id: id, page: kit.NewPage(kit.PageOptions{})}
	p.Base = pages.Base{Body: p.page, Name: lang.L("Trial"), Read: p.refresh}
	return p
}

func (p *trialPage) Keys() []kit.Key { return p.keys }

func (p *trialPage) Changed(c journal.Changed) {
	if !p.Here() || !c.TouchesKind(journal.KindTrial, journal.KindBake, journal.KindTasting, journal.KindPhoto, journal.KindCulture, journal.KindSettings) {
		return
	}
	for _, busy := range p.busy {
		if busy() {
			p.stale = true
			return
		}
	}
	p.refresh()
}

// settled builds the page anew when a field is left that kept it from that.
func (p *trialPage) settled() {
	if p.stale {
		p.stale = false
		p.env.Main(func() {
			if p.Here() {
				p.Changed(journal.Changed{Refs: []journal.Ref{{Kind: journal.KindTrial, ID: p.id}}})
			}
		})
	}
}

func (p *trialPage) read() error {
	var err error
	if p.trial, err = journal.Get[journal.Trial](p.env.Journal, p.id); err != nil {
		return err
	}
	if p.bakes, err = journal.TrialBakes(p.env.Journal, p.trial); err != nil {
		return err
	}
	if p.tastings, err = journal.Linked[journal.Tasting](p.env.Journal, p.id); err != nil {
		return err
	}
	if p.unfair, err = journal.TrialFairness(p.env.Journal, p.trial); err != nil {
		return err
	}
	p.alike, err = journal.TrialAlike(p.env.Journal, p.trial)
	return err
}

func (p *trialPage) refresh() {
	if err := p.read(); err != nil || p.trial.InBin() {
		p.page.SetHeading(lang.L("This trial is no longer here"))
		p.page.SetActions(nil)
		p.page.SetBody(kit.Faint(lang.L("Moved to the bin. Undo, or restore it from there.")))
		return
	}
	p.busy = nil
	p.page.SetEyebrow(lang.L("{{.Name}} · {{.State}}", map[string]any{"Name": trialName(p.trial), "State": trialState(p.trial, p.bakes)}))
	heading := trialHeading(p.trial, p.bakes, p.tastings)
	if heading == "" {
		heading = fairHeading(p.unfair, p.alike, p.env.Units())
	}
	p.page.SetHeading(heading)
	p.actions()
	above := kit.Stack(6)
	if loaves := p.loaves(); loaves != nil {
		above.Add(loaves)
	}
	// Of loaves that are baked it is asked what differs, and what was tasted; until then,
	// what happened to them is entered.
	found := kit.Columns(look.Space(80), p.fairness(), p.tasted())
	if p.baked() {
		p.page.SetBody(kit.Stack(6, kit.Beside(above, found), kit.Rule(), p.lots(), p.tables()))
	} else {
		if len(above.Objects) > 0 {
			above.Add(kit.Rule())
		}
		above.Add(p.lots())
		above.Add(p.tables())
		p.page.SetBody(kit.Beside(above, found))
	}
	p.env.Retitle()
}

// baked says that all the bakes of the trial are over.
func (p *trialPage) baked() bool {
	return len(p.bakes) > 0 && !slices.ContainsFunc(p.bakes, func(b *journal.Bake) bool { return !b.State.Over() })
}

func (p *trialPage) actions() {
	if len(p.bakes) < 2 {
		p.page.SetActions(nil)
		return
	}
	plan := kit.PrimaryButton(lang.L("Plan a tasting"), p.planTasting).WithKey("T")
	p.page.SetActions(nil, plan, kit.QuietButton(lang.L("Move to the bin"), p.bin))
	p.keys = []kit.Key{{Name: "T", Doc: lang.L("Plan a tasting"), Do: p.planTasting}}
}

// planTasting plans a tasting of two bakes of the trial; with more than two it
// asks which.
func (p *trialPage) planTasting() {
	if len(p.bakes) == 2 {
		planTasting(p.env, time.Time{}, p.id, [2]journal.ID{p.bakes[0].ID, p.bakes[1].ID}, blind.Plan{}, "")
		return
	}
	var sheet *kit.Dialog
	column := kit.Stack(2)
	for i, a := range p.bakes {
		for _, b := range p.bakes[i+1:] {
			words := lang.L("{{.One}} and {{.Other}}", map[string]any{"One": a.Name, "Other": b.Name})
			column.Add(kit.NewButton(words, func() {
				sheet.Close()
				planTasting(p.env, time.Time{}, p.id, [2]journal.ID{a.ID, b.ID}, blind.Plan{}, "")
			}))
		}
	}
	sheet = kit.ShowDialog(p.env.Window, kit.DialogOptions{Title: lang.L("Which two?"), Content: column, Width: 520, Scroll: true, Height: 420})
}

func (p *trialPage) bin() {
	ok := p.env.Do(lang.L("moving a trial to the bin"), func(tx *journal.Tx) error { return journal.MoveToBin[journal.Trial](tx, p.id) })
	if ok {
		p.env.Go(pages.Route{Name: pages.Tastings})
		p.env.Say(lang.L("The trial is in the bin. Its bakes stay."), true)
	}
}

// lots tells what was drawn, and keeps the baker's notes on it all.
func (p *trialPage) lots() fyne.CanvasObject {
	told := kit.Stack(1, kit.Section(lang.L("Drawn by lot")))
	for _, s := range lotsOf(p.trial) {
		told.Add(kit.Lead(kit.Span{Text: s}))
	}
	name := kit.NewTextField(lang.L("Name"), lang.L("what you will call it"))
	name.SetText(p.trial.Name)
	name.OnChanged = func(s string) {
		p.env.Fail(journal.Edit(p.env.Journal, p.id, lang.L("name of the trial"), func(t *journal.Trial) { t.Name = strings.TrimSpace(s) }))
	}
	notes := kit.NewNoteField(lang.L("Notes"), lang.L("what the figures do not say"))
	notes.SetText(p.trial.Notes)
	notes.OnChanged = func(s string) {
		p.env.Fail(journal.Edit(p.env.Journal, p.id, lang.L("notes on the trial"), func(t *journal.Trial) { t.Notes = s }))
	}
	for _, f := range []*kit.TextField{name, notes} {
		p.watch(f.Editing)
		f.OnDone = func(string) { p.settled() }
	}
	return kit.Columns(look.Space(70), told, kit.Stack(3, name, notes))
}

func (p *trialPage) watch(editing func() bool) { p.busy = append(p.busy, editing) }

// tasted lists the tastings of the trial.
func (p *trialPage) tasted() fyne.CanvasObject {
	column := kit.Stack(3, kit.Section(lang.L("Tastings")))
	if len(p.tastings) == 0 {
		column.Add(kit.Faint(lang.L("None is planned yet.")))
	}
	var rows []fyne.CanvasObject
	for _, t := range p.tastings {
		row, err := tastingRow(t, p.env.Units())
		if err != nil {
			column.Add(kit.Body(p.env.Units().ErrorText(err)))
			continue
		}
		state, dots := kit.Faint(row.state), container.NewStack()
		dots.Hide()
		rows = append(rows, kit.NewOpenRow(string(t.ID), nil, kit.Stack(0, kit.Strong(row.title), state, dots), func() { p.env.Go(row.place) }))
		if row.open != nil {
			verdictLater(p.env, row.open, state, dots)
		}
	}
	list := kit.NewOpenRows()
	list.Set(rows...)
	column.Add(list)
	return column
}
