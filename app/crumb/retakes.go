package crumb

import (
	"context"
	"slices"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/crumb"
)

// readRetakes asks for the slices that were photographed more than once, and has
// those photos of them measured that were not yet.
func (p *pairPage) readRetakes() {
	var groups [][]crumb.Summary
	var missing []*journal.Photo
	var err error
	p.env.Run(func(ctx context.Context) {
		j := p.env.Journal.Until(ctx)
		if groups, err = journal.CrumbRetakes(j); err == nil {
			missing, err = journal.UnmeasuredRetakes(j)
		}
	}, func() {
		if p.env.Failed(err) {
			return
		}
		p.retakes = groups
		todo := slices.DeleteFunc(missing, func(ph *journal.Photo) bool { return p.tried[ph.ID] })
		p.judged = len(todo) == 0
		p.sync()
		p.measureRetakes(todo)
	})
}

// measureRetakes measures retakes once both photos at hand are measured, each only
// once.
func (p *pairPage) measureRetakes(todo []*journal.Photo) {
	if len(todo) == 0 || !p.Here() || p.stop != nil || p.sides[0].summary == nil || p.sides[1].summary == nil {
		return
	}
	p.busy.Say(lang.L("Measuring the photos that were taken again"))
	p.stop = p.env.Run(func(ctx context.Context) {
		for _, ph := range todo {
			// One that cannot be measured tells nothing of retaking; its own page says why.
			_, _ = p.env.Journal.MeasureCrumb(ctx, ph.ID)
		}
	}, func() {
		for _, ph := range todo {
			p.tried[ph.ID] = true
		}
		p.stop = nil
		p.busy.Say("")
		p.readRetakes()
	})
}
