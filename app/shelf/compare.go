package shelf

import (
	"context"
	"errors"
	"fmt"
	"image"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/layout"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/past"
	"twinloaf/app/room"
	"twinloaf/journal"
)

// comparePlace is the comparison of some bakes.
func comparePlace(ids ...journal.ID) room.Place {
	words := make([]string, len(ids))
	for i, id := range ids {
		words[i] = string(id)
	}
	return room.Place{Name: room.Compare, More: strings.Join(words, " ")}
}

// comparePage lays two to four bakes side by side: pictures tied in zoom, a table
// with what differs first, and the days over each other.
type comparePage struct {
	env   *room.Env
	ids   []journal.ID
	page  *kit.Page
	sides []*side
	tied  bool
	tie   *kit.Pill
	zoom  *fyne.Container // how the pictures are zoomed
	table *fyne.Container
	lanes *fyne.Container
	whole bool // the equal rows are shown too
	found comparison
	stop  func()
	here  bool
}

// side is one bake of a comparison.
type side struct {
	view   *kit.PhotoView
	frame  *fyne.Container // gives the view its height
	title  *kit.Link
	sub    *kit.Text
	next   *kit.Link // to the next of its photos
	photos []*journal.Photo
	at     int
	name   string
	stop   func()
}

// pictureHeight leaves little empty above and below a picture among n.
func pictureHeight(n int) float32 { return 420 - 55*float32(n) }

// ErrTwoToFour is returned when a comparison is asked for of fewer than two or more
// than four bakes.
var ErrTwoToFour = errors.New("two to four bakes can be compared")

func newComparePage(env *room.Env, ids []journal.ID) (*comparePage, error) {
	if len(ids) < 2 || len(ids) > mostCompared {
		return nil, ErrTwoToFour
	}
	for _, id := range ids {
		if _, err := journal.Get[journal.Bake](env.Journal, id); err != nil {
			return nil, fmt.Errorf("comparing bakes: %w", err)
		}
	}
	p := &comparePage{env: env, ids: ids, tied: true, table: kit.Stack(0), lanes: container.NewStack()}
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: lang.L("Side by side"), MaxWidth: 1560})
	columns := container.New(layout.NewGridLayoutWithColumns(len(ids)))
	var views []*kit.PhotoView
	for _, id := range ids {
		s := &side{view: kit.NewPhotoView(), sub: kit.Faint("")}
		s.title = kit.NewLinkSpan(kit.Span{Bold: true, Color: look.ColorInk}, func() { env.Go(room.At(room.Bake, id)) })
		s.next = kit.NewLink("", func() { p.turn(s) })
		s.frame = container.New(fixedHeight{pictureHeight(len(ids))}, s.view)
		p.sides = append(p.sides, s)
		views = append(views, s.view)
		columns.Add(kit.Stack(1.5, s.frame, kit.Row(0, s.title), s.sub, kit.Row(0, s.next)))
	}
	kit.TiePhotoViews(func() bool { return p.tied }, views...)
	p.tie = kit.NewChoicePill(lang.L("zoom together"), true, p.toggleTie)
	p.zoom = kit.Row(2, p.tie, kit.Small(lang.L("the wheel or + and − zoom, dragging moves, 0 shows the whole")))
	p.page.SetBody(kit.Stack(6, kit.Stack(2, columns, p.zoom), p.table, p.lanes))
	return p, nil
}

func (p *comparePage) Object() fyne.CanvasObject { return p.page }
func (p *comparePage) Title() string             { return lang.L("Side by side") }
func (p *comparePage) Shown()                    { p.here = true; p.load() }

// Left lets the large pictures go.
func (p *comparePage) Left() {
	p.here = false
	if p.stop != nil {
		p.stop()
	}
	for _, s := range p.sides {
		if s.stop != nil {
			s.stop()
		}
		s.view.Clear()
	}
}

// Changed reads the bakes again when one of them changed.
func (p *comparePage) Changed(c journal.Changed) {
	for _, id := range p.ids {
		if p.here && (c.Touches(id) || c.TouchesKind(journal.KindPhoto, journal.KindSettings)) {
			p.load()
			return
		}
	}
}

func (p *comparePage) Keys() []kit.Key {
	keys := []kit.Key{
		{Name: "T", Doc: lang.L("Zoom the pictures together, or each by itself"), Do: p.toggleTie},
		{Name: "A", Doc: lang.L("Show or fold what is alike"), Do: p.toggleAlike},
	}
	for i, s := range p.sides {
		n := fmt.Sprint(i + 1)
		keys = append(keys, kit.Key{Name: n, Doc: lang.L("To picture {{.N}}", map[string]any{"N": n}),
			Do: func() { p.env.Window.Canvas().Focus(s.view) }})
	}
	return append(keys, kit.Key{Name: "N", Doc: lang.L("The next photo of every bake"), Do: func() {
		for _, s := range p.sides {
			p.turn(s)
		}
	}})
}

func (p *comparePage) toggleTie() {
	p.tied = !p.tied
	p.tie.SetChosen(p.tied)
	if p.tied {
		for _, s := range p.sides[1:] {
			s.view.SetView(p.sides[0].view.View())
		}
	}
}

func (p *comparePage) toggleAlike() {
	p.whole = !p.whole
	p.showTable()
}

// load reads the bakes away from the main goroutine.
func (p *comparePage) load() {
	if p.stop != nil {
		p.stop()
	}
	var record *past.Record
	bakes, cards := make([]*journal.Bake, len(p.ids)), make([]*journal.Card, len(p.ids))
	photos := make([][]*journal.Photo, len(p.ids))
	var err error
	p.stop = p.env.Run(func(context.Context) {
		if record, err = past.Of(p.env.Journal); err != nil {
			return
		}
		var all []*journal.Card
		if all, err = p.env.Journal.Cards(); err != nil {
			return
		}
		for i, id := range p.ids {
			if bakes[i], err = journal.Get[journal.Bake](p.env.Journal, id); err != nil {
				return
			}
			if photos[i], err = journal.Photos(p.env.Journal, id); err != nil {
				return
			}
			for _, c := range all {
				if c.ID == id {
					cards[i] = c
				}
			}
		}
	}, func() {
		if err != nil {
			p.env.Fail(err)
			return
		}
		p.show(record, bakes, cards, photos)
	})
}

func (p *comparePage) show(record *past.Record, bakes []*journal.Bake, cards []*journal.Card, photos [][]*journal.Photo) {
	s := speaker{record: record, units: p.env.Units(), now: p.env.Now()}
	names := make([]string, len(bakes))
	for i, b := range bakes {
		names[i] = past.Name(b.Name)
		side := p.sides[i]
		side.name = names[i]
		side.title.SetText(names[i])
		side.sub.SetText(s.units.When(b.At, s.now))
		side.setPhotos(photos[i])
		p.showPhoto(side)
	}
	p.showFrames()
	p.found = s.compareBakes(bakes, cards)
	p.page.SetHeading(compareHeading(p.found, len(bakes)))
	p.showTable()
	chart := p.env.NewChart("days", fyne.NewSize(look.Space(80), float32(len(bakes))*44+64), nil)
	chart.SetFigure(timelines(bakes, laneNames(names, bakes, s)))
	p.lanes.Objects = []fyne.CanvasObject{kit.Stack(2, kit.Section(lang.L("The days, laid over each other")), chart)}
	p.lanes.Refresh()
}

// showFrames leaves no room for pictures where none of the bakes has any.
func (p *comparePage) showFrames() {
	seen := slices.ContainsFunc(p.sides, func(s *side) bool { return len(s.photos) > 0 })
	for _, s := range p.sides {
		setVisible(s.frame, seen)
	}
	setVisible(p.zoom, seen)
}

// laneNames tells bakes of one name apart by their day.
func laneNames(names []string, bakes []*journal.Bake, s speaker) []string {
	out := make([]string, len(names))
	for i, name := range names {
		out[i] = name + ", " + s.units.Day(bakes[i].At, s.now)
	}
	return out
}

// compareHeading says how much differs.
func compareHeading(c comparison, bakes int) string {
	data := map[string]any{"N": len(c.differ)}
	switch {
	case len(c.differ) == 0:
		return lang.L("Nothing that was written down differs")
	case len(c.differ) == 1:
		return lang.L("One thing differs: {{.What}}", what(c.differ[0].name))
	case bakes == 2:
		return lang.L("{{.N}} things differ between these two", data)
	}
	if bakes == 3 {
		return lang.L("{{.N}} things differ between these three", data)
	}
	return lang.L("{{.N}} things differ between these four", data)
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
	if s.stop != nil {
		s.stop()
	}
	setVisible(s.next, len(s.photos) > 1)
	if len(s.photos) == 0 {
		s.view.Clear()
		return
	}
	ph := s.photos[s.at]
	s.next.SetText(lang.L("{{.Role}}, photo {{.I}} of {{.N}}", map[string]any{"Role": room.PhotoRoleWord(ph.Role), "I": s.at + 1, "N": len(s.photos)}))
	if small, ok := p.env.Thumbs.Cached(ph.Hash, 512); ok {
		s.view.SetPreview(small, image.Pt(ph.Width, ph.Height))
	}
	var img image.Image
	var err error
	s.stop = p.env.Run(func(ctx context.Context) { img, err = p.env.Journal.FullSize(ctx, ph.Hash, sharpest) }, func() {
		if err != nil {
			p.env.Fail(err)
			return
		}
		s.view.SetPicture(img)
	})
}
