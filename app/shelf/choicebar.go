package shelf

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/charts"
)

// choiceBar is one choice of a facet: its name, how many bakes are left with it, and
// a bar as long as their share of what is seen. A tap, Enter or Space chooses it.
type choiceBar struct {
	widget.BaseWidget
	tapped func()
	// came is told when the bar has the keyboard, so that it is brought into sight.
	came func()
	// step moves the keyboard by so many of the facet's bars.
	step func(by int)

	name, count      string
	mark             *charts.SeriesStyle // before the name; nil for none
	part             float32             // of the greatest, 0 to 1
	chosen           bool
	hovered, focused bool
}

func newChoiceBar(tapped func()) *choiceBar {
	c := &choiceBar{tapped: tapped}
	c.ExtendBaseWidget(c)
	return c
}

// set shows another choice. It is cheap when nothing changed.
func (c *choiceBar) set(name, count string, part float32, chosen bool) {
	if c.name == name && c.count == count && c.part == part && c.chosen == chosen {
		return
	}
	c.name, c.count, c.part, c.chosen = name, count, part, chosen
	c.Refresh()
}

// setMark puts a mark before the name, if it is one.
func (c *choiceBar) setMark(l charts.SeriesStyle, is bool) {
	switch {
	case !is:
		c.mark = nil
	case c.mark == nil || *c.mark != l:
		c.mark = &l
	default:
		return
	}
	c.Refresh()
}

// Tapped chooses.
func (c *choiceBar) Tapped(*fyne.PointEvent) { c.tapped() }

func (c *choiceBar) FocusGained() {
	c.focused = true
	c.Refresh()
	if c.came != nil {
		c.came()
	}
}

func (c *choiceBar) FocusLost() { c.focused = false; c.Refresh() }

// TypedKey chooses on Enter and Space, moves to another bar with the arrows, and hands the
// rest on to the page.
func (c *choiceBar) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyDown:
		c.step(1)
	case fyne.KeyUp:
		c.step(-1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		c.tapped()
	default:
		if cv := fyne.CurrentApp().Driver().CanvasForObject(c); cv != nil && cv.OnTypedKey() != nil {
			cv.OnTypedKey()(ev)
		}
	}
}

// TypedRune hands the character on to the page.
func (c *choiceBar) TypedRune(r rune) {
	if r == ' ' {
		return
	}
	if cv := fyne.CurrentApp().Driver().CanvasForObject(c); cv != nil && cv.OnTypedRune() != nil {
		cv.OnTypedRune()(r)
	}
}

func (c *choiceBar) MouseIn(*desktop.MouseEvent) { c.hovered = true; c.Refresh() }

func (c *choiceBar) MouseMoved(*desktop.MouseEvent) {}

func (c *choiceBar) MouseOut() { c.hovered = false; c.Refresh() }

// Cursor is a pointing hand.
func (c *choiceBar) Cursor() desktop.Cursor { return desktop.PointerCursor }

func (c *choiceBar) CreateRenderer() fyne.WidgetRenderer {
	r := &choiceBarRenderer{c: c, name: kit.NewElided(kit.Span{}), mark: kit.NewMark(charts.SeriesStyle{}, kit.MarkSide), count: kit.NewLine(),
		back: canvas.NewRectangle(color.Transparent), bar: canvas.NewRectangle(color.Transparent), ring: canvas.NewRectangle(color.Transparent)}
	r.back.CornerRadius, r.bar.CornerRadius, r.ring.CornerRadius = barHeight/2, barHeight/2, look.Radius
	r.Refresh()
	return r
}

type choiceBarRenderer struct {
	c               *choiceBar
	name            *kit.Elided
	mark            *kit.Mark
	count           *kit.Text
	back, bar, ring *canvas.Rectangle
}

const barHeight = 4

func (r *choiceBarRenderer) Destroy() {}
func (r *choiceBarRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ring, r.mark, r.name, r.count, r.back, r.bar}
}
func (r *choiceBarRenderer) MinSize() fyne.Size { return fyne.NewSize(look.Space(30), look.Space(8)) }

func (r *choiceBarRenderer) Layout(size fyne.Size) {
	count := r.count.MinSize()
	kit.Put(r.count, fyne.NewPos(size.Width-count.Width, 0), count)
	left := float32(0)
	if r.c.mark != nil {
		left = kit.MarkSide + look.Space(2)
		kit.Put(r.mark, fyne.NewPos(0, (count.Height-kit.MarkSide)/2), r.mark.MinSize())
	}
	kit.Put(r.name, fyne.NewPos(left, 0), fyne.NewSize(max(0, size.Width-left-count.Width-look.Space(2)), count.Height))
	y := count.Height + look.Space(0.75)
	kit.Put(r.back, fyne.NewPos(0, y), fyne.NewSize(size.Width, barHeight))
	r.bar.Move(fyne.NewPos(0, y))
	w := size.Width * r.c.part
	if r.c.part > 0 {
		w = max(w, barHeight)
	}
	r.bar.Resize(fyne.NewSize(w, barHeight))
	kit.Put(r.ring, fyne.NewPos(-5, -2), size.Add(fyne.NewSize(10, 2)))
}

func (r *choiceBarRenderer) Refresh() {
	c := r.c
	if r.mark.Hidden = c.mark == nil; c.mark != nil {
		r.mark.SetLook(*c.mark)
	}
	r.name.SetSpan(kit.Span{Text: c.name, Bold: c.chosen})
	r.count.SetSpans(kit.Span{Text: c.count, Color: look.ColorFaint})
	r.back.FillColor = theme.Color(look.ColorRule)
	r.bar.FillColor = theme.Color(look.ColorEdge)
	if c.chosen {
		r.bar.FillColor = theme.Color(look.ColorCrust)
	}
	r.ring.FillColor, r.ring.StrokeColor, r.ring.StrokeWidth = color.Transparent, color.Transparent, 0
	if c.hovered {
		r.ring.FillColor = theme.Color(look.ColorWash)
	}
	if c.focused {
		r.ring.StrokeColor, r.ring.StrokeWidth = theme.Color(look.ColorCrust), 2
	}
	for _, o := range []*canvas.Rectangle{r.back, r.bar, r.ring} {
		o.Refresh()
	}
	r.name.Refresh()
	r.Layout(c.Size())
}
