package app

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
)

// What is pressed can be hit with a floury finger: on no page is it lower than
// kit.TargetSide, whatever part of it is seen.
func TestWhatIsPressedCanBeHit(t *testing.T) {
	w, j := demoWindow(t)
	places, _ := everyPlace(t, j)
	for _, p := range places {
		w.Go(p)
		w.env.Wait()
		small := map[string]int{}
		eachTarget(w.win.Canvas().Content(), func(o fyne.CanvasObject, height float32) {
			if height > 0 && height < kit.TargetSide {
				small[fmt.Sprintf("%T, %v high", o, height)]++
			}
		})
		for what, n := range small {
			t.Errorf("%s: %d times %s", p.Name, n, what)
		}
	}
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
