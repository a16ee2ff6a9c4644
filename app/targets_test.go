package app

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
)

// targetsTooLow tells of what is pressed and lower than a floury finger can hit.
func targetsTooLow(root fyne.CanvasObject) []string {
	low := map[string]int{}
	eachTarget(root, func(o fyne.CanvasObject, height float32) {
		if height > 0 && height < kit.TargetSide {
			low[fmt.Sprintf("%T, %v high", o, height)]++
		}
	})
	return counted(low)
}

// eachTarget calls do for whatever can be pressed, with the height of all of it that
// takes a press: a word may reach further than it is drawn.
func eachTarget(o fyne.CanvasObject, do func(o fyne.CanvasObject, height float32)) (height float32) {
	if o == nil || !o.Visible() {
		return 0
	}
	var parts []fyne.CanvasObject
	switch o := o.(type) {
	case *fyne.Container:
		parts = o.Objects
	case fyne.Widget:
		parts = test.WidgetRenderer(o).Objects()
	}
	for _, part := range parts {
		height = max(height, eachTarget(part, do))
	}
	if _, ok := o.(fyne.Tappable); ok {
		height = max(height, o.Size().Height)
		do(o, height)
		return height
	}
	return 0
}
