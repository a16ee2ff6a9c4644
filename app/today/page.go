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
	"twinloaf/journal/measure"
)

// page answers what needs the baker now. Everything on it is worked out anew,
// off the main goroutine, when the journal changes and once a minute; the time that
// is left is looked at each second, and drawn when its minute changes.
type page struct {
	pages.Base
	env   *pages.Env
	page  *kit.Page
	band  *bandView
	think whatIf

	state     *state
	countdown *kit.Text
	left      fyne.CanvasObject // the countdown, and what it is to
	late      *kit.Due          // in its place once that is overdue
	headLate  *kit.Due          // by how much what the heading says is overdue
	stop      []func()
	reading   bool // the state is being worked out
	again     bool // and must be worked out once more after that
}

func newPage(env *pages.Env) *page {
	p := &page{env: env, think: whatIf{}}
	p.page = kit.NewPage(kit.PageOptions{Heading: lang.L("Today")})
	p.Base = pages.Base{Body: p.page, Name: lang.L("Today")}
	p.band = newBandView(p.thinkOf, p.openLane)
	p.countdown = kit.GreatFigure("")
	p.late, p.headLate = kit.NewDue(look.TextLead), kit.NewDue(look.TextLead)
	return p
}

// Reading says whether it is read for the first time.
func (p *page) Reading() bool { return p.reading && p.state == nil }

// Keys are those of the dough on the bench, and the first steps.
func (p *page) Keys() []kit.Key {
	keys := []kit.Key{
		{Name: "N", Doc: lang.L("New bake"), Do: p.newBake},
		{Name: "O", Doc: lang.L("Open the bake day"), Do: p.openBench},
	}
	if p.state == nil {
		return keys
	}
	if !p.state.any {
		return []kit.Key{
			{Name: "C", Doc: lang.L("Begin a culture"), Do: p.newCulture},
			{Name: "N", Doc: lang.L("Write down a bake"), Do: p.newBake},
			{Name: "D", Doc: lang.L("Open the demo"), Do: p.openDemo},
		}
	}
	if c, ok := p.state.hungriest(); ok {
		keys = append(keys,
			kit.Key{Name: "F", Doc: lang.L("Feed {{.Name}}", map[string]any{"Name": c.name()}), Do: func() { p.env.Feed(c.life.Culture.ID) }},
			kit.Key{Name: "G", Doc: lang.L("Feed {{.Name}} as last time", map[string]any{"Name": c.name()}), Do: func() { p.env.FeedAgain(c.life.Culture.ID) }})
	}
	if d, ok := p.state.bench(); ok && d.bake.State == journal.Running {
		keys = append(keys,
			kit.Key{Name: "D", Doc: pages.PressWord(d.stand), Do: p.press},
			kit.Key{Name: "S", Doc: lang.L("Skip"), Do: p.skip},
			kit.Key{Name: "L", Doc: lang.L("Ten minutes later"), Do: p.later})
	} else if ready := p.state.ready(); !ok && len(ready) > 0 {
		keys = append(keys, kit.Key{Name: "D", Doc: lang.L("Write down how it came out"), Do: p.finish(ready[0])})
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
	now := p.env.Now()
	pages.Fetch(p.env, func(ctx context.Context) (*state, error) {
		return read(p.env.Journal.Until(ctx), &p.env.Histories, now)
	}, func(s *state, err error) {
		p.reading = false
		if err != nil {
			p.env.Fail(err)
			p.env.Retitle()
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
		p.page.SetBody(p.doors())
		return
	}
	body := kit.Stack(5, p.headLate)
	if o := p.neglected(); o != nil {
		body.Add(o)
	}
	if b := s.makeBand(u, p.think); len(b.lanes) > 0 {
		p.band.show(b, u)
		body.Add(kit.Stack(1, p.band, p.bandHint(b)))
		body.Add(kit.Rule())
	}
	body.Add(kit.Tiles(look.Space(60), 6, p.onTheBench(), p.cultureList(), p.lately()))
	if o := pages.Kitchen(s.days(), s.now, u); o != nil {
		body.Add(kit.Rule())
		body.Add(o)
	}
	// With the week at their side the three columns take nine of the page's twelve, else all of them.
	switch week, recent := p.week(), p.recentCrumb(); {
	case week != nil && recent != nil:
		p.page.SetBody(kit.BesideBothFrom(weekLeast, 3, body, week, recent))
	case week != nil:
		p.page.SetBody(kit.WeightedColumns(weekLeast, []float32{3, 1}, body, week))
	case recent != nil:
		p.page.SetBody(kit.Stack(6, body, recent))
	default:
		p.page.SetBody(body)
	}
	p.showFeeding()
	p.tick()
}

// weekLeast is the least width of the week beside the rest: it stands there in windows from 1600
// points on.
var weekLeast = look.Space(80)

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
		p.band.follow(p.state.makeBand(u, p.think), u)
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
	now, u := p.env.Now(), p.env.Units()
	if d, ok := p.state.bench(); ok && p.left != nil {
		late := kit.Overdue(d.stand.Until, now)
		p.countdown.SetText(remaining(d.stand.Left(now), u))
		p.late.Set(u.Say(d.stand.Title), d.stand.Until, now, u)
		if late != p.late.Visible() || late == p.left.Visible() {
			kit.SetVisible(p.late, late)
			kit.SetVisible(p.left, !late)
		}
		p.state.now = now
		p.page.SetHeading(p.state.heading(u))
	}
	due := p.state.due(u)
	p.headLate.Set("", due, now, u)
	kit.SetVisible(p.headLate, p.headLate.Late())
}

// remaining writes how long it is to a moment, in whole minutes: 12 min, 2 h 5 min. Seconds
// would have the window drawn anew at each of them.
func remaining(d time.Duration, u measure.Units) string {
	return u.Span(max(0, d.Truncate(time.Minute)))
}
