package shelf

import (
	"context"
	"image"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
)

// side is one bake of a comparison.
type side struct {
	id     journal.ID
	view   *kit.PhotoView
	frame  *fyne.Container // gives the view its height
	title  *kit.Link
	mark   *kit.Mark // that tells it apart, in its title and over its column
	head   *kit.Mark
	sub    *kit.Text
	next   *kit.Link // to the next of its photos
	photos []*journal.Photo
	at     int
	name   string
	tone   kit.LoafTone // how it is drawn where it has no photo
	stop   func()
}

func (p *comparePage) newSide(id journal.ID) *side {
	s := &side{id: id, view: kit.NewPhotoView(p.env.Main), sub: kit.Faint("")}
	for _, m := range []**kit.Mark{&s.mark, &s.head} {
		*m = kit.NewMark(charts.SeriesStyle{}, kit.MarkSide)
	}
	s.title = kit.NewLinkSpan(kit.Span{Bold: true, Color: look.ColorInk}, func() { p.env.Go(pages.At(pages.Bake, id)) })
	s.next = kit.NewLink("", func() { p.turn(s) })
	s.frame = kit.Grown(0.75, 120, 600, s.view)
	return s
}

// showFrames leaves no room for pictures where none of the bakes has any.
func (p *comparePage) showFrames() {
	seen := slices.ContainsFunc(p.sides, func(s *side) bool { return len(s.photos) > 0 })
	for _, s := range p.sides {
		kit.SetVisible(s.frame, seen)
	}
	kit.SetVisible(p.zoom, seen)
}

// setLook shows the mark of a side, if it has one.
func (s *side) setLook(l charts.SeriesStyle, ok bool) {
	for _, m := range []*kit.Mark{s.mark, s.head} {
		m.SetLook(l)
		kit.SetVisible(m, ok)
	}
}

// setPhotos puts the crumb first.
func (s *side) setPhotos(photos []*journal.Photo) {
	var now journal.ID
	if s.at < len(s.photos) {
		now = s.photos[s.at].ID
	}
	s.photos, s.at = nil, 0
	for _, role := range []journal.Role{journal.RoleCrumb, journal.RoleCrust, journal.RoleOther, journal.RoleDough, journal.RoleJar} {
		for _, ph := range photos {
			if ph.Role == role {
				if ph.ID == now {
					s.at = len(s.photos)
				}
				s.photos = append(s.photos, ph)
			}
		}
	}
}

// turn goes to the next photo of a side.
func (p *comparePage) turn(s *side) {
	if len(s.photos) > 1 {
		s.at = (s.at + 1) % len(s.photos)
		p.showPhoto(s)
	}
}

// sharpest is how large a picture is read for comparing, on its longer side.
const sharpest = 2400

// showPhoto reads the picture of a side; a thumbnail stands in meanwhile.
func (p *comparePage) showPhoto(s *side) {
	kit.End(&s.stop)
	kit.SetVisible(s.next, len(s.photos) > 1)
	if len(s.photos) == 0 {
		s.view.SetPicture(kit.LoafPicture(s.tone, 640, 480))
		return
	}
	ph := s.photos[s.at]
	s.next.SetText(lang.L("{{.Role}}, photo {{.I}} of {{.N}}", map[string]any{"Role": pages.PhotoRoleWord(ph.Role), "I": s.at + 1, "N": len(s.photos)}))
	if small, ok := p.env.Thumbs.Cached(ph.Hash, 512); ok {
		s.view.SetPreview(small, image.Pt(ph.Width, ph.Height))
	}
	s.stop = pages.Fetch(p.env, func(ctx context.Context) (*image.RGBA, error) { return p.env.Journal.FullSize(ctx, ph.Hash, sharpest) }, func(img *image.RGBA, err error) {
		if p.env.Failed(err) {
			return
		}
		s.view.SetPicture(img)
	})
}
