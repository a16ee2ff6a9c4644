package tastings

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/kit"
)

// However narrow the window, a time of each bake has room, and nothing lies over anything else.
func TestARowOfTheTrialHasRoomInANarrowWindow(t *testing.T) {
	var cells []fyne.CanvasObject
	for range 4 {
		o := canvas.NewRectangle(nil)
		o.SetMinSize(fyne.NewSize(10, 32))
		cells = append(cells, o)
	}
	row := container.New(&tableRow{}, cells...)
	for _, width := range []float32{1052, 420, 674, 520, 900} {
		high := kit.FitHeight(row, width)
		for i, o := range cells {
			at, size := o.Position(), o.Size()
			if at.X < 0 || at.X+size.Width > width+1 || at.Y+size.Height > high+1 {
				t.Errorf("%v wide and %v high: cell %d at %v takes %v", width, high, i, at, size)
			}
			if i >= 2 && size.Width < leastBake {
				t.Errorf("%v wide: a bake has %v", width, size.Width)
			}
			for j, other := range cells[:i] {
				b, room := other.Position(), other.Size()
				if at.X < b.X+room.Width && b.X < at.X+size.Width && at.Y < b.Y+room.Height && b.Y < at.Y+size.Height {
					t.Errorf("%v wide: cells %d and %d lie over each other", width, j, i)
				}
			}
		}
	}
}
