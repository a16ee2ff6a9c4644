package kit

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
	"twinloaf/charts"
)

// MarkSide is how wide and high a mark stands beside a name.
const MarkSide float32 = 12

// Mark is the colour and shape by which a culture or a loaf is told apart, drawn as in
// the charts.
type Mark struct {
	widget.BaseWidget
	look charts.SeriesStyle
	side float32
}

// NewMark makes a mark side points wide and high.
func NewMark(l charts.SeriesStyle, side float32) *Mark {
	m := &Mark{look: l, side: side}
	m.ExtendBaseWidget(m)
	return m
}

// SetLook shows another mark.
func (m *Mark) SetLook(l charts.SeriesStyle) {
	if m.look != l {
		m.look = l
		m.Refresh()
	}
}

// MarkPicture draws a mark in the palette that is in use.
func MarkPicture(l charts.SeriesStyle, side int) *image.RGBA {
	p, _ := look.Current()
	return charts.MarkPicture(l, chartPalette(p), side)
}

func (m *Mark) CreateRenderer() fyne.WidgetRenderer {
	picture := canvas.NewRaster(func(w, h int) image.Image {
		if img := MarkPicture(m.look, min(w, h)); img != nil {
			return img
		}
		return image.NewRGBA(image.Rect(0, 0, w, h))
	})
	d := &Drawing{Of: m, Things: []fyne.CanvasObject{picture}}
	d.Least = func() fyne.Size { return fyne.NewSquareSize(m.side) }
	d.Lay = func(size fyne.Size) {
		Put(picture, fyne.NewPos((size.Width-m.side)/2, (size.Height-m.side)/2), fyne.NewSquareSize(m.side))
	}
	d.Paint = func() {
	}
	return d
}

// Marked puts a mark before a thing, at the middle of its height.
func Marked(l charts.SeriesStyle, o fyne.CanvasObject) fyne.CanvasObject {
	return RowGrow(2, 1, NewMark(l, MarkSide), o)
}
