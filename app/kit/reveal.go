package kit

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/look"
)

// What was just made has no place until it is drawn: it is looked for again, a few
// times, this long after one another.
const (
	revealLater = 80 * time.Millisecond
	revealTries = 10
)

// reveal scrolls the page in the window so that what has the keyboard is in sight.
func reveal(o fyne.CanvasObject) {
	c := canvasOf(o)
	if c == nil { // not drawn yet: it is in the window that has a page
		for _, w := range fyne.CurrentApp().Driver().AllWindows() {
			if f, ok := w.Canvas().Content().(*Frame); ok {
				f.revealSoon(o, revealTries, f.arriving)
			}
		}
		return
	}
	f := frameOf(o)
	if f == nil || c.Overlays().Top() != nil {
		return
	}
	if f.arriving || !f.reveal(o, false) {
		f.revealSoon(o, revealTries, f.arriving)
	}
}

// Arrive gives the keyboard to where a page begins that was just come to, if that is in sight:
// the page shows its heading first, and nothing that nobody sees is to be pressed. Where it
// is not, the first Tab goes there; but a field to type in is brought into sight.
func (f *Frame) Arrive(b *Beginning, c fyne.Canvas) {
	f.arriving = true
	defer func() { f.arriving = false }()
	c.Focus(b)
}

// RevealFocused scrolls the page so far that what has the keyboard is in sight: for a page
// on which something came that pushed it out of sight.
func RevealFocused(c fyne.Canvas) {
	if o, ok := c.Focused().(fyne.CanvasObject); ok {
		reveal(o)
	}
}

// reveal reports whether there is nothing left to do: what is in a page that does not
// scroll, or has its place, needs no other look.
func (f *Frame) reveal(o fyne.CanvasObject, arriving bool) bool {
	p := pageIn(f.content)
	return p == nil || p.fixed || p.reveal(o, arriving)
}

func (f *Frame) revealSoon(o fyne.CanvasObject, tries int, arriving bool) {
	f.After(revealLater, func() {
		c := canvasOf(o)
		if has, ok := o.(fyne.Focusable); c != nil && (!ok || c.Focused() != has) {
			return // the keyboard has gone elsewhere
		}
		if (c == nil || !f.reveal(o, arriving)) && tries > 1 {
			f.revealSoon(o, tries-1, arriving)
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

// reveal scrolls just as far as brings o into sight, or, on a page that is being come to, takes
// the keyboard from what is out of sight. It reports whether it could: false means that o
// has no place, or the page is not as long yet.
func (p *Page) reveal(o fyne.CanvasObject, arriving bool) bool {
	if f, ok := o.(fyne.Focusable); ok && slices.Contains(within[fyne.Focusable](p.foot), f) {
		return true // the foot is always in sight
	}
	d := fyne.CurrentApp().Driver()
	top := d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(p.scroll).Y
	height, view := o.Size().Height, p.scroll.Size().Height
	if height <= 0 || view <= 0 {
		return false
	}
	rim := look.Space(12)
	to := p.scroll.Offset.Y
	if _, typed := o.(*entry); arriving && to == 0 && !typed {
		if c := canvasOf(o); c != nil && top+min(height, view/2)+ringReach > view {
			c.Unfocus()
		}
		return true
	}
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

// revealPart scrolls just as far as brings a part of o into sight: height from y on.
func (p *Page) revealPart(o fyne.CanvasObject, y, height float32) {
	d := fyne.CurrentApp().Driver()
	top := y + d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(p.scroll).Y
	view, rim, to := p.scroll.Size().Height, look.Space(6), p.scroll.Offset.Y
	switch {
	case view <= height+2*rim:
		return
	case top < rim:
		to += top - rim
	case top+height > view-rim:
		to += top + height - view + rim
	default:
		return
	}
	p.ScrollTo(min(max(0, to), max(0, p.scroll.Content.Size().Height-view)))
}
