package bakes

import (
	"errors"
	"slices"

	"fyne.io/fyne/v2"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/measure"
)

// bakePage is one bake, read like a page and written in place.
type bakePage struct {
	pages.Base
	env   *pages.Env
	rec   *record
	page  *kit.Page
	units measure.Units
	names *dough.Names

	head    *bakeHead
	photos  *photoRow
	dough   *dough.Parts
	figures *figurePanel
	steps   *stepList
	bulk    *bulkNote
	rows    *bulkRows
	outcome *outcome
	notes   *kit.TextField
	fields  fyne.CanvasObject // the page as it is written in
	more    fyne.CanvasObject // the foot of that, once there is something to do more with
	begin   func()            // what is done when the page is shown for the first time, or nil
	gone    bool              // the bake is no longer in the journal
	reads   bool              // it is read, and not written in
	title   string            // as the window has it
}

func newBakePage(env *pages.Env, id, culture journal.ID) (*bakePage, error) {
	rec, err := openRecord(env, id, culture)
	if err != nil {
		return nil, err
	}
	p := &bakePage{env: env, rec: rec, page: kit.NewPage(kit.PageOptions{})}
	p.Base = pages.Base{Body: p.page}
	p.units = env.Units()
	if p.names, err = dough.KnowNames(env.Journal); err != nil {
		return nil, err
	}
	p.build()
	p.refresh()
	return p, nil
}

func (p *bakePage) Title() string {
	b, exists, err := p.rec.get()
	switch {
	case err != nil:
		return ""
	case !exists:
		return newBakeTitle()
	}
	return past.Name(b.Name)
}

// Shown asks the journal again; a new bake has the cursor in its name.
func (p *bakePage) Shown() {
	p.Base.Shown()
	p.learnNames()
	if u := p.env.Units(); u != p.units {
		p.units = u
		p.build()
	}
	p.reads = p.begin == nil && p.readable()
	p.refresh()
	b, exists, err := p.rec.get()
	if err == nil && exists {
		p.bulk.learn(b)
		p.rows.read(b)
	}
	if err == nil && !exists {
		p.focus(p.head.name)
	} else if p.begin != nil {
		p.begin()
	}
	p.begin = nil
}

// readable says whether the bake can be read before it is written in.
func (p *bakePage) readable() bool {
	b, exists, err := p.rec.get()
	if err != nil || !exists {
		return false
	}
	photos, err := journal.Photos(p.env.Journal, p.rec.id)
	return err == nil && worthReading(b, photos)
}

// write shows the fields, if the bake was read until now.
func (p *bakePage) write() {
	if !p.reads {
		return
	}
	p.reads = false
	p.page.SetBody(p.fields)
	p.refresh()
}

// turn goes from reading to writing, with the cursor in the name, and back.
func (p *bakePage) turn() {
	if p.reads {
		p.write()
		p.focus(p.head.name)
		return
	}
	if p.readable() {
		p.reads = true
		p.refresh()
		p.page.ScrollTo(0)
		return
	}
	p.focus(p.head.name)
}

func (p *bakePage) toOutcome() {
	p.write()
	p.focus(p.outcome.first)
}

// focus puts the cursor in a field. One that is not drawn yet does not know its
// window: the window is asked instead.
func (p *bakePage) focus(f interface{ Entry() fyne.Focusable }) {
	p.env.Window.Canvas().Focus(f.Entry())
}

// Left takes away what was left empty.
func (p *bakePage) Left() {
	p.Base.Left()
	p.dropBlanks()
	p.rec.leave()
}

// dropBlanks takes out lines of the dough on which nothing is written.
func (p *bakePage) dropBlanks() {
	b, exists, err := p.rec.get()
	if err != nil || !exists || !hasBlanks(b) || isEmpty(b, p.rec.culture) {
		return
	}
	p.rec.do(tidyLabel(), func(b *journal.Bake) {
		b.Ingredients = slices.DeleteFunc(b.Ingredients, blankLine)
		for i := range b.Levains {
			b.Levains[i].Lines = slices.DeleteFunc(b.Levains[i].Lines, blankLine)
		}
	})
}

func hasBlanks(b *journal.Bake) bool {
	return slices.ContainsFunc(b.Ingredients, blankLine) ||
		slices.ContainsFunc(b.Levains, func(l journal.LevainBuild) bool { return slices.ContainsFunc(l.Lines, blankLine) })
}

// Changed shows what has changed of the bake and of what it names.
func (p *bakePage) Changed(c journal.Changed) {
	switch {
	case !p.Here():
	case c.TouchesKind(journal.KindSettings):
		if u := p.env.Units(); u != p.units {
			p.units = u
			p.build()
		}
		p.refresh()
	case c.TouchesKind(journal.KindCulture, journal.KindFlour, journal.KindFormula):
		p.learnNames()
		p.refresh()
	case c.TouchesKind(journal.KindPhoto), c.Touches(p.rec.id):
		p.refresh()
	}
	if b, exists, err := p.rec.get(); p.Here() && err == nil && exists && (c.TouchesKind(journal.KindSeries) || c.Touches(p.rec.id)) {
		p.rows.read(b)
	}
}

// learnNames asks the journal again for the names that it knows.
func (p *bakePage) learnNames() {
	names, err := dough.KnowNames(p.env.Journal)
	if p.env.Failed(err) {
		return
	}
	p.dough.SetNames(names)
}

// TakePictures adds pictures that were dropped or pasted, or, where there are many, asks
// whether they are a row of the dough.
func (p *bakePage) TakePictures(pictures []journal.Picture) {
	p.env.RowOrPhotos(pictures, p.rows.begin, p.photos.add)
}

// refreshSoon shows the bake again once what is being done is over.
func (p *bakePage) refreshSoon() {
	p.env.Main(func() {
		if p.Here() {
			p.refresh()
		}
	})
}

// refresh shows the bake as it is in the journal.
func (p *bakePage) refresh() {
	b, _, err := p.rec.get()
	if errors.Is(err, journal.ErrNotFound) {
		p.showGone()
		return
	}
	if p.env.Failed(err) {
		return
	}
	photos, err := journal.Photos(p.env.Journal, p.rec.id)
	if p.env.Failed(err) {
		return
	}
	if p.gone {
		p.gone = false
		p.build()
	}
	p.show(b, photos)
}

// show fills the page.
func (p *bakePage) show(b *journal.Bake, photos []*journal.Photo) {
	p.head.sync(b, len(photos) == 0 && isEmpty(b, ""))
	p.photos.sync(photos)
	p.dough.Show()
	p.rows.place()
	holds, err := journal.Allergens(p.env.Journal, b)
	p.env.Fail(err)
	if p.reads {
		p.page.SetBody(reading{p.env, p.units, b, photos, holds}.object(p))
	}
	p.figures.sync(dough.SideOf(b).Mix, holds)
	p.steps.sync(b)
	p.bulk.show(b)
	p.outcome.sync(b.Outcome)
	p.notes.SetText(b.Notes)
	p.retitle()
}

// retitle has the window take the title and the keys again when they are others.
func (p *bakePage) retitle() {
	if title := p.Title(); p.Here() && title != p.title {
		p.title = title
		p.env.Retitle()
	}
}
