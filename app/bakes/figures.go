package bakes

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// wide gives a thing a width of its own among things in a row.
func wide(o fyne.CanvasObject, width float32) fyne.CanvasObject {
	return container.New(widthLayout{width}, o)
}

type widthLayout struct{ width float32 }

func (l widthLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(l.width, things[0].MinSize().Height)
}

func (l widthLayout) Layout(things []fyne.CanvasObject, size fyne.Size) { things[0].Resize(size) }
