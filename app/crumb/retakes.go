package crumb

import (
	"context"

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
		p.env.Fail(err)
		p.retakes = groups
		p.sync()
		p.measureRetakes(missing)
	})
}

// measureRetakes measures retakes once both photos at hand are measured, each only
// once.
func (p *pairPage) measureRetakes(missing []*journal.Photo) {
	if !p.Here() || p.stop != nil || p.sides[0].summary == nil || p.sides[1].summary == nil {
		return
	}
	var todo []*journal.Photo
	for _, ph := range missing {
		if !p.tried[ph.ID] {
			p.tried[ph.ID] = true
			todo = append(todo, ph)
		}
	}
	if len(todo) == 0 {
		return
	}
	p.busy.SetText(lang.L("Measuring the photos that were taken again"))
	p.stop = p.env.Run(func(ctx context.Context) {
		for _, ph := range todo {
			// One that cannot be measured tells nothing of retaking; its own page says why.
			_, _ = p.env.Journal.MeasureCrumb(ctx, ph.ID, nil)
		}
	}, func() {
		p.stop = nil
		p.busy.SetText("")
		p.readRetakes()
	})
}
