package formulas

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
)

// mostPictured is how many bakes by a formula are shown beside the list, and mostFigured how many
// are told in figures.
const (
	mostPictured = 6
	mostFigured  = 12
)

// bakeSize is the least of the picture of one.
var bakeSize = fyne.NewSize(160, 120)

// showBakes shows the last bakes by the formula of a row, and what came of them.
func (p *listPage) showBakes(i int) {
	if len(p.all) == 0 {
		return
	}
	i = min(i, len(p.all)-1)
	bakes := p.all[i].past
	p.near = p.all[i].latest.Family
	p.beside.Objects = []fyne.CanvasObject{kit.Section(lang.L("Recent bakes") + " · " + p.rows[i].Name)}
	if shown := pictured(bakes); len(shown) > 0 {
		p.beside.Add(pages.BakeTiles(p.env, bakeSize, false, shown[:min(len(shown), mostPictured)]))
	}
	p.beside.Add(p.figuresOf(bakes[:min(len(bakes), mostFigured)]))
	kit.SetVisible(p.beside, len(bakes) > 0)
	p.beside.Refresh()
}

// figuresOf are bakes in a table: of what is seen of a bake's end, what any of them has.
func (p *listPage) figuresOf(bakes []*journal.BakeSummary) fyne.CanvasObject {
	u, now := p.env.Units(), p.env.Now()
	columns, rows := []kit.TableColumn{{}, {Grow: true}}, make([][]string, len(bakes))
	for i, c := range bakes {
		rows[i] = []string{u.Day(c.At.In(now.Location()), now), past.Name(c.Name)}
	}
	for _, f := range []shelf.Metric{shelf.Score, shelf.CrumbOf(string(crumb.Porosity)), shelf.Hydration, shelf.Loss, shelf.Rise} {
		values := make([]float64, len(bakes))
		known := false
		for i, c := range bakes {
			values[i] = c.Metric(f)
			known = known || !math.IsNaN(values[i])
		}
		if !known {
			continue
		}
		d := new(past.BakeIndex).Describe(f, u)
		spare := f != shelf.Score
		columns = append(columns, kit.TableColumn{Head: d.Name, Right: true, Spare: spare}, kit.TableColumn{Unit: true, Spare: spare})
		figures := columnOf(d.Measure, values)
		for i, v := range values {
			if math.IsNaN(v) {
				rows[i] = append(rows[i], "–", "")
				continue
			}
			rows[i] = append(rows[i], figures.Format(v), figures.Unit)
		}
	}
	return kit.Table(columns, rows, nil)
}

// columnOf is the face of figures in a column, of which some are not known.
func columnOf(m measure.Measure, values []float64) measure.Measure {
	var known []float64
	for _, v := range values {
		if !math.IsNaN(v) {
			known = append(known, v)
		}
	}
	return m.Column(known...)
}
