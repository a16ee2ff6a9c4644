package series

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// filmstrip shows the jar's strips side by side, so that the rise is seen as it is, and is a
// slider over them: a tap or a drag goes to a picture, and so do the arrow keys. Below each
// strip a mark says where it was lost.
type filmstrip struct {
	widget.BaseWidget
	onPick func(i int)

	n, at   int
	lost    []bool
	pic     *canvas.Image
	cursor  *canvas.Rectangle
	marks   *canvas.Image
	focused bool
}

func newFilmstrip(picked func(int)) *filmstrip {
	f := &filmstrip{onPick: picked, cursor: canvas.NewRectangle(color.Transparent)}
	f.pic = &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleFastest}
	f.marks = &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScalePixels}
	f.cursor.StrokeWidth = 2
	f.ExtendBaseWidget(f)
	return f
}

// set shows a film of n pictures, of which some were lost; a nil film is none.
func (f *filmstrip) set(film image.Image, n int, lost []bool) {
	f.n, f.lost = n, lost
	f.pic.Image = film
	f.at = max(0, min(f.at, n-1))
	f.Refresh()
}

// show goes to a picture, without telling.
func (f *filmstrip) show(i int) {
	f.at = max(0, min(i, f.n-1))
	f.Refresh()
}

func (f *filmstrip) pick(i int) {
	if i = max(0, min(i, f.n-1)); f.n > 0 && i != f.at {
		f.at = i
		f.Refresh()
		f.onPick(i)
	}
}

func (f *filmstrip) pickAt(x float32) {
	if w := f.Size().Width; w > 0 {
		f.pick(int(x / w * float32(f.n)))
	}
}

func (f *filmstrip) Tapped(ev *fyne.PointEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(f); c != nil {
		c.Focus(f)
	}
	f.pickAt(ev.Position.X)
}
func (f *filmstrip) Dragged(ev *fyne.DragEvent) { f.pickAt(ev.Position.X) }
func (f *filmstrip) DragEnd()                   {}
func (f *filmstrip) FocusGained()               { f.focused = true; f.Refresh() }
func (f *filmstrip) FocusLost()                 { f.focused = false; f.Refresh() }
func (f *filmstrip) TypedRune(r rune)           { kit.PassRune(f, r) }
func (f *filmstrip) TypedKey(ev *fyne.KeyEvent) { kit.PassKey(f, ev) } // the page's keys step
func (f *filmstrip) Cursor() desktop.Cursor     { return desktop.HResizeCursor }

func (f *filmstrip) CreateRenderer() fyne.WidgetRenderer {
	bed, ring := canvas.NewRectangle(color.Transparent), kit.NewFocusRing(0)
	d := &kit.Drawing{Of: f, Things: []fyne.CanvasObject{bed, f.pic, f.marks, f.cursor, ring.Object()}}
	d.Least = func() fyne.Size { return fyne.NewSize(look.Space(40), look.Space(30)) }
	d.Lay = func(size fyne.Size) {
		foot := look.Space(1.5)
		bed.Resize(size)
		f.pic.Resize(fyne.NewSize(size.Width, size.Height-foot))
		kit.Put(f.marks, fyne.NewPos(0, size.Height-foot), fyne.NewSize(size.Width, foot))
		ring.Within(size)
		if f.n > 0 {
			w := size.Width / float32(f.n)
			at := w * float32(f.at)
			wide := max(w, 4)
			kit.Put(f.cursor, fyne.NewPos(at+(w-wide)/2, 0), fyne.NewSize(wide, size.Height))
		}
	}
	d.Paint = func() {
		bed.FillColor = theme.Color(look.ColorNight)
		f.cursor.StrokeColor = theme.Color(look.ColorCrust)
		f.cursor.Hidden = f.n == 0
		f.pic.Hidden, f.marks.Hidden = f.pic.Image == nil, f.n == 0
		f.marks.Image = f.markImage()
		ring.Show(f, f.focused)
	}
	return d.Painted()
}

// markImage has a pixel for each picture: kept or lost.
func (f *filmstrip) markImage() image.Image {
	if f.n == 0 {
		return nil
	}
	img := image.NewRGBA(image.Rect(0, 0, f.n, 1))
	kept, lost := theme.Color(look.ColorRule), theme.Color(look.ColorEmber)
	for i := range f.n {
		img.Set(i, 0, kept)
		if i < len(f.lost) && f.lost[i] {
			img.Set(i, 0, lost)
		}
	}
	return img
}
