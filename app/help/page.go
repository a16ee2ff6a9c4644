// Package help is the page that says how things are counted, what is usual,
// and what to be careful of.
package help

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// Routes gives the pages of the room.
func Routes() map[string]pages.Opener {
	return map[string]pages.Opener{
		pages.Help: func(env *pages.Env, _ pages.Route) (pages.Page, error) { return newPage(env.Units()), nil },
	}
}

type page struct{ page *kit.Page }

func newPage(u kit.Units) *page {
	column := kit.Stack(6)
	for _, c := range chapters(u) {
		part := kit.Stack(1.5, kit.Subheading(c.title))
		for _, s := range c.sentences {
			part.Add(kit.Body(s))
		}
		column.Add(part)
	}
	return &page{kit.NewPage(kit.PageOptions{
		Eyebrow: lang.L("Help"), Heading: lang.L("How things are counted here"), Body: column, MaxWidth: 540,
		Hint: kit.NewKeyHint("F1", lang.L("every key")),
	})}
}

func (p *page) Object() fyne.CanvasObject { return p.page }
func (p *page) Title() string             { return lang.L("Help") }
func (p *page) Keys() []kit.Key           { return nil }
func (p *page) Shown()                    {}
func (p *page) Left()                     {}
func (p *page) Changed(journal.Changed)   {}
