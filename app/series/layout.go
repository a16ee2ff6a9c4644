package series

import (
	"fyne.io/fyne/v2"

	"twinloaf/app/look"
)

// beside gives the curve at the right its width and the picture the rest.
type beside struct{}

func (beside) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(look.Space(150), look.Space(80))
}

func (beside) Layout(things []fyne.CanvasObject, size fyne.Size) {
	w, gap := max(look.Space(90), size.Width*0.48), look.Space(7)
	things[0].Resize(fyne.NewSize(size.Width-w-gap, size.Height))
	things[0].Move(fyne.NewPos(0, 0))
	things[1].Resize(fyne.NewSize(w, size.Height))
	things[1].Move(fyne.NewPos(size.Width-w, 0))
}

// filmHeight is how tall the film stands.
type filmHeight struct{}

func (filmHeight) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(look.Space(60), look.Space(30))
}

func (filmHeight) Layout(things []fyne.CanvasObject, size fyne.Size) { things[0].Resize(size) }
