package formulas

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal/crumb"
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
	p.beside.Add(pages.BakeTable(p.env, bakes[:min(len(bakes), mostFigured)], "",
		shelf.Score, shelf.CrumbOf(string(crumb.Porosity)), shelf.Hydration, shelf.Loss, shelf.Rise))
	kit.SetVisible(p.beside, len(bakes) > 0)
	p.beside.Refresh()
}
