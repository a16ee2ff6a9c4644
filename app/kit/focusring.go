package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"twinloaf/app/look"
)

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
