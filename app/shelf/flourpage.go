package shelf

import (
	"context"

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

// flourPage is a flour's own page: its facts, its types in three countries, its
// lots, and what was baked with it.
type flourPage struct {
	pages.Base
	env    *pages.Env
	id     journal.ID // of the larder's record; empty while there is none
	key    string
	state  *flourState
	page   *kit.Page
	facts  *flourFacts
	lots   *flourLots
	types  *fyne.Container
	water  *kit.Text       // how much it wants
	breads *fyne.Container // the last with it
	chart  *kit.ChartFrame
	sums   *fyne.Container
}

func newFlourPage(env *pages.Env, at pages.Route) (*flourPage, error) {
	p := &flourPage{env: env, id: at.ID, key: journal.FlourKey(at.More), types: kit.Stack(1), water: kit.Body(""), sums: kit.Flow(8)}
	if p.id != "" {
		f, err := journal.Get[journal.Flour](env.Journal, p.id)
		if err != nil {
			return nil, err
		}
		p.key = journal.FlourKey(f.Name)
	}
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: lang.L("Flour"), Actions: []fyne.CanvasObject{
		kit.PrimaryButton(lang.L("Show its bakes"), p.onShelf).WithKey("S"),
		kit.QuietButton(lang.L("Its effect"), p.findings).WithKey("W"),
	}})
	p.Base = pages.Base{Body: p.page, Read: p.load,
		Of: []journal.Kind{journal.KindBake, journal.KindFlour, journal.KindPhoto, journal.KindSettings}}
	p.facts, p.lots = newFlourFacts(p), newFlourLots(p)
	p.breads = container.NewStack()
	p.chart = env.NewChart(lang.L("flour"), fyne.NewSize(look.Space(80), 400), p.open)
	left := kit.Stack(6, p.facts.box, kit.Stack(2, kit.Section(lang.L("How much water it needs")), p.water), kit.Stack(2, kit.Section(lang.L("Equivalent types abroad")), p.types), p.lots.box)
	right := kit.Stack(6, p.sums, p.breads, p.chart)
	p.page.SetBody(container.NewStack(kit.WeightedColumns(look.Space(72), []float32{5, 7}, left, right)))
	p.page.Hold()
	return p, nil
}

// mostBreads is how many of the breads are shown, each at least so large.
const mostBreads = 8

var breadSize = fyne.NewSize(132, 99)

func (p *flourPage) Title() string {
	if p.state == nil {
		return lang.L("Flour")
	}
	return p.state.name
}

func (p *flourPage) Keys() []kit.Key {
	return []kit.Key{
		{Name: "S", Doc: lang.L("Show its bakes on the shelf"), Do: p.onShelf},
		{Name: "W", Doc: lang.L("What its share did to the bread"), Do: p.findings},
		{Name: "L", Doc: lang.L("Add a bag"), Do: p.lots.add},
		{Name: "E", Doc: lang.L("To its facts"), Do: p.facts.focus},
	}
}

func (p *flourPage) onShelf() {
	p.env.Go(routeOf(state{Filter: shelf.Filter{Flours: []shelf.FlourPart{{Flour: p.key}}}}))
}

func (p *flourPage) findings() {
	p.env.Go(pages.Route{Name: pages.Findings, More: string(shelf.ShareOf(p.key))})
}

// load reads the flour; what is being typed stays as it is.
func (p *flourPage) load() {
	id, key := p.id, p.key
	pages.Load(p.env, &p.Base, func(_ context.Context, j journal.Source) (*flourState, error) { return readFlour(j, id, key) }, func(read *flourState) {
		if read.record != nil {
			p.id, p.key = read.record.ID, read.key
		}
		p.state = read
		p.show()
		p.page.Release()
	})
}

func (p *flourPage) speaker() wording {
	return wording{record: p.state.past, units: p.env.Units(), now: p.env.Now()}
}

func (p *flourPage) show() {
	s := p.speaker()
	p.page.SetHeading(s.flourHeading(p.state))
	p.facts.show(p.state)
	p.lots.show(p.state)
	p.water.SetText(s.thirst(p.state))
	p.showTypes(s)
	p.showSums(s)
	var breads []*journal.BakeSummary
	for _, row := range p.state.rows {
		if c := p.state.past.Bakes[row]; c.Cover != "" && len(breads) < mostBreads {
			breads = append(breads, c)
		}
	}
	kit.SetOnly(p.breads, pages.BakeTiles(p.env, breadSize, false, breads))
	kit.SetVisible(p.breads, len(breads) > 0)
	kit.SetVisible(p.chart, len(p.state.rows) > 0)
	if len(p.state.rows) > 0 {
		p.chart.SetSpec(s.runs(p.state))
	}
}

// showSums writes the figures that matter: how its loaves ran.
func (p *flourPage) showSums(s wording) {
	p.sums.Objects = nil
	for _, f := range []shelf.Metric{shelf.Score, shelf.Hydration, shelf.Loss} {
		d := s.record.Describe(f, s.units)
		v, n := s.median(p.state.rows, f)
		if n == 0 {
			continue
		}
		r := kit.NewReadout(past.Titled(d.Name), true)
		r.Set(d.Measure.Format(v), d.Measure.Unit, lang.L("median of {{.N}}", map[string]any{"N": s.count(n)}),
			lang.N("The middle value of the {{.N}} bakes with this flour that have it.", n, map[string]any{"N": s.count(n)}))
		p.sums.Add(r)
	}
	p.sums.Refresh()
}

func (p *flourPage) showTypes(s wording) {
	rows, via := s.typeRows(p.state.facts)
	p.types.Objects = nil
	if len(rows) == 0 {
		p.types.Add(kit.Faint(lang.L("Give its grain and its ash, or the type on the bag, to see what comes nearest elsewhere.")))
	}
	for _, r := range rows {
		what := kit.Row(2, kit.Small(r.ash))
		if r.name != "" {
			what = kit.Row(2, kit.NewLine(kit.Span{Text: r.name, Bold: true}), kit.Small(r.ash))
		}
		p.types.Add(container.New(&tableRow{}, kit.Small(r.system), what))
	}
	if via != "" {
		p.types.Add(kit.Small(lang.L("Nearest {{.Via}}. Ash does not measure strength: a foreign type may need more or less water.", map[string]any{"Via": via})))
	}
	p.types.Refresh()
}

// open goes to the bake behind a point.
func (p *flourPage) open(m charts.Mark) {
	if i := len(p.state.rows) - 1 - m.Index; i >= 0 && i < len(p.state.rows) {
		p.env.Go(pages.At(pages.Bake, p.state.past.Bakes[p.state.rows[i]].ID))
	}
}

// larder makes the flour's record when it has none, so that it can be written in.
// It reports whether there is one.
func (p *flourPage) larder() bool {
	if p.id != "" {
		return true
	}
	if p.state == nil {
		return false
	}
	f := &journal.Flour{Name: p.state.name, Facts: p.state.facts}
	if !p.env.Do(lang.L("putting a flour in the larder"), func(tx *journal.Tx) error { return journal.Put(tx, f) }) {
		return false
	}
	p.id = f.ID
	return true
}

// edit writes a fact as it is typed.
func (p *flourPage) edit(label string, change func(*journal.Flour)) {
	if p.larder() {
		p.env.Fail(journal.Edit(p.env.Journal, p.id, label, change))
	}
}
