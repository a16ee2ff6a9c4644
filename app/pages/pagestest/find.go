package pagestest

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// All lists the widgets of one type that are visible below an object, in the
// order in which they are drawn.
func All[T fyne.CanvasObject](o fyne.CanvasObject) []T {
	if o == nil || !o.Visible() {
		return nil
	}
	var out []T
	if w, ok := o.(T); ok {
		out = append(out, w)
	}
	switch o := o.(type) {
	case *fyne.Container:
		for _, child := range o.Objects {
			out = append(out, All[T](child)...)
		}
	case fyne.Widget:
		for _, child := range test.WidgetRenderer(o).Objects() {
			out = append(out, All[T](child)...)
		}
	}
	return out
}

// A Field is one that is typed in.
type Field interface {
	Entry() fyne.Focusable
}

// Type replaces what is in a field by typing, and leaves the cursor there.
func (b *Bench) Type(f Field, text string) {
	b.t.Helper()
	c := b.Window.Canvas()
	c.Focus(f.Entry())
	if e, ok := f.Entry().(fyne.Shortcutable); ok {
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	for _, r := range text {
		c.Focused().TypedRune(r)
	}
}

// Leave takes the cursor out of whatever field it is in.
func (b *Bench) Leave() { b.Window.Canvas().Unfocus() }
