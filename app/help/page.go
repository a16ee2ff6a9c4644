// Package help holds the page that says how things are counted, what the figures rest on,
// and what to be careful of, and the one about the program itself.
package help

import (
	"sort"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
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
		Eyebrow: lang.L("Help"), Heading: lang.L("How things are counted here"),
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
	page.SetBody(kit.Stack(5, contents, kit.Rule(), even(parts, letters), kit.Rule(), rest, even(showGrounds(grounds(u)))))
	return &pages.Base{Name: lang.L("Help"), Body: page}
}

// even sets parts in columns of readable width that end as alike as their letters allow.
func even(parts []fyne.CanvasObject, letters []int) fyne.CanvasObject {
	return container.New(&evenColumns{letters: letters}, parts...)
}

// A column holds 55 to 75 letters in a line.
const (
	columnLeast = 330
	columnGap   = 24
	partGap     = 24
)

// evenColumns remembers its width, from which its height follows.
type evenColumns struct {
	letters []int
	width   float32
}

func (l *evenColumns) MinSize(parts []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(columnLeast, l.run(parts, nil))
}

func (l *evenColumns) Layout(parts []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.run(parts, func(o fyne.CanvasObject, at fyne.Position, width float32) {
		kit.FitHeight(o, width)
		o.Move(at)
	})
}

// run goes through the parts in their order, begins the next column where the letters of one are
// reached, and gives the height of the highest; place may be nil.
func (l *evenColumns) run(parts []fyne.CanvasObject, place func(o fyne.CanvasObject, at fyne.Position, width float32)) float32 {
	var y, highest float32
	most, n := l.most(max(1, int((l.width+columnGap)/(columnLeast+columnGap))))
	width := (l.width - float32(n-1)*columnGap) / float32(n)
	column, in := 0, 0
	for i, o := range parts {
		if in += l.letters[i]; in > most {
			column, in, y = column+1, l.letters[i], 0
		}
		if place != nil {
			place(o, fyne.NewPos(float32(column)*(width+columnGap), y), width)
		}
		y += o.MinSize().Height + partGap
		highest = max(highest, y-partGap)
	}
	return highest
}

// most is the fewest letters that the longest of n columns can have, and how many columns they
// fill then.
func (l *evenColumns) most(n int) (letters, columns int) {
	all, least := 0, 0
	for _, k := range l.letters {
		all, least = all+k, max(least, k)
	}
	fill := func(most int) int {
		columns, in := 1, 0
		for _, k := range l.letters {
			if in += k; in > most {
				columns, in = columns+1, k
			}
		}
		return columns
	}
	letters = least + sort.Search(all-least, func(more int) bool { return fill(least+more) <= n })
	return letters, fill(letters)
}

// prose is a sentence to be read.
func prose(s string) *kit.Text { return kit.NewText(kit.Span{Text: s, Size: look.TextLead}) }
