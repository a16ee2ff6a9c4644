package cultures

import (
	"context"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/theme"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// listPage shows every culture with how it is and when it wants feeding.
type listPage struct {
	env   *pages.Env
	page  *kit.Page
	list  *kit.OpenRows
	rows  []row
	shown bool
	stop  func() // the work in the background
	still func() // the clock
}

func openList(env *pages.Env, _ pages.Route) (pages.Page, error) {
	p := &listPage{env: env, list: kit.NewOpenRows()}
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: lang.L("Cultures"), Heading: " "})
	return p, nil
}

func (p *listPage) Object() fyne.CanvasObject { return p.page }
func (p *listPage) Title() string             { return lang.L("Cultures") }

// Start puts the keyboard in the list.
func (p *listPage) Start() fyne.Focusable { return p.list.Start() }

func (p *listPage) Keys() []kit.Key {
	keys := []kit.Key{
		{Name: "N", Doc: lang.L("new culture"), Do: p.begin},
		{Name: "F", Doc: lang.L("feed the culture at the keyboard's place, or else the hungriest"), Do: func() { p.feed(false) }},
		{Name: "G", Doc: lang.L("feed it as the last time, at once"), Do: func() { p.feed(true) }},
	}
	for i, r := range p.rows {
		if i == 9 {
			break
		}
		keys = append(keys, kit.Key{Name: strconv.Itoa(i + 1), Doc: lang.L("open {{.Name}}", map[string]any{"Name": r.name}), Do: func() { p.env.Go(pages.At(pages.Culture, r.id)) }})
	}
	return keys
}

func (p *listPage) Shown() {
	p.shown = true
	p.load()
	p.still = p.env.Every(minute, p.load)
}

func (p *listPage) Left() {
	p.shown = false
	for _, stop := range []func(){p.stop, p.still} {
		if stop != nil {
			stop()
		}
	}
}

func (p *listPage) Changed(c journal.Changed) {
	if p.shown && touchesCultures(c) {
		p.load()
	}
}

// touchesCultures says whether a change may show on a page of this room.
func touchesCultures(c journal.Changed) bool {
	return c.TouchesKind(journal.KindCulture, journal.KindFeeding, journal.KindReading, journal.KindMove,
		journal.KindTempLog, journal.KindPhoto, journal.KindSettings)
}

func (p *listPage) load() {
	if p.stop != nil {
		p.stop()
	}
	units := p.env.Units()
	var rows []row
	var err error
	p.stop = p.env.Run(func(ctx context.Context) { rows, err = rowsOf(p.env.Journal.Until(ctx), units) }, func() {
		if err != nil {
			p.env.Fail(err)
			return
		}
		p.show(rows)
	})
}

func (p *listPage) begin() {
	newCulture(p.env, "", func(id journal.ID) { p.env.Go(pages.At(pages.Culture, id)) })
}

func (p *listPage) show(rows []row) {
	p.rows = rows
	p.page.SetHeading(listHeading(rows))
	if len(rows) == 0 {
		p.page.SetActions(nil)
		p.page.SetBody(kit.Empty(
			lang.L("A culture is flour and water kept alive by feeding. Begin one today, or enter the one in your jar; its first weeks are followed with you."),
			kit.PrimaryButton(lang.L("New culture"), p.begin).WithKey("N"),
			kit.NewLink(lang.L("Look at a cook's journal first"), p.env.OpenDemo)))
		p.env.Retitle()
		return
	}
	p.page.SetActions(nil, kit.PrimaryButton(lang.L("New culture"), p.begin).WithKey("N"))
	var things []fyne.CanvasObject
	for i, r := range rows {
		if i > 0 && r.depth == 0 {
			things = append(things, kit.Gap(1.5), kit.Rule(), kit.Gap(1.5))
		}
		things = append(things, p.rowOf(r))
	}
	p.list.Set(things...)
	p.page.SetBody(p.list)
	p.env.Retitle()
}

// feed feeds the culture that the keyboard is at, or else the one that is most overdue.
func (p *listPage) feed(asLast bool) {
	id, ok := p.list.At()
	if !ok {
		id = string(hungriest(p.rows))
	}
	if id == "" {
		return
	}
	if asLast {
		FeedAgain(p.env, journal.ID(id))
		return
	}
	Feed(p.env, journal.ID(id))
}

// hungriest is the living culture whose feeding is due first; none without a living one.
func hungriest(rows []row) journal.ID {
	var id journal.ID
	var by time.Time
	for _, r := range rows {
		if !r.ended && !r.danger && (id == "" || !r.by.IsZero() && (by.IsZero() || r.by.Before(by))) {
			id, by = r.id, r.by
		}
	}
	return id
}

// thumbSize is that of a jar in the list.
func thumbSize() fyne.Size { return fyne.NewSize(look.Space(22), look.Space(18)) }

func (p *listPage) rowOf(r row) fyne.CanvasObject {
	open := func() { p.env.Go(pages.At(pages.Culture, r.id)) }
	tile := kit.NewPhotoCell(p.env.Thumbs, thumbSize(), 0)
	tile.Set(kit.PhotoItem{Key: r.thumb}, false)
	state := kit.Span{Text: r.state, Size: look.TextLead}
	if r.danger {
		state.Color, state.Bold = look.ColorEmber, true
	}
	next := kit.Span{Text: r.next}
	if r.late {
		next.Color, next.Bold = look.ColorEmber, true
	}
	words := kit.Stack(1, kit.Row(3, kit.NewLine(kit.Span{Text: r.name, Size: look.TextLarge, Serif: true}), kit.NewLine(state)))
	if r.next != "" {
		words.Add(kit.NewText(next))
	}
	words.Add(kit.NewText(kit.Span{Text: r.about, Size: look.TextSmall, Color: look.ColorFaint}))
	if r.late && !r.danger {
		words.Add(kit.Row(2,
			kit.NewButton(lang.L("Feed as last time"), func() { FeedAgain(p.env, r.id) }),
			kit.NewButton(lang.L("Feed…"), func() { Feed(p.env, r.id) })))
	}
	line := fyne.CanvasObject(kit.RowGrow(5, 1, tile, words, newSparkline(r.peaks, r.wanted, look.ColorSeries(r.look))))
	if r.depth > 0 {
		line = container.NewBorder(nil, nil, branch(r.depth), nil, line)
	}
	return kit.NewOpenRow(string(r.id), 0, line, open)
}

// branch is the line from a parent to what was split from it.
func branch(depth int) fyne.CanvasObject {
	down, across := canvas.NewLine(theme.Color(look.ColorEdge)), canvas.NewLine(theme.Color(look.ColorEdge))
	return container.New(branchLayout{depth}, down, across)
}

type branchLayout struct{ depth int }

func (l branchLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(look.Space(12)*float32(l.depth), look.Space(8))
}

func (l branchLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	x, y := size.Width-look.Space(6), size.Height/2
	down, across := things[0].(*canvas.Line), things[1].(*canvas.Line)
	down.Position1, down.Position2 = fyne.NewPos(x, -look.Space(4)), fyne.NewPos(x, y)
	across.Position1, across.Position2 = fyne.NewPos(x, y), fyne.NewPos(size.Width-look.Space(2), y)
	for _, line := range []*canvas.Line{down, across} {
		line.StrokeColor, line.StrokeWidth = theme.Color(look.ColorEdge), 1
		line.Refresh()
	}
}
