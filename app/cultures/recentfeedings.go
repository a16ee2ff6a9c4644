package cultures

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// mostFed is how many feedings are listed of all living cultures together, and leastFed of each.
const (
	mostFed  = 16
	leastFed = 4
)

// recentFeedings are the last feedings of a culture as rows of a table, the latest first: when,
// how, how warm the room was, and the greatest rise that was read, with the time to it.
func recentFeedings(p *portrait, u measure.Units) [][]string {
	peaks := map[journal.ID]histories.Peak{}
	for _, k := range p.life.Peaks(p.now) {
		if !p.climbing(k) {
			peaks[k.Feeding] = k
		}
	}
	read := map[journal.ID]time.Time{}
	for _, r := range p.life.Readings {
		read[r.ID] = r.At
	}
	var out [][]string
	for i := len(p.life.Feedings) - 1; i >= 0 && len(out) < mostFed; i-- {
		f := p.life.Feedings[i]
		if histories.Taking(f) || f.At.After(p.now) {
			continue
		}
		row := []string{u.When(f.At, p.now), formOf(f).ratio(u)}
		figures, units := figuresOfFeeding(f, u), figureUnits(u)
		for _, k := range fedFigures {
			if figures[k] == "" {
				row = append(row, "–", "")
				continue
			}
			row = append(row, figures[k], units[k])
		}
		peak, after := "–", "–"
		if k, ok := peaks[f.ID]; ok {
			peak, after = u.Times().Write(k.Rise), u.Span(read[k.Reading].Sub(k.Fed))
		}
		out = append(out, append(row, peak, after))
	}
	return out
}

// fedFigures are the figures of a feeding that have columns.
var fedFigures = []int{keptFigure, flourFigure, waterFigure, warmthFigure}

// feedingTable tells the last feedings of a culture below its name.
func feedingTable(name string, look charts.SeriesStyle, rows [][]string) fyne.CanvasObject {
	columns := []kit.TableColumn{{Head: lang.L("fed")}, {Head: lang.L("ratio"), Right: true}}
	for _, k := range fedFigures {
		columns = append(columns, kit.TableColumn{Head: figureHead(k), Right: true, Spare: true}, kit.TableColumn{Unit: true, Spare: true})
	}
	columns = append(columns, kit.TableColumn{Head: lang.L("peak"), Right: true}, kit.TableColumn{Head: lang.L("after"), Right: true})
	return kit.Stack(1, kit.Marked(look, kit.Section(name)), kit.Table(columns, rows, nil))
}

// feedingTables are those of the living cultures.
func feedingTables(rows []row, living int) fyne.CanvasObject {
	box := kit.Stack(5)
	for _, r := range rows {
		if len(r.feedings) > 0 {
			box.Add(feedingTable(r.name, r.look, r.feedings[:min(len(r.feedings), max(leastFed, mostFed/living))]))
		}
	}
	return box
}
