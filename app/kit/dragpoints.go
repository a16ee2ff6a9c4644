package kit

import (
	"image/color"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// PicturePoint is a place in a picture, in pixels from its top left.
type PicturePoint struct{ X, Y float64 }

// DragPoints is an overlay of points that can be dragged, joined by lines: an
// outline, a ruler, the lines of a jar. A focused point moves by arrow keys (a pixel;
// ten with Shift) and goes with Delete, if it may.
type DragPoints struct {
	// OnChanged hears of changes made by hand; done is false while a drag goes on.
	OnChanged func(points []PicturePoint, done bool)
	// Closed joins the last point to the first; Loose joins none.
	Closed, Loose bool
	// CanRemove lets Delete take a point away while more than Least remain.
	CanRemove bool
	Least     int
	// Bound may hold a point to a place: within the picture, on a level line.
	Bound func(index int, to PicturePoint) PicturePoint
	// Color of lines and points; empty: look.ColorCrust.
	Color fyne.ThemeColorName

	view    *PhotoView
	points  []PicturePoint
	handles []*dragHandle
	lines   []*canvas.Line
	scale   float32
}

// NewDragPoints makes an empty layer and puts it over the view's picture.
func NewDragPoints(v *PhotoView) *DragPoints {
	d := &DragPoints{view: v, scale: 1}
	v.AddOverlay(d)
	return d
}

// SetPoints shows other points, without telling OnChanged.
func (d *DragPoints) SetPoints(points []PicturePoint) {
	d.points = slices.Clone(points)
	for i := len(d.handles); i < len(points); i++ {
		d.handles = append(d.handles, newDragHandle(d, i))
	}
	d.handles = d.handles[:len(points)]
	d.rebuild()
}

// Points gives a copy of the points.
func (d *DragPoints) Points() []PicturePoint { return slices.Clone(d.points) }

// Handle gives the widget of a point, to focus it.
func (d *DragPoints) Handle(i int) fyne.Focusable { return d.handles[i] }

func (d *DragPoints) rebuild() {
	n := len(d.points) - 1
	if d.Closed && len(d.points) > 2 {
		n++
	}
	if n = max(0, n); d.Loose {
		n = 0
	}
	for len(d.lines) < n {
		l := canvas.NewLine(color.Transparent)
		l.StrokeWidth = 2
		d.lines = append(d.lines, l)
	}
	d.lines = d.lines[:n]
	d.view.RefreshOverlays()
}

func (d *DragPoints) Objects() []fyne.CanvasObject {
	out := make([]fyne.CanvasObject, 0, len(d.lines)+len(d.handles))
	for _, l := range d.lines {
		out = append(out, l)
	}
	for _, h := range d.handles {
		out = append(out, h)
	}
	return out
}

func (d *DragPoints) Arrange(at func(x, y float64) fyne.Position, scale float32) {
	d.scale = scale
	for i, l := range d.lines {
		if i >= len(d.points) {
			break
		}
		a, b := d.points[i], d.points[(i+1)%len(d.points)]
		l.Position1, l.Position2 = at(a.X, a.Y), at(b.X, b.Y)
		l.StrokeColor = d.colour()
		l.Refresh()
	}
	for i, h := range d.handles {
		p := at(d.points[i].X, d.points[i].Y)
		Put(h, p.Subtract(fyne.NewSquareOffsetPos(handleSide/2)), fyne.NewSquareSize(handleSide))
	}
}

func (d *DragPoints) colour() color.Color {
	if d.Color == "" {
		return theme.Color(look.ColorCrust)
	}
	return theme.Color(d.Color)
}

func (d *DragPoints) move(i int, to PicturePoint, done bool) {
	full := d.view.PictureSize()
	to.X = math.Max(0, math.Min(to.X, float64(full.X)))
	to.Y = math.Max(0, math.Min(to.Y, float64(full.Y)))
	if d.Bound != nil {
		to = d.Bound(i, to)
	}
	d.points[i] = to
	d.Arrange(d.view.at, d.scale)
	d.tell(done)
}

func (d *DragPoints) tell(done bool) {
	if d.OnChanged != nil {
		d.OnChanged(d.Points(), done)
	}
}

func (d *DragPoints) remove(i int) {
	if !d.CanRemove || len(d.points) <= d.Least {
		return
	}
	d.SetPoints(slices.Delete(d.Points(), i, i+1))
	d.tell(true)
}

const handleSide = 32

// dragHandle is one point, with room around it for a finger.
type dragHandle struct {
	widget.BaseWidget
	layer            *DragPoints
	index            int
	hovered, focused bool
}

func newDragHandle(d *DragPoints, i int) *dragHandle {
	h := &dragHandle{layer: d, index: i}
	h.ExtendBaseWidget(h)
	return h
}

func (h *dragHandle) shift(dx, dy float64, done bool) {
	p := h.layer.points[h.index]
	h.layer.move(h.index, PicturePoint{p.X + dx, p.Y + dy}, done)
}

func (h *dragHandle) Dragged(ev *fyne.DragEvent) {
	k := float64(h.layer.scale)
	h.shift(float64(ev.Dragged.DX)/k, float64(ev.Dragged.DY)/k, false)
}

func (h *dragHandle) DragEnd() { h.layer.tell(true) }

// Tapped focuses the point; without it the tap would fall on the picture.
func (h *dragHandle) Tapped(*fyne.PointEvent) { focusOn(h) }

func (h *dragHandle) FocusGained() { h.focused = true; h.Refresh() }
func (h *dragHandle) FocusLost()   { h.focused = false; h.Refresh() }

func (h *dragHandle) TypedRune(r rune) { PassRune(h, r) }

func (h *dragHandle) TypedKey(ev *fyne.KeyEvent) {
	step := 1.0
	if modifiers()&fyne.KeyModifierShift != 0 {
		step = 10
	}
	switch ev.Name {
	case fyne.KeyLeft:
		h.shift(-step, 0, true)
	case fyne.KeyRight:
		h.shift(step, 0, true)
	case fyne.KeyUp:
		h.shift(0, -step, true)
	case fyne.KeyDown:
		h.shift(0, step, true)
	case fyne.KeyDelete, fyne.KeyBackspace:
		h.layer.remove(h.index)
	default:
		PassKey(h, ev)
	}
}

func (h *dragHandle) MouseIn(*desktop.MouseEvent)    { h.hovered = true; h.Refresh() }
func (h *dragHandle) MouseMoved(*desktop.MouseEvent) {}
func (h *dragHandle) MouseOut()                      { h.hovered = false; h.Refresh() }
func (h *dragHandle) Cursor() desktop.Cursor         { return desktop.CrosshairCursor }

func (h *dragHandle) CreateRenderer() fyne.WidgetRenderer {
	dot := canvas.NewCircle(color.Transparent)
	d := &Drawing{Of: h, Things: []fyne.CanvasObject{dot}}
	d.Least = func() fyne.Size { return fyne.NewSquareSize(handleSide) }
	d.Lay = func(s fyne.Size) {
		side := float32(10)
		if h.hovered || h.focused {
			side = 14
		}
		Put(dot, fyne.NewPos((s.Width-side)/2, (s.Height-side)/2), fyne.NewSquareSize(side))
	}
	d.Paint = func() {
		dot.FillColor = theme.Color(look.ColorRaised)
		dot.StrokeColor = h.layer.colour()
		dot.StrokeWidth = 2
		if h.focused {
			dot.FillColor = h.layer.colour()
		}
	}
	return d.Painted()
}
