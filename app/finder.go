package app

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/layout"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
)

// A findGroup is a kind of things that can be found.
type findGroup int

const (
	findAction findGroup = iota // what has no group of its own is something to do
	findPage
	findAhead
	findBake
	findCulture
	findFormula
	findTasting
	findFlour
)

func (g findGroup) title() string {
	switch g {
	case findPage:
		return lang.L("Pages")
	case findAhead:
		return lang.L("To come")
	case findBake:
		return lang.L("Bakes")
	case findCulture:
		return lang.L("Cultures")
	case findFormula:
		return lang.L("Formulas")
	case findTasting:
		return lang.L("Tastings")
	case findFlour:
		return lang.L("Flours")
	}
	return lang.L("What can be done")
}

// A foundGroup is answers of one kind, the best first.
type foundGroup struct {
	group   findGroup
	answers []found
}

// grouped puts the answers to a text, the best first, into their groups: that of the best answer
// comes first, so that the first row is what Enter opens; and before it what is to come, if
// that is called so too.
func grouped(text string, answers []found) []foundGroup {
	var out []foundGroup
	at := map[findGroup]int{}
	for _, a := range answers {
		i, ok := at[a.group]
		if !ok {
			i = len(out)
			at[a.group] = i
			out = append(out, foundGroup{group: a.group})
		}
		out[i].answers = append(out[i].answers, a)
	}
	if i, ok := at[findAhead]; ok && text != "" && strings.HasPrefix(strings.ToLower(out[i].answers[0].words), strings.ToLower(strings.TrimSpace(text))) {
		ahead := out[i]
		out = slices.Insert(slices.Delete(out, i, i+1), 0, ahead)
	}
	return out
}

// finder is the dialog that asks for a word and lists what holds it. The keyboard stays in
// the field; the arrows go along the rows, of which one is always lit.
type finder struct {
	w      *window
	dialog *kit.Dialog
	field  *kit.TextField
	all    []found
	rows   []*foundRow
	lit    int
	column *fyne.Container
	scroll *container.Scroll
}

// find asks for a word and goes to what is picked.
func (w *window) find() {
	if w.env.Window.Canvas().Overlays().Top() != nil {
		return
	}
	f := &finder{w: w, all: w.everything(), column: kit.Stack(0.5)}
	f.field = kit.NewTextField("", lang.L("a bake, a culture, a flour, a page, something to do"))
	f.field.OnChanged = f.show
	f.field.OnKey(f.key)
	f.field.OnEnter(f.open)
	f.scroll = container.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, 0, look.Space(4)), f.column)) // clear of the bar
	content := container.NewBorder(kit.Stack(3, f.field, kit.Gap(0)), kit.Rule(), nil, nil, f.scroll)
	f.dialog = kit.ShowDialog(w.win, kit.DialogOptions{Title: lang.L("Find anything"), Content: content, Width: 640, Height: 640, Passing: true,
		Aside: kit.Small(lang.L("Arrows choose · Enter opens · Esc leaves"))})
	f.field.OnEscape(f.dialog.Close)
	f.show("")
	f.field.Focus()
}

// show lists what a text finds, and lights the best.
func (f *finder) show(text string) {
	f.rows, f.lit, f.column.Objects = nil, 0, nil
	for i, g := range grouped(text, search(f.all, text)) {
		if i > 0 {
			f.column.Add(kit.Gap(2))
		}
		f.column.Add(kit.Section(g.group.title()))
		for _, a := range g.answers {
			f.add(a)
		}
		if g.group == findBake && text != "" {
			f.add(onTheShelf(text))
		}
	}
	if len(f.rows) == 0 {
		none := lang.L("Nothing here is called that.")
		if !slices.ContainsFunc(f.all, found.pictured) {
			none = lang.L("Nothing here is called that: nothing is written down yet. A culture or a bake is begun from Today.")
		}
		f.column.Add(kit.Faint(none))
	} else {
		f.rows[0].light(true)
	}
	f.column.Refresh()
	f.scroll.ScrollToTop()
}

// onTheShelf is the way to all bakes that hold a text.
func onTheShelf(text string) found {
	return found{words: lang.L("Look for “{{.Text}}” on the shelf", map[string]any{"Text": text}), link: true,
		place: pages.Route{Name: pages.Shelf, More: fmt.Sprintf(`look {"filter":{"text":%q}}`, text)}}
}

func (f *finder) add(a found) {
	r := newFoundRow(f.w.env.Thumbs, a, func() { f.take(a) })
	f.rows = append(f.rows, r)
	f.column.Add(r)
}

// key moves the light.
func (f *finder) key(ev *fyne.KeyEvent) bool {
	step := 0
	switch ev.Name {
	case fyne.KeyDown:
		step = 1
	case fyne.KeyUp:
		step = -1
	}
	if step == 0 || len(f.rows) == 0 {
		return false
	}
	f.rows[f.lit].light(false)
	f.lit = (f.lit + step + len(f.rows)) % len(f.rows)
	r := f.rows[f.lit]
	r.light(true)
	top, height := f.scroll.Offset.Y, f.scroll.Size().Height
	if f.lit == 0 {
		f.scroll.ScrollToTop()
	} else if y := r.Position().Y; y < top || y+r.Size().Height > top+height {
		f.scroll.ScrollToOffset(fyne.NewPos(0, max(0, y-height/2)))
	}
	return true
}

// open takes what is lit.
func (f *finder) open() {
	if len(f.rows) > 0 {
		kit.ByKey(f.field.Entry().(fyne.CanvasObject), f.rows[f.lit].take)
	}
}

func (f *finder) take(a found) {
	f.dialog.Close()
	if a.do != nil {
		a.do()
		return
	}
	f.w.Go(a.place)
}

// findPicture is how large the picture of an answer is.
var findPicture = fyne.NewSize(48, 36)

// findRowHeight is that of a row with a picture.
var findRowHeight = findPicture.Height + look.Space(3)
