package bakes

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/clipboard"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
)

// photoRow shows the photos of a bake in the order in which they were taken, each
// with its role and caption beneath.
type photoRow struct {
	page   *bakePage
	box    *fyne.Container
	row    *fyne.Container
	busy   *fyne.Container // how far the adding is
	invite *kit.Text
	tiles  []*photoTile
}

var photoSize = fyne.NewSize(196, 147)

func newPhotoRow(p *bakePage) *photoRow {
	r := &photoRow{page: p, row: kit.Flow(4), busy: container.NewStack(),
		invite: kit.Faint(inviteWords(clipboard.Pictures()))}
	r.box = kit.Stack(3, r.row, r.invite, r.busy)
	r.busy.Hide()
	return r
}

// inviteWords say how photos are added; that they can be pasted only where they can.
func inviteWords(paste bool) string {
	if paste {
		return lang.L("No photos yet. Drop them on the window, paste them, or choose them with P.")
	}
	return lang.L("No photos yet. Drop them on the window, or choose them with P.")
}

// sync shows the photos of the journal.
func (r *photoRow) sync(photos []*journal.Photo) {
	next := kit.KeptRows(r.tiles, photos,
		func(c *photoTile, ph *journal.Photo) bool { return c.id == ph.ID },
		func(ph *journal.Photo) *photoTile { return newPhotoTile(r.page, ph.ID) })
	if !slices.Equal(next, r.tiles) {
		r.tiles = next
		r.row.Objects = nil
		for _, c := range next {
			r.row.Add(c.box)
		}
		r.row.Refresh()
	}
	for i, ph := range photos {
		r.tiles[i].set(ph)
	}
	kit.SetVisible(r.row, len(photos) > 0)
	kit.SetVisible(r.invite, len(photos) == 0)
}

// add takes pictures into the bake.
func (r *photoRow) add(pictures []journal.Picture) {
	if len(pictures) == 0 || !r.page.rec.put() {
		return
	}
	owner := journal.Ref{Kind: journal.KindBake, ID: r.page.rec.id}
	r.page.env.AddPhotos(owner, journal.RoleOther, pictures, func(o fyne.CanvasObject) { kit.SetOnly(r.busy, o) })
}

// photoTile is one photo with what it shows.
type photoTile struct {
	page    *bakePage
	id      journal.ID
	box     fyne.CanvasObject
	tile    *kit.PhotoTile
	role    *kit.ChoiceField
	caption *kit.TextField
	crumb   *kit.Link
	fitness *kit.Text // how far a crumb photo is fit for measuring
}

func newPhotoTile(p *bakePage, id journal.ID) *photoTile {
	c := &photoTile{page: p, id: id, fitness: kit.Small("")}
	c.tile = kit.NewPhotoTile(p.env.Thumbs, photoSize, 0, func() { p.env.Go(pages.At(pages.Photo, id)) })
	c.tile.OnDelete = c.remove
	words := make([]string, 0, 5)
	for _, role := range pages.PhotoRoles() {
		words = append(words, pages.PhotoRoleWord(role))
	}
	c.role = kit.NewChoiceField("", lang.L("other"), words, func(i int) {
		p.env.Do(lang.L("what a photo shows"), func(tx *journal.Tx) error {
			return journal.Change(tx, id, func(ph *journal.Photo) { ph.Role = pages.PhotoRoles()[i] })
		})
		if pages.PhotoRoles()[i] == journal.RoleCrumb {
			c.rate()
		}
	})
	c.caption = kit.NewTextField("", lang.L("a caption"))
	c.caption.OnChanged = func(text string) {
		p.env.Fail(journal.Edit(p.env.Journal, id, lang.L("caption of a photo"), func(ph *journal.Photo) { ph.Caption = text }))
	}
	c.crumb = kit.NewLinkSpan(kit.Span{Text: lang.L("Measure"), Size: look.TextSmall, Color: look.ColorCrust},
		func() { p.env.Go(pages.At(pages.Crumb, id)) })
	drop := kit.NewLinkSpan(kit.Span{Text: "×", Bold: true, Color: look.ColorFaint}, c.remove)
	c.box = kit.Width(photoSize.Width, kit.Stack(0, c.tile, kit.RowGrow(2, 0, kit.Row(3, c.role, c.crumb, c.fitness), drop), c.caption))
	return c
}

func (c *photoTile) set(ph *journal.Photo) {
	c.tile.Set(kit.PhotoItem{Key: ph.Hash})
	if i := slices.Index(pages.PhotoRoles(), ph.Role); c.role.Chosen() != i {
		c.role.SetChosen(i)
	}
	c.caption.SetText(ph.Caption)
	kit.SetVisible(c.crumb, ph.Role == journal.RoleCrumb)
	words := ""
	if ph.Role == journal.RoleCrumb {
		if s, ok, err := journal.CrumbMeasures(c.page.env.Journal, ph); err == nil && ok {
			words = pages.FitnessWord(s)
		}
	}
	c.fitness.SetText(words)
}

// rate says how far the photo is fit for measuring, once it is known.
func (c *photoTile) rate() {
	c.fitness.SetText(lang.L("looking"))
	pages.RateCrumb(c.page.env, c.id, func(s crumb.Summary, ok bool) {
		if !ok {
			c.fitness.SetText("") // why is told where it is measured
			return
		}
		c.fitness.SetText(pages.FitnessWord(s))
		c.page.env.Say(pages.FitnessWords(s, c.page.env.Units()), false)
	})
}

// remove puts the photo in the bin.
func (c *photoTile) remove() {
	if c.page.env.Do(lang.L("moving a photo to the bin"), func(tx *journal.Tx) error {
		return journal.MoveToBin[journal.Photo](tx, c.id)
	}) {
		c.page.env.Say(lang.L("The photo is in the bin."), true)
	}
}
