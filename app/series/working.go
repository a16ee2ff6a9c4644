package series

import (
	"context"
	"slices"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
)

// begin works the series through in the background.
func (p *seriesPage) begin() {
	p.halt()
	rec := *p.rec
	rec.Jars = slices.Clone(p.rec.Jars)
	s := newSession(p.env.Journal, &rec)
	s.tell = func(now state) {
		p.env.Main(func() {
			if p.session == s && p.Here() {
				p.now = now
				p.sync()
			}
		})
	}
	p.session, p.working, p.why = s, true, nil
	label := lang.L("originals of a row of pictures")
	p.stops = append(p.stops, pages.Fetch(p.env, func(ctx context.Context) ([]error, error) { return s.run(ctx, label) }, func(refused []error, err error) {
		if p.session != s {
			return
		}
		p.working, p.why = false, err
		p.read(false)
		p.env.TellRefused(refused)
	}))
}

// again finds the curves anew with what was drawn.
func (p *seriesPage) again() {
	s, rec := p.session, p.rec
	p.stops = append(p.stops, pages.Fetch(p.env, func(ctx context.Context) (state, error) {
		now, err := s.curves(ctx, rec)
		if err == nil && !s.reading() {
			_, err = p.env.Journal.KeepSeriesCurves(rec, now.frames, now.curves)
		}
		return now, err
	}, func(now state, err error) {
		if p.session != s || !sameDrawn(p.rec, rec) {
			return
		}
		if p.env.Failed(err) {
			return
		}
		p.now = now
		p.sync()
	}))
}

// finish keeps the originals of what is known now.
func (p *seriesPage) finish() {
	s, now, label := p.session, p.now, lang.L("originals of a row of pictures")
	pages.Fetch(p.env, func(ctx context.Context) ([]error, error) { return s.finish(ctx, label, now) }, func(refused []error, err error) {
		p.env.Fail(err)
		p.env.TellRefused(refused)
	})
}

// waiting says that files of the row were not read yet.
func (p *seriesPage) waiting() bool {
	return p.rec.Reading() && len(p.now.frames)+len(p.rec.Refused) < len(p.rec.Files)
}

// turnWork stops, or goes on.
func (p *seriesPage) turnWork() {
	if p.working {
		p.halt()
		p.sync()
		return
	}
	if p.rec != nil && (p.waiting() || p.why != nil) {
		p.begin()
		p.sync()
	}
}
