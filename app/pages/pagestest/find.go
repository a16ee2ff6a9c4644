package pagestest

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/outline"
	"twinloaf/journal"
)

// All lists the widgets of one type that are visible below an object, in the
// order in which they are drawn.
func All[T fyne.CanvasObject](o fyne.CanvasObject) (out []T) {
	Each(o, func(o fyne.CanvasObject) {
		if w, ok := o.(T); ok {
			out = append(out, w)
		}
	})
	return out
}

// Each calls fn with an object and everything that is visible below it, in the order in
// which they are drawn.
func Each(o fyne.CanvasObject, fn func(fyne.CanvasObject)) {
	if o == nil || !o.Visible() {
		return
	}
	fn(o)
	var below []fyne.CanvasObject
	switch o := o.(type) {
	case *fyne.Container:
		below = o.Objects
	case fyne.Widget:
		below = test.WidgetRenderer(o).Objects()
	}
	for _, child := range below {
		Each(child, fn)
	}
}

// Texts is everything that the window says, a line for each text.
func (b *Bench) Texts() string {
	return strings.ReplaceAll(strings.Join(outline.Texts(outline.Of(b.Window)), "\n"), " \n", " ")
}

// Stored reads a record as it is in the file, what was typed committed. Call it outside a
// change: it waits for the one that is being made.
func Stored[T any, R journal.Record[T]](b *Bench, id journal.ID) R {
	b.t.Helper()
	if err := b.Journal.Flush(); err != nil {
		b.t.Fatal(err)
	}
	r, err := journal.Get[T, R](b.Journal, id)
	if err != nil {
		b.t.Fatal(err)
	}
	return r
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
