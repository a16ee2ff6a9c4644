package findings

import (
	"context"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
	"twinloaf/journal/shelf/finding"
)

// page asks the record one question at a time.
type page struct {
	pages.Base
	env     *pages.Env
	page    *kit.Page
	outcome *kit.ChoiceField
	factor  *kit.ChoiceField
	chart   *kit.ChartFrame
	finds   *fyne.Container
	links   *fyne.Container
	settle  *fyne.Container
	list    *fyne.Container
	rows    *kit.OpenRows // what goes with the outcome, within the list
	body    fyne.CanvasObject
	worked
	wantX    shelf.Metric // what is asked about, also before the record is read
	wantY    shelf.Metric
	proposal proposal
	pointOf  func(charts.Mark) (int, bool)
}

// worked is what was worked out for the page, away from the main goroutine.
type worked struct {
	record   *past.BakeIndex
	outcomes []past.Described
	factors  []factor
	answer   answer
	survey   finding.Survey
	surveyed *past.BakeIndex // that survey is of
	tasters  []string        // who tasted last
}

// rightLeast is how wide what is said beside the chart is at least, and bothColumns how wide
// the body where there is room for both.
const (
	rightLeast  = 304
	bothColumns = (rightLeast+24)*12/5 - 24
)

func newPage(env *pages.Env, about shelf.Metric) *page {
	p := &page{env: env, wantX: about, wantY: shelf.Score, finds: kit.Stack(2), list: kit.Stack(1.5), rows: kit.NewOpenRows(), links: kit.Stack(1), settle: kit.Stack(2)}
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: lang.L("What the record shows"), Heading: " "})
	p.Base = pages.Base{Body: p.page, Name: lang.L("Findings"), Read: p.load,
		Of: []journal.Kind{journal.KindBake, journal.KindCulture, journal.KindTrial, journal.KindSettings}}
	p.outcome = kit.NewChoiceField(lang.L("Outcome"), lang.L("choose"), nil, func(i int) { p.wantY = p.outcomes[i].Key; p.ask() })
	p.factor = kit.NewChoiceField(lang.L("by"), lang.L("choose"), nil, func(i int) { p.wantX = p.factors[i].Key; p.ask() })
	p.chart = env.NewChart(lang.L("findings"), fyne.NewSize(look.Space(80), 400), p.open)
	left := kit.Stack(5, kit.Row(8, p.outcome, p.factor), kit.Grown(0.55, 400, 640, p.chart), p.list)
	right := kit.Stack(5, p.finds, p.links, p.settle)
	p.body = container.NewStack(kit.WeightedColumns(rightLeast, []float32{7, 5}, left, right))
	return p
}

// Start is the chart in a narrow window, whose bakes the arrows go through: there the button
// that plans a trial stands at the end, and would scroll the page to it, and the fields above
// take letters for themselves.
func (p *page) Start() fyne.Focusable {
	if len(p.outcomes) > 0 && p.body.Size().Width < bothColumns {
		return p.chart
	}
	return p.Base.Start()
}

func (p *page) Keys() []kit.Key {
	focus := func(o fyne.Focusable) func() { return func() { p.env.Window.Canvas().Focus(o) } }
	return []kit.Key{
		{Name: "O", Doc: lang.L("To the outcome"), Do: focus(p.outcome)},
		{Name: "F", Doc: lang.L("To the factor"), Do: focus(p.factor)},
		{Name: "G", Doc: lang.L("To the chart: arrows go from bake to bake, Enter opens"), Do: focus(p.chart)},
		{Name: "T", Doc: lang.L("Plan the trial that would settle it"), Do: p.plan},
	}
}

// load reads the record and asks.
func (p *page) load() { p.work(nil) }

// ask asks of the record that is there.
func (p *page) ask() { p.work(p.record) }

// work works the answer out away from the main goroutine, of a record that is read first
// if there is none yet.
func (p *page) work(record *past.BakeIndex) {
	u, x, y := p.env.Units(), p.wantX, p.wantY
	w := worked{record: record, survey: p.survey, surveyed: p.surveyed}
	told, over := p.asking()
	pages.Load(p.env, &p.Base, func(ctx context.Context, j journal.Source) (_ worked, err error) {
		if w.record == nil {
			if w.record, err = past.Of(j); err != nil {
				return w, err
			}
		}
		if w.record.Len() == 0 {
			return w, nil
		}
		if w.tasters, err = lastTasters(j); err != nil {
			return w, err
		}
		w.outcomes, w.factors = w.record.Outcomes(u), factors(w.record, u)
		if len(w.outcomes) == 0 || len(w.factors) == 0 {
			return w, nil
		}
		if w.surveyed != w.record {
			if w.survey, err = surveyOf(ctx, w.record, w.outcomes, w.factors, told); err != nil {
				return w, err
			}
			w.surveyed = w.record
		}
		w.answer = ask(w.record, chosen(w.outcomes, y), chosenFactor(w.factors, x), w.factors, w.survey)
		return w, nil
	}, func(w worked) {
		over()
		p.worked = w
		p.show()
	})
}

func chosen(list []past.Described, key shelf.Metric) past.Described {
	if i := slices.IndexFunc(list, func(d past.Described) bool { return d.Key == key }); i >= 0 {
		return list[i]
	}
	return list[0]
}

// chosenFactor is the factor asked about, or else the first that a baker would ask
// about.
func chosenFactor(list []factor, key shelf.Metric) factor {
	for _, want := range []shelf.Metric{key, shelf.ColdHours, shelf.Hydration} {
		if i := slices.IndexFunc(list, func(f factor) bool { return f.Key == want }); i >= 0 {
			return list[i]
		}
	}
	return list[0]
}

func (p *page) show() {
	if len(p.outcomes) == 0 || len(p.factors) == 0 {
		p.page.SetHeading(lang.L("Not enough bakes yet"))
		p.page.SetBody(kit.Empty(kit.GoldenLoaf,
			lang.L("Bake, and write down how it came out: a score, a weight before and after, a height. From about twenty bakes on there may be something to see."),
			kit.PrimaryButton(lang.L("Write down a bake"), func() { p.env.Go(pages.Route{Name: pages.Bake}) }),
			kit.NewLink(lang.L("Open the demo"), p.env.OpenDemo)))
		return
	}
	p.page.SetBody(p.body)
	u := p.env.Units()
	p.page.SetHeading(headline(p.answer))
	p.showChoices()
	figure, pointOf := chartOf(p.record, p.answer, u)
	p.pointOf = pointOf
	p.chart.SetSpec(figure)

	p.finds.Objects = nil
	for _, s := range finds(p.answer, u) {
		p.finds.Add(kit.Body(s))
	}
	p.finds.Refresh()
	p.showLinks(u)
	p.showProposal(u)
	p.showSurvey(u)
}

func (p *page) showChoices() {
	var words []string
	for _, d := range p.outcomes {
		words = append(words, d.Name)
	}
	p.outcome.SetOptions(words)
	p.outcome.SetChosen(slices.IndexFunc(p.outcomes, func(d past.Described) bool { return d.Key == p.answer.outcome.Key }))
	words = nil
	var groups []string
	for _, f := range p.factors {
		words, groups = append(words, f.Name), append(groups, f.group())
	}
	p.factor.SetOptions(words)
	p.factor.SetGroups(groups)
	p.factor.SetChosen(slices.IndexFunc(p.factors, func(f factor) bool { return f.Key == p.answer.factor.Key }))
}

// mostLinks is how many of what moved together are named.
const mostLinks = 5

// showLinks names what moved together; each can be asked about in its turn.
func (p *page) showLinks(u measure.Units) {
	p.links.Objects = nil
	if words := cannot(p.answer); words != "" {
		p.links.Add(kit.Section(lang.L("What this cannot say")))
		p.links.Add(kit.Body(words))
	}
	if n := len(p.answer.links); n > 0 {
		p.links.Add(kit.Gap(1))
		p.links.Add(kit.Section(lang.L("What changed with it")))
		for _, l := range p.answer.links[:min(n, mostLinks)] {
			name := p.nameOf(shelf.Metric(l.Name))
			words := kit.Body(linkWords(l, name, p.answer, u))
			if l.Name == dateKey {
				p.links.Add(words)
				continue
			}
			p.links.Add(kit.Stack(0, words, kit.Row(0, kit.NewLinkSpan(kit.Span{Text: lang.L("ask about that"), Size: look.TextSmall, Color: look.ColorCrust}, func() {
				p.wantX = shelf.Metric(l.Name)
				p.ask()
			}))))
		}
	}
	p.links.Refresh()
}

func (p *page) nameOf(key shelf.Metric) string {
	for _, f := range p.factors {
		if f.Key == key {
			return f.Name
		}
	}
	return string(key)
}

// showProposal offers the trial that would settle it.
func (p *page) showProposal(u measure.Units) {
	p.settle.Objects = nil
	p.proposal = proposal{}
	if !p.answer.few || len(p.answer.rows) > 0 {
		if prop, ok := propose(p.record, p.answer, p.tasters, u); ok {
			p.proposal = prop
			p.settle.Add(kit.Section(lang.L("What would settle it")))
			p.settle.Add(kit.Body(prop.words))
			if prop.takes != "" {
				p.settle.Add(kit.Body(prop.takes))
			}
			p.settle.Add(kit.Gap(1))
			p.settle.Add(kit.Row(0, kit.PrimaryButton(lang.L("Plan this trial"), p.plan).WithKey("T")))
		}
	}
	p.settle.Refresh()
}

// plan makes the trial and goes to it.
func (p *page) plan() {
	if len(p.proposal.values) < 2 {
		p.env.Say(lang.L("No trial would settle this: it cannot be given to two doughs of one day."), false)
		return
	}
	id, err := newTrial(p.env, p.record, p.answer, p.proposal)
	if p.env.Failed(err) {
		return
	}
	p.env.Say(lang.L("The trial is planned for tomorrow, and its tasting for the day after; both doughs follow your newest bake of these."), true)
	p.env.Go(pages.At(pages.Trial, id))
}

// open goes to the bake behind a point.
func (p *page) open(m charts.Mark) {
	if p.pointOf == nil {
		return
	}
	if row, ok := p.pointOf(m); ok {
		p.env.Go(pages.At(pages.Bake, p.record.Bakes[row].ID))
	}
}
