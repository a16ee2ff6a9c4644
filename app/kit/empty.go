package kit

import (
	"fyne.io/fyne/v2"

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
