package shelf

import (
	"context"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/shelf"
)

// yearPage shows a year day by day: bakes, feedings, flour used and what it cost.
type yearPage struct {
	pages.Base
	env   *pages.Env
	year  int
	state *yearState
	page  *kit.Page
	sums  *fyne.Container

	bakes, feedings, flour, cost *kit.ChartFrame

	of *kit.ChoiceField // the flour that is charted
	// what stands above and below the charts; bare where there is nothing to chart
	baked, fed, used *fyne.Container
	days             *fyne.Container   // the calendars, side by side where the year is young
	costs            fyne.CanvasObject // the chart of what flour cost
	paid, bare       fyne.CanvasObject
}

func newYearPage(env *pages.Env, year int) *yearPage {
	p := &yearPage{env: env, year: year, sums: kit.Flow(8)}
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: lang.L("The year")})
	p.Base = pages.Base{Body: p.page, Read: p.load,
		Of: []journal.Kind{journal.KindBake, journal.KindFeeding, journal.KindFlour, journal.KindCulture, journal.KindSettings}}
	p.bakes = env.NewChart(lang.L("bakes"), fyne.NewSize(look.Space(80), 150), p.openDay)
	p.feedings = env.NewChart(lang.L("feedings"), fyne.NewSize(look.Space(80), 150), func(charts.Mark) { env.Go(pages.Route{Name: pages.Cultures}) })
	p.flour = env.NewChart(lang.L("flour"), monthsSize, p.openMonth)
	p.cost = env.NewChart(lang.L("cost"), monthsSize, p.openMonth)
	p.costs = months(p.cost)
	p.of = kit.NewChoiceField("", lang.L("all flour"), nil, func(int) { p.showFlour() })
	p.fed, p.baked = kit.Stack(1), kit.Stack(1)
	p.paid = kit.Small(lang.L("What the flour cost: flour alone, by the bag bought last before each day, or else the first."))
	p.used = kit.Stack(1, kit.Row(0, p.of), kit.Columns(look.Space(90), months(p.flour), p.costs), p.paid)
	p.bare = kit.Empty(kit.GoldenLoaf, lang.L("Bakes and feedings stand here day by day, with the flour they took and what it cost."),
		kit.PrimaryButton(lang.L("Write down a bake"), func() { env.Go(pages.Route{Name: pages.Bake}) }).WithKey("N"),
		kit.NewLink(lang.L("Begin a culture"), func() { env.Go(pages.Route{Name: pages.Cultures, More: pages.ToBegin}) }))
	p.days = container.NewStack()
	p.page.SetBody(kit.Stack(6, p.bare, p.sums, p.days, p.used))
	p.page.Hold()
	return p
}

func (p *yearPage) Title() string { return strconv.Itoa(p.year) }

func (p *yearPage) Keys() []kit.Key {
	return []kit.Key{
		{Name: "Left", Doc: lang.L("Previous year"), Do: func() { p.turn(-1) }},
		{Name: "Right", Doc: lang.L("Next year"), Do: func() { p.turn(1) }},
		{Name: "S", Doc: lang.L("The bakes of the year, on the shelf"), Do: p.onShelf},
		{Name: "N", Doc: lang.L("New bake"), Do: func() { p.env.Go(pages.Route{Name: pages.Bake}) }},
	}
}

func (p *yearPage) turn(by int) {
	p.year += by
	p.load()
}

func (p *yearPage) zone() *time.Location { return p.env.Now().Location() }

func (p *yearPage) load() {
	year, zone := p.year, p.zone()
	pages.Load(p.env, &p.Base, func(_ context.Context, j journal.Source) (*yearState, error) { return readYear(j, year, zone) }, func(read *yearState) {
		p.state = read
		p.show()
		p.page.Release()
	})
}

func (p *yearPage) wording() wording {
	return wording{record: p.state.past, units: p.env.Units(), now: p.env.Now()}
}

func (p *yearPage) show() {
	s, y := p.wording(), p.state
	p.page.SetHeading(s.yearHeading(y))
	var actions []fyne.CanvasObject
	if y.baked > 0 {
		actions = append(actions, kit.PrimaryButton(lang.L("Show its bakes"), p.onShelf).WithKey("S"))
	}
	if y.first < y.year {
		actions = append(actions, kit.QuietButton("‹ "+strconv.Itoa(y.year-1), func() { p.turn(-1) }))
	}
	if y.last > y.year {
		actions = append(actions, kit.QuietButton(strconv.Itoa(y.year+1)+" ›", func() { p.turn(1) }))
	}
	p.page.SetActions(nil, actions...)
	kit.SetVisible(p.bare, y.baked+y.fed == 0)
	for _, o := range []fyne.CanvasObject{p.sums, p.days, p.used} {
		kit.SetVisible(o, y.baked+y.fed > 0)
	}
	kit.SetVisible(p.baked, y.baked > 0)
	kit.SetVisible(p.fed, y.fed > 0)
	if y.baked+y.fed == 0 {
		return
	}
	p.showDays(s.bakesByDay(y), s.feedingsByDay(y))
	names := []string{lang.L("all flour")}
	for _, key := range y.flours {
		names = append(names, y.names[key])
	}
	p.of.SetOptions(names)
	if p.of.Chosen() < 0 {
		p.of.SetChosen(0)
	}
	p.showFlour()
	kit.SetVisible(p.paid, y.priced)
	kit.SetVisible(p.costs, y.priced)
	if y.priced {
		p.cost.SetSpec(s.costByMonth(y))
	}
	p.showSums(s)
}

// monthsSize is the least of a chart by month.
var monthsSize = fyne.NewSize(look.Space(80), 280)

// months gives a chart by month a height that grows with its width.
func months(chart *kit.ChartFrame) fyne.CanvasObject {
	return kit.Grown(0.4, monthsSize.Height, 460, chart)
}

// youngYear is up to how many weeks the calendars of a year stand side by side.
const youngYear = 26

// showDays lays the calendars out: a young year's have large squares, side by side, and
// those of a whole year stand one above the other, as wide as the page.
func (p *yearPage) showDays(baked, fed charts.Calendar) {
	square, part, days := float32(22), float32(0.16), kit.Stack(6, p.baked, p.fed)
	if (max(baked.Days, fed.Days)+6)/7 <= youngYear {
		square, part, days = 34, 0.4, kit.Columns(look.Space(75), p.baked, p.fed)
	}
	high := func(square float32) float32 { return 7*square + 48 } // the months above it, the key below
	show := func(calendar *fyne.Container, name string, chart *kit.ChartFrame) {
		calendar.Objects = []fyne.CanvasObject{kit.Section(name), kit.Grown(part, high(square), high(54), chart)}
	}
	show(p.baked, lang.L("Bakes by day"), p.bakes)
	show(p.fed, lang.L("Feedings by day"), p.feedings)
	p.bakes.SetSpec(baked)
	p.feedings.SetSpec(fed)
	kit.SetOnly(p.days, days)
}

func (p *yearPage) showFlour() {
	i := p.of.Chosen()
	if i <= 0 {
		p.flour.SetSpec(p.wording().flourByMonth(p.state, "", true))
		return
	}
	p.flour.SetSpec(p.wording().flourByMonth(p.state, p.state.flours[i-1], false))
}

func (p *yearPage) showSums(s wording) {
	y := p.state
	grams, cost, priced := y.sum()
	p.sums.Objects = nil
	add := func(label, figure, unit, origin, derived string) {
		r := kit.NewReadout(past.Titled(label), true)
		r.Set(figure, unit, origin, derived)
		p.sums.Add(r)
	}
	add(lang.L("bakes"), s.count(y.baked), "", "", "")
	if y.fed > 0 {
		add(lang.L("feedings"), s.count(y.fed), "", "", "")
	}
	if grams > 0 {
		scale, unit := s.bulk()
		add(lang.L("flour"), s.units.FormatNumber(grams/scale, 1), unit, "",
			lang.L("All flour weighed for bread, and all that cultures were fed."))
	}
	if y.priced {
		add(lang.L("cost"), s.money(cost, y.currency), "", lang.L("price known for {{.P}}", map[string]any{"P": s.units.Percent(0).Write(100 * priced / grams)}),
			lang.L("Each gram at the price of the bag bought last before its day, or else the first. Flour without a price is left out."))
	}
	var rows []int
	for _, day := range y.byDay {
		rows = append(rows, day...)
	}
	if median, n := s.medianScore(rows); n > 0 {
		add(lang.L("score"), s.units.FormatNumber(median, 1), "", lang.L("median of {{.N}}", map[string]any{"N": s.count(n)}),
			lang.L("The middle one of the overall scores."))
	}
	p.sums.Refresh()
}

func (p *yearPage) onShelf() {
	from := time.Date(p.year, 1, 1, 0, 0, 0, 0, p.zone())
	p.between(from, from.AddDate(1, 0, 0))
}

func (p *yearPage) between(from, to time.Time) {
	p.env.Go(routeOf(state{Filter: shelf.Filter{From: from, To: to}}))
}

// openDay goes to the bake of a day, or to its bakes on the shelf.
func (p *yearPage) openDay(m charts.Mark) {
	if m.Index < 0 || m.Index >= len(p.state.byDay) {
		return
	}
	rows := p.state.byDay[m.Index]
	switch len(rows) {
	case 0:
	case 1:
		p.env.Go(pages.At(pages.Bake, p.state.past.Bakes[rows[0]].ID))
	default:
		from := time.Date(p.year, 1, 1+m.Index, 0, 0, 0, 0, p.zone())
		p.between(from, from.AddDate(0, 0, 1))
	}
}

// openMonth goes to the loaves of a month, with the flour that is charted.
func (p *yearPage) openMonth(m charts.Mark) {
	if m.Index < 0 || m.Index > 11 {
		return
	}
	from := time.Date(p.year, time.Month(m.Index+1), 1, 0, 0, 0, 0, p.zone())
	s := state{Filter: shelf.Filter{From: from, To: from.AddDate(0, 1, 0)}}
	if i := p.of.Chosen(); i > 0 {
		s.Filter.SetFlour(shelf.FlourPart{Flour: p.state.flours[i-1]})
	}
	p.env.Go(routeOf(s))
}
