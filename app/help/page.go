// Package help holds the page that says how things are counted, what the figures rest on,
// and what to be careful of, and the one about the program itself.
package help

import (
	"fyne.io/fyne/v2"
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
		Eyebrow: lang.L("Help"), Heading: lang.L("How things are counted here"), Measure: 2*proseWidth + columnGap,
		Hint: kit.NewKeyHint("F1", lang.L("every key")),
	})
	contents := kit.Flow(5)
	var parts []fyne.CanvasObject
	var letters []int
	for _, c := range chapters(u) {
		part := kit.Stack(1.5, kit.Subheading(c.title))
		long := 0
		for _, s := range c.sentences {
			part.Add(prose(s))
			long += len(s)
		}
		parts, letters = append(parts, part), append(letters, long)
		contents.Add(kit.NewLink(c.title, func() { page.ScrollToPart(part) }))
	}
	rest := kit.Heading(lang.L("What the figures rest on"))
	contents.Add(kit.NewLink(lang.L("What the figures rest on"), func() { page.ScrollToPart(rest) }))
	contents.Add(kit.NewLink(lang.L("About Twinloaf: version, libraries, licences"), func() { env.Go(pages.Route{Name: pages.About}) }))
	page.SetBody(kit.Stack(5, contents, kit.Rule(), halves(parts, letters), kit.Rule(), rest, halves(showGrounds(grounds(u)))))
	return &pages.Base{Name: lang.L("Help"), Body: page}
}

// halves sets parts in two columns that end alike: the first has half of the letters, or the
// part more or less that comes nearest.
func halves(parts []fyne.CanvasObject, letters []int) fyne.CanvasObject {
	all, first, n := 0, 0, 0
	for _, l := range letters {
		all += l
	}
	for n < len(parts) && 2*first+letters[n] <= all {
		first += letters[n]
		n++
	}
	return kit.Columns(proseLeast, kit.Stack(6, parts[:n]...), kit.Stack(6, parts[n:]...))
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
