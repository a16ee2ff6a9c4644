package today

import (
	"errors"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/backup"
	"twinloaf/journal/ferment"
	"twinloaf/journal/plan"
	"twinloaf/journal/say"
)

// errElsewhere means that the clock has gone on since the page was drawn.
var errElsewhere = say.NewError("the day has gone on meanwhile: look again")

// onTheBench is the dough whose turn comes first, with the time that is left.
func (p *page) onTheBench() fyne.CanvasObject {
	column := kit.Stack(2, kit.Section(lang.L("On the bench")))
	d, ok := p.state.bench()
	ready := p.state.ready()
	for i, r := range ready {
		write := kit.NewButton(lang.L("Write down how it came out"), p.finish(r))
		if !ok && i == 0 {
			write = kit.PrimaryButton(lang.L("Write down how it came out"), p.finish(r)).WithKey("D")
		}
		column.Add(kit.Stack(1, kit.NewLinkSpan(kit.Span{Text: r.name(), Size: look.TextLarge, Serif: true}, p.open(r)),
			kit.Body(lang.L("The bread is ready")), kit.Flow(2, write)))
	}
	if !ok {
		begin := kit.NewButton
		if len(ready) == 0 {
			column.Add(kit.Faint(lang.L("No dough is under way.")))
			begin = kit.PrimaryButton
		}
		column.Add(kit.Flow(2, begin(lang.L("Plan a bake"), func() { p.env.Go(pages.Route{Name: pages.Formulas}) }),
			kit.NewButton(lang.L("Write down a bake"), p.newBake).WithKey("N")))
		return column
	}
	column.Add(kit.NewLinkSpan(kit.Span{Text: d.name(), Size: look.TextLarge, Serif: true}, p.open(d)))
	u := p.env.Units()
	words := map[string]any{"Step": u.Say(d.stand.Title)}
	what := lang.L("to {{.Step}}", words)
	if d.stand.Runs {
		what = lang.L("to the end of {{.Step}}", words)
	}
	p.left = kit.Row(3, p.countdown, kit.Stack(0, kit.Body(what), kit.Small(hour(d.stand.Until, p.state.now, u))))
	column.Add(p.left)
	column.Add(p.late)
	whole := kit.NewLink(lang.L("the whole day's plan"), p.open(d))
	if d.bake.State == journal.Running {
		buttons := kit.Flow(2, kit.PrimaryButton(pages.PressWord(d.stand), p.press).WithKey("D"),
			kit.NewButton(lang.L("10 min later"), p.later).WithKey("L"))
		if !d.stand.Runs {
			buttons.Add(kit.NewButton(lang.L("Skip"), p.skip).WithKey("S"))
		}
		buttons.Add(whole)
		column.Add(buttons)
	} else {
		column.Add(whole)
	}
	for _, other := range p.state.doughs {
		if other.bake.ID == d.bake.ID || !other.waiting || !kit.Overdue(other.stand.Until, p.state.now) {
			continue // what is to come stands in the week ahead
		}
		column.Add(kit.NewLink(lang.L("{{.Name}}: {{.Step}} {{.When}}", map[string]any{
			"Name": other.name(), "Step": u.Say(other.stand.Title), "When": u.When(other.stand.Until, p.state.now),
		}), p.open(other)))
		late := kit.NewDue(0)
		late.Set("", other.stand.Until, p.state.now, u)
		column.Add(late)
	}
	return column
}

// cultureList says of each culture when it is ripe and when it wants feeding.
func (p *page) cultureList() fyne.CanvasObject {
	column := kit.Stack(2, kit.Section(lang.L("Cultures")))
	if len(p.state.cultures) == 0 {
		column.Add(kit.Faint(lang.L("No living culture")))
		column.Add(kit.NewLink(lang.L("Begin a culture"), p.newCulture))
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
		head := kit.Row(2, kit.NewMark(pages.LookOf(c.life.Culture), kit.MarkSide), kit.NewLinkSpan(kit.Span{Text: c.name(), Bold: true}, open))
		if words := c.expectation(p.state.now, u); words != "" {
			head.Add(kit.NewText(kit.Span{Text: words, Color: look.ColorField}))
		} else if day := c.life.Day(p.state.now); day > 0 && day < 30 {
			head.Add(kit.Faint(lang.L("day {{.N}}", map[string]any{"N": day})))
		}
		line := fyne.CanvasObject(kit.Faint(c.line(p.state.now, u)))
		switch {
		case c.overdue(p.state.now):
			due := kit.NewDue(0)
			due.Set(c.line(p.state.now, u), c.due.By, p.state.now, u)
			line = due
		case c.hasDue && c.due.Reason == ferment.DueNever:
			line = kit.NewText(kit.Span{Text: c.line(p.state.now, u), Bold: true, Color: look.ColorEmber})
		}
		lines := kit.Stack(0.5, head, line)
		if id := c.life.Culture.ID; c.overdue(p.state.now) && id != asked { // that one has its buttons above
			lines.Add(kit.Flow(2, kit.NewButton(lang.L("Feed as last time"), func() { p.env.FeedAgain(id) }),
				kit.NewButton(lang.L("Feed…"), func() { p.env.Feed(id) })))
		}
		if day := c.life.Day(p.state.now); day > 0 && day < 30 && !c.ready.Ready {
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
		column.Add(kit.Stack(0.5, kit.Section(lang.L("Sealed")), kit.NewLink(pages.TastingName(t), func() { p.env.Go(pages.At(pages.Tasting, t.ID)) })))
	}
	last := p.state.last
	if last == nil {
		return column
	}
	u := p.env.Units()
	column.Add(kit.Section(u.Day(last.At, p.state.now)))
	open := func() { p.env.Go(pages.At(pages.Bake, last.ID)) }
	if last.Cover != "" {
		tile := kit.NewPhotoTile(p.env.Thumbs, fyne.NewSize(250, 150), 0, open).Filling()
		tile.Set(kit.PhotoItem{Key: last.Cover})
		column.Add(kit.Grown(0.62, 150, 360, tile))
	}
	words := lang.L("not scored yet")
	if last.Score() > 0 {
		words = lang.L("{{.N}} of 9", map[string]any{"N": last.Score()})
	}
	column.Add(kit.Stack(0.5, kit.NewLinkSpan(kit.Span{Text: past.Name(last.Name), Bold: true}, open), kit.Faint(words)))
	return column
}

// recentSize is how large a recent bake is shown at least.
var recentSize = fyne.NewSize(150, 112)

// recentCrumb are the latest pictures.
func (p *page) recentCrumb() fyne.CanvasObject {
	if len(p.state.recent) < 2 {
		return nil
	}
	return kit.Stack(2, kit.Section(lang.L("Recent bakes")), pages.BakeTiles(p.env, recentSize, true, p.state.recent[1:min(len(p.state.recent), 7)]))
}

// newCulture goes to where a culture is begun.
func (p *page) newCulture() { p.env.Go(pages.Route{Name: pages.Cultures, More: pages.ToBegin}) }

// newBake goes to a bake that has not been written yet.
func (p *page) newBake() { p.env.Go(pages.Route{Name: pages.Bake}) }

func (p *page) openDemo() { p.env.OpenDemo() }

func (p *page) openBench() {
	if p.state == nil {
		return
	}
	if d, ok := p.state.bench(); ok {
		p.open(d)()
	}
}

// open goes to the day of a dough.
func (p *page) open(d dough) func() {
	return func() { p.env.Go(pages.At(pages.BakeDay, d.bake.ID)) }
}

// finish ends the day of a dough, and goes where it is said how the bread came out.
func (p *page) finish(d dough) func() { return func() { pages.FinishDay(p.env, d.bake.ID) } }

// press says that what is next begins or is done, or that what runs is over.
func (p *page) press() { p.change(plan.Plan.Press) }

// skip leaves out what is next.
func (p *page) skip() { p.change(plan.Plan.LeaveOut) }

// later puts the next step, and what follows, off by ten minutes.
func (p *page) later() {
	p.change(func(day plan.Plan, s plan.Stand, now time.Time) (plan.Plan, error) { return day.PutOff(s, 10, now) })
}

// change alters the day of the dough on the bench, where it stands.
func (p *page) change(how func(plan.Plan, plan.Stand, time.Time) (plan.Plan, error)) {
	if p.state == nil {
		return
	}
	d, ok := p.state.bench()
	if !ok {
		return
	}
	title, now := p.env.Units().Say(d.stand.Title), p.env.Now()
	if pages.ChangeDay(p.env, d.bake.ID, title, func(b *journal.Bake) error {
		day, _ := b.Day()
		stand, more := day.Stand(now)
		if !more || stand.Ref != d.stand.Ref || stand.Runs != d.stand.Runs {
			return errElsewhere
		}
		day, err := how(day, stand, now)
		if err == nil {
			b.SetDay(day)
		}
		return err
	}) {
		p.env.Say(title, true)
	}
}

// neglected says that there was no backup for a week, and what to do; nil while there
// is nothing to say.
func (p *page) neglected() fyne.CanvasObject {
	s := p.env.Journal.Backups().Status()
	now := p.env.Now()
	if !s.Neglected(now) {
		return nil
	}
	data := map[string]any{"Day": p.env.Units().Day(s.Since().In(now.Location()), now), "Folder": s.Folder}
	var words string
	switch {
	case errors.Is(s.Problem, backup.ErrGone):
		words = lang.L("There has been no backup since {{.Day}}: plug in the disk of {{.Folder}}, or choose another folder.", data)
	case errors.Is(s.Problem, backup.ErrNoRoom):
		words = lang.L("There has been no backup since {{.Day}}: free some space on the disk of {{.Folder}}, or choose another folder.", data)
	default:
		words = lang.L("There has been no backup since {{.Day}}: {{.Folder}} does not take one; choose another folder.", data)
	}
	return kit.Stack(0.5, kit.NewText(kit.Span{Text: words, Color: look.ColorEmber}),
		kit.NewLink(lang.L("See the backups"), func() { p.env.Go(pages.Route{Name: pages.Safekeeping}) }))
}

// doors are the ways into an empty journal: two that are equal, and the demo to look around
// in first.
func (p *page) doors() fyne.CanvasObject {
	return kit.Stack(6,
		kit.Lead(kit.Span{Text: lang.L("Begin with what is on your bench; what you type is saved at once.")}),
		kit.Doors(
			kit.Door{
				Title:  lang.L("A culture"),
				Leads:  lang.L("From flour and water, or the one in your jar. Write down its feedings and how high it rises; Twinloaf follows its first weeks, and says when to feed it and when it should be ripe."),
				Button: kit.PrimaryButton(lang.L("Begin a culture"), p.newCulture).WithKey("C"),
			},
			kit.Door{
				Title:  lang.L("A bake"),
				Leads:  lang.L("What went in, line by line, and how the loaf came out: weights, photos, a score. From then on you can find it, compare it, plan it again, and taste two loaves blind."),
				Button: kit.PrimaryButton(lang.L("Write down a bake"), p.newBake).WithKey("N"),
			}),
		kit.Rule(),
		kit.Stack(2,
			kit.Body(lang.L("Or look around first: the demo is the journal of an invented cook, in a window of its own. It is gone when you close it, and your journal stays as it is. In a terminal, twinloaf\u00a0-demo opens it too.")),
			kit.Row(0, kit.NewButton(lang.L("Open the demo"), p.openDemo).WithKey("D"))))
}
