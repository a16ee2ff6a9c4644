package crumb

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
)

// The picture has no bands above and below it, its tools stand beneath it as long as it is
// no smaller for that, and their words begin where it does.
func TestThePictureFillsItsBox(t *testing.T) {
	maintest.App(t)
	for _, size := range []fyne.Size{fyne.NewSize(670, 500), fyne.NewSize(1050, 680), fyne.NewSize(900, 400)} {
		var tools []fyne.CanvasObject
		for range 6 {
			tools = append(tools, kit.QuietButton("Outline", nil))
		}
		foot, picture, figures := kit.QuietRow(toolGap, tools...), canvas.NewRectangle(nil), canvas.NewRectangle(nil)
		box := container.New(&beside{ratio: func() float32 { return 0.75 }}, picture, foot, figures)
		w := test.NewWindow(box)
		w.SetPadded(false)
		w.Resize(size)
		got := picture.Size()
		if got.Height > 0.75*got.Width+1 {
			t.Errorf("%v: the picture's box is %v", size, got)
		}
		if below := foot.Position().Y + foot.Size().Height; below > size.Height+1 || foot.Position().Y < got.Height-1 {
			t.Errorf("%v: the tools reach from %v to %v", size, foot.Position().Y, below)
		}
		driver := fyne.CurrentApp().Driver()
		words := test.WidgetRenderer(tools[0].(fyne.Widget)).Objects()[2]
		if x := driver.AbsolutePositionForObject(tools[0]).X + words.Position().X; x != driver.AbsolutePositionForObject(picture).X {
			t.Errorf("%v: the tools begin at %v", size, x)
		}
		w.Close()
	}
}
