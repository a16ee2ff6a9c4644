package pages

import (
	"math"
	"strconv"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
)

// BakeTiles shows bakes by their pictures in even rows, each picture at least so large, with
// its day and its score, and named with its name as well.
func BakeTiles(env *Env, least fyne.Size, named bool, bakes []*journal.BakeSummary) *fyne.Container {
	tiles, now, u := kit.Tiles(least.Width, 4), env.Now(), env.Units()
	for _, c := range bakes {
		item, rows := kit.PhotoItem{Key: c.Cover, Title: u.Day(c.At.In(now.Location()), now), Plain: true}, 1
		if named {
			item.Title, item.Sub, item.Plain, rows = past.Name(c.Name), item.Title, false, 2
		}
		if c.Score() > 0 {
			item.Right = strconv.Itoa(c.Score())
		}
		tile := kit.NewPhotoTile(env.Thumbs, least, rows, func() { env.Go(At(Bake, c.ID)) }).Filling()
		tile.Set(item)
		tiles.Add(tile)
	}
	return tiles
}

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
