package crumb

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/measure"
)

// pairPage lays the crumbs on two photos side by side.
type pairPage struct {
	pages.Base
	env    *pages.Env
	units  measure.Units
	page   *kit.Page
	sides  [2]*side
	photos *fyne.Container
	lead   *fyne.Container // the figures that say most, large
	table  *fyne.Container
	rest   *kit.Link // unfolds what is withheld for both
	whole  bool      // that is unfolded
	lines  []*pairLine
	chart  *kit.ChartFrame
	none   *kit.Text // in the place of the chart
	by     *kit.Text // what the differences are judged by
	busy   *kit.Text

	retakes [][]crumb.Summary
	tried   map[journal.ID]bool // retakes that were measured here, or could not be
	stop    func()              // ends the measuring of retakes
	judged  bool                // the retakes are measured: only then is anything said of the differences
	same    bool
	rows    []pairRow
}

func newPairPage(env *pages.Env, first, second journal.ID) (*pairPage, error) {
	p := &pairPage{env: env, units: env.Units(), lead: container.NewStack(), table: container.NewStack(), none: kit.Faint(""), by: kit.Small(""), busy: kit.Small(""), tried: map[journal.ID]bool{}}
	for i, id := range [2]journal.ID{first, second} {
		if _, err := journal.Get[journal.Photo](env.Journal, id); err != nil {
			return nil, err
		}
		s := &side{id: id, session: &session{env: env}, view: kit.NewPhotoView(env.Main), cells: newCellLayer(), title: kit.NewElided(kit.Span{Size: look.TextLarge, Serif: true}), caption: kit.Small(""), mark: kit.NewMark(charts.SeriesStyle{}, kit.MarkSide)}
		s.view.AddOverlay(s.cells)
		p.sides[i] = s
	}
	p.chart = env.NewChart(lang.L("two crumbs"), pairChartSize, nil)
	a, b := p.sides[0], p.sides[1]
	p.photos = container.New(&twins{sides: p.sides, after: p.even}, a.view, b.view, a.below(), b.below())
	p.rest = kit.NewLink("", func() { p.whole = true; p.fill() })
	p.page = kit.NewPage(kit.PageOptions{Body: kit.Stack(5, p.photos, kit.Stack(0, p.by, p.busy), p.lead, kit.Rule(), p.chart, p.none,
		kit.Stack(2, kit.Section(lang.L("Every figure")), p.table, kit.Row(0, p.rest)),
		kit.Small(lang.L("What a cut face shows are openings, not bubbles: no figure here is the loaf's true porosity. Compare your own loaves, in the same light.")))})
	p.busy.Hide()
	p.Base = pages.Base{Body: p.page, Name: lang.L("Two crumbs side by side")}
	return p, nil
}

func (p *pairPage) Keys() []kit.Key {
	open := func(i int) func() { return func() { p.env.Go(pages.At(pages.Crumb, p.sides[i].id)) } }
	return []kit.Key{
		{Name: "A", Doc: lang.L("The two show one slice, or do not"), Do: p.turnSame},
		{Name: "C", Doc: lang.L("Show or hide the cells"), Do: p.turnCells},
		{Name: "X", Doc: lang.L("Swap sides"), Do: p.swap},
		{Name: "1", Doc: lang.L("Measure the left photo"), Do: open(0)},
		{Name: "2", Doc: lang.L("Measure the right photo"), Do: open(1)},
		{Name: "Esc", Doc: lang.L("Back"), Do: p.env.Back},
	}
}

// Shown measures both.
func (p *pairPage) Shown() {
	p.Base.Shown()
	p.units = p.env.Units()
	p.refresh(0)
	p.readRetakes()
}

// Left lets both pictures go.
func (p *pairPage) Left() {
	p.Base.Left()
	kit.End(&p.stop)
	for _, s := range p.sides {
		s.session.free()
		s.cells.set(nil, nil)
		s.view.Clear()
		s.loaded, s.asked = "", nil
	}
}

// Changed shows what was changed of the two.
func (p *pairPage) Changed(c journal.Changed) {
	switch {
	case !p.Here():
	case c.TouchesKind(journal.KindPhoto, journal.KindSettings):
		p.units = p.env.Units()
		p.refresh(0)
		p.readRetakes()
	case c.TouchesKind(journal.KindBake):
		p.sync()
	}
}

func (p *pairPage) refresh(wait time.Duration) {
	for _, s := range p.sides {
		ph, err := journal.Get[journal.Photo](p.env.Journal, s.id)
		if err != nil {
			p.env.Fail(err)
			s.caption.SetText(lang.L("This photo is no longer in the journal"))
			continue
		}
		s.photo = ph
		if s.loaded != ph.Hash {
			p.load(s, ph)
		}
		if s.asked == nil || !journal.SameCrumb(s.asked, ph) {
			p.measure(s, ph, wait)
		}
	}
	p.sync()
}

// sync fills the page.
func (p *pairPage) sync() {
	var sums [2]crumb.Summary
	for i, s := range p.sides {
		if s.photo == nil {
			return
		}
		if s.summary != nil {
			sums[i] = *s.summary
		}
		s.title.SetText(letter(i) + "  " + ownerName(p.env.Journal, s.photo))
		words := p.units.Moment(s.photo.When(), p.env.Now())
		if s.summary != nil {
			words += " · " + taken(sums[i], p.units)
		}
		s.caption.SetText(words)
	}
	for i, l := range p.looks() {
		p.sides[i].mark.SetLook(l)
	}
	p.same = sameSlice(p.sides[0].photo, p.sides[1].photo)
	words := ""
	if p.judged {
		words = retakeWords(len(p.retakes), p.same)
	}
	p.by.Say(words)
	label := lang.L("Same slice")
	if p.same {
		label = lang.L("Different slices")
	}
	p.page.SetEyebrow(lang.L("Two crumbs side by side"))
	p.page.SetActions(nil, kit.NewButton(label, p.turnSame).WithKey("A"), kit.QuietButton(lang.L("Swap sides"), p.swap).WithKey("X"))
	if p.sides[0].summary == nil || p.sides[1].summary == nil {
		p.page.SetHeading(p.heading())
		return
	}
	p.rows = pairRows(sums[0], sums[1], p.retakes, p.units)
	if !p.judged {
		unjudged(p.rows)
	}
	p.page.SetHeading(p.heading())
	p.fill()
	looks := p.looks()
	kit.SetOnly(p.lead, leadFigures(p.rows, looks))
	spec := charts.Spec(charts.Plot{Empty: lang.L("Only one of the photos has a true length: their sizes cannot be laid over each other.")})
	if sums[0].Relative == sums[1].Relative {
		spec = pages.CrumbSizes([]pages.CrumbSeries{
			{Name: letter(0), Look: looks[0], Sizes: sums[0]}, {Name: letter(1), Look: looks[1], Sizes: sums[1]}}, p.units)
	}
	p.none.SetText("")
	if plot, ok := spec.(charts.Plot); ok { // a sentence in place of an empty chart
		p.none.SetText(plot.Empty)
	}
	kit.SetVisible(p.chart, p.none.String() == "")
	kit.SetVisible(p.none, p.none.String() != "")
	if p.chart.Visible() {
		showSizes(p.chart, spec, pairChartSize)
	}
	p.page.Refresh()
}

func (p *pairPage) heading() string {
	a, b := p.sides[0].summary, p.sides[1].summary
	switch {
	case a == nil || b == nil:
		return lang.L("Measuring the crumb")
	case !p.judged:
		return lang.L("Comparing")
	}
	return pairHeading(p.rows, *a, *b, len(p.retakes))
}

// looks tell the two loaves apart.
func (p *pairPage) looks() [2]charts.SeriesStyle {
	return pages.LooksOfBakes(p.env.Journal, p.sides[0].photo.Owner.ID, p.sides[1].photo.Owner.ID)
}

// pairChartSize is the least that two panels of sizes take.
var pairChartSize = fyne.NewSize(300, 420)

// fill writes the table; what is withheld for both is folded until it is asked for.
func (p *pairPage) fill() {
	rows := p.rows
	if !p.whole {
		rows = slices.DeleteFunc(slices.Clone(rows), pairRow.withheld)
	}
	hidden := len(p.rows) - len(rows)
	p.rest.SetText(lang.N("{{.N}} figures more, withheld for both", hidden, map[string]any{"N": hidden}))
	kit.SetVisible(p.rest, hidden > 0)
	if len(p.lines) != len(rows) {
		head := newPairLine()
		head.set(pairRow{name: lang.L("Figure"), a: letter(0), b: letter(1), change: lang.L("B − A"), verdict: lang.L("The difference is")})
		p.lines = nil
		for range rows {
			p.lines = append(p.lines, newPairLine())
		}
		kit.SetOnly(p.table, newPairTable(append([]*pairLine{head}, p.lines...)))
	}
	for i, r := range rows {
		p.lines[i].set(r)
	}
	p.table.Refresh()
}

func (p *pairPage) turnSame() {
	if p.same {
		untie(p.env, p.sides[0].id, p.sides[1].id)
		return
	}
	tieSame(p.env, p.sides[0].id, p.sides[1].id)
}

func (p *pairPage) turnCells() {
	on := !p.sides[0].cells.on
	for _, s := range p.sides {
		s.cells.turn(on)
	}
}

func (p *pairPage) swap() {
	p.env.Go(pages.Route{Name: pages.Crumb, ID: p.sides[1].id, More: string(p.sides[0].id)})
}
