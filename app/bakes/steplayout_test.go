package bakes

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"twinloaf/app/kit"
)

// However narrow the window, the times of a step have room, nothing lies over anything else, and the
// step is as high as what is said of it.
func TestAStepThatWasDoneHasRoomInANarrowWindow(t *testing.T) {
	var things []fyne.CanvasObject
	for range len(stepShares) + 1 {
		o := canvas.NewRectangle(nil)
		o.SetMinSize(fyne.NewSize(10, 32))
		things = append(things, o)
	}
	row := newStepRow(things...)
	for _, width := range []float32{1052, 420, 674, 900} {
		high := kit.FitHeight(row, width)
		for i, o := range things {
			at, size := o.Position(), o.Size()
			if at.X < 0 || at.X+size.Width > width+1 || at.Y+size.Height > high+1 {
				t.Errorf("%v wide and %v high: column %d at %v takes %v", width, high, i, at, size)
			}
			if (i == 1 || i == 2) && size.Width < leastTime {
				t.Errorf("%v wide: a time has %v", width, size.Width)
			}
			for j, other := range things[:i] {
				b, room := other.Position(), other.Size()
				if at.X < b.X+room.Width && b.X < at.X+size.Width && at.Y < b.Y+room.Height && b.Y < at.Y+size.Height {
					t.Errorf("%v wide: columns %d and %d lie over each other", width, j, i)
				}
			}
		}
	}
}
