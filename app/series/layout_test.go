package series

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// The picture of a jar has room for its lines to be dragged in any window: beside the curve, or,
// in a least window with text at 150 % (600 by 467), over it.
func TestTheJarIsLargeEnoughInEveryWindow(t *testing.T) {
	for _, width := range []float32{420, 625, 672, 1052, 1692} {
		picture, curve := canvas.NewRectangle(nil), canvas.NewRectangle(nil)
		both := container.New(&beside{}, picture, curve)
		for range 2 { // its height follows from its width
			both.Resize(fyne.NewSize(width, both.MinSize().Height))
		}
		if s := picture.Size(); s.Width < 230 || s.Height < 390 {
			t.Errorf("%v wide, the picture has %v", width, s)
		}
		if at, s := curve.Position(), curve.Size(); s.Width < 360 || s.Height < 390 || at.X+s.Width > width || at.X < picture.Size().Width && at.Y < picture.Size().Height {
			t.Errorf("%v wide, the curve is at %v, %v", width, at, s)
		}
	}
}
