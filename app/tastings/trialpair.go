package tastings

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
)

// loavesSize is a picture of one of two loaves: high enough that crust is not cut off.
var loavesSize = fyne.NewSize(508, 336)

// loaves shows the two bakes of a trial large, side by side, and their days on one
// clock; nil for a trial of more, which the table holds alone.
func (p *trialPage) loaves() fyne.CanvasObject {
	if len(p.bakes) != 2 {
		return nil
	}
	var sides []fyne.CanvasObject
	var lanes []kit.Lane
	looks := pages.LooksOfBakes(p.env.Journal, p.bakes[0].ID, p.bakes[1].ID)
	for i, b := range p.bakes {
		side, err := p.loaf(b, i+1, looks[i])
		if p.env.Failed(err) {
			return nil
		}
		sides = append(sides, side)
		if lane := pages.LaneOf(p.armOf(b.ID).Value, b); len(lane.Blocks) > 0 {
			lane.Mark = &looks[i]
			lanes = append(lanes, lane)
		}
	}
	column := kit.Stack(6, kit.Columns(look.Space(72), sides...))
	if len(lanes) == 2 {
		column.Add(kit.Rule())
		title := kit.RowGrow(4, 0, kit.Section(lang.L("Both days on one clock")),
			kit.NewLine(kit.Span{Text: behind([2]string{lanes[0].Name, lanes[1].Name}, p.bakes[0], p.bakes[1], p.env.Units()), Color: look.ColorFaint}))
		column.Add(kit.Stack(3, title, kit.NewDayLanes(lanes, p.env.Units(), p.env.Now())))
	}
	return column
}

// loaf is the nth of the two: its picture if there is one, what it is called, its bowl.
func (p *trialPage) loaf(b *journal.Bake, nth int, l charts.SeriesStyle) (fyne.CanvasObject, error) {
	photos, err := journal.Photos(p.env.Journal, b.ID)
	if err != nil {
		return nil, err
	}
	open := func() { p.env.Go(pages.At(p.placeOf(b), b.ID)) }
	column := kit.Stack(2)
	if ph := pages.MainPhoto(photos); ph != nil {
		tile := kit.NewPhotoTile(p.env.Thumbs, loavesSize, 0, open).Filling()
		tile.Set(kit.PhotoItem{Key: ph.Hash})
		column.Add(kit.Grown(loavesSize.Height/loavesSize.Width, 200, 520, tile))
	}
	arm, bowl := p.armOf(b.ID), ""
	if arm.Mark != "" {
		bowl = lang.L("bowl with the {{.Mark}}", map[string]any{"Mark": lang.L(arm.Mark)})
	}
	column.Add(kit.Marked(l, kit.NewElided(kit.Span{Text: arm.Value, Size: look.TextLarge, Serif: true})))
	column.Add(kit.Flow(3, kit.NewLink(named(b.Name, lang.L("bake {{.N}}", map[string]any{"N": nth})), open), kit.NewLine(kit.Span{Text: bowl, Color: look.ColorFaint})))
	return column, nil
}
