package cultures

import (
	"context"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/theme"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/room"
	"twinloaf/journal"
)

// listPage shows every culture with how it is and when it wants feeding.
type listPage struct {
	env   *room.Env
	page  *kit.Page
	rows  []row
	shown bool
	stop  func() // the work in the background
	still func() // the clock
	// submit keeps the sheet that is open.
	submit func()
}

func openList(env *room.Env, _ room.Place) (room.Page, error) {
	p := &listPage{env: env}
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: lang.L("Cultures"), Heading: " "})
	return p, nil
}

func (p *listPage) Object() fyne.CanvasObject { return p.page }
func (p *listPage) Title() string             { return lang.L("Cultures") }

func (p *listPage) Keys() []kit.Key {
	keys := []kit.Key{{Name: "N", Doc: lang.L("new culture"), Do: p.begin}, keepKey(func() func() { return p.submit })}
	for i, r := range p.rows {
		if i == 9 {
			break
		}
		keys = append(keys, kit.Key{Name: strconv.Itoa(i + 1), Doc: lang.L("open {{.Name}}", map[string]any{"Name": r.name}), Do: func() { p.env.Go(room.At(room.Culture, r.id)) }})
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
	p.stop = p.env.Run(func(context.Context) { rows, err = rowsOf(p.env.Journal, units) }, func() {
		if err != nil {
			p.env.Fail(err)
			return
		}
		p.show(rows)
	})
}

func (p *listPage) begin() {
	p.submit = newCulture(p.env, "", func(id journal.ID) { p.env.Go(room.At(room.Culture, id)) }).keep
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
	column := kit.Stack(5)
	for i, r := range rows {
		if i > 0 && r.depth == 0 {
			column.Add(kit.Rule())
		}
		column.Add(p.rowOf(r))
	}
	p.page.SetBody(column)
	p.env.Retitle()
}

// thumbSize is that of a jar in the list.
func thumbSize() fyne.Size { return fyne.NewSize(look.Space(22), look.Space(18)) }

func (p *listPage) rowOf(r row) fyne.CanvasObject {
	open := func() { p.env.Go(room.At(room.Culture, r.id)) }
	tile := kit.NewPhotoTile(p.env.Thumbs, thumbSize(), 0, open)
	tile.Set(kit.PhotoItem{Key: r.thumb})
	state := kit.Span{Text: r.state, Size: look.TextLead}
	if r.danger {
		state.Color, state.Bold = look.ColorEmber, true
	}
	next := kit.Span{Text: r.next}
	if r.late {
		next.Color = look.ColorEmber
	}
	words := kit.Stack(1, kit.Row(3, kit.NewLinkSpan(kit.Span{Text: r.name, Size: look.TextLarge, Serif: true, Color: look.ColorInk}, open), kit.NewLine(state)))
	if r.next != "" {
		words.Add(kit.NewText(next))
	}
	words.Add(kit.NewText(kit.Span{Text: r.about, Size: look.TextSmall, Color: look.ColorFaint}))
	line := kit.RowGrow(5, 1, tile, words, newSparkline(r.peaks, r.wanted, look.ColorSeries(r.look)))
	if r.depth == 0 {
		return line
	}
	return container.NewBorder(nil, nil, branch(r.depth), nil, line)
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
