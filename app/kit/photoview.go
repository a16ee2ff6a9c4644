package kit

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"golang.org/x/image/draw"

	"twinloaf/app/look"
)

// View says which part of a picture is seen: Zoom 1 shows it whole; (X, Y) is the
// point of the picture at the middle of the view, from (0, 0) at its top left to
// (1, 1) at its bottom right. It fits any picture, so that two can be tied.
type View struct{ X, Y, Zoom float64 }

// WholePicture is the view that a picture opens with.
var WholePicture = View{X: 0.5, Y: 0.5, Zoom: 1}

// Overlay draws over a picture, in the picture's own pixels.
type Overlay interface {
	// Objects are drawn in order, above the picture. They may be widgets.
	Objects() []fyne.CanvasObject
	// Arrange moves the objects after each change of the view. At turns a place in
	// the picture, in pixels from its top left, into one in the view; scale is the
	// number of points to a pixel.
	Arrange(at func(x, y float64) fyne.Position, scale float32)
}

// PhotoView shows a picture large. The wheel and the keys + and - zoom, dragging and
// the arrows move, a double tap goes from the whole to the pixels and back, 0 shows
// the whole.
type PhotoView struct {
	widget.BaseWidget
	// OnTapped gets the tapped place in pixels of the picture.
	OnTapped func(x, y float64)
	// OnViewChanged hears of every change made by hand.
	OnViewChanged func(View)
	// OnShown is called when a picture is there where none was: until then what lies over it
	// is not there either, and cannot have the keyboard.
	OnShown func()
	// SignsToPage leaves the keys + and - to the page: the wheel and 0 still zoom.
	SignsToPage bool

	main     Main
	view     View
	full     image.Point
	levels   []*image.RGBA // each half as large as the one before
	pic      *canvas.Image
	layers   *fyne.Container
	clip     *container.Clip
	overlays []Overlay
	making   *pyramid
	focused  bool
}

// NewPhotoView makes an empty view.
func NewPhotoView(main Main) *PhotoView {
	v := &PhotoView{main: main, view: WholePicture}
	v.pic = &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleFastest}
	v.layers = container.NewWithoutLayout(v.pic)
	v.clip = newClip(v.layers)
	v.ExtendBaseWidget(v)
	return v
}

// SetPreview shows a small picture at once in the place of one that is full pixels
// large, until SetPicture brings that.
func (v *PhotoView) SetPreview(small image.Image, full image.Point) {
	v.forget()
	v.install([]*image.RGBA{tightRGBA(small)}, full)
}

// SetPicture shows a picture, which must not be changed afterwards. Smaller copies
// for drawing are made on another goroutine; until they are there, a preview stays.
func (v *PhotoView) SetPicture(img image.Image) {
	v.forget()
	full := img.Bounds().Size()
	if v.full != full {
		v.levels = nil
		v.full = full
		v.view = WholePicture
	}
	v.arrange()
	p := &pyramid{done: make(chan struct{})}
	v.making = p
	p.build(v.main, img, func() {
		if v.making == p {
			v.install(p.levels, full)
		}
	})
}

// Clear shows nothing and lets the pictures go.
func (v *PhotoView) Clear() {
	v.forget()
	v.install(nil, image.Point{})
}

// Wait blocks until a picture that was set is ready, for tests.
func (v *PhotoView) Wait() {
	if p := v.making; p != nil {
		<-p.done
		v.main.settle()
	}
}

func (v *PhotoView) forget() { v.making = nil }

func (v *PhotoView) install(levels []*image.RGBA, full image.Point) {
	if full != v.full {
		v.view = WholePicture
	}
	shown := len(v.levels) == 0 && len(levels) > 0
	v.levels, v.full = levels, full
	v.pic.Image = nil
	v.arrange()
	v.pic.Refresh()
	if shown && v.OnShown != nil {
		v.OnShown()
	}
}

// PictureSize gives the size of the picture in pixels.
func (v *PhotoView) PictureSize() image.Point { return v.full }

// AddOverlay draws something over the picture.
func (v *PhotoView) AddOverlay(o Overlay) {
	v.overlays = append(v.overlays, o)
	v.RefreshOverlays()
}

// RefreshOverlays asks the overlays again for their objects.
func (v *PhotoView) RefreshOverlays() {
	v.layers.Objects = []fyne.CanvasObject{v.pic}
	for _, o := range v.overlays {
		v.layers.Objects = append(v.layers.Objects, o.Objects()...)
	}
	v.arrange()
	v.layers.Refresh()
}

// View gives what part of the picture is seen.
func (v *PhotoView) View() View { return v.view }

// SetView shows a part of the picture, without telling OnViewChanged.
func (v *PhotoView) SetView(to View) {
	v.view = v.kept(to)
	v.arrange()
}

func (v *PhotoView) byHand(to View) {
	before := v.view
	v.SetView(to)
	if v.view != before && v.OnViewChanged != nil {
		v.OnViewChanged(v.view)
	}
}

// fit is the number of points to a pixel when the picture is seen whole.
func (v *PhotoView) fit() float64 {
	s := v.Size()
	if v.full.X <= 0 || v.full.Y <= 0 || s.Width <= 0 || s.Height <= 0 {
		return 1
	}
	return math.Min(float64(s.Width)/float64(v.full.X), float64(s.Height)/float64(v.full.Y))
}

func (v *PhotoView) scale() float64 { return v.fit() * v.view.Zoom }

func (v *PhotoView) canvasScale() float64 {
	if c := canvasOf(v); c != nil {
		return float64(c.Scale())
	}
	return 1
}

// mostZoom lets a pixel grow to eight of the screen's, and small pictures too.
func (v *PhotoView) mostZoom() float64 { return math.Max(4, 8/(v.fit()*v.canvasScale())) }

// kept holds a view within the picture.
func (v *PhotoView) kept(to View) View {
	to.Zoom = math.Max(1, math.Min(to.Zoom, v.mostZoom()))
	if math.IsNaN(to.Zoom) {
		to = WholePicture
	}
	s, fit := v.Size(), v.fit()*to.Zoom
	to.X = keptAxis(to.X, float64(s.Width), float64(v.full.X)*fit)
	to.Y = keptAxis(to.Y, float64(s.Height), float64(v.full.Y)*fit)
	return to
}

// keptAxis keeps the middle so that the picture covers the view, or lies in its
// middle when it is the smaller one.
func keptAxis(mid, room, length float64) float64 {
	if length <= room || length == 0 || math.IsNaN(mid) {
		return 0.5
	}
	edge := room / 2 / length
	return math.Max(edge, math.Min(mid, 1-edge))
}

// at turns a place in the picture into one in the view.
func (v *PhotoView) at(x, y float64) fyne.Position {
	s, k := v.Size(), v.scale()
	return fyne.NewPos(
		s.Width/2+float32((x-v.view.X*float64(v.full.X))*k),
		s.Height/2+float32((y-v.view.Y*float64(v.full.Y))*k))
}

// PictureAt turns a place in the view into one in the picture, in its pixels.
func (v *PhotoView) PictureAt(p fyne.Position) (x, y float64) {
	s, k := v.Size(), v.scale()
	return v.view.X*float64(v.full.X) + float64(p.X-s.Width/2)/k,
		v.view.Y*float64(v.full.Y) + float64(p.Y-s.Height/2)/k
}

// arrange places the picture and what lies over it.
func (v *PhotoView) arrange() {
	k := v.scale()
	if img := v.level(k); img != nil {
		if v.pic.Image != image.Image(img) {
			v.pic.Image = img
			v.pic.Refresh()
		}
		Put(v.pic, v.at(0, 0), fyne.NewSize(float32(float64(v.full.X)*k), float32(float64(v.full.Y)*k)))
	}
	SetVisible(v.layers, len(v.levels) > 0) // nothing is drawn over a picture that is not there yet
	for _, o := range v.overlays {
		o.Arrange(v.at, float32(k))
	}
	v.BaseWidget.Refresh()
}

// level picks the smallest copy that has a pixel for each of the screen's.
func (v *PhotoView) level(scale float64) *image.RGBA {
	want := float64(v.full.X) * scale * v.canvasScale()
	var best *image.RGBA
	for _, l := range v.levels {
		if best == nil || float64(l.Rect.Dx()) >= want {
			best = l
		}
	}
	return best
}

// Resize keeps the view within the picture.
func (v *PhotoView) Resize(s fyne.Size) {
	v.BaseWidget.Resize(s)
	v.SetView(v.view)
}

func (v *PhotoView) CreateRenderer() fyne.WidgetRenderer {
	bed := canvas.NewRectangle(color.Transparent)
	ring := NewFocusRing(0)
	d := &Drawing{Of: v, Things: []fyne.CanvasObject{bed, v.clip, ring.Object()}}
	d.Least = func() fyne.Size { return fyne.NewSize(look.Space(40), look.Space(30)) }
	d.Lay = func(size fyne.Size) {
		at, seen := fyne.NewPos(0, 0), size
		if len(v.levels) > 0 { // the picture alone, as far as it is in sight
			at = fyne.NewPos(max(0, v.pic.Position().X), max(0, v.pic.Position().Y))
			end := v.pic.Position().Add(v.pic.Size())
			seen = fyne.NewSize(min(size.Width, end.X)-at.X, min(size.Height, end.Y)-at.Y)
		}
		Put(bed, at, seen)
		Put(ring.Object(), at, seen) // on it, since nothing stands out of a page of pictures
		v.clip.Resize(size)
	}
	d.Paint = func() {
		bed.FillColor = theme.Color(look.ColorNight)
		ring.Show(v, v.focused)
		canvas.Refresh(v)
	}
	return d.Painted()
}

// pyramid is a picture in halving sizes, so that the screen never has to shrink one
// by more than two, which would flicker and glitter.
type pyramid struct {
	levels []*image.RGBA
	done   chan struct{}
}

// largestSide is the largest texture that every graphics card of the last ten years
// takes.
const largestSide = 8192

// build works on a goroutine and tells ready on the main one.
func (p *pyramid) build(main Main, img image.Image, ready func()) {
	go func() {
		defer close(p.done)
		top := tightRGBA(img)
		for max(top.Rect.Dx(), top.Rect.Dy()) > largestSide {
			top = halved(top)
		}
		levels := []*image.RGBA{top}
		for min(top.Rect.Dx(), top.Rect.Dy()) > 512 {
			top = halved(top)
			levels = append(levels, top)
		}
		main(func() {
			p.levels = levels
			ready()
		})
	}()
}

func halved(src *image.RGBA) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, max(1, src.Rect.Dx()/2), max(1, src.Rect.Dy()/2)))
	draw.ApproxBiLinear.Scale(out, out.Bounds(), src, src.Bounds(), draw.Src, nil)
	return out
}
