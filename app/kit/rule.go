package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// Rule is a thin line across that divides.
func Rule() fyne.CanvasObject { return widget.NewSeparator() }

// Gap is empty space of n steps of the four-point grid, both ways.
func Gap(n float32) fyne.CanvasObject {
	r := canvas.NewRectangle(color.Transparent)
	r.SetMinSize(fyne.NewSquareSize(look.Space(n)))
	return r
}
