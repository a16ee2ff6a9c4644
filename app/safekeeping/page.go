// Package safekeeping is the page on which a baker sees that the journal is kept
// safe, and keeps it so: backups, what leaves it and comes back, and what could not
// be read.
package safekeeping

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// Routes gives the pages of the room.
func Routes() map[string]pages.Opener {
	return map[string]pages.Opener{
		pages.Safekeeping: func(env *pages.Env, _ pages.Route) (pages.Page, error) { return newPage(env), nil },
		pages.BringIn:     func(env *pages.Env, p pages.Route) (pages.Page, error) { return newArrivalPage(env, p.More), nil },
	}
}

// A section is one part of the page, in a file of its own. Its methods are those of a
// [pages.Page].
type section interface {
	// object is the same one every time; it is hidden while there is nothing to show.
	object() fyne.CanvasObject
	keys() []kit.Key
	shown()
	left()
	changed(journal.Changed)
}

// page shows its sections: the backups beside what leaves the journal, where there is room.
type page struct {
	pages.Base
	page     *kit.Page
	sections []section
}

func newPage(env *pages.Env) *page {
	damage, copies, away, tables := newSetAside(env), newBackups(env), newTakeaway(env), newAllTables(env)
	p := &page{sections: []section{damage, copies, away, tables}}
	p.page = kit.NewPage(kit.PageOptions{
		Eyebrow: lang.L("Safekeeping"), Heading: lang.L("Keeping the journal safe"),
		Body: kit.Stack(8, damage.object(), kit.Columns(look.Space(160), copies.object(), kit.Stack(8, away.object(), tables.object()))),
	})
	p.Base = pages.Base{Body: p.page, Name: lang.L("Safekeeping")}
	return p
}

func (p *page) Keys() []kit.Key {
	var keys []kit.Key
	for _, s := range p.sections {
		keys = append(keys, s.keys()...)
	}
	return keys
}

func (p *page) Shown() {
	p.Base.Shown()
	for _, s := range p.sections {
		s.shown()
	}
}

func (p *page) Left() {
	p.Base.Left()
	for _, s := range p.sections {
		s.left()
	}
}

func (p *page) Changed(c journal.Changed) {
	if !p.Here() {
		return
	}
	for _, s := range p.sections {
		s.changed(c)
	}
}
