package today

import (
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/plan"
)

// onTheBench is the dough whose turn comes first, with the time that is left.
func (p *page) onTheBench() fyne.CanvasObject {
	column := kit.Stack(2, kit.Section(lang.L("On the bench")))
	d, ok := p.state.bench()
	if !ok {
		column.Add(kit.Faint(lang.L("No dough is under way.")))
		column.Add(kit.Row(2, kit.PrimaryButton(lang.L("Plan a bake"), func() { p.env.Go(pages.Route{Name: pages.Formulas}) }),
			kit.NewButton(lang.L("Write down a bake"), p.newBake).WithKey("N")))
		return column
	}
	column.Add(kit.NewLinkSpan(kit.Span{Text: d.bake.Name, Size: look.TextLarge, Serif: true}, p.openBench))
	column.Add(kit.Row(3, p.countdown, kit.Stack(0,
		kit.Body(lang.L("to {{.Step}}", map[string]any{"Step": p.env.Units().Say(d.next.Title)})),
		kit.Small(hour(d.next.Due, p.state.now, p.env.Units())))))
	if d.bake.State == journal.Running {
		column.Add(kit.Row(2, kit.PrimaryButton(lang.L("Done now"), func() { p.mark(plan.Plan.Done) }).WithKey("D"),
			kit.NewButton(lang.L("10 min later"), p.later).WithKey("L"),
			kit.NewButton(lang.L("Skip"), func() { p.mark(plan.Plan.Skip) }).WithKey("S")))
	}
	column.Add(kit.NewLink(lang.L("the whole day's plan"), p.openBench))
	for _, other := range p.state.doughs {
		if other.bake.ID == d.bake.ID || !other.waiting {
			continue
		}
		column.Add(kit.NewLink(lang.L("{{.Name}}: {{.Step}} {{.When}}", map[string]any{
			"Name": other.bake.Name, "Step": p.env.Units().Say(other.next.Title), "When": p.env.Units().When(other.next.Due, p.state.now),
		}), func() { p.env.Go(pages.At(pages.BakeDay, other.bake.ID)) }))
	}
	return column
}

// cultureList says of each culture when it is ripe and when it wants feeding.
func (p *page) cultureList() fyne.CanvasObject {
	column := kit.Stack(2, kit.Section(lang.L("Cultures")))
	if len(p.state.cultures) == 0 {
		column.Add(kit.Faint(lang.L("No culture yet.")))
		column.Add(kit.NewLink(lang.L("Begin one from flour and water"), func() { p.env.Go(pages.Route{Name: pages.Cultures}) }))
		return column
	}
	u := p.env.Units()
	var asked journal.ID
	if _, c := p.state.asks(u); c != nil {
		asked = c.life.Culture.ID
	}
	for i, c := range p.state.cultures {
		if i > 0 {
			column.Add(kit.Rule())
		}
		open := func() { p.env.Go(pages.At(pages.Culture, c.life.Culture.ID)) }
		head := kit.Row(2, kit.NewLinkSpan(kit.Span{Text: c.name(), Bold: true}, open))
		if words := c.expectation(p.state.now, u); words != "" {
			head.Add(kit.NewText(kit.Span{Text: words, Color: look.ColorField}))
		} else if day := c.life.Day(p.state.now); day > 0 && day < 30 {
			head.Add(kit.Faint(lang.L("day {{.N}}", map[string]any{"N": day})))
		}
		line := kit.Span{Text: c.line(p.state.now, u), Color: look.ColorFaint}
		if c.hasDue && c.due.By.Before(p.state.now) {
			line.Color, line.Bold = look.ColorEmber, true
		}
		lines := kit.Stack(0.5, head, kit.NewText(line))
		if id := c.life.Culture.ID; c.overdue(p.state.now) && id != asked { // that one has its buttons above
			lines.Add(kit.Flow(2, kit.NewButton(lang.L("Feed as last time"), func() { p.env.FeedAgain(id) }),
				kit.NewButton(lang.L("Feed…"), func() { p.env.Feed(id) })))
		}
		if day := c.life.Day(p.state.now); day > 0 && day < 30 {
			lines.Add(kit.Faint(u.Say(c.ready.Sentence())))
		}
		column.Add(lines)
	}
	return column
}

// lately is the last loaf with its picture, and what waits to be scored.
func (p *page) lately() fyne.CanvasObject {
	column := kit.Stack(2)
	for _, t := range p.state.scoring {
		column.Add(kit.Stack(0.5, kit.Section(lang.L("Sealed")), kit.NewLink(t.Name, func() { p.env.Go(pages.At(pages.Tasting, t.ID)) })))
	}
	last := p.state.last
	if last == nil {
		return column
	}
	u := p.env.Units()
	column.Add(kit.Section(u.Day(last.At, p.state.now)))
	open := func() { p.env.Go(pages.At(pages.Bake, last.ID)) }
	if last.Cover != "" {
		tile := kit.NewPhotoTile(p.env.Thumbs, fyne.NewSize(250, 150), 0, open)
		tile.Set(kit.PhotoItem{Key: last.Cover})
		column.Add(tile)
	}
	words := lang.L("not tasted yet")
	if last.Score > 0 {
		words = lang.L("{{.N}} of 9", map[string]any{"N": last.Score})
	}
	column.Add(kit.Stack(0.5, kit.NewLinkSpan(kit.Span{Text: last.Name, Bold: true}, open), kit.Faint(words)))
	return column
}

// recentCrumb is a row of the latest pictures.
func (p *page) recentCrumb() fyne.CanvasObject {
	if len(p.state.recent) < 2 {
		return nil
	}
	u := p.env.Units()
	row := kit.Flow(4)
	for _, c := range p.state.recent[1:min(len(p.state.recent), 7)] {
		tile := kit.NewPhotoTile(p.env.Thumbs, fyne.NewSize(160, 112), 2, func() { p.env.Go(pages.At(pages.Bake, c.ID)) })
		item := kit.PhotoItem{Key: c.Cover, Title: c.Name, Sub: u.Day(c.At, p.state.now)}
		if c.Score > 0 {
			item.Right = strconv.Itoa(c.Score)
		}
		tile.Set(item)
		row.Add(tile)
	}
	return kit.Stack(2, kit.Section(lang.L("Recent bakes")), row)
}

// newBake goes to a bake that has not been written yet.
func (p *page) newBake() { p.env.Go(pages.Route{Name: pages.Bake}) }

func (p *page) openDemo() { p.env.OpenDemo() }

func (p *page) openBench() {
	if p.state == nil {
		return
	}
	if d, ok := p.state.bench(); ok {
		p.env.Go(pages.At(pages.BakeDay, d.bake.ID))
	}
}

// mark says of the next step on the bench that it is done, or is left out.
func (p *page) mark(how func(plan.Plan, plan.Ref, time.Time) (plan.Plan, error)) {
	p.change(func(d dough, day plan.Plan) (plan.Plan, error) { return how(day, d.next.Ref, p.env.Now()) })
}

// later puts the next step, and what follows, off by ten minutes.
func (p *page) later() {
	p.change(func(d dough, day plan.Plan) (plan.Plan, error) {
		day, _, err := day.Later(d.next.Ref, 10, p.env.Now())
		return day, err
	})
}

// change alters the day of the dough on the bench.
func (p *page) change(how func(dough, plan.Plan) (plan.Plan, error)) {
	if p.state == nil {
		return
	}
	d, ok := p.state.bench()
	if !ok {
		return
	}
	title := p.env.Units().Say(d.next.Title)
	if p.env.Do(title, func(tx *journal.Tx) error {
		b, err := journal.Get[journal.Bake](tx, d.bake.ID)
		if err != nil {
			return err
		}
		day, _ := b.Day()
		if day, err = how(d, day); err != nil {
			return err
		}
		b.SetDay(day)
		return journal.Put(tx, b)
	}) {
		p.env.Say(title, true)
	}
}
