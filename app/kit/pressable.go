package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// pressable is what everything that is pressed shares: it is pressed by a tap, by
// Enter and by Space, knows whether the pointer or the keyboard is on it, and hands
// every other key on to the page.
type pressable struct {
	self             fyne.Widget // the widget that embeds it
	press            func()
	hovered, focused bool
}

// Tapped presses, and takes the keyboard.
func (p *pressable) Tapped(*fyne.PointEvent) {
	focusOn(p.self.(fyne.Focusable))
	p.press()
}

func (p *pressable) FocusGained() { p.focused = true; p.self.Refresh(); reveal(p.self) }

func (p *pressable) FocusLost() { p.focused = false; p.self.Refresh() }

// TypedKey presses on Enter and Space.
func (p *pressable) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		ByKey(p.self, p.press)
	default:
		PassKey(p.self, ev)
	}
}

// TypedRune hands the character on to the page.
func (p *pressable) TypedRune(r rune) { PassRune(p.self, r) }

func (p *pressable) MouseIn(*desktop.MouseEvent) { p.hovered = true; p.self.Refresh() }

func (p *pressable) MouseMoved(*desktop.MouseEvent) {}

func (p *pressable) MouseOut() { p.hovered = false; p.self.Refresh() }

// Cursor is a pointing hand.
func (p *pressable) Cursor() desktop.Cursor { return desktop.PointerCursor }
