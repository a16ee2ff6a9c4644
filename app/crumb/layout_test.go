package crumb

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/maintest"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal/measure"
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

// The large figures keep their place in the narrowest column, free of the bar that scrolls.
func TestTheLargeFiguresFit(t *testing.T) {
	maintest.App(t)
	p := newFigurePanel(pagestest.New(t).Env.NewChart("", chartSize, nil), kit.Small(""))
	s := summary()
	s.Figures[0].Off, s.Figures[1].Off = 0.163, 4.2
	p.sync(s, measure.Units{})
	room := figuresWidth(0) - look.Space(4)
	p.box.Resize(fyne.NewSize(room, 2000))
	for _, id := range great {
		r := p.rows[id]
		if r.MinSize().Width > r.Size().Width || r.Position().X+r.MinSize().Width > room {
			t.Errorf("%s is %v wide at %v, of %v", id, r.MinSize().Width, r.Position().X, room)
		}
		figure := test.WidgetRenderer(r).Objects()[0].(*fyne.Container).Objects[1].(*kit.Text)
		if at := r.Position().X + figure.MinSize().Width; at > room {
			t.Errorf("%s %q reaches %v of %v", id, figure.String(), at, room)
		}
	}
}
