package bakes

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal"
)

// glance stands beside the list: the bake that the keyboard is at or the pointer rests on, with its
// picture, what was said of it, its figures, its scores and what went in.
type glance struct {
	env  *pages.Env
	box  *fyne.Container
	stop func() // ends the reading of it
}

// glanceSize is its picture's at least.
var glanceSize = fyne.NewSize(330, 220)

func newGlance(env *pages.Env) *glance { return &glance{env, container.NewStack(), func() {}} }

// show reads a bake and shows it: the one that was asked for last, and until it is read the one
// before. Of one that cannot be read there is nothing, which its page tells.
func (g *glance) show(id journal.ID) {
	g.stop()
	g.stop = pages.Fetch(g.env, func(ctx context.Context) (r reading, err error) {
		j := g.env.Journal.Until(ctx)
		if r.bake, err = journal.Get[journal.Bake](j, id); err != nil {
			return reading{}, nil
		}
		r.photos, err = journal.Photos(j, id)
		return r, err
	}, func(r reading, err error) {
		g.env.Fail(err)
		g.fill(r)
	})
}

func (g *glance) fill(r reading) {
	if r.bake == nil {
		kit.SetOnly(g.box, nil)
		return
	}
	r.env, r.units = g.env, g.env.Units()
	b, open := r.bake, func() { g.env.Go(pages.At(pages.Bake, r.bake.ID)) }
	column := kit.Stack(4)
	if ph := pages.MainPhoto(r.photos); ph != nil {
		tile := kit.NewPhotoTile(g.env.Thumbs, glanceSize, 0, open).Filling()
		tile.Set(kit.PhotoItem{Key: ph.Hash})
		column.Add(kit.Grown(glanceSize.Height/glanceSize.Width, glanceSize.Height, look.Space(160), tile))
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
	if len(b.Ingredients) > 0 {
		column.Add(kit.Rule())
		column.Add(r.wentIn())
	}
	kit.SetOnly(g.box, column)
}
