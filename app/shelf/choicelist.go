package shelf

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/charts"
	"twinloaf/journal/shelf"
)

// fewChoices is how many choices a facet shows before it is opened.
const fewChoices = 5

// choiceList is a facet of named choices. Its bars stay the same while the filter
// changes, so that the keyboard keeps its place.
type choiceList struct {
	whole  *kit.Opening // what is shown of it
	box    *fyne.Container
	title  fyne.CanvasObject
	more   *kit.Link
	bars   map[string]*choiceBar
	open   bool
	choose func(key string)
	// mark is the mark of a choice; nil where they have none.
	mark func(key string) (charts.SeriesStyle, bool)
	// under gives what stands below a chosen bar; nil for nothing.
	under func(key string) fyne.CanvasObject
	again func() // shows the list anew
	// reveal brings a bar into sight.
	reveal func(*choiceBar)
	// said is the choices as they are offered, for tests.
}

func newChoiceList(title string, choose func(key string), again func()) *choiceList {
	l := &choiceList{box: kit.Stack(0.5), title: heading(title), bars: map[string]*choiceBar{}, choose: choose, again: again}
	l.more = kit.NewLink("", func() {
		l.open = !l.open
		l.whole.Grow(l.again)
	})
	l.whole = kit.NewOpening(l.box)
	return l
}

// heading is the small bold title of a facet.
func heading(s string) fyne.CanvasObject { return kit.Stack(1, kit.Strong(s), kit.Gap(0)) }

// show offers choices under their names. A choice is measured against the greatest.
func (l *choiceList) show(choices []shelf.Choice, name func(key string) string, count func(n int) string) {
	greatest := 1
	for _, c := range choices {
		greatest = max(greatest, c.N)
	}
	shown := choices
	if !l.open {
		few := fewChoices
		for few < len(choices) && choices[few].Chosen {
			few++ // what is chosen is never folded away
		}
		shown = choices[:min(len(choices), few)]
	}
	l.box.Objects = []fyne.CanvasObject{l.title}
	for _, c := range shown {
		bar, ok := l.bars[c.Key]
		if !ok {
			bar = newChoiceBar(func() { l.choose(c.Key) })
			bar.came = func() { l.reveal(bar) }
			bar.step = func(by int) { l.step(bar, by) }
			l.bars[c.Key] = bar
		}
		if l.mark != nil {
			bar.setMark(l.mark(c.Key))
		}
		bar.set(name(c.Key), count(c.N), float32(c.N)/float32(greatest), c.Chosen)
		l.box.Add(bar)
		if c.Chosen && l.under != nil {
			if o := l.under(c.Key); o != nil {
				l.box.Add(o)
			}
		}
	}
	if rest := len(choices) - len(shown); rest > 0 {
		l.more.SetText(lang.L("{{.N}} more", map[string]any{"N": rest}))
		l.box.Add(kit.Row(0, l.more))
	} else if l.open && len(choices) > fewChoices {
		l.more.SetText(lang.L("fewer"))
		l.box.Add(kit.Row(0, l.more))
	}
	l.box.Refresh()
	l.whole.Refresh()
	kit.SetVisible(l.whole, len(choices) > 0)
}

// step moves the keyboard from a bar by a number of bars, at most to the ends.
func (l *choiceList) step(from *choiceBar, by int) {
	var bars []*choiceBar
	at := 0
	for _, o := range l.box.Objects {
		if bar, ok := o.(*choiceBar); ok {
			if bar == from {
				at = len(bars)
			}
			bars = append(bars, bar)
		}
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(from); c != nil {
		c.Focus(bars[max(0, min(at+by, len(bars)-1))])
	}
}
