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
	page := kit.NewPage(kit.PageOptions{
		Eyebrow: lang.L("Help"), Heading: lang.L("How things are counted here"), MaxWidth: 2*proseWidth + columnGap,
		Hint: kit.NewKeyHint("F1", lang.L("every key")),
	})
	contents, column := kit.Flow(5), kit.Stack(6)
	for _, c := range chapters(u) {
		part := kit.Stack(1.5, kit.Subheading(c.title))
		for _, s := range c.sentences {
			part.Add(prose(s))
		}
		column.Add(part)
		contents.Add(kit.NewLink(c.title, func() { page.ScrollToPart(part) }))
	}
	rest := kit.Stack(6, kit.Heading(lang.L("What the figures rest on")), showGrounds(grounds(u)))
	contents.Add(kit.NewLink(lang.L("What the figures rest on"), func() { page.ScrollToPart(rest) }))
	contents.Add(kit.NewLink(lang.L("About Twinloaf: version, libraries, licences"), func() { env.Go(pages.Route{Name: pages.About}) }))
	page.SetBody(kit.Stack(5, contents, kit.Rule(), kit.Columns(proseLeast, column, rest)))
	return &pages.Base{Name: lang.L("Help"), Body: page}
}

// proseWidth keeps a line of the help to 70 letters; two columns stand side by side where
// each has room for 60.
const (
	proseWidth = 430
	proseLeast = 370
	columnGap  = 24
)

// prose is a sentence to be read.
func prose(s string) *kit.Text { return kit.NewText(kit.Span{Text: s, Size: look.TextLead}) }
