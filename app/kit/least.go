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

// Hanging sets words after their marks, a row for each pair: each line of the words begins at one
// edge, behind the widest mark.
func Hanging(pairs ...fyne.CanvasObject) *fyne.Container { return container.New(hanging{}, pairs...) }

type hanging struct{}

// edge is where the words begin.
func (hanging) edge(things []fyne.CanvasObject) float32 {
	widest := float32(0)
	for i := 0; i < len(things); i += 2 {
		widest = max(widest, things[i].MinSize().Width)
	}
	return widest + look.Space(2.5)
}

func (l hanging) MinSize(things []fyne.CanvasObject) (s fyne.Size) {
	for i := 0; i+1 < len(things); i += 2 {
		mark, words := things[i].MinSize(), things[i+1].MinSize()
		s.Width = max(s.Width, l.edge(things)+words.Width)
		s.Height += max(mark.Height, words.Height)
	}
	s.Height += look.Space(1) * float32(max(0, len(things)/2-1))
	return s
}

func (l hanging) Layout(things []fyne.CanvasObject, size fyne.Size) {
	edge, y := l.edge(things), float32(0)
	for i := 0; i+1 < len(things); i += 2 {
		mark, words := things[i], things[i+1]
		Put(mark, fyne.NewPos(0, y), mark.MinSize())
		high := FitHeight(words, size.Width-edge)
		words.Move(fyne.NewPos(edge, y))
		y += max(mark.MinSize().Height, high) + look.Space(1)
	}
}
