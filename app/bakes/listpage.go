package bakes

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/charts"
	"twinloaf/journal"
)

// mostPills is how many flours are offered to filter by; the others are found by
// typing their name.
const mostPills = 8

// mostAhead is how many bakes under way and planned are shown on top.
const mostAhead = 3

// listPage lists the bakes.
type listPage struct {
	pages.Base
	env    *pages.Env
	page   *kit.Page
	main   *kit.Button // what is done first of all
	others []fyne.CanvasObject
	list   *kit.RowList
	find   *kit.TextField
	ahead  *fyne.Container
	pills  *fyne.Container
	none   *fyne.Container // what is said when the filter lets nothing through
	glance *glance
	near   journal.ID // the bake that is beside the list
	body   fyne.CanvasObject
	filter filter
	shown  lists
	marks  map[journal.ID]charts.SeriesStyle // of the cultures
	// offered are the flours that there are pills for.
	offered []flourCount
}

func newListPage(env *pages.Env) *listPage {
	p := &listPage{env: env, ahead: kit.Stack(1), pills: kit.Flow(1.5), none: container.NewStack(), glance: newGlance(env)}
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: lang.L("Bakes"), Fixed: true})
	p.Base = pages.Base{Body: p.page, Name: lang.L("Bakes"), Read: p.refresh,
		Of: []journal.Kind{journal.KindBake, journal.KindCulture, journal.KindPhoto, journal.KindSettings}}
	p.others = []fyne.CanvasObject{
		kit.QuietButton(lang.L("Formulas"), func() { env.Go(pages.Route{Name: pages.Formulas}) }).WithKey("F"),
		kit.QuietButton(lang.L("Crumb photos"), func() { env.Go(pages.Route{Name: pages.Crumb}) }).WithKey("C"),
		kit.QuietButton(lang.L("Save as a table…"), p.save).WithKey("X"),
		kit.QuietButton(lang.L("The bin"), func() { env.Go(pages.Route{Name: pages.Bin}) }).WithKey("B"),
	}
	p.main = kit.PrimaryButton(lang.L("New bake"), p.newBake).WithKey("N")
	p.find = kit.NewTextField("", lang.L("find by a word in names, flours or notes"))
	p.find.OnChanged = func(text string) {
		p.filter.text = text
		p.refresh()
	}
	p.list = kit.NewRowList(func() int { return len(p.shown.past) },
		func() fyne.CanvasObject { return newListRow(env.Thumbs) },
		func(i int, row fyne.CanvasObject) {
			row.(*listRow).set(viewRow(p.shown.past[i], p.marks, env.Units(), env.Now()))
		})
	p.List = p.list
	p.list.OnOpen = func(i int) { env.Go(pages.At(pages.Bake, p.shown.past[i].ID)) }
	pages.FollowRow(env, p.list, p.showGlance)
	p.list.OnDelete = func(i int) { binBake(env, p.shown.past[i].ID, p.shown.past[i].Name) }
	top := kit.Stack(4, p.ahead, kit.Rule(), kit.WeightedColumns(look.Space(62), []float32{8, 4}, p.pills, p.find), kit.Gap(1))
	p.body = container.New(&underFilters{page: p}, top, kit.BesideList(container.NewStack(p.list, p.none), p.glance.box))
	return p
}

// underFilters gives the list the height that what stands above it leaves. Where that are not
// three rows, the pills of the flours go, unless one is chosen: a flour is found by its name as well.
// Where even so they are not, the page scrolls.
type underFilters struct{ page *listPage }

var threeRows = look.Space(70)

func (l *underFilters) MinSize(things []fyne.CanvasObject) fyne.Size {
	pills := l.page.pills
	shown := pills.Visible()
	pills.Hidden = l.page.filter.flour == ""
	top, list := things[0].MinSize(), things[1].MinSize()
	pills.Hidden = !shown
	return fyne.NewSize(max(top.Width, list.Width), top.Height+max(list.Height, threeRows))
}

func (l *underFilters) Layout(things []fyne.CanvasObject, size fyne.Size) {
	p := l.page
	p.pills.Show()
	high := kit.FitHeight(things[0], size.Width)
	if size.Height-high < threeRows && p.filter.flour == "" {
		p.pills.Hide()
		high = kit.FitHeight(things[0], size.Width)
	}
	things[0].Move(fyne.NewPos(0, 0))
	kit.Put(things[1], fyne.NewPos(0, high), fyne.NewSize(size.Width, size.Height-high))
}

func (p *listPage) Keys() []kit.Key {
	return []kit.Key{
		{Name: "N", Doc: lang.L("New bake"), Do: p.newBake},
		{Name: "L", Doc: lang.L("To the list: arrows move, Enter opens, Del moves to the bin"), Do: func() { p.env.Window.Canvas().Focus(p.list) }},
		{Name: "/", Doc: lang.L("Find by a word"), Do: p.find.Focus},
		{Name: "F", Doc: lang.L("Formulas"), Do: func() { p.env.Go(pages.Route{Name: pages.Formulas}) }},
		{Name: "C", Doc: lang.L("Crumb photos, to be measured"), Do: func() { p.env.Go(pages.Route{Name: pages.Crumb}) }},
		{Name: "X", Doc: lang.L("Save as a table…"), Do: p.save},
		{Name: "B", Doc: lang.L("The bin"), Do: func() { p.env.Go(pages.Route{Name: pages.Bin}) }},
	}
}

func (p *listPage) newBake() { p.env.Go(pages.Route{Name: pages.Bake}) }

// refresh asks the journal again.
func (p *listPage) refresh() {
	summaries, err := p.env.Journal.BakeSummaries()
	if err != nil {
		p.env.Fail(fmt.Errorf("listing the bakes: %w", err))
		return
	}
	if p.marks, err = pages.CultureLooks(p.env.Journal); err != nil {
		p.env.Fail(fmt.Errorf("listing the bakes: %w", err))
		return
	}
	p.shown = listBakes(summaries, p.filter)
	p.page.SetHeading(listHeading(p.shown, p.newest(summaries), p.env.Units(), p.env.Now()))
	if p.shown.all == 0 && len(p.shown.ahead) == 0 {
		p.page.SetActions(nil, p.others...)
		p.page.SetBody(kit.Empty(kit.GoldenLoaf,
			lang.L("Write down a bread when you next make one: what went in, a photo or two, how it came out."),
			kit.PrimaryButton(lang.L("Write down the first bake"), p.newBake).WithKey("N"),
			kit.NewLink(lang.L("Open the demo"), p.env.OpenDemo)))
		return
	}
	p.page.SetActions(nil, append([]fyne.CanvasObject{p.main}, p.others...)...)
	p.page.SetBody(p.body)
	p.showAhead()
	p.showPills(countFlours(summaries))
	p.showNone()
	p.list.Refresh()
	at := slices.IndexFunc(p.shown.past, func(c *journal.BakeSummary) bool { return c.ID == p.near })
	if at < 0 {
		at = p.list.Cursor()
	}
	p.showGlance(at)
}

// showGlance shows the bake of a row beside the list.
func (p *listPage) showGlance(i int) {
	p.near = ""
	if n := len(p.shown.past); n > 0 {
		p.near = p.shown.past[min(i, n-1)].ID
	}
	p.glance.show(p.near)
}

// newest reads the newest past bake; nil if there is none.
func (p *listPage) newest(summaries []*journal.BakeSummary) *journal.Bake {
	for _, c := range summaries {
		if c.Binned || !c.State.Over() {
			continue
		}
		b, err := journal.Get[journal.Bake](p.env.Journal, c.ID)
		if err != nil {
			return nil
		}
		return b
	}
	return nil
}

// showAhead writes what is under way and planned.
func (p *listPage) showAhead() {
	p.ahead.Objects = nil
	u, now := p.env.Units(), p.env.Now()
	for i, c := range p.shown.ahead {
		if i == mostAhead {
			p.ahead.Add(kit.Small(lang.L("and {{.N}} more planned", map[string]any{"N": len(p.shown.ahead) - i})))
			break
		}
		state := lang.L("planned, {{.When}}", map[string]any{"When": u.When(c.At, now)})
		if c.State == journal.Running {
			state = lang.L("under way since {{.When}}", map[string]any{"When": u.When(c.At, now)})
		}
		p.ahead.Add(kit.Row(3,
			kit.NewLinkSpan(kit.Span{Text: past.Name(c.Name), Bold: true, Color: look.ColorCrust},
				func() { p.env.Go(pages.At(pages.BakeDay, c.ID)) }),
			kit.NewLine(kit.Span{Text: state, Color: look.ColorFaint})))
	}
	kit.SetVisible(p.ahead, len(p.shown.ahead) > 0)
	p.ahead.Refresh()
}

// showPills offers the flours to filter by. While they are the same, the pills
// stay, so that the keyboard keeps its place.
func (p *listPage) showPills(flours []flourCount) {
	offered := flours[:min(len(flours), mostPills)]
	for _, f := range flours[len(offered):] {
		if f.key == p.filter.flour {
			offered = append(slices.Clone(offered), f)
		}
	}
	if !slices.Equal(offered, p.offered) {
		p.offered = slices.Clone(offered)
		p.pills.Objects = nil
		for _, f := range offered {
			words := lang.L("{{.Flour}} {{.N}}", map[string]any{"Flour": f.name, "N": f.n})
			p.pills.Add(kit.NewChoicePill(words, false, func() { p.choose(f.key) }))
		}
	}
	for i, f := range offered {
		p.pills.Objects[i].(*kit.Pill).SetChosen(f.key == p.filter.flour)
	}
	p.pills.Refresh()
}

// choose filters by a flour; a second time it drops the filter.
func (p *listPage) choose(flour string) {
	if p.filter.flour == flour {
		flour = ""
	}
	p.filter.flour = flour
	p.refresh()
	p.list.ScrollToOffset(0)
}

// showNone says that the filter lets nothing through, and offers to drop it.
func (p *listPage) showNone() {
	p.none.Objects = nil
	if len(p.shown.past) == 0 && p.shown.all > 0 {
		p.none.Objects = []fyne.CanvasObject{kit.Stack(3,
			kit.Faint(lang.N("None of the {{.N}} bakes is like that.", p.shown.all, map[string]any{"N": p.shown.all})),
			kit.Row(0, kit.NewLink(lang.L("Show them all"), func() {
				p.filter = filter{}
				p.find.SetText("")
				p.refresh()
			})))}
	}
	p.none.Refresh()
}

// binBake puts a bake in the bin, from where it can be brought back.
func binBake(env *pages.Env, id journal.ID, name string) bool {
	if !env.Do(lang.L("moving a bake to the bin"), func(tx *journal.Tx) error { return journal.MoveToBin[journal.Bake](tx, id) }) {
		return false
	}
	env.Say(lang.L("“{{.Name}}” is in the bin.", map[string]any{"Name": past.Name(name)}), true)
	return true
}
