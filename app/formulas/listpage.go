package formulas

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/shelf"
)

// listPage lists the formulas.
type listPage struct {
	pages.Base
	env    *pages.Env
	page   *kit.Page
	list   *kit.RowList
	all    []family
	rows   []row
	full   bool            // the list is in the page
	beside *fyne.Container // the bakes by the formula that the keyboard is at or the pointer rests on
	near   journal.ID      // the family of that formula
}

func newListPage(env *pages.Env) *listPage {
	p := &listPage{env: env, beside: kit.Stack(3)}
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: lang.L("Formulas"), Fixed: true})
	p.Base = pages.Base{Body: p.page, Name: lang.L("Formulas"), Read: p.read,
		Of: []journal.Kind{journal.KindFormula, journal.KindBake, journal.KindSettings}}
	p.list = kit.NewRowList(func() int { return len(p.rows) },
		func() fyne.CanvasObject { return newFormulaRow(env.Thumbs) },
		func(i int, o fyne.CanvasObject) { o.(*fyne.Container).Layout.(*formulaRow).show(p.rows[i]) })
	p.List = p.list
	p.list.OnOpen = func(i int) { env.Go(pages.At(pages.Formula, p.all[i].latest.ID)) }
	pages.FollowRow(env, p.list, p.showBakes)
	p.list.OnDelete = p.bin
	p.list.Most = highestRow
	return p
}

func (p *listPage) Keys() []kit.Key {
	return []kit.Key{
		{Name: "N", Doc: lang.L("a new formula"), Do: p.fresh},
		{Name: "B", Doc: lang.L("a formula from a bake"), Do: p.pickBake},
		{Name: "I", Doc: lang.L("import a recipe"), Do: p.pickRecipe},
	}
}

func (p *listPage) read() {
	all, err := journal.All[journal.Formula](p.env.Journal)
	if p.env.Failed(err) {
		return
	}
	summaries, err := p.env.Journal.BakeSummaries()
	if p.env.Failed(err) {
		return
	}
	now, u := p.env.Now(), p.env.Units()
	p.all, p.rows = families(all, summaries), nil
	for _, f := range p.all {
		p.rows = append(p.rows, rowOf(f, now, u))
	}
	lineUp(p.rows)
	p.show()
}

func (p *listPage) show() {
	if len(p.rows) == 0 {
		p.full = false
		p.page.SetHeading(lang.L("No formula yet"))
		p.page.SetBody(kit.Empty(kit.GoldenLoaf, lang.L("A formula says what goes into a bread, by weight and by percent, and how its day goes. Begin with one that works, and change it."),
			kit.PrimaryButton(lang.L("New formula"), p.fresh).WithKey("N"),
			kit.NewLink(lang.L("Make one from a bake"), p.pickBake)))
		p.page.SetActions(nil, kit.QuietButton(lang.L("Import a recipe"), p.pickRecipe).WithKey("I"))
		return
	}
	p.page.SetActions(nil,
		kit.PrimaryButton(lang.L("New formula"), p.fresh).WithKey("N"),
		kit.NewButton(lang.L("From a bake"), p.pickBake).WithKey("B"),
		kit.QuietButton(lang.L("Import a recipe"), p.pickRecipe).WithKey("I"))
	p.page.SetHeading(lang.L("Formulas"))
	if !p.full {
		p.full = true
		p.page.SetBody(kit.BesideList(p.list, p.beside))
	}
	p.list.Refresh()
	at := slices.IndexFunc(p.all, func(f family) bool { return f.latest.Family == p.near })
	if at < 0 {
		at = p.list.Cursor()
	}
	p.showBakes(at)
}

func (p *listPage) fresh() { p.env.Go(pages.Route{Name: pages.Formula}) }

// pickBake asks for the bake to make a formula of.
func (p *listPage) pickBake() {
	summaries, err := p.env.Journal.BakeSummaries()
	if p.env.Failed(err) {
		return
	}
	var some []*journal.BakeSummary
	for _, c := range summaries {
		if !c.Binned && c.Metric(shelf.DoughWeight) > 0 {
			some = append(some, c)
		}
	}
	if len(some) == 0 {
		p.env.Say(lang.L("There is no bake with a dough written down yet."), false)
		return
	}
	now, u := p.env.Now(), p.env.Units()
	var sheet *kit.Dialog
	list := kit.NewRowList(func() int { return len(some) },
		func() fyne.CanvasObject { return newFormulaRow(p.env.Thumbs) },
		func(i int, o fyne.CanvasObject) {
			c := some[i]
			o.(*fyne.Container).Layout.(*formulaRow).show(row{Cover: c.Cover, Name: c.Name, Baked: u.Day(c.At, now),
				Figures: lang.L("hydration {{.Hydration}}", map[string]any{"Hydration": u.Percent(1).Fixed(1).Write(c.Metric(shelf.Hydration))})})
		})
	list.OnOpen = func(i int) {
		sheet.Close()
		p.env.Go(pages.Route{Name: pages.Formula, ID: some[i].ID, More: fromBake})
	}
	sheet = kit.ShowDialog(p.env.Window, kit.DialogOptions{
		Title: lang.L("A formula from which bake?"), Content: list, Width: 640, Height: 560,
	})
	p.env.Window.Canvas().Focus(list)
}

// bin puts every version of a formula in the bin. Bakes keep what they were made of.
func (p *listPage) bin(i int) {
	if i < 0 || i >= len(p.all) {
		return
	}
	f, name := p.all[i].latest, p.rows[i].Name
	done := p.env.Do(lang.L("moving a formula to the bin"), func(tx *journal.Tx) error {
		versions, err := journal.Linked[journal.Formula](tx, f.Family)
		if err != nil {
			return err
		}
		for _, v := range versions {
			if err := journal.MoveToBin[journal.Formula](tx, v.ID); err != nil {
				return err
			}
		}
		return nil
	})
	if done {
		p.env.Say(lang.L("{{.Name}} is in the bin.", map[string]any{"Name": name}), true)
	}
}
