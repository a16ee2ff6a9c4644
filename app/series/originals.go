package series

import (
	"context"
	"errors"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/measure"
)

// offerOriginals offers to keep the original of the picture shown, and all that are not kept,
// each with the space that it takes.
func (s *side) offerOriginals(u measure.Units) {
	p := s.page
	one, all := "", ""
	if p.at < len(p.now.frames) {
		if bytes, ok := s.left[p.now.frames[p.at].ID]; ok {
			one = lang.L("Keep the original of this picture ({{.Size}})", map[string]any{"Size": pages.SizeWords(bytes, u)})
		}
	}
	if n := len(s.left); n > 1 {
		var sum int64
		for _, bytes := range s.left {
			sum += bytes
		}
		all = lang.N("Keep all {{.N}} others ({{.Size}})", n, map[string]any{"N": n, "Size": pages.SizeWords(sum, u)})
	}
	s.keepOne.Say(one)
	s.keepAll.Say(all)
}

// lookForOriginals looks which originals could still be kept, away from the main goroutine.
func (s *side) lookForOriginals() {
	p := s.page
	rec, frames := p.rec, p.now.frames
	p.stops = append(p.stops, pages.Fetch(p.env, func(ctx context.Context) (map[journal.ID]int64, error) {
		return p.env.Journal.OriginalsLeft(ctx, rec, frames)
	}, func(left map[journal.ID]int64, err error) {
		if p.env.Fail(err); err != nil || p.rec.ID != rec.ID {
			return
		}
		s.left = left
		s.offerOriginals(p.env.Units())
	}))
}

// keepOriginal keeps the original of the picture shown.
func (p *seriesPage) keepOriginal() {
	if p.at >= len(p.now.frames) {
		return
	}
	f := p.now.frames[p.at]
	if _, ok := p.side.left[f.ID]; !ok {
		p.env.Say(lang.L("The original of this picture is kept already, or its file is not there any more."), false)
		return
	}
	p.keep([]*journal.Photo{f})
}

// keepAll keeps all originals.
func (p *seriesPage) keepAll() { p.keep(p.now.frames) }

// keep keeps the originals of frames, with a way to stop.
func (p *seriesPage) keep(frames []*journal.Photo) {
	rec, label := p.rec, lang.L("originals of a row of pictures")
	pages.FetchOver(p.env, lang.L("Keeping originals"), func(ctx context.Context, _ *kit.Progress) ([]error, error) {
		return p.env.Journal.KeepOriginals(ctx, rec, label, frames)
	}, func(refused []error, err error) {
		if !errors.Is(err, context.Canceled) {
			p.env.Fail(err)
		}
		p.env.TellRefused(refused)
		p.side.syncOriginals(p.env.Units())
	})
}
