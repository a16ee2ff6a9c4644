// Package help holds the page that says how things are counted, what the figures rest on,
// and what to be careful of, and the one about the program itself.
package help

import (
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
)

// Routes gives the pages of the room.
func Routes() map[string]pages.Opener {
	return map[string]pages.Opener{
		pages.Help:  func(env *pages.Env, _ pages.Route) (pages.Page, error) { return newPage(env), nil },
		pages.About: func(env *pages.Env, _ pages.Route) (pages.Page, error) { return newAbout(env) },
	}
}

func newPage(env *pages.Env) *pages.Base {
	u := env.Units()
	column := kit.Stack(6, kit.Row(0, kit.NewLink(lang.L("About Twinloaf: version, libraries, licences"), func() { env.Go(pages.Route{Name: pages.About}) })))
	for _, c := range chapters(u) {
		part := kit.Stack(1.5, kit.Subheading(c.title))
		for _, s := range c.sentences {
			part.Add(prose(s))
		}
		column.Add(part)
	}
	column.Add(kit.Stack(6, kit.Heading(lang.L("What the figures rest on")), showGrounds(grounds(u))))
	return &pages.Base{Name: lang.L("Help"), Body: kit.NewPage(kit.PageOptions{
		Eyebrow: lang.L("Help"), Heading: lang.L("How things are counted here"), Body: column, MaxWidth: proseWidth,
		Hint: kit.NewKeyHint("F1", lang.L("every key")),
	})}
}

// proseWidth keeps a line of the help to 70 letters.
const proseWidth = 430

// prose is a sentence to be read.
func prose(s string) *kit.Text { return kit.NewText(kit.Span{Text: s, Size: look.TextLead}) }
