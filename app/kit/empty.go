package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"twinloaf/app/look"
)

// Empty is what an empty screen shows: one sentence that invites, one button, and
// a second way (may be nil).
func Empty(sentence string, button *Button, second *Link) fyne.CanvasObject {
	row := Row(4)
	if button != nil {
		row.Add(button)
	}
	if second != nil {
		row.Add(second)
	}
	return Stack(5, Gap(4), NewText(Span{Text: sentence, Size: look.TextLarge, Color: look.ColorFaint}), row)
}

// A Door is one of several equal ways to begin: what it is called, what it leads to, and the
// button that opens it.
type Door struct {
	Title, Leads string
	Button       *Button
}

// Doors sets ways to begin side by side, each as wide and as high as the others, so that none
// looks like the right one; one under another where there is no room.
func Doors(doors ...Door) fyne.CanvasObject {
	columns := Columns(look.Space(70))
	for _, d := range doors {
		back := canvas.NewRectangle(theme.Color(look.ColorRaised))
		back.StrokeColor, back.StrokeWidth, back.CornerRadius = theme.Color(look.ColorRule), 1, look.Radius
		words := Stack(2, Subheading(d.Title), Body(d.Leads))
		inside := container.NewBorder(nil, Stack(0, Gap(4), Row(0, d.Button)), nil, nil, words)
		columns.Add(container.NewStack(back, container.New(inset{look.Space(5)}, inside)))
	}
	return columns
}

// inset keeps a margin all round.
type inset struct{ margin float32 }

func (l inset) MinSize(things []fyne.CanvasObject) fyne.Size {
	return things[0].MinSize().AddWidthHeight(2*l.margin, 2*l.margin)
}

func (l inset) Layout(things []fyne.CanvasObject, size fyne.Size) {
	things[0].Move(fyne.NewPos(l.margin, l.margin))
	things[0].Resize(size.SubtractWidthHeight(2*l.margin, 2*l.margin))
}
