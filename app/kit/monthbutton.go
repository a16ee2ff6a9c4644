package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// monthButton is the small drawing of a calendar leaf that opens a month. It is not
// in the Tab order: Down in the field does the same.
type monthButton struct {
	widget.BaseWidget
	tapped func()
}

func newMonthButton(tapped func()) *monthButton {
	b := &monthButton{tapped: tapped}
	b.ExtendBaseWidget(b)
	return b
}

func (b *monthButton) Tapped(*fyne.PointEvent) { b.tapped() }
func (b *monthButton) Cursor() desktop.Cursor  { return desktop.PointerCursor }

func (b *monthButton) CreateRenderer() fyne.WidgetRenderer {
	leaf := canvas.NewRectangle(color.Transparent)
	leaf.CornerRadius, leaf.StrokeWidth = 2, 1.2
	bar := canvas.NewRectangle(color.Transparent)
	dot := canvas.NewRectangle(color.Transparent)
	d := &Drawing{Of: b, Things: []fyne.CanvasObject{leaf, bar, dot}}
	d.Least = func() fyne.Size { return fyne.NewSquareSize(TargetSide) }
	d.Lay = func(size fyne.Size) {
		x, y := (size.Width-14)/2, (size.Height-14)/2
		Put(leaf, fyne.NewPos(x, y), fyne.NewSize(14, 14))
		Put(bar, fyne.NewPos(x, y+3), fyne.NewSize(14, 2))
		Put(dot, fyne.NewPos(x+8, y+8), fyne.NewSize(3, 3))
	}
	d.Paint = func() {
		c := theme.Color(look.ColorFaint)
		leaf.StrokeColor, bar.FillColor, dot.FillColor = c, c, c
	}
	return d.Painted()
}
