package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/look"
)

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
