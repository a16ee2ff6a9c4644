package kit

import (
	"slices"

	"fyne.io/fyne/v2"
)

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
