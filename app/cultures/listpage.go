package cultures

import (
	"context"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/histories"
)

// listPage shows every culture with how it is and when it wants feeding.
type listPage struct {
	pages.Base
	env   *pages.Env
	page  *kit.Page
	list  *kit.OpenRows
	shown *listing // empty until it is worked out
	weeks *kit.ChartFrame
	// frames are the curves of the rows, by culture.
	frames map[journal.ID]*kit.ChartFrame
	asked  bool   // the baker came here to begin a culture, which is still to be done
	still  func() // the clock
}

func openList(env *pages.Env, at pages.Route) (pages.Page, error) {
	p := &listPage{env: env, list: kit.NewOpenRows(), shown: &listing{}, frames: map[journal.ID]*kit.ChartFrame{},
		asked: at.More == pages.ToBegin}
	p.weeks = env.NewChart(lang.L("four weeks"), weeksSize(), func(m charts.Mark) {
		if place, ok := p.shown.weeks.leads(m); ok {
			env.Go(place)
		}
	})
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: lang.L("Cultures"), Heading: " "})
	p.Base = pages.Base{Body: p.page, List: p.list, Name: lang.L("Cultures"), Read: p.load, Of: shownKinds}
	return p, nil
}

func (p *listPage) Keys() []kit.Key {
	keys := []kit.Key{
		{Name: "N", Doc: lang.L("new culture"), Do: p.begin},
		{Name: "F", Doc: lang.L("feed the culture at the keyboard's place, or else the hungriest"), Do: func() { p.feed(false) }},
		{Name: "R", Doc: lang.L("take a reading of the culture at the keyboard's place, or else the hungriest"), Do: p.readAt},
		{Name: "G", Doc: lang.L("feed it as the last time, at once"), Do: func() { p.feed(true) }},
	}
	for i, r := range p.shown.rows {
		if i == 9 {
			break
		}
		keys = append(keys, kit.Key{Name: strconv.Itoa(i + 1), Doc: lang.L("open {{.Name}}", map[string]any{"Name": r.name}), Do: func() { p.env.Go(pages.At(pages.Culture, r.id)) }})
	}
	return keys
}

func (p *listPage) Shown() {
	p.Base.Shown()
	p.still = p.env.Every(minute, p.load)
}

func (p *listPage) Left() {
	p.Base.Left()
	p.still()
}

// shownKinds are the kinds of records of which a change may show on a page of this room.
var shownKinds = []journal.Kind{journal.KindCulture, journal.KindFeeding, journal.KindReading, journal.KindMove,
	journal.KindTempLog, journal.KindSeries, journal.KindPhoto, journal.KindSettings}

func (p *listPage) load() {
	units := p.env.Units()
	pages.Load(p.env, &p.Base, func(_ context.Context, j journal.Source) (*listing, error) {
		return listingOf(j, &p.env.Histories, units)
	}, func(l *listing) {
		p.show(l)
		p.askAtOnce()
	})
}

// askAtOnce opens the sheet of a new culture the first time that the list is read, if the
// baker came for that.
func (p *listPage) askAtOnce() {
	asked := p.asked
	p.asked = false
	if asked && p.Here() && p.env.Window.Canvas().Overlays().Top() == nil {
		p.begin()
	}
}

func (p *listPage) begin() { newCulture(p.env, "", p.goTo) }

func (p *listPage) goTo(id journal.ID) { p.env.Go(pages.At(pages.Culture, id)) }

func (p *listPage) show(l *listing) {
	p.shown = l
	u := p.env.Units()
	p.page.SetHeading(listHeading(l.rows, l.now, u))
	if len(l.rows) == 0 {
		p.page.SetActions(nil)
		p.page.SetBody(kit.Empty(kit.Jar,
			lang.L("A culture is flour and water kept alive by feeding. Begin one today, or enter the one in your jar; its first weeks are followed with you."),
			kit.PrimaryButton(lang.L("New culture"), p.begin).WithKey("N"),
			kit.NewLink(lang.L("Open the demo"), p.env.OpenDemo)))
		return
	}
	p.page.SetActions(nil, kit.PrimaryButton(lang.L("New culture"), p.begin).WithKey("N"))
	var things, ended []fyne.CanvasObject
	on, living := axesOf(l.rows, l.now), 0
	for _, r := range l.rows {
		if !r.ended {
			living++
		}
	}
	for _, r := range l.rows {
		if r.ended {
			ended = append(ended, p.endedRow(r))
			continue
		}
		if len(things) > 0 {
			things = append(things, kit.Gap(1.5), kit.Rule(), kit.Gap(1.5))
		}
		things = append(things, p.rowOf(r, on, living))
	}
	if len(ended) > 0 {
		things = append(things, kit.Gap(2), kit.Rule(), kit.Gap(2), kit.Section(lang.L("Retired")))
		things = append(things, ended...)
	}
	p.list.Set(things...)
	if len(l.weeks.places) > 0 {
		p.weeks.SetSpec(l.weeks.figure)
		p.page.SetBody(kit.Beside(p.list, kit.Stack(6, kit.Grown(0.8, weeksSize().Height, look.Space(140), p.weeks), feedingTables(l.rows, living))))
	} else {
		p.page.SetBody(p.list)
	}
}

// fewCultures have larger rows.
const fewCultures = 3

// endedRow is a culture that was given up, in one line.
func (p *listPage) endedRow(r row) fyne.CanvasObject {
	line := kit.RowGrow(5, 1, kit.Marked(r.look, kit.NewLine(kit.Span{Text: r.name, Bold: true})),
		kit.NewText(kit.Span{Text: r.about, Color: look.ColorFaint}))
	return kit.NewOpenRow(string(r.id), nil, line, func() { p.env.Go(pages.At(pages.Culture, r.id)) })
}

// reading takes a reading of a culture.
func (p *listPage) reading(id journal.ID) {
	l, err := histories.Of(p.env.Journal, id)
	if p.env.Failed(err) {
		return
	}
	read(p.env, l)
}

// feed feeds the culture that the keyboard is at, or else the one that is most overdue.
func (p *listPage) feed(asLast bool) {
	id := p.meant()
	switch {
	case id == "":
	case asLast:
		FeedAgain(p.env, id)
	default:
		Feed(p.env, id)
	}
}

// readAt takes a reading of the culture that the keyboard is at, or of the same.
func (p *listPage) readAt() {
	if id := p.meant(); id != "" {
		p.reading(id)
	}
}

// meant is the culture that a key means: the one that the keyboard is at, or else the one
// that is most overdue.
func (p *listPage) meant() journal.ID {
	if id, ok := p.list.At(); ok {
		return journal.ID(id)
	}
	return hungriest(p.shown.rows)
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
