package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"twinloaf/app/look"
)

// Least gives a thing at least a width in points: a field whose words are still few.
func Least(width float32, o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(leastLayout(width), o)
}

// Width gives a thing a width in points of its own among things in a row.
func Width(width float32, o fyne.CanvasObject) *fyne.Container {
	return container.New(widthLayout(width), o)
}

// widthLayout is that width.
type widthLayout float32

func (w widthLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(float32(w), things[0].MinSize().Height)
}

func (w widthLayout) Layout(things []fyne.CanvasObject, _ fyne.Size) {
	FitHeight(things[0], float32(w))
}

// Labelled gives a figure at least the width of the label above it, so that the
// label stands on one line and a row of figures on another.
func Labelled(label string, o fyne.CanvasObject) fyne.CanvasObject {
	return Least(fyne.MeasureText(label, look.TextSmall, fyne.TextStyle{}).Width+theme.Padding(), o)
}

// leastLayout is the least width.
type leastLayout float32

func (w leastLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	s := things[0].MinSize()
	return fyne.NewSize(max(float32(w), s.Width), s.Height)
}

func (w leastLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	things[0].Resize(fyne.NewSize(size.Width, things[0].MinSize().Height))
}
