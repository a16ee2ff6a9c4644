package crumb

import (
	"context"
	"image"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/say"
)

// side is one of the two photos.
type side struct {
	id      journal.ID
	photo   *journal.Photo
	session *session
	view    *kit.PhotoView
	cells   *cellLayer
	title   *kit.Elided
	caption *kit.Text
	mark    *kit.Mark
	summary *crumb.Summary
	asked   *journal.Photo
	loaded  string
}

// ratio is how high the photo is for its width.
func (s *side) ratio() float32 {
	if s.photo == nil || s.photo.Width <= 0 || s.photo.Height <= 0 {
		return 0.75
	}
	return float32(s.photo.Height) / float32(s.photo.Width)
}

// below is what stands beneath a photo: which loaf it is, and how it was measured.
func (s *side) below() fyne.CanvasObject {
	return kit.Stack(0.5, kit.RowGrow(2, 1, s.mark, s.title), s.caption)
}

func (p *pairPage) load(s *side, ph *journal.Photo) {
	s.loaded, s.summary = ph.Hash, nil
	if sum, ok, err := journal.CrumbMeasures(p.env.Journal, ph); err == nil && ok {
		s.summary = &sum
	}
	s.session.load(ph, func(small image.Image) {
		if s.loaded == ph.Hash {
			s.view.SetPreview(small, image.Pt(ph.Width, ph.Height))
			p.photos.Refresh()
			p.even()
		}
	}, func(img image.Image, err error) {
		switch {
		case s.loaded != ph.Hash:
		case err != nil:
			p.env.Fail(err)
		default:
			s.view.SetPicture(img)
			p.even()
		}
	})
}

func (p *pairPage) measure(s *side, ph *journal.Photo, wait time.Duration) {
	s.asked = ph
	p.busy.Say(lang.L("Measuring"))
	s.session.measure(ph, wait, func(say.Line, float64) {}, func(o outcome) {
		p.busy.Say("")
		if o.err != nil {
			s.summary = nil
			p.env.Say(p.env.Units().ErrorText(o.err), false)
			p.sync()
			return
		}
		sum := o.result.Summary
		s.summary = &sum
		s.cells.set(o.result, o.cells)
		s.view.RefreshOverlays()
		p.readRetakes()
		p.even()
	})
}

// even gives both views the zoom at which a millimetre is as long in each.
func (p *pairPage) even() {
	var room, full [2]fyne.Size
	var perMM [2]float64
	for i, s := range p.sides {
		size := s.view.PictureSize()
		if s.summary == nil || s.summary.Relative || size.X == 0 {
			return
		}
		room[i], full[i], perMM[i] = s.view.Size(), fyne.NewSize(float32(size.X), float32(size.Y)), s.summary.PxPerMM
	}
	for i, zoom := range evenScale(room, full, perMM) {
		lo, hi := boundsOf(p.sides[i].summary.Outline)
		p.sides[i].view.SetView(kit.View{X: (lo.X + hi.X) / 2 / float64(full[i].Width), Y: (lo.Y + hi.Y) / 2 / float64(full[i].Height), Zoom: zoom})
	}
}

func boundsOf(o crumb.Outline) (lo, hi crumb.Point) {
	if len(o) == 0 {
		return
	}
	lo, hi = o[0], o[0]
	for _, q := range o {
		lo = crumb.Point{X: min(lo.X, q.X), Y: min(lo.Y, q.Y)}
		hi = crumb.Point{X: max(hi.X, q.X), Y: max(hi.Y, q.Y)}
	}
	return lo, hi
}

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
