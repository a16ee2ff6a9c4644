package kit

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// ZoomAt multiplies the zoom, and keeps the place p of the view where it is.
func (v *PhotoView) ZoomAt(p fyne.Position, factor float64) {
	x, y := v.PictureAt(p)
	to := v.view
	to.Zoom = math.Max(1, math.Min(to.Zoom*factor, v.mostZoom()))
	k, s := v.fit()*to.Zoom, v.Size()
	to.X = (x - float64(p.X-s.Width/2)/k) / float64(max(1, v.full.X))
	to.Y = (y - float64(p.Y-s.Height/2)/k) / float64(max(1, v.full.Y))
	v.byHand(to)
}

// pan moves the picture by points.
func (v *PhotoView) pan(dx, dy float32) {
	k := v.scale()
	to := v.view
	to.X -= float64(dx) / k / float64(max(1, v.full.X))
	to.Y -= float64(dy) / k / float64(max(1, v.full.Y))
	v.byHand(to)
}

func (v *PhotoView) middle() fyne.Position {
	return fyne.NewPos(v.Size().Width/2, v.Size().Height/2)
}

// Scrolled zooms at the pointer.
func (v *PhotoView) Scrolled(ev *fyne.ScrollEvent) {
	v.ZoomAt(ev.Position, math.Exp(float64(ev.Scrolled.DY)/120))
}

// Dragged moves the picture.
func (v *PhotoView) Dragged(ev *fyne.DragEvent) { v.pan(ev.Dragged.DX, ev.Dragged.DY) }

func (v *PhotoView) DragEnd() {}

// Tapped tells OnTapped, if the tap is on the picture.
func (v *PhotoView) Tapped(ev *fyne.PointEvent) {
	focusOn(v)
	x, y := v.PictureAt(ev.Position)
	if v.OnTapped != nil && x >= 0 && y >= 0 && x < float64(v.full.X) && y < float64(v.full.Y) {
		v.OnTapped(x, y)
	}
}

// DoubleTapped goes to the picture's own pixels, or back to the whole.
func (v *PhotoView) DoubleTapped(ev *fyne.PointEvent) {
	if v.view.Zoom > 1.01 {
		v.byHand(WholePicture)
		return
	}
	v.ZoomAt(ev.Position, math.Max(2, 1/(v.fit()*v.canvasScale())))
}

func (v *PhotoView) FocusGained() { v.focused = true; v.Refresh() }

func (v *PhotoView) FocusLost() { v.focused = false; v.Refresh() }

// TypedKey moves by an eighth of the view. A picture that is seen whole has nowhere
// to move, and leaves the arrows to the page.
func (v *PhotoView) TypedKey(ev *fyne.KeyEvent) {
	if v.view.Zoom <= 1 && ev.Name != fyne.KeyHome {
		PassKey(v, ev)
		return
	}
	step := v.Size().Width / 8
	switch ev.Name {
	case fyne.KeyLeft:
		v.pan(step, 0)
	case fyne.KeyRight:
		v.pan(-step, 0)
	case fyne.KeyUp:
		v.pan(0, step)
	case fyne.KeyDown:
		v.pan(0, -step)
	case fyne.KeyHome:
		v.byHand(WholePicture)
	default:
		PassKey(v, ev)
	}
}

// TypedRune zooms.
func (v *PhotoView) TypedRune(r rune) {
	if v.SignsToPage && r != '0' {
		PassRune(v, r)
		return
	}
	switch r {
	case '+', '=':
		v.ZoomAt(v.middle(), 1.5)
	case '-', '_':
		v.ZoomAt(v.middle(), 1/1.5)
	case '0':
		v.byHand(WholePicture)
	default:
		PassRune(v, r)
	}
}

// Cursor shows that the picture can be moved.
func (v *PhotoView) Cursor() desktop.Cursor {
	if v.view.Zoom > 1 {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}
