package pages

import (
	"math"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
)

// BakeTable sets bakes below one another by figures, of which those that none of them has are left
// out; where the room runs out the last go. The bake own is bold.
func BakeTable(env *Env, bakes []*journal.BakeSummary, own journal.ID, figures ...shelf.Metric) fyne.CanvasObject {
	u, now := env.Units(), env.Now()
	columns, rows := []kit.TableColumn{{}, {Grow: true}}, make([][]string, len(bakes))
	for i, c := range bakes {
		rows[i] = []string{u.Day(c.At.In(now.Location()), now), past.Name(c.Name)}
	}
	for k, f := range figures {
		var known []float64
		for _, c := range bakes {
			if v := c.Metric(f); !math.IsNaN(v) {
				known = append(known, v)
			}
		}
		if len(known) == 0 {
			continue
		}
		d := new(past.BakeIndex).Describe(f, u)
		columns = append(columns, kit.TableColumn{Head: d.Name, Right: true, Spare: k > 0}, kit.TableColumn{Unit: true, Spare: k > 0})
		column := d.Measure.Column(known...)
		for i, c := range bakes {
			rows[i] = append(rows[i], figureIn(column, c.Metric(f))...)
		}
	}
	return kit.Table(columns, rows, func(i int) bool { return bakes[i].ID == own })
}

// figureIn is a figure and its unit in a column.
func figureIn(column measure.Measure, v float64) []string {
	if math.IsNaN(v) {
		return []string{"–", ""}
	}
	return []string{column.Format(v), column.Unit}
}
