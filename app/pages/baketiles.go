package pages

import (
	"strconv"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/past"
	"twinloaf/journal"
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
