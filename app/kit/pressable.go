package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
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
