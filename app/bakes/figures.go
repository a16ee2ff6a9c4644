package bakes

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/kit"
)

// deref gives what p points to, or zero.
func deref(p *float64) float64 {
	if p == nil {
		return 0
	}
	return *p
}

// quantity is a measured figure of the journal in a type of its own.
type quantity interface{ ~float64 }

// number gives an optional quantity as a plain number.
func number[Q quantity](q *Q) *float64 {
	if q == nil {
		return nil
	}
	return new(float64(*q))
}

// as gives a plain number as an optional quantity.
func as[Q quantity](v *float64) *Q {
	if v == nil {
		return nil
	}
	return new(Q(*v))
}

// showFigure shows an optional figure. It is cheap when nothing changed.
func showFigure(f *kit.FigureField, v *float64) {
	was, ok := f.Value()
	switch {
	case v == nil && ok:
		f.Clear()
	case v == nil:
	case !ok || was != *v:
		f.SetValue(*v)
	}
}

// wide gives a thing a width of its own among things in a row.
func wide(o fyne.CanvasObject, width float32) fyne.CanvasObject {
	return container.New(widthLayout{width}, o)
}

type widthLayout struct{ width float32 }

func (l widthLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(l.width, things[0].MinSize().Height)
}

func (l widthLayout) Layout(things []fyne.CanvasObject, size fyne.Size) { things[0].Resize(size) }
