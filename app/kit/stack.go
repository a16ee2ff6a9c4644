package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/look"
)

// Stack puts things one under another, each as wide as the stack, with gap steps
// of the four-point grid between them. What is hidden takes no room.
func Stack(gap float32, things ...fyne.CanvasObject) *fyne.Container {
	return container.New(stackLayout{gap: look.Space(gap)}, things...)
}

type stackLayout struct{ gap float32 }

func (l stackLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	var s fyne.Size
	seen := false
	for _, o := range things {
		if !o.Visible() {
			continue
		}
		m := o.MinSize()
		s.Width = max(s.Width, m.Width)
		s.Height += m.Height
		if seen {
			s.Height += l.gap
		}
		seen = true
	}
	return s
}

// Layout sizes a thing twice when its height follows from its width.
func (l stackLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for _, o := range things {
		if !o.Visible() {
			continue
		}
		h := fitHeight(o, size.Width)
		o.Move(fyne.NewPos(0, y))
		y += h + l.gap
	}
}

// fitHeight gives a thing a width and the height it then asks for.
func fitHeight(o fyne.CanvasObject, width float32) float32 {
	h := o.MinSize().Height
	o.Resize(fyne.NewSize(width, h))
	if again := o.MinSize().Height; again != h {
		h = again
		o.Resize(fyne.NewSize(width, h))
	}
	return h
}

// Row puts things side by side at their least width, centred on one another, with
// gap steps of the grid between them.
func Row(gap float32, things ...fyne.CanvasObject) *fyne.Container {
	return container.New(rowLayout{gap: look.Space(gap), grow: -1}, things...)
}

// RowGrow is Row, in which the thing with index grow takes the width left over.
func RowGrow(gap float32, grow int, things ...fyne.CanvasObject) *fyne.Container {
	return container.New(rowLayout{gap: look.Space(gap), grow: grow}, things...)
}

type rowLayout struct {
	gap  float32
	grow int
}

func (l rowLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	var s fyne.Size
	seen := false
	for _, o := range things {
		if !o.Visible() {
			continue
		}
		m := o.MinSize()
		s.Height = max(s.Height, m.Height)
		s.Width += m.Width
		if seen {
			s.Width += l.gap
		}
		seen = true
	}
	return s
}

func (l rowLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	spare := max(0, size.Width-l.MinSize(things).Width)
	x := float32(0)
	for i, o := range things {
		if !o.Visible() {
			continue
		}
		w := o.MinSize().Width
		if i == l.grow {
			w += spare
		}
		h := fitHeight(o, w)
		o.Move(fyne.NewPos(x, (size.Height-h)/2))
		x += w + l.gap
	}
}
