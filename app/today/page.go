package today

import (
	"context"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/plan"
)

// page answers what needs the baker now. Everything on it is worked out anew,
// off the main goroutine, when the journal changes and once a minute; the time that
// is left is looked at each second, and drawn when its minute changes.
type page struct {
	env   *pages.Env
	page  *kit.Page
	band  *bandView
	think whatIf

	state     *state
	countdown *kit.Text
	stop      []func()
	reading   bool // the state is being worked out
	again     bool // and must be worked out once more after that
}

func newPage(env *pages.Env) *page {
	p := &page{env: env, think: whatIf{}}
	p.page = kit.NewPage(kit.PageOptions{Heading: lang.L("Today")})
	p.band = newBandView(p.thinkOf, p.openLane)
	p.countdown = kit.GreatFigure("")
	return p
}

func (p *page) Object() fyne.CanvasObject { return p.page }
func (p *page) Title() string             { return lang.L("Today") }

// Keys are those of the dough on the bench, and the first steps.
func (p *page) Keys() []kit.Key {
	keys := []kit.Key{
		{Name: "N", Doc: lang.L("New bake"), Do: p.newBake},
		{Name: "O", Doc: lang.L("Open the bake day"), Do: p.openBench},
	}
	if p.state == nil {
		return keys
	}
	if c, ok := p.state.hungriest(); ok {
		keys = append(keys,
			kit.Key{Name: "F", Doc: lang.L("Feed {{.Name}}", map[string]any{"Name": c.name()}), Do: func() { p.env.Feed(c.life.Culture.ID) }},
			kit.Key{Name: "G", Doc: lang.L("Feed {{.Name}} as last time", map[string]any{"Name": c.name()}), Do: func() { p.env.FeedAgain(c.life.Culture.ID) }})
	}
	if d, ok := p.state.bench(); ok && d.bake.State == journal.Running {
		keys = append(keys,
			kit.Key{Name: "D", Doc: lang.L("Done now"), Do: func() { p.mark(plan.Plan.Done) }},
			kit.Key{Name: "S", Doc: lang.L("Skip"), Do: func() { p.mark(plan.Plan.Skip) }},
			kit.Key{Name: "L", Doc: lang.L("Ten minutes later"), Do: p.later})
	}
	return keys
}

func (p *page) Shown() {
	p.refresh()
	p.stop = []func(){
		p.env.Every(time.Second, p.tick),
		p.env.Every(time.Minute, p.refresh),
	}
}

func (p *page) Left() {
	for _, stop := range p.stop {
		stop()
	}
	p.stop = nil
	p.think = whatIf{}
}

func (p *page) Changed(c journal.Changed) {
	if !c.Typed {
		p.refresh()
	}
}

// refresh works the state out anew, one working-out at a time.
func (p *page) refresh() {
	if p.reading {
		p.again = true
		return
	}
	p.reading = true
	var s *state
	var err error
	now := p.env.Now()
	p.env.Run(func(ctx context.Context) { s, err = read(p.env.Journal.Until(ctx), now) }, func() {
		p.reading = false
		if err != nil {
			p.env.Fail(err)
			return
		}
		p.state = s
		p.show()
		p.env.Retitle()
		if p.again {
			p.again = false
			p.refresh()
		}
	})
}

// show builds the page from the state.
func (p *page) show() {
	s, u := p.state, p.env.Units()
	p.page.SetEyebrow(s.eyebrow(u))
	p.page.SetHeading(s.heading(u))
	if !s.any {
		p.page.SetBody(kit.Empty(
			lang.L("Write down your first loaf, or begin a culture from flour and water. What you type is kept at once."),
			kit.PrimaryButton(lang.L("Write down a bake"), p.newBake).WithKey("N"),
			kit.NewLink(lang.L("or open the demo journal, to look around"), p.openDemo)))
		return
	}
	body := kit.Stack(5)
	if o := p.neglected(); o != nil {
		body.Add(o)
	}
	if b := s.makeBand(u, p.think); len(b.lanes) > 0 {
		p.band.show(b, u)
		body.Add(kit.Stack(1, p.band, p.bandHint(b)))
		body.Add(kit.Rule())
	}
	body.Add(kit.WeightedColumns(look.Space(60), []float32{1.2, 1.1, 0.9}, p.onTheBench(), p.cultureList(), p.lately()))
	if o := p.recentCrumb(); o != nil {
		body.Add(kit.Rule())
		body.Add(o)
	}
	p.page.SetBody(body)
	p.showFeeding()
	p.tick()
}

// showFeeding puts the feeding beside the heading that asks for it.
func (p *page) showFeeding() {
	_, c := p.state.asks(p.env.Units())
	if c == nil {
		p.page.SetActions(nil)
		return
	}
	id := c.life.Culture.ID
	p.page.SetActions(nil,
		kit.PrimaryButton(lang.L("Feed as last time"), func() { p.env.FeedAgain(id) }).WithKey("G"),
		kit.NewButton(lang.L("Feed…"), func() { p.env.Feed(id) }).WithKey("F"))
}

// bandHint says how a feeding can be tried out.
func (p *page) bandHint(b band) fyne.CanvasObject {
	for _, l := range b.lanes {
		if l.of != "" {
			return kit.Small(lang.L("Drag a culture's ring to try another feeding time; nothing is saved."))
		}
	}
	return kit.Gap(0)
}

// thinkOf tries out a feeding at another time.
func (p *page) thinkOf(culture journal.ID, at time.Time) {
	if at.IsZero() {
		delete(p.think, culture)
	} else {
		p.think[culture] = at
	}
	if p.state != nil {
		u := p.env.Units()
		p.band.show(p.state.makeBand(u, p.think), u)
	}
}

func (p *page) openLane(l lane) {
	if l.bake != "" {
		p.env.Go(pages.At(pages.BakeDay, l.bake))
		return
	}
	p.env.Go(pages.At(pages.Culture, l.of))
}

// tick brings the time that is left to the next step on the bench up to date.
func (p *page) tick() {
	if p.state == nil {
		return
	}
	now := p.env.Now()
	if d, ok := p.state.bench(); ok {
		p.countdown.SetText(remaining(d.next.Left(now), p.env.Units()))
		p.state.now = now
		p.page.SetHeading(p.state.heading(p.env.Units()))
	}
}

// remaining writes how long it is to a moment, in whole minutes: 12 min, 2 h 5 min,
// −3 min once it is over. Seconds would have the window drawn anew at each of them.
func remaining(d time.Duration, u kit.Units) string {
	whole := d.Truncate(time.Minute)
	if whole < 0 {
		return "−" + u.Span(-whole)
	}
	return u.Span(whole)
}
