package bakes

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal"
)

// glance stands beside the list: the bake that the keyboard is at, with its picture, what was
// said of it, its figures and its scores.
type glance struct {
	env *pages.Env
	box *fyne.Container
}

// glanceSize is its picture's at least.
var glanceSize = fyne.NewSize(330, 220)

func newGlance(env *pages.Env) *glance { return &glance{env, container.NewStack()} }

// show shows a bake; nothing of one that cannot be read, which its page tells.
func (g *glance) show(id journal.ID) {
	b, err := journal.Get[journal.Bake](g.env.Journal, id)
	if err != nil {
		kit.SetOnly(g.box, nil)
		return
	}
	photos, err := journal.Photos(g.env.Journal, id)
	g.env.Fail(err)
	r, open := reading{env: g.env, units: g.env.Units(), bake: b, photos: photos}, func() { g.env.Go(pages.At(pages.Bake, id)) }
	column := kit.Stack(4)
	if ph := pages.MainPhoto(photos); ph != nil {
		tile := kit.NewPhotoTile(g.env.Thumbs, glanceSize, 0, open).Filling()
		tile.Set(kit.PhotoItem{Key: ph.Hash})
		column.Add(kit.Grown(glanceSize.Height/glanceSize.Width, glanceSize.Height, heroSize.Height, tile))
	}
	column.Add(kit.Stack(0.5, kit.NewLinkSpan(kit.Span{Text: past.Name(b.Name), Bold: true}, open), kit.Faint(r.units.When(b.At, g.env.Now()))))
	if words := strings.TrimSpace(b.Outcome.Notes); words != "" {
		column.Add(kit.NewText(kit.Span{Text: words, Size: look.TextLead, Serif: true}))
	}
	column.Add(r.figures())
	if scores := r.scores(); scores != nil {
		column.Add(kit.Rule())
		column.Add(scores)
	}
	kit.SetOnly(g.box, column)
}
