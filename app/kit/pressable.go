package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// Pressable is what everything that is pressed shares: it is pressed by a tap, by
// Enter and by Space, knows whether the pointer or the keyboard is on it, and hands
// every other key on to the page.
type Pressable struct {
	self             fyne.Widget // the widget that embeds it
	press            func()
	hovered, focused bool
}

// NewPressable makes one for a widget that embeds it; press is what pressing it does.
func NewPressable(self fyne.Widget, press func()) Pressable {
	return Pressable{self: self, press: press}
}

// Press does what pressing does.
func (p *Pressable) Press() { p.press() }

// Hovered says whether the pointer is on it.
func (p *Pressable) Hovered() bool { return p.hovered }

// Focused says whether it has the keyboard.
func (p *Pressable) Focused() bool { return p.focused }

// Tapped presses, and takes the keyboard.
func (p *Pressable) Tapped(*fyne.PointEvent) {
	focusOn(p.self.(fyne.Focusable))
	p.press()
}

func (p *Pressable) FocusGained() { p.focused = true; p.self.Refresh(); reveal(p.self) }

func (p *Pressable) FocusLost() { p.focused = false; p.self.Refresh() }

// TypedKey presses on Enter and Space.
func (p *Pressable) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		ByKey(p.self, p.press)
	default:
		PassKey(p.self, ev)
	}
}

func (p *Pressable) TypedRune(r rune) { PassRune(p.self, r) }

func (p *Pressable) MouseIn(*desktop.MouseEvent) { p.hovered = true; p.self.Refresh() }

func (p *Pressable) MouseMoved(*desktop.MouseEvent) {}

func (p *Pressable) MouseOut() { p.hovered = false; p.self.Refresh() }

func (p *Pressable) Cursor() desktop.Cursor { return desktop.PointerCursor }

// TargetSide is the least height of what can be pressed, for a floury hand.
var TargetSide = look.Space(8)

// reach lies unseen over a word that is pressed and reaches beyond it, up and down, so
// that a word in a line of text is as easy to hit as a button. Fyne looks for what the
// pointer is on among the parts of a widget, wherever they lie.
type reach struct {
	widget.BaseWidget
	pressed
}

// pressed is what a reach hands the pointer on to.
type pressed interface {
	fyne.Tappable
	desktop.Hoverable
	desktop.Cursorable
}

func newReach(of pressed) *reach {
	r := &reach{pressed: of}
	r.ExtendBaseWidget(r)
	return r
}

// place lays it over a widget of the given size.
func (r *reach) place(size fyne.Size) {
	h := max(size.Height, TargetSide)
	Put(r, fyne.NewPos(0, (size.Height-h)/2), fyne.NewSize(size.Width, h))
}

func (r *reach) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewWithoutLayout())
}

const (
	ringWidth = 2
	ringGap   = 2
	ringReach = ringWidth + ringGap // how far it lies outside what it surrounds
)

// FocusRing is the one sign of where the keyboard is: two points of solid colour, with
// a gap of two points to what they surround. Its contrast to the page is that of text,
// far above the 3 to 1 of the Web Content Accessibility Guidelines 2.2, success
// criterion 1.4.11, W3C 2023.
type FocusRing struct{ rect *canvas.Rectangle }

// NewFocusRing makes a ring that is not shown. Radius is the roundness of what it
// surrounds.
func NewFocusRing(radius float32) FocusRing {
	r := FocusRing{canvas.NewRectangle(color.Transparent)}
	r.rect.CornerRadius = radius + ringReach
	r.rect.StrokeWidth = ringWidth
	r.rect.Hide()
	return r
}

// Object is what a renderer draws, under what the ring surrounds.
func (r FocusRing) Object() fyne.CanvasObject { return r.rect }

// around places the ring around a part of its widget.
func (r FocusRing) around(at fyne.Position, size fyne.Size) {
	Put(r.rect, at.SubtractXY(ringReach, ringReach), size.AddWidthHeight(2*ringReach, 2*ringReach))
}

// Within places the ring inside a widget whose surroundings may be cut off.
func (r FocusRing) Within(size fyne.Size) {
	Put(r.rect, fyne.NewPos(0, 0), size)
	r.rect.CornerRadius = look.Radius
}

// Show shows the ring of a widget, or takes it away.
func (r FocusRing) Show(of fyne.Widget, yes bool) {
	if !yes {
		SetVisible(r.rect, false)
		return
	}
	c := theme.Color(focusColor(of))
	r.rect.StrokeColor, r.rect.FillColor = c, clearOf(c)
	SetVisible(r.rect, true)
	r.rect.Refresh()
}

// focusColor names the colour that tells where the keyboard is: ink while the window
// shows a sealed tasting, in which nothing has a colour.
func focusColor(of fyne.CanvasObject) fyne.ThemeColorName {
	if c := canvasAt(of); c != nil {
		if f, ok := c.Content().(*Frame); ok && f.inkOnly {
			return look.ColorInk
		}
	}
	return look.ColorFocus
}
