package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

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
	for i, o := range visible(things) {
		m := o.MinSize()
		s.Width = max(s.Width, m.Width)
		s.Height += m.Height
		if i > 0 {
			s.Height += l.gap
		}
	}
	return s
}

// Layout sizes a thing twice when its height follows from its width.
func (l stackLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for _, o := range visible(things) {
		h := FitHeight(o, size.Width)
		o.Move(fyne.NewPos(0, y))
		y += h + l.gap
	}
}

// Put gives a thing its place and its size.
func Put(o fyne.CanvasObject, at fyne.Position, size fyne.Size) {
	o.Move(at)
	o.Resize(size)
}

// FitHeight gives a thing a width and the height it then asks for.
func FitHeight(o fyne.CanvasObject, width float32) float32 {
	h := o.MinSize().Height
	o.Resize(fyne.NewSize(width, h))
	if again := o.MinSize().Height; again != h {
		h = again
		o.Resize(fyne.NewSize(width, h))
	}
	return h
}

// Row puts things side by side at the width they would like, centred on one another,
// with gap steps of the grid between them. When the width runs out, wrapping texts
// give way.
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
	for i, o := range visible(things) {
		m := o.MinSize()
		s.Height = max(s.Height, m.Height)
		s.Width += m.Width
		if i > 0 {
			s.Width += l.gap
		}
	}
	return s
}

func (l rowLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	spare := max(0, size.Width-l.MinSize(things).Width)
	x := float32(0)
	for i, w := range l.widths(things, spare) {
		o := things[i]
		if !o.Visible() {
			continue
		}
		h := FitHeight(o, w)
		o.Move(fyne.NewPos(x, (size.Height-h)/2))
		x += w + l.gap
	}
}

// widths shares what is spare: first among those that would like more than their
// least, then to the one that grows.
func (l rowLayout) widths(things []fyne.CanvasObject, spare float32) []float32 {
	out := make([]float32, len(things))
	wish := float32(0)
	for i, o := range things {
		if o.Visible() {
			out[i] = o.MinSize().Width
			wish += wishedWidth(o) - out[i]
		}
	}
	part := float32(1)
	if wish > spare {
		part = spare / wish
	}
	for i, o := range things {
		if o.Visible() {
			more := (wishedWidth(o) - out[i]) * part
			out[i] += more
			spare -= more
		}
	}
	if l.grow >= 0 && l.grow < len(out) {
		out[l.grow] += max(0, spare)
	}
	return out
}

// wishedWidth is how wide a thing would be with all the room in the world: for a
// wrapping text, its words on one line.
func wishedWidth(o fyne.CanvasObject) float32 {
	least := o.MinSize().Width
	switch o := o.(type) {
	case *Text:
		return max(least, o.natural)
	case *Link:
		return max(least, o.natural())
	case *Segments:
		return wishedWidth(o.row)
	case *fyne.Container:
		widest, sum := float32(0), float32(0)
		for _, c := range visible(o.Objects) {
			w := wishedWidth(c)
			widest = max(widest, w)
			sum += w
		}
		switch l := o.Layout.(type) {
		case stackLayout:
			return max(least, widest)
		case rowLayout:
			return max(least, sum+l.gap*float32(max(0, len(o.Objects)-1)))
		case *flowLayout:
			return max(least, sum+l.gap*float32(max(0, len(o.Objects)-1)))
		}
	}
	return least
}

// Rule is a thin line across that divides.
func Rule() fyne.CanvasObject { return widget.NewSeparator() }

// Gap is empty space of n steps of the four-point grid, both ways.
func Gap(n float32) fyne.CanvasObject {
	r := canvas.NewRectangle(color.Transparent)
	r.SetMinSize(fyne.NewSquareSize(look.Space(n)))
	return r
}
