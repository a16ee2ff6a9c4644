package kit

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// PhotoItem is what a cell shows.
type PhotoItem struct {
	Key    string // of the thumbnail; empty shows an empty place
	Title  string // bold, beneath
	Right  string // at the right end of the title: a score
	Sub    string // faint, beneath the title
	Short  string // in the place of Sub where that has no room, if it is not empty
	Chosen bool   // marked, as one of several
	// Choosable draws the ring of a tick that is not set.
	Choosable bool
	Folder    bool // a folder of the file picker
	Plain     bool // the title is not bold
	// Loaf is drawn in the place of a picture that is not there, or not yet.
	Loaf LoafTone
}

// PhotoCell is a thumbnail with words beneath. It takes no taps itself. A cell is
// made to be used again for another item: what was asked for the one before is
// cancelled, and a late answer is ignored.
type PhotoCell struct {
	widget.BaseWidget
	loader  *Loader
	size    fyne.Size // of the picture
	rows    int       // of words: 0, 1 or 2
	item    PhotoItem
	marked  bool
	fills   bool      // the picture takes all the height that there is
	drawn   fyne.Size // how large it is then
	img     image.Image
	cancel  func()
	stamp   int
	started bool
}

// NewPhotoCell makes an empty cell. Rows is the number of lines of words beneath the
// picture (0, 1 or 2). A nil loader shows no pictures.
func NewPhotoCell(loader *Loader, picture fyne.Size, rows int) *PhotoCell {
	c := &PhotoCell{loader: loader, size: picture, rows: rows}
	c.ExtendBaseWidget(c)
	return c
}

// Set shows another item; marked draws the ring of the keyboard's place. It is cheap
// when nothing changed.
func (c *PhotoCell) Set(item PhotoItem, marked bool) {
	if c.started && c.item == item && c.marked == marked {
		return
	}
	fresh := !c.started || c.item.Key != item.Key
	c.item, c.marked, c.started = item, marked, true
	if fresh {
		c.load()
	}
	c.Refresh()
}

// Filling lets the picture take all the room that it is given.
func (c *PhotoCell) Filling() *PhotoCell {
	c.fills = true
	return c
}

// setPictureSize makes the picture another size; the cell's own size is for whoever
// lays it out.
func (c *PhotoCell) setPictureSize(size fyne.Size) {
	if c.size == size {
		return
	}
	before := c.thumb()
	c.size = size
	if c.thumb() != before {
		c.load()
	}
	c.Refresh()
}

// grow is told how large the picture is drawn: one that is too small for that stays until
// the larger one has come.
func (c *PhotoCell) grow(size fyne.Size) {
	before := c.thumb()
	c.drawn = size
	if c.thumb() > before {
		c.fetch()
	}
}

// thumb is the size of the thumbnail that is asked for.
func (c *PhotoCell) thumb() int { return thumbSize(c.size.Max(c.drawn), c) }

// Item gives what the cell shows.
func (c *PhotoCell) Item() PhotoItem { return c.item }

// HasPicture says whether the thumbnail has come.
func (c *PhotoCell) HasPicture() bool { return c.img != nil }

func (c *PhotoCell) load() {
	c.img = nil
	c.fetch()
}

func (c *PhotoCell) fetch() {
	End(&c.cancel)
	c.stamp++
	if c.item.Key == "" || c.loader == nil {
		return
	}
	size := c.thumb()
	if img, ok := c.loader.Cached(c.item.Key, size); ok {
		c.img = img
		return
	}
	stamp := c.stamp
	c.cancel = c.loader.Load(c.item.Key, size, func(img image.Image, err error) {
		if stamp != c.stamp || err != nil {
			return
		}
		c.img = img
		c.Refresh()
	})
}

// thumbSize asks for one of a few sizes, so that cells of nearly one size share.
func thumbSize(s fyne.Size, o fyne.CanvasObject) int {
	scale := float32(1)
	if c := canvasOf(o); c != nil {
		scale = c.Scale()
	}
	// A little too small is not seen, and takes a quarter of the room in memory.
	want := max(s.Width, s.Height) * scale / 1.15
	for _, size := range []int{128, 256, 512} {
		if want <= float32(size) {
			return size
		}
	}
	return 1024
}

func (c *PhotoCell) CreateRenderer() fyne.WidgetRenderer {
	r := &photoCellRenderer{c: c, bed: canvas.NewRectangle(color.Transparent), ring: canvas.NewRectangle(color.Transparent),
		pic: &canvas.Image{FillMode: canvas.ImageFillCover, ScaleMode: canvas.ImageScaleFastest, CornerRadius: 4},
		tab: canvas.NewRectangle(color.Transparent), title: NewLine(), right: NewLine(), sub: NewLine(),
		tick: NewLine(), tickBed: canvas.NewCircle(color.Transparent)}
	r.bed.CornerRadius, r.ring.CornerRadius, r.tab.CornerRadius = 4, 7, 3
	r.Refresh()
	return r
}

type photoCellRenderer struct {
	c              *PhotoCell
	bed, ring, tab *canvas.Rectangle
	pic            *canvas.Image
	title, right   *Text
	sub, tick      *Text
	tickBed        *canvas.Circle
	loaf           image.Image
	loafFor        loafWish
}

func (r *photoCellRenderer) Destroy() {}
func (r *photoCellRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ring, r.tab, r.bed, r.pic, r.tickBed, r.tick, r.title, r.right, r.sub}
}

func (r *photoCellRenderer) MinSize() fyne.Size {
	return r.c.size.Add(fyne.NewSize(0, float32(r.c.rows)*look.Space(5.5)+look.Space(1)))
}

func (r *photoCellRenderer) Layout(size fyne.Size) {
	w, h := size.Width, r.c.size.Height
	if r.c.fills {
		h = max(0, size.Height-(r.MinSize().Height-h))
		r.c.grow(fyne.NewSize(w, h))
	}
	inset, top := float32(0), float32(0)
	if r.c.item.Folder {
		inset, top = w*0.18, h*0.22
		Put(r.tab, fyne.NewPos(inset, top-h*0.08), fyne.NewSize((w-2*inset)*0.4, h*0.2))
	}
	Put(r.bed, fyne.NewPos(inset, top), fyne.NewSize(w-2*inset, h-2*top))
	r.pic.Resize(fyne.NewSize(w, h))
	Put(r.ring, fyne.NewPos(-3, -3), fyne.NewSize(w+6, h+6))
	Put(r.tickBed, fyne.NewPos(w-28, 6), fyne.NewSquareSize(22))
	t := r.tick.MinSize()
	Put(r.tick, fyne.NewPos(w-17-t.Width/2, 17-t.Height/2), t)
	y := h + look.Space(1)
	right := r.right.MinSize()
	Put(r.right, fyne.NewPos(w-right.Width, y), right)
	room := w
	if r.c.item.Right != "" {
		room -= right.Width + look.Space(2)
	}
	r.elide(r.title, Span{Text: r.c.item.Title, Bold: !r.c.item.Plain}, room)
	r.title.Move(fyne.NewPos(0, y))
	sub := Span{Text: r.c.item.Sub, Color: look.ColorFaint}
	if size, _ := sub.measure(sub.Text); size.Width > w && r.c.item.Short != "" {
		sub.Text = r.c.item.Short
	}
	r.elide(r.sub, sub, w)
	r.sub.Move(fyne.NewPos(0, y+look.Space(5)))
}

// elide sets as much of a line as there is room for.
func (r *photoCellRenderer) elide(t *Text, s Span, room float32) {
	s.Text = Fit(s, room)
	if len(t.spans) != 1 || t.spans[0] != s {
		t.SetSpans(s)
	}
	t.Resize(t.MinSize())
}

// Fit cuts off what of a text there is no room for: "A long name of a l…".
func Fit(s Span, room float32) string {
	if size, _ := s.measure(s.Text); size.Width <= room {
		return s.Text
	}
	runes := []rune(s.Text)
	lo, hi := 0, len(runes)
	for lo < hi {
		mid := (lo + hi + 1) / 2
		if size, _ := s.measure(string(runes[:mid]) + "…"); size.Width <= room {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	if lo == 0 {
		return ""
	}
	return string(runes[:lo]) + "…"
}

func (r *photoCellRenderer) Refresh() {
	c := r.c
	r.bed.FillColor = theme.Color(look.ColorNight)
	r.tab.FillColor = color.Transparent
	if c.item.Folder {
		r.bed.FillColor, r.tab.FillColor = theme.Color(look.ColorDough), theme.Color(look.ColorDough)
	}
	r.ring.StrokeColor, r.ring.StrokeWidth = color.Transparent, 0
	switch {
	case c.item.Chosen:
		r.ring.StrokeColor, r.ring.StrokeWidth = theme.Color(look.ColorCrust), 3
	case c.marked:
		r.ring.StrokeColor, r.ring.StrokeWidth = theme.Color(look.ColorCrust), 2
	}
	r.tickBed.FillColor, r.tickBed.StrokeWidth = color.Transparent, 0
	r.tick.SetSpans()
	if c.item.Choosable {
		r.tickBed.FillColor, r.tickBed.StrokeColor, r.tickBed.StrokeWidth = theme.Color(look.ColorPaper), theme.Color(look.ColorEdge), 1.5
	}
	if c.item.Chosen {
		r.tickBed.FillColor, r.tickBed.StrokeWidth = theme.Color(look.ColorCrust), 0
		r.tick.SetSpans(Span{Text: "✓", Bold: true, Color: look.ColorOnCrust})
	}
	img := c.img
	if img == nil && !c.item.Folder && (c.item.Key != "" || c.item.Loaf != NoLoaf) {
		img = r.drawn() // until its thumbnail has come, or where there is none
	}
	if r.pic.Image != img {
		r.pic.Image = img
		r.pic.Refresh()
	}
	SetVisible(r.pic, img != nil)
	SetVisible(r.title, c.rows > 0)
	SetVisible(r.right, c.rows > 0)
	SetVisible(r.sub, c.rows > 1)
	r.right.SetSpans(Span{Text: c.item.Right, Color: look.ColorFaint})
	r.title.Refresh()
	r.sub.Refresh()
	r.bed.Refresh()
	r.tab.Refresh()
	r.ring.Refresh()
	r.tickBed.Refresh()
	r.Layout(c.Size())
}

// drawn gives the drawing that stands for a picture, made anew when the cell's size,
// the tone or the look has changed.
func (r *photoCellRenderer) drawn() image.Image {
	scale := float32(1)
	if c := canvasOf(r.c); c != nil {
		scale = c.Scale()
	}
	p, _ := look.Current()
	want := loafWish{tone: max(r.c.item.Loaf, PaleLoaf), w: int(r.c.size.Width * scale), h: int(r.c.size.Height * scale), palette: p}
	if r.loaf == nil || r.loafFor != want {
		r.loaf, r.loafFor = paintLoaf(want.tone, want.w, want.h, p), want
	}
	return r.loaf
}

// loafWish is what a drawing of a loaf is made for.
type loafWish struct {
	tone    LoafTone
	w, h    int
	palette look.Palette
}
