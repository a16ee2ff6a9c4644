package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"

	"twinloaf/app/look"
)

// Empty is what an empty screen shows: a loaf or a jar, drawn, one sentence that invites, one
// button, and a second way (may be nil).
func Empty(drawing LoafTone, sentence string, button *Button, second *Link) fyne.CanvasObject {
	row := Row(4)
	if button != nil {
		row.Add(button)
	}
	if second != nil {
		row.Add(second)
	}
	drawn := NewPhotoCell(nil, fyne.NewSize(200, 140), 0)
	drawn.Set(PhotoItem{Loaf: drawing}, false)
	return Stack(5, Row(0, drawn), NewText(Span{Text: sentence, Size: look.TextLarge, Color: look.ColorFaint}), row)
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
	margin := look.Space(5)
	for _, d := range doors {
		back := canvas.NewRectangle(theme.Color(look.ColorRaised))
		back.StrokeColor, back.StrokeWidth, back.CornerRadius = theme.Color(look.ColorRule), 1, look.Radius
		words := Stack(2, Subheading(d.Title), Body(d.Leads))
		inside := container.NewBorder(nil, Stack(0, Gap(4), Row(0, d.Button)), nil, nil, words)
		columns.Add(container.NewStack(back, container.New(layout.NewCustomPaddedLayout(margin, margin, margin, margin), inside)))
	}
	return columns
}
