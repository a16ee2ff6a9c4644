package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// Line is a thin rule across that divides. Make one with Rule.
type Line struct {
	widget.BaseWidget
}

// Rule is a thin line across.
func Rule() *Line {
	l := &Line{}
	l.ExtendBaseWidget(l)
	return l
}

func (l *Line) CreateRenderer() fyne.WidgetRenderer {
	return &lineRenderer{canvas.NewRectangle(theme.Color(look.ColorRule))}
}

type lineRenderer struct {
	rect *canvas.Rectangle
}

func (r *lineRenderer) Destroy()                     {}
func (r *lineRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.rect} }
func (r *lineRenderer) MinSize() fyne.Size           { return fyne.NewSize(1, 1) }

func (r *lineRenderer) Layout(s fyne.Size) {
	r.rect.Resize(fyne.NewSize(s.Width, 1))
}

func (r *lineRenderer) Refresh() {
	r.rect.FillColor = theme.Color(look.ColorRule)
	r.rect.Refresh()
}

// Gap is empty space of n steps of the four-point grid, both ways.
func Gap(n float32) fyne.CanvasObject {
	r := canvas.NewRectangle(color.Transparent)
	r.SetMinSize(fyne.NewSquareSize(look.Space(n)))
	return r
}
