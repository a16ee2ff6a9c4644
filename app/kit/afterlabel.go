package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/look"
)

// AfterLabel sets choices after their label, which has a column of a width, less in a narrow
// place: what goes on to a second line and what stands in other rows begins where they begin.
func AfterLabel(width float32, label string, choices fyne.CanvasObject) fyne.CanvasObject {
	return container.New(afterLabel(width), NewText(Span{Text: label, Color: look.ColorFaint}), choices)
}

// afterLabel sets the label in the middle of the first line of choices.
type afterLabel float32

func (w afterLabel) MinSize(things []fyne.CanvasObject) fyne.Size {
	return things[1].MinSize().Max(things[0].MinSize())
}

func (w afterLabel) Layout(things []fyne.CanvasObject, size fyne.Size) {
	column := min(float32(w), size.Width*0.28)
	h := FitHeight(things[0], column-look.Space(2))
	things[0].Move(fyne.NewPos(0, max(0, (TargetSide-h)/2)))
	FitHeight(things[1], size.Width-column)
	things[1].Move(fyne.NewPos(column, 0))
}
