package shelf

import (
	"context"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/layout"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/app/tables"
	"twinloaf/journal"
	"twinloaf/journal/shelf"
)

// mostCompared is how many bakes can be laid side by side.
const mostCompared = 4

// shelfPage shows past bakes as pictures, the crumb first.
type shelfPage struct {
	pages.Base
	env    *pages.Env
	page   *kit.Page
	line   *filterLine
	facets *facets
	grid   *kit.PhotoGrid
	none   *fyne.Container
	body   fyne.CanvasObject

	record *past.BakeIndex // nil until it is read
	state  state
	look   *shelf.View
	rows   []int         // what is seen, in order
	groups []shelf.Group // what is seen when it is grouped
	chosen []journal.ID  // to be compared
	views  []*journal.View
}

func newShelfPage(env *pages.Env, at pages.Route) (*shelfPage, error) {
	begun, err := stateOf(env.Journal, at)
	if err != nil {
		return nil, err
	}
	p := &shelfPage{env: env, state: begun, none: container.NewStack()}
	p.page = kit.NewPage(kit.PageOptions{Fixed: true})
	p.Base = pages.Base{Body: p.page, Name: lang.L("Shelf"), Read: p.load,
		Of: []journal.Kind{journal.KindBake, journal.KindPhoto, journal.KindCulture, journal.KindTrial, journal.KindView, journal.KindSettings}}
	p.facets = newFacets(p)
	p.line = newFilterLine(p)
	p.grid = kit.NewPhotoGrid(env.Thumbs, fyne.NewSize(184, 130), 2, p.length, p.item)
	p.List = p.grid
	p.grid.OnOpen = p.open
	p.grid.OnChoose = p.choose
	p.grid.OnRange = p.chooseRange
	side := container.New(sideLayout{}, p.facets.scroll, container.NewStack(p.grid, p.none))
	p.body = container.NewBorder(container.New(layout.NewCustomPaddedLayout(0, look.Space(2), 0, 0), p.line.box), nil, nil, nil, side)
	p.page.SetBody(p.body)
	p.showActions()
	return p, nil
}

// Changed reads the record anew when bakes, or the names beside them, changed.
func (p *shelfPage) Changed(c journal.Changed) {
	if p.Here() && c.TouchesKind(journal.KindSettings) {
		p.facets.forget()
	}
	p.Base.Changed(c)
}

func (p *shelfPage) Keys() []kit.Key {
	return []kit.Key{
		{Name: "G", Doc: lang.L("To the pictures: arrows move, Enter opens, Space chooses for comparing"), Do: func() { p.focus(p.grid) }},
		{Name: "F", Doc: lang.L("To the choices of flour"), Do: p.focusFlours},
		{Name: "/", Doc: lang.L("Words in names and notes"), Do: p.facets.text.Focus},
		{Name: "C", Doc: lang.L("Compare what is chosen"), Do: p.compare},
		{Name: "Y", Doc: lang.L("The year"), Do: p.year},
		{Name: "K", Doc: lang.L("Save this view under a name"), Do: p.line.keepView},
		{Name: "X", Doc: lang.L("Save as a table…"), Do: p.save},
		{Name: "T", Doc: lang.L("Take what is chosen away…"), Do: p.takeAway},
		{Name: "R", Doc: lang.L("Reverse the order"), Do: p.line.flip},
		{Name: "0", Doc: lang.L("Clear all filters"), Do: p.clear},
		{Name: "Esc", Doc: lang.L("Select none"), Do: p.chooseNone},
	}
}

func (p *shelfPage) focus(o fyne.Focusable) { p.env.Window.Canvas().Focus(o) }

func (p *shelfPage) focusFlours() {
	for _, o := range p.facets.flours.box.Objects {
		if bar, ok := o.(*choiceBar); ok {
			p.focus(bar)
			return
		}
	}
}

// load reads the record; what was there stays on the screen until it is read.
func (p *shelfPage) load() {
	var views []*journal.View
	pages.Load(p.env, &p.Base, func(_ context.Context, j journal.Source) (record *past.BakeIndex, err error) {
		if record, err = past.Of(j); err == nil {
			views, err = journal.All[journal.View](j)
		}
		return record, err
	}, func(record *past.BakeIndex) {
		slices.SortFunc(views, func(a, b *journal.View) int { return strings.Compare(a.Name, b.Name) })
		p.record, p.views = record, views
		p.show()
	})
}

func (p *shelfPage) speaker() wording {
	return wording{record: p.record, units: p.env.Units(), now: p.env.Now()}
}

// narrow alters the filter and shows what is left.
func (p *shelfPage) narrow(change func(*shelf.Filter)) {
	change(&p.state.Filter)
	p.again()
}

// again shows the shelf from its beginning.
func (p *shelfPage) again() {
	if p.record == nil {
		return
	}
	p.show()
	p.grid.ScrollToTop()
}

func (p *shelfPage) clear() {
	p.state.Filter = shelf.Filter{}
	p.again()
}

// show brings everything on the page up to the record and the state.
func (p *shelfPage) show() {
	p.look = p.record.Filter(p.state.Filter)
	p.rows = p.look.Rows(p.state.Order)
	p.groups = nil
	if p.state.GroupBy != shelf.Ungrouped {
		p.groups = p.record.Grouped(p.rows, p.state.GroupBy)
	}
	if p.record.Len() == 0 {
		p.page.SetHeading(lang.L("The shelf is empty"))
		p.page.SetBody(kit.Empty(kit.GoldenLoaf,
			lang.L("Every bake that is written down stands here, its crumb first, to be found by its flour and everything else."),
			kit.PrimaryButton(lang.L("Write down the first bake"), func() { p.env.Go(pages.Route{Name: pages.Bake}) }),
			kit.NewLink(lang.L("Open the demo"), p.env.OpenDemo)))
		return
	}
	p.page.SetBody(p.body)
	p.page.SetHeading(p.speaker().heading(p.state.Filter, len(p.rows), p.record.Len()))
	p.line.show()
	p.facets.show()
	p.showNone()
	p.showActions()
	p.grid.Refresh()
	p.env.Retitle()
}

// showNone says of a filter that nothing matches which part of it alone is in the way, and
// takes it off.
func (p *shelfPage) showNone() {
	p.none.Objects = nil
	if len(p.rows) == 0 {
		s := p.speaker()
		column := kit.Stack(3, kit.Lead(kit.Span{Text: lang.L("No bake has all of this.")}))
		if pills := s.pills(p.state.Filter); len(pills) > 1 {
			for _, one := range pills {
				f := p.state.Filter
				one.off(&f)
				n := len(p.record.Filter(f).Rows(p.state.Order))
				if n == 0 {
					continue
				}
				column.Add(kit.Row(0, kit.NewLink(lang.L("Without {{.What}}: {{.Bakes}}", map[string]any{"What": one.words,
					"Bakes": lang.N("{{.N}} bakes", n, map[string]any{"N": n})}), func() { p.narrow(one.off) })))
			}
		}
		column.Add(kit.Row(0, kit.NewButton(lang.L("Show all bakes"), p.clear).WithKey("0")))
		p.none.Objects = []fyne.CanvasObject{column}
	}
	p.none.Refresh()
}

func (p *shelfPage) showActions() {
	n := len(p.chosen)
	if n == 0 {
		p.page.SetActions(nil, kit.QuietButton(lang.L("The year"), p.year).WithKey("Y"),
			kit.QuietButton(lang.L("Save as a table…"), p.save).WithKey("X"))
		return
	}
	data := map[string]any{"N": n}
	var actions []fyne.CanvasObject
	if n > 1 && n <= mostCompared {
		actions = append(actions, kit.PrimaryButton(lang.L("Compare {{.N}}", data), p.compare).WithKey("C"))
	}
	hint := lang.L("One selected. Two to four can be compared, any number saved or taken away.")
	if n > 1 {
		hint = lang.L("{{.N}} selected. Two to four can be compared, any number saved or taken away.", data)
	}
	p.page.SetActions(kit.Small(hint), append(actions, kit.NewButton(lang.L("Save these as a table…"), p.save).WithKey("X"),
		kit.NewButton(lang.L("Take away…"), p.takeAway).WithKey("T"),
		kit.QuietButton(lang.L("Select none"), p.chooseNone).WithKey(lang.L("Esc")))...)
}

func (p *shelfPage) year() { p.env.Go(yearRoute(p.env.Now().Year())) }

// save asks which table is wanted: of the bakes that are selected, or else of all that
// are shown.
func (p *shelfPage) save() {
	if p.record == nil {
		return
	}
	ids := slices.Clone(p.chosen)
	if len(ids) == 0 {
		for _, row := range p.rows {
			ids = append(ids, journal.ID(p.record.Row(row).ID))
		}
	}
	tables.AskBakes(p.env, tables.ByID(p.env.Journal, ids))
}

// takeAway takes the bakes that are selected to another place, with what belongs to them.
func (p *shelfPage) takeAway() {
	if len(p.chosen) == 0 {
		p.env.Say(lang.L("Select the bakes first: Space, the tick, or Ctrl and a click."), false)
		return
	}
	var refs []journal.Ref
	for _, id := range p.chosen {
		refs = append(refs, journal.Ref{Kind: journal.KindBake, ID: id})
	}
	name := lang.N("{{.N}} bakes", len(refs), map[string]any{"N": len(refs)})
	if b, err := journal.Get[journal.Bake](p.env.Journal, p.chosen[0]); len(refs) == 1 && err == nil && b.Name != "" {
		name = b.Name
	}
	p.env.TakeAway(name, refs...)
}

func (p *shelfPage) compare() {
	if n := len(p.chosen); n < 2 || n > mostCompared {
		p.env.Say(lang.L("Select two to four bakes first: Space, the tick, or Ctrl and a click."), false)
		return
	}
	p.env.Go(comparePlace(p.chosen...))
}

// open goes to a bake, or into a group.
func (p *shelfPage) open(i int) {
	switch {
	case i < 0 || i >= p.length():
	case p.groups != nil:
		into(&p.state, p.groups[i].Key)
		p.again()
	default:
		p.env.Go(pages.At(pages.Bake, journal.ID(p.record.Row(p.rows[i]).ID)))
	}
}

// choose takes a bake among those selected, or out again.
func (p *shelfPage) choose(i int) {
	if p.groups != nil || i < 0 || i >= len(p.rows) {
		return
	}
	p.chosen = shelf.Toggled(p.chosen, journal.ID(p.record.Row(p.rows[i]).ID))
	p.showActions()
	p.grid.Refresh()
}

// chooseRange selects all bakes from one to another.
func (p *shelfPage) chooseRange(from, to int) {
	if p.groups != nil {
		return
	}
	for i := max(0, min(from, to)); i <= max(from, to) && i < len(p.rows); i++ {
		if id := journal.ID(p.record.Row(p.rows[i]).ID); !slices.Contains(p.chosen, id) {
			p.chosen = append(p.chosen, id)
		}
	}
	p.showActions()
	p.grid.Refresh()
}

func (p *shelfPage) chooseNone() {
	p.chosen = nil
	p.showActions()
	p.grid.Refresh()
}

func (p *shelfPage) length() int {
	if p.groups != nil {
		return len(p.groups)
	}
	return len(p.rows)
}

// sideLayout gives the facets their width and the pictures the rest.
type sideLayout struct{}

const facetWidth = 200

func (sideLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(facetWidth, look.Space(40))
}

func (sideLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	left := look.Space(1.5)
	kit.Put(things[0], fyne.NewPos(-left, 0), fyne.NewSize(facetWidth+left, size.Height))
	x := float32(facetWidth) + look.Space(4)
	kit.Put(things[1], fyne.NewPos(x, 0), fyne.NewSize(max(0, size.Width-x), size.Height))
}
