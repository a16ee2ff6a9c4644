package shelf

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/charts"
	"twinloaf/journal"
)

// comparePlace is the comparison of some bakes.
func comparePlace(ids ...journal.ID) pages.Route {
	words := make([]string, len(ids))
	for i, id := range ids {
		words[i] = string(id)
	}
	return pages.Route{Name: pages.Compare, More: strings.Join(words, " ")}
}

// comparePage lays two to four bakes side by side: pictures tied in zoom, a table
// with what differs first, and the days over each other.
type comparePage struct {
	pages.Base
	env     *pages.Env
	ids     []journal.ID
	page    *kit.Page
	sides   []*side
	tied    bool
	tie     *kit.Pill
	zoom    *fyne.Container // how the pictures are zoomed
	table   *fyne.Container
	numbers float32      // how wide its plain figures are
	rows    *kit.Opening // the table
	lanes   *fyne.Container
	whole   bool // the equal rows are shown too
	found   comparison
}

// ErrTwoToFour is returned when a comparison is asked for of fewer than two or more
// than four bakes.
var ErrTwoToFour = errors.New("two to four bakes can be compared")

func newComparePage(env *pages.Env, ids []journal.ID) (*comparePage, error) {
	if len(ids) < 2 || len(ids) > mostCompared {
		return nil, ErrTwoToFour
	}
	for _, id := range ids {
		if _, err := journal.Get[journal.Bake](env.Journal, id); err != nil {
			return nil, fmt.Errorf("comparing bakes: %w", err)
		}
	}
	p := &comparePage{env: env, ids: ids, tied: true, table: kit.Stack(0), lanes: container.NewStack()}
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: lang.L("Side by side")})
	p.Base = pages.Base{Body: p.page, Name: lang.L("Side by side"), Read: p.load}
	p.tie = kit.NewChoicePill(lang.L("zoom together"), true, p.toggleTie)
	p.zoom = kit.Stack(2, kit.Row(0, p.tie), kit.Small(lang.L("the wheel or + and − zoom, dragging moves, 0 shows the whole")))
	// The pictures stand over the columns of the table, and what is done with them
	// over the names of its rows.
	columns := []fyne.CanvasObject{p.zoom}
	var views []*kit.PhotoView
	for _, id := range ids {
		s := p.newSide(id)
		p.sides = append(p.sides, s)
		views = append(views, s.view)
		columns = append(columns, kit.Stack(1.5, s.frame, kit.RowGrow(2, 1, s.mark, s.title), s.sub, kit.Row(0, s.next)))
	}
	p.zoom.Hide() // until there is something to zoom
	p.rows = kit.NewOpening(p.table)
	kit.TiePhotoViews(func() bool { return p.tied }, views...)
	p.page.SetBody(kit.Stack(6, sideBySide(columns...), p.rows, p.lanes))
	return p, nil
}

// Left lets the large pictures go.
func (p *comparePage) Left() {
	p.Base.Left()
	for _, s := range p.sides {
		kit.End(&s.stop)
		s.view.Clear()
	}
}

// Changed reads the bakes again when one of them changed.
func (p *comparePage) Changed(c journal.Changed) {
	for _, id := range p.ids {
		if p.Here() && (c.Touches(id) || c.TouchesKind(journal.KindPhoto, journal.KindCulture, journal.KindSettings)) {
			p.load()
			return
		}
	}
}

// Start puts the keyboard at the first picture.
func (p *comparePage) Start() fyne.Focusable {
	return p.sides[0].view
}

func (p *comparePage) Keys() []kit.Key {
	keys := []kit.Key{
		{Name: "T", Doc: lang.L("Zoom the pictures together, or each by itself"), Do: p.toggleTie},
		{Name: "A", Doc: lang.L("Show or hide what is the same"), Do: p.toggleAlike},
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
	p.rows.Grow(p.showTable)
}

// load reads the bakes away from the main goroutine.
func (p *comparePage) load() {
	bakes, summaries := make([]*journal.Bake, len(p.ids)), make([]*journal.BakeSummary, len(p.ids))
	photos := make([][]*journal.Photo, len(p.ids))
	var looks map[journal.ID]charts.SeriesStyle
	pages.Load(p.env, &p.Base, func(_ context.Context, j journal.Source) (*past.BakeIndex, error) {
		record, err := past.Of(j)
		if err != nil {
			return nil, err
		}
		all, err := j.BakeSummaries()
		if err != nil {
			return nil, err
		}
		for i, id := range p.ids {
			if bakes[i], err = journal.Get[journal.Bake](j, id); err != nil {
				return nil, err
			}
			if photos[i], err = journal.Photos(j, id); err != nil {
				return nil, err
			}
			for _, c := range all {
				if c.ID == id {
					summaries[i] = c
				}
			}
		}
		looks = pages.CompareLooks(j, p.ids)
		return record, nil
	}, func(record *past.BakeIndex) {
		for _, s := range p.sides {
			l, ok := looks[s.id]
			s.setLook(l, ok)
		}
		p.show(record, bakes, summaries, photos)
	})
}

func (p *comparePage) show(record *past.BakeIndex, bakes []*journal.Bake, summaries []*journal.BakeSummary, photos [][]*journal.Photo) {
	s := wording{record: record, units: p.env.Units(), now: p.env.Now()}
	names := make([]string, len(bakes))
	for i, b := range bakes {
		names[i] = past.Name(b.Name)
		side := p.sides[i]
		side.name = names[i]
		side.title.SetText(names[i])
		side.sub.SetText(s.units.When(b.At, s.now))
		side.setPhotos(photos[i])
		side.tone = pages.LoafTone(summaries[i])
		p.showPhoto(side)
	}
	p.showFrames()
	p.found = s.compareBakes(bakes, summaries)
	p.page.SetHeading(compareHeading(p.found, len(bakes)))
	p.showTable()
	p.showDays(timelines(bakes, laneNames(names, bakes, s)))
}
