package kit

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// Mask is an overlay of one picture over another: what was found in it, with clear
// pixels where the picture below should show. It is stretched over the whole.
type Mask struct {
	view *PhotoView
	pic  *canvas.Image
}

// NewMask makes an empty mask and puts it over the view's picture.
func NewMask(v *PhotoView) *Mask {
	m := &Mask{view: v, pic: &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleFastest}}
	m.pic.Hide()
	v.AddOverlay(m)
	return m
}

// Set shows a mask, which must not be changed afterwards; nil shows none.
func (m *Mask) Set(img image.Image) {
	if img == nil {
		m.pic.Image = nil
		m.pic.Hide()
	} else {
		m.pic.Image = tightRGBA(img)
		m.pic.Show()
	}
	m.pic.Refresh()
	m.view.RefreshOverlays()
}

// SetFade makes the mask see-through: 0 is solid, 1 is gone.
func (m *Mask) SetFade(part float64) {
	m.pic.Translucency = max(0, min(1, part))
	m.pic.Refresh()
}

// Objects is called by the view.
func (m *Mask) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{m.pic} }

// Arrange is called by the view.
func (m *Mask) Arrange(at func(x, y float64) fyne.Position, _ float32) {
	full := m.view.PictureSize()
	a, b := at(0, 0), at(float64(full.X), float64(full.Y))
	m.pic.Move(a)
	m.pic.Resize(fyne.NewSize(b.X-a.X, b.Y-a.Y))
}
