package bakeday

import (
	"fyne.io/fyne/v2"

	"twinloaf/app/look"
)

// bigLayout gives the list of moments a column at the right, where there is room
// for both, and lets it go under where there is not.
type bigLayout struct{}

const (
	listWidth   = 300
	bothAtLeast = 860
)

func (bigLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(look.Space(80), look.Space(60))
}

func (bigLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	margin := look.Space(8)
	left, list := things[0], things[1]
	width := size.Width - 2*margin
	if size.Width >= bothAtLeast {
		width -= listWidth + margin
		list.Show()
		list.Move(fyne.NewPos(size.Width-margin-listWidth, margin))
		list.Resize(fyne.NewSize(listWidth, size.Height-2*margin))
	} else {
		list.Hide()
	}
	left.Move(fyne.NewPos(margin, margin/2))
	left.Resize(fyne.NewSize(width, size.Height-margin/2))
}
