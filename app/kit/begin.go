package kit

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Beginning stands before everything that Tab goes through. While nothing has the
// keyboard it is where the first Tab comes to, and hands it on to where the work of the
// page begins: not to whatever happens to be drawn first. At other times Tab passes it.
type Beginning struct {
	widget.BaseWidget
	gate  *gate
	start func() fyne.Focusable
}

// NewBeginning makes a beginning; start gives what the first Tab goes to, or nil: it then
// goes to the first thing behind the gate, which is put before the page.
func NewBeginning(start func() fyne.Focusable) (b *Beginning, gate fyne.CanvasObject) {
	b = &Beginning{start: start, gate: newGate()}
	b.ExtendBaseWidget(b)
	return b, b.gate
}

// FocusGained hands the keyboard on.
func (b *Beginning) FocusGained() {
	c := canvasAt(b)
	if c == nil {
		return
	}
	if to := b.start(); to != nil {
		if c.Focus(to); c.Focused() == to {
			return
		}
	}
	b.gate.open = true
	c.Focus(b.gate)
	c.FocusNext()
	b.gate.open = false
}

// Disabled has Tab pass it while something has the keyboard.
func (b *Beginning) Disabled() bool {
	c := canvasOf(b)
	return c != nil && c.Focused() != nil && c.Focused() != fyne.Focusable(b)
}

// Enable and Disable do nothing: what Disabled says follows from the keyboard.
func (b *Beginning) Enable()                    {}
func (b *Beginning) Disable()                   {}
func (b *Beginning) FocusLost()                 {}
func (b *Beginning) TypedRune(r rune)           { PassRune(b, r) }
func (b *Beginning) TypedKey(ev *fyne.KeyEvent) { PassKey(b, ev) }
func (b *Beginning) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(Gap(0))
}

// gate is a place in the order of Tab that is only gone through on purpose.
type gate struct {
	widget.BaseWidget
	open bool
}

func newGate() *gate {
	g := &gate{}
	g.ExtendBaseWidget(g)
	return g
}

func (g *gate) Disabled() bool                      { return !g.open }
func (g *gate) Enable()                             {}
func (g *gate) Disable()                            {}
func (g *gate) FocusGained()                        {}
func (g *gate) FocusLost()                          {}
func (g *gate) TypedRune(rune)                      {}
func (g *gate) TypedKey(*fyne.KeyEvent)             {}
func (g *gate) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(Gap(0)) }

// ByKey says whether what is done now was asked for by a key, rather than with the
// pointer: a page that is reached by a key has the keyboard where its work begins.
func (f *Frame) ByKey() bool { return f.byKey }

// ByKey does something that a key asks for which was pressed on a thing.
func ByKey(o fyne.CanvasObject, do func()) {
	if c := canvasAt(o); c != nil {
		byKey(c, do)
		return
	}
	do()
}

// canvasAt is the canvas of a thing that has the keyboard. Fyne knows none of a thing that was not
// drawn yet, or for a minute: then it is the one whose keyboard is on it.
func canvasAt(o fyne.CanvasObject) fyne.Canvas {
	if c := canvasOf(o); c != nil {
		return c
	}
	for _, w := range fyne.CurrentApp().Driver().AllWindows() {
		if has, ok := w.Canvas().Focused().(fyne.CanvasObject); ok && has == o {
			return w.Canvas()
		}
	}
	return nil
}

func byKey(c fyne.Canvas, do func()) {
	if f, ok := c.Content().(*Frame); ok {
		f.byKey = true
		defer func() { f.byKey = false }()
	}
	do()
}

// scrollKeys are how far a key scrolls: in heights of the view, and in points.
var scrollKeys = map[fyne.KeyName]struct{ views, points float32 }{
	fyne.KeyPageDown: {views: 0.9}, fyne.KeyPageUp: {views: -0.9},
	fyne.KeyDown: {points: 60}, fyne.KeyUp: {points: -60},
	fyne.KeyHome: {points: -1e6}, fyne.KeyEnd: {points: 1e6},
}

// ScrollPage scrolls the page that is shown as a key asks: Page up and down, the arrows,
// Home and End. It reports false for a page that leaves this to its list, and for another
// key.
func (f *Frame) ScrollPage(key fyne.KeyName) bool {
	s := scrollIn(f.content)
	return s != nil && scrollBy(s, key)
}

func scrollBy(s *container.Scroll, key fyne.KeyName) bool {
	by, ok := scrollKeys[key]
	if !ok {
		return false
	}
	most := max(0, s.Content.Size().Height-s.Size().Height)
	to := s.Offset.Y + by.views*s.Size().Height + by.points
	s.ScrollToOffset(fyne.NewPos(s.Offset.X, max(0, min(to, most))))
	return true
}

// scrollIn finds what scrolls the page that a thing holds; nil where a list does.
func scrollIn(o fyne.CanvasObject) *container.Scroll {
	switch o := o.(type) {
	case *Page:
		if o.fixed {
			return nil
		}
		return o.scroll
	case *container.Scroll:
		return o
	case *fyne.Container:
		for _, child := range visible(o.Objects) {
			if s := scrollIn(child); s != nil {
				return s
			}
		}
	}
	return nil
}

// keepFocus changes what a part of the window holds. If the keyboard was on something in it
// that goes, what stands in its place has it from then on. Rows of lists keep their place
// themselves.
func keepFocus(part *fyne.Container, change func()) {
	c, at := focusIn(part)
	change()
	now := within[fyne.Focusable](part)
	if c != nil && len(now) > 0 && !slices.Contains(now, c.Focused()) {
		c.Focus(now[min(at, len(now)-1)])
	}
}

// focusIn is the canvas whose keyboard is on a thing in a part, and which of those it is;
// nil where there is none. Fyne is not asked whose canvas the part is on: see [canvasAt].
func focusIn(part fyne.CanvasObject) (c fyne.Canvas, at int) {
	all := within[fyne.Focusable](part)
	if len(all) == 0 {
		return nil, -1
	}
	for _, w := range fyne.CurrentApp().Driver().AllWindows() {
		if at = slices.Index(all, w.Canvas().Focused()); at >= 0 {
			return w.Canvas(), at
		}
	}
	return nil, -1
}
