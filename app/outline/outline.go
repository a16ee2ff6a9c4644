// Package outline tells what a window shows: each text and each widget with
// its place, as a person with a mouse would find it. Tests use it to tap what they
// read, both through Fyne's test driver and in the real window.
package outline

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
)

// A Thing is something that a window shows.
type Thing struct {
	// Kind is the type of the widget, or "text" for a piece of text.
	Kind string `json:"kind"`
	Text string `json:"text,omitempty"`
	// Tip is what pointing at the widget tells.
	Tip string `json:"tip,omitempty"`
	// X, Y, W and H are in points, from the upper left corner of the window.
	X, Y, W, H float32
	// Clipped marks what is scrolled out of sight.
	Clipped bool `json:"clipped,omitempty"`
	Focused bool `json:"focused,omitempty"`
}

// Of lists what a window shows, in the order in which it is drawn, with what
// lies over the window last. Call it on the main goroutine.
func Of(w fyne.Window) []Thing {
	c := w.Canvas()
	var out []Thing
	all := rect{0, 0, c.Size().Width, c.Size().Height}
	walk(c.Content(), c, fyne.NewPos(0, 0), all, &out)
	for _, o := range c.Overlays().List() {
		walk(o, c, fyne.NewPos(0, 0), all, &out)
	}
	return out
}

type rect struct{ x, y, x2, y2 float32 }

func (r rect) cut(x, y, w, h float32) rect {
	return rect{max(r.x, x), max(r.y, y), min(r.x2, x+w), min(r.y2, y+h)}
}

func walk(o fyne.CanvasObject, c fyne.Canvas, at fyne.Position, clip rect, out *[]Thing) {
	if o == nil || !o.Visible() {
		return
	}
	at = at.Add(o.Position())
	size := o.Size()
	seen := clip.cut(at.X, at.Y, size.Width, size.Height)
	thing := Thing{X: at.X, Y: at.Y, W: size.Width, H: size.Height, Clipped: seen.x >= seen.x2 || seen.y >= seen.y2}
	switch o := o.(type) {
	case *canvas.Text:
		if o.Text != "" {
			thing.Kind, thing.Text = "text", o.Text
			*out = append(*out, thing)
		}
	case *fyne.Container:
		for _, child := range o.Objects {
			walk(child, c, at, clip, out)
		}
	case fyne.Widget:
		thing.Kind = strings.TrimPrefix(fmt.Sprintf("%T", o), "*")
		if f, ok := o.(fyne.Focusable); ok {
			thing.Focused = c.Focused() == f
		}
		if t, ok := o.(interface{ Tip() string }); ok {
			thing.Tip = t.Tip()
		}
		*out = append(*out, thing)
		if _, ok := o.(*container.Scroll); ok {
			clip = seen
		}
		for _, child := range test.WidgetRenderer(o).Objects() {
			walk(child, c, at, clip, out)
		}
	}
}

// Find gives the first thing in sight whose text is, or else begins with, else
// holds text.
func Find(things []Thing, text string) (Thing, bool) {
	for _, fits := range []func(string) bool{
		func(s string) bool { return s == text },
		func(s string) bool { return strings.HasPrefix(s, text) },
		func(s string) bool { return strings.Contains(s, text) },
	} {
		for _, t := range things {
			if t.Kind == "text" && !t.Clipped && fits(t.Text) {
				return t, true
			}
		}
	}
	return Thing{}, false
}

// Shows reports whether a text is in sight, be it on several lines.
func Shows(things []Thing, text string) bool {
	var all strings.Builder
	for _, t := range things {
		if t.Kind == "text" && !t.Clipped {
			all.WriteString(t.Text) // a line that goes on ends with its space
		}
	}
	return strings.Contains(all.String(), text)
}

// Texts gives every piece of text, for a test to look through.
func Texts(things []Thing) []string {
	var out []string
	for _, t := range things {
		if t.Kind == "text" {
			out = append(out, t.Text)
		}
	}
	return out
}
