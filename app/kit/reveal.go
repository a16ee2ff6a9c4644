package kit

import (
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/look"
)

// revealLater is how long a widget that was just made may take to get its place.
const revealLater = 80 * time.Millisecond

// reveal scrolls the page in the window so that what has the keyboard is in sight.
// One that has no place yet is looked for again a moment later.
func reveal(o fyne.CanvasObject) {
	f := FrameOf(o)
	if f == nil || canvasOf(o).Overlays().Top() != nil {
		return
	}
	p := pageIn(f.content)
	if p == nil || p.fixed || p.reveal(o) {
		return
	}
	f.After(revealLater, func() {
		if has, ok := o.(fyne.Focusable); ok && canvasOf(o) != nil && canvasOf(o).Focused() == has {
			p.reveal(o)
		}
	})
}

// pageIn finds the page that a frame shows.
func pageIn(o fyne.CanvasObject) *Page {
	switch o := o.(type) {
	case *Page:
		return o
	case *fyne.Container:
		for _, child := range visible(o.Objects) {
			if p := pageIn(child); p != nil {
				return p
			}
		}
	}
	return nil
}

// reveal scrolls just as far as brings o into sight. It reports whether it could:
// false means that o has no place, or the page is not as long yet.
func (p *Page) reveal(o fyne.CanvasObject) bool {
	d := fyne.CurrentApp().Driver()
	top := d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(p.scroll).Y
	height, view := o.Size().Height, p.scroll.Size().Height
	if height <= 0 || view <= 0 {
		return false
	}
	rim := look.Space(12)
	to := p.scroll.Offset.Y
	switch {
	case height+2*rim > view: // taller than the view: its top counts
		to += top - rim
	case top < rim:
		to += top - rim
	case top+height > view-rim:
		to += top + height - view + rim
	default:
		return true
	}
	to = max(0, to)
	most := p.scroll.Content.Size().Height - view
	if to != p.scroll.Offset.Y {
		p.ScrollTo(min(to, max(0, most)))
	}
	return to <= most
}
