package bakes

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// binPage shows what was thrown away and can be brought back.
type binPage struct {
	pages.Base
	env  *pages.Env
	page *kit.Page
	list *kit.RowList
	all  []binned
}

func newBinPage(env *pages.Env) *binPage {
	p := &binPage{env: env, page: kit.NewPage(kit.PageOptions{Eyebrow: lang.L("The bin"), Fixed: true})}
	p.Base = pages.Base{Body: p.page, Name: lang.L("The bin"), Read: p.refresh}
	p.list = kit.NewRowList(func() int { return len(p.all) },
		func() fyne.CanvasObject { return newListRow(env.Thumbs) },
		func(i int, row fyne.CanvasObject) {
			b, when := p.all[i], lang.L("just now")
			if now := env.Now(); now.Sub(b.at) >= time.Minute {
				when = env.Units().When(b.at, now)
			}
			row.(*listRow).set(rowView{id: string(b.ref.ID), cover: b.cover, title: b.name, flours: b.kind,
				figures: lang.L("deleted {{.When}}", map[string]any{"When": when}),
				do:      lang.L("Restore")})
		})
	p.list.OnOpen = p.restore
	return p
}

// Changed asks again, whatever has changed.
func (p *binPage) Changed(journal.Changed) {
	if p.Here() {
		p.refresh()
	}
}

// Shown asks the journal again.
func (p *binPage) Shown() {
	p.Base.Shown()
	if len(p.all) > 0 {
		p.env.Window.Canvas().Focus(p.list)
	}
}

func (p *binPage) Keys() []kit.Key {
	return []kit.Key{
		{Name: "L", Doc: lang.L("To the list: arrows move, Enter restores"), Do: func() { p.env.Window.Canvas().Focus(p.list) }},
		{Name: "R", Doc: lang.L("Restore everything"), Do: p.restoreAll},
		{Name: "X", Doc: lang.L("Empty the bin"), Do: p.empty},
	}
}

func (p *binPage) refresh() {
	all, err := readBin(p.env.Journal, p.env.Units())
	if p.env.Failed(err) {
		return
	}
	p.all = all
	if len(all) == 0 {
		p.page.SetHeading(lang.L("The bin is empty"))
		p.page.SetActions(nil)
		p.page.SetBody(kit.Empty(kit.GoldenLoaf, lang.L("What you delete stays here until you empty the bin."),
			kit.NewButton(lang.L("To the bakes"), func() { p.env.Go(pages.Route{Name: pages.Bakes}) }), nil))
		return
	}
	heading := lang.L("{{.N}} things wait in the bin", map[string]any{"N": len(all)})
	if len(all) == 1 {
		heading = lang.L("One thing waits in the bin")
	}
	p.page.SetHeading(heading)
	p.page.SetActions(nil,
		kit.NewButton(lang.L("Restore everything"), p.restoreAll).WithKey("R"),
		kit.QuietButton(lang.L("Empty the bin"), p.empty).WithKey("X"))
	p.page.SetBody(p.list)
	p.list.Refresh()
}

// restore brings one thing back.
func (p *binPage) restore(i int) {
	if i < 0 || i >= len(p.all) {
		return
	}
	b := p.all[i]
	if p.env.Do(lang.L("restoring something"), b.back) {
		p.env.Say(lang.L("{{.Name}} is back.", map[string]any{"Name": b.name}), true)
	}
}

func (p *binPage) restoreAll() {
	all := p.all
	if len(all) == 0 {
		return
	}
	if p.env.Do(lang.L("restoring everything"), func(tx *journal.Tx) error {
		for _, b := range all {
			if err := b.back(tx); err != nil {
				return err
			}
		}
		return nil
	}) {
		p.env.Say(lang.L("Everything is back."), true)
	}
}

// empty asks, and then takes everything away; undo still brings it back.
func (p *binPage) empty() {
	all := p.all
	if len(all) == 0 {
		return
	}
	kit.ConfirmLoss(p.env.Window, lang.L("Empty the bin?"),
		lang.L("Everything in the bin is deleted, with all that belongs to it. Undo can restore it for the next 500 changes."),
		lang.L("Empty it"), func() {
			if p.env.Do(lang.L("emptying the bin"), func(tx *journal.Tx) error { return emptyBin(tx, all) }) {
				p.env.Say(lang.L("The bin is empty."), true)
			}
		})
}
