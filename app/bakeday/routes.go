// Package bakeday is the room of one bake under way: its plan before it begins,
// the large view for floury hands while it runs, and how the day went against
// the plan when it is over.
package bakeday

import (
	"errors"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/say"
)

// Again is the [pages.Route.More] that makes a new plan of a bake.
const Again = "again"

// Routes gives the pages of the room.
func Routes() map[string]pages.Opener {
	return map[string]pages.Opener{pages.BakeDay: open}
}

func open(env *pages.Env, p pages.Route) (pages.Page, error) {
	if p.More == Again {
		return openAgain(env, p.ID)
	}
	if p.ID == "" {
		doughs, err := underWay(env.Journal)
		if err != nil {
			return nil, err
		}
		if len(doughs) == 0 {
			return nil, say.NewError("no dough is under way")
		}
		p.ID = urgentFirst(doughs, env.Now())[0].ID
	}
	return newPage(env, p.ID)
}

// openAgain puts a plan that repeats a bake into the journal and shows it.
func openAgain(env *pages.Env, id journal.ID) (pages.Page, error) {
	b, err := journal.Get[journal.Bake](env.Journal, id)
	if err != nil {
		return nil, fmt.Errorf("planning a bake again: %w", err)
	}
	again := b.Again()
	again.At = env.Now()
	err = env.Journal.Do(lang.L("planning {{.Name}} again", map[string]any{"Name": b.Name}), func(tx *journal.Tx) error {
		return journal.Put(tx, again)
	})
	if err != nil {
		return nil, err
	}
	return newPage(env, again.ID)
}

// A stage is what the page shows in one state of the bake.
type stage interface {
	object() fyne.CanvasObject
	// begins is where its work begins.
	begins() fyne.Focusable
	title() string
	keys() []kit.Key
	shown()
	left()
	// changed is told of a change that the bake, b, is read after.
	changed(b *journal.Bake, c journal.Changed)
}

// page is one bake: planned, under way or over. Its face follows the state.
type page struct {
	pages.Base
	env   *pages.Env
	id    journal.ID
	box   *fyne.Container
	state journal.BakeState
	day   bool // the bake has a planned day
	face  stage
}

func newPage(env *pages.Env, id journal.ID) (*page, error) {
	b, err := journal.Get[journal.Bake](env.Journal, id)
	if err != nil {
		return nil, fmt.Errorf("showing a bake day: %w", err)
	}
	p := &page{env: env, id: id, box: container.NewStack()}
	p.Base = pages.Base{Body: p.box}
	if err := p.turnTo(b); err != nil {
		return nil, err
	}
	return p, nil
}

// turnTo gives the page the face for the state of the bake.
func (p *page) turnTo(b *journal.Bake) (err error) {
	_, planned := b.Day()
	var f stage
	switch {
	case b.State == journal.Running && planned:
		f, err = newDayStage(p.env, p, b)
	case b.State == journal.Finished && planned:
		f = newOverStage(p.env, b)
	case b.State == journal.Recorded || b.State == journal.Finished:
		return say.NewError("this bake was written down afterwards and had no plan")
	default:
		f, err = newPlanStage(p.env, b)
	}
	if err != nil {
		return err
	}
	if p.face != nil && p.Here() {
		p.face.left()
	}
	p.state, p.day, p.face = b.State, planned, f
	p.box.Objects = []fyne.CanvasObject{f.object()}
	p.box.Refresh()
	if p.Here() {
		f.shown()
		p.env.Turned()
	}
	return nil
}

func (p *page) Title() string   { return p.face.title() }
func (p *page) Keys() []kit.Key { return p.face.keys() }
func (p *page) Left()           { p.Base.Left(); p.face.left() }

func (p *page) Shown() {
	p.Base.Shown()
	p.face.shown()
	p.Changed(journal.Changed{Refs: []journal.Ref{{Kind: journal.KindBake, ID: p.id}}})
}

// Changed follows the journal. A bake that is gone, such as a plan whose making
// was undone, is left.
func (p *page) Changed(c journal.Changed) {
	if !p.Here() || !c.TouchesKind(journal.KindBake, journal.KindSettings, journal.KindCulture, journal.KindFeeding, journal.KindReading) {
		return
	}
	b, err := journal.Get[journal.Bake](p.env.Journal, p.id)
	switch {
	case errors.Is(err, journal.ErrNotFound):
		p.env.Back()
		return
	case err != nil:
		p.env.Fail(err)
		return
	}
	// The steps of a day under way may all be taken out, and put back.
	_, planned := b.Day()
	if b.State != p.state || b.State == journal.Running && planned != p.day {
		p.env.Fail(p.turnTo(b))
		return
	}
	p.face.changed(b, c)
}

// TakePictures keeps pictures that were dropped on the window, or, where there are many, asks
// whether they are a row of the dough.
func (p *page) TakePictures(pictures []journal.Picture) {
	p.env.RowOrPhotos(pictures,
		func(row []journal.Picture) { p.env.BeginSeries(journal.SeriesJar{Bake: p.id}, row) },
		func(photos []journal.Picture) {
			p.env.AddPhotos(journal.Ref{Kind: journal.KindBake, ID: p.id}, journal.RoleDough, photos, func(fyne.CanvasObject) {})
		})
}

// Behind says that only a day under way is one of today: a plan, and a day that is over, are of
// the bakes.
func (p *page) Behind() string {
	if p.state == journal.Running {
		return pages.BakeDay
	}
	return pages.Bake
}

// Start puts the keyboard where the work of the stage begins.
func (p *page) Start() fyne.Focusable { return p.face.begins() }
