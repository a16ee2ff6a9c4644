package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// Line is a thin rule that divides. Make one with Rule or VRule.
type Line struct {
	widget.BaseWidget
	vertical bool
}

// Rule is a thin line across.
func Rule() *Line { return newLine(false) }

// VRule is a thin line from top to bottom.
func VRule() *Line { return newLine(true) }

func newLine(vertical bool) *Line {
	l := &Line{vertical: vertical}
	l.ExtendBaseWidget(l)
	return l
}

// CreateRenderer is called by Fyne.
func (l *Line) CreateRenderer() fyne.WidgetRenderer {
	r := &lineRenderer{line: l, rect: canvas.NewRectangle(theme.Color(look.ColorRule))}
	return r
}

type lineRenderer struct {
	line *Line
	rect *canvas.Rectangle
}

func (r *lineRenderer) Destroy()                     {}
func (r *lineRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.rect} }
func (r *lineRenderer) MinSize() fyne.Size           { return fyne.NewSize(1, 1) }

func (r *lineRenderer) Layout(s fyne.Size) {
	if r.line.vertical {
		r.rect.Resize(fyne.NewSize(1, s.Height))
		return
	}
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
