package cultures

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/histories"
)

// feedingPage is one feeding: what it was, how it rose, what was read of it.
type feedingPage struct {
	pages.Base
	env     *pages.Env
	id      journal.ID
	culture journal.ID
	page    *kit.Page
	frame   *kit.ChartFrame
	figures *fyne.Container
	words   *kit.Text
	expect  *kit.Text
	rows    *fyne.Container // of pictures
	list    *fyne.Container
	recent  *fyne.Container // the last feedings of the culture
	weeks   picture         // of how high it rose after each of the last weeks
	chart   *kit.ChartFrame
	life    *histories.CultureHistory
	rec     *journal.Feeding
}

func openFeeding(env *pages.Env, at pages.Route) (pages.Page, error) {
	f, err := journal.Get[journal.Feeding](env.Journal, at.ID)
	if err != nil {
		return nil, err
	}
	p := &feedingPage{env: env, id: at.ID, culture: f.Culture, figures: kit.Flow(9), words: kit.Body(" "), expect: kit.Body(" "), rows: kit.Stack(1), list: kit.Stack(1), recent: container.NewStack()}
	p.frame = env.NewChart("", fyne.NewSize(look.Space(100), look.Space(80)), nil)
	p.chart = env.NewChart(lang.L("four weeks"), weeksSize(), func(m charts.Mark) {
		if place, ok := p.weeks.leads(m); ok {
			env.Go(place)
		}
	})
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: " ", Heading: " ",
		Body: kit.BesideBoth(kit.Stack(5, p.words, kit.Grown(0.4, look.Space(80), look.Space(155), p.frame), p.figures, p.expect), kit.Stack(5, p.list, p.rows, p.recent),
			kit.Grown(0.3, weeksSize().Height, look.Space(120), p.chart))})
	p.Base = pages.Base{Body: p.page, Name: lang.L("One feeding"), Read: p.load, Of: shownKinds}
	return p, nil
}

func (p *feedingPage) Keys() []kit.Key {
	if p.life == nil {
		return nil
	}
	return []kit.Key{
		{Name: "E", Doc: lang.L("alter this feeding"), Do: p.alter},
		{Name: "P", Doc: lang.L("follow the rise in a row of pictures"), Do: p.pickSeries},
		{Name: "R", Doc: lang.L("take a reading"), Do: func() { read(p.env, p.life) }},
		{Name: "Left", Doc: lang.L("the feeding before"), Do: func() { p.step(-1) }},
		{Name: "Right", Doc: lang.L("the feeding after"), Do: func() { p.step(1) }},
		{Name: "B", Doc: lang.L("back to the culture"), Do: func() { p.env.Go(pages.At(pages.Culture, p.culture)) }},
	}
}

func (p *feedingPage) alter() {
	if p.rec != nil {
		refeed(p.env, p.life, p.rec)
	}
}

// step goes to the feeding before or after this one.
func (p *feedingPage) step(by int) {
	var all []*journal.Feeding
	here := -1
	for _, f := range p.life.Feedings {
		if histories.Taking(f) {
			continue
		}
		if f.ID == p.id {
			here = len(all)
		}
		all = append(all, f)
	}
	if to := here + by; here >= 0 && to >= 0 && to < len(all) {
		p.env.Go(pages.At(pages.Feeding, all[to].ID))
	}
}

func (p *feedingPage) load() {
	now := p.env.Now()
	var r rise
	var fed [][]string
	var weeks picture
	u := p.env.Units()
	pages.Load(p.env, &p.Base, func(ctx context.Context, j journal.Source) (*histories.CultureHistory, error) {
		l, err := histories.Of(j, p.culture)
		if err != nil {
			return nil, err
		}
		if err := p.catchUp(ctx, j, &l); err != nil {
			return nil, err
		}
		drawn := sketch(l, now)
		fed, weeks = recentFeedings(drawn, u), fourWeeks([]*portrait{drawn}, now, u)
		course, _ := l.Course(p.id)
		r = riseOf(course)
		if c, ok := l.Current(now); ok && c.Feeding.ID == string(p.id) {
			r.current = true
			r.forecast, r.unknown = l.Forecast(now)
		} else {
			r.forecast, r.unknown = l.Told(p.id)
		}
		return l, nil
	}, func(l *histories.CultureHistory) {
		kit.SetOnly(p.recent, feedingTable(nameOf(l.Culture), pages.LookOf(l.Culture), fed))
		p.weeks = weeks
		kit.SetVisible(p.chart, len(weeks.places) > 0)
		p.chart.SetSpec(weeks.figure)
		p.show(l, r)
	})
}

func (p *feedingPage) show(l *histories.CultureHistory, r rise) {
	p.life, p.rec = l, nil
	for _, f := range l.Feedings {
		if f.ID == p.id {
			p.rec = f
		}
	}
	u, now := p.env.Units(), p.env.Now()
	if p.rec == nil { // it is in the bin
		p.env.Go(pages.At(pages.Culture, p.culture))
		return
	}
	p.page.SetEyebrow(lang.L("{{.Name}} · {{.When}} · {{.What}}", map[string]any{
		"Name": nameOf(l.Culture), "When": u.Moment(p.rec.At, now), "What": feedingWords(p.rec, u)}))
	p.page.SetHeading(riseHeading(r, u))
	p.page.SetActions(nil,
		kit.PrimaryButton(lang.L("Reading"), func() { read(p.env, l) }).WithKey("R"),
		kit.NewButton(lang.L("Alter"), p.alter).WithKey("E"),
		kit.NewButton(lang.L("Row of pictures"), p.pickSeries).WithKey("P"),
		kit.NewButton(lang.L("Back to {{.Name}}", map[string]any{"Name": kit.Fit(kit.Span{Text: nameOf(l.Culture)}, look.Space(45))}), func() { p.env.Go(pages.At(pages.Culture, p.culture)) }).WithKey("B"))
	p.words.SetText(riseWords(r, u))
	p.frame.Name = nameOf(l.Culture)
	p.frame.SetSpec(riseChart(r, pages.LookOf(l.Culture), lang.L("fitted"), u))
	p.figures.Objects = nil
	for _, f := range metricsOf(r, u) {
		out := kit.NewReadout(f.label, true)
		out.Set(f.value, f.unit, f.origin, f.derived)
		p.figures.Add(out)
	}
	p.figures.Hidden = len(p.figures.Objects) == 0
	p.expect.Hidden = !r.current
	if r.current {
		o := outlookOf(r.forecast, r.unknown, now, u)
		p.expect.SetSpans(kit.Span{Text: o.Label + " ", Bold: true}, kit.Span{Text: o.When + ". "}, kit.Span{Text: o.Rests, Color: look.ColorFaint, Size: look.TextSmall})
	}
	p.showSeries()
	p.showReadings(r)
	p.page.Refresh()
	p.env.Retitle()
}

// showReadings lists the readings of the feeding; each opens to be altered.
func (p *feedingPage) showReadings(r rise) {
	u := p.env.Units()
	p.list.Objects = []fyne.CanvasObject{kit.Section(lang.L("Readings"))}
	var opens, said []fyne.CanvasObject
	when := float32(0) // the room of the widest
	for _, seen := range r.course.Readings {
		for _, rec := range p.life.Readings {
			if string(rec.ID) != seen.ID {
				continue
			}
			words := kit.Span{Text: readingWords(rec, p.rec, u)}
			if rec.Mould || rec.Tint {
				words.Color = look.ColorEmber
			}
			hours := kit.Span{Color: look.ColorFaint, Text: lang.L("{{.Clock}}, after {{.Span}}", map[string]any{"Clock": clockAt(rec.At, p.env.Now(), u), "Span": u.Span(rec.At.Sub(p.rec.At))})}
			when = max(when, hours.Extent().Width)
			opens, said = append(opens, kit.NewLinkSpan(hours, func() { reread(p.env, p.life, rec) })), append(said, kit.NewText(words))
		}
	}
	for i, open := range opens {
		p.list.Add(kit.RowGrow(4, 1, kit.Width(when, open), said[i]))
	}
	if len(p.list.Objects) == 1 { // what pictures showed is not among them
		p.list.Add(kit.Faint(lang.L("None yet.")))
	}
	p.list.Refresh()
}
