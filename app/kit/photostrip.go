package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// PhotoStrip shows the photos of one record side by side, going on to the next line
// when the width runs out, the lines alike in length. For thousands of photos use PhotoGrid.
type PhotoStrip struct {
	widget.BaseWidget
	OnOpen   func(i int)
	OnDelete func(i int)

	loader *Loader
	size   fyne.Size
	rows   int
	tiles  []*PhotoTile
	tail   fyne.CanvasObject
	row    *fyne.Container
}

// NewPhotoStrip makes an empty strip of pictures of one size; rows is the number of
// lines of words beneath each. Tail stands after the last photo, such as a button
// that adds one (may be nil).
func NewPhotoStrip(loader *Loader, picture fyne.Size, rows int, tail fyne.CanvasObject) *PhotoStrip {
	s := &PhotoStrip{loader: loader, size: picture, rows: rows, tail: tail, row: container.New(&flowLayout{gap: look.Space(3), even: true})}
	s.SetItems(nil)
	s.ExtendBaseWidget(s)
	return s
}

// SetItems shows other photos. Tiles are kept and used again.
func (s *PhotoStrip) SetItems(items []PhotoItem) {
	for i := len(s.tiles); i < len(items); i++ {
		t := NewPhotoTile(s.loader, s.size, s.rows, nil)
		t.OnTapped = func() { tell(s.OnOpen, i) }
		t.OnDelete = func() { tell(s.OnDelete, i) }
		s.tiles = append(s.tiles, t)
	}
	s.tiles = s.tiles[:len(items)]
	s.row.Objects = s.row.Objects[:0]
	for i, item := range items {
		s.tiles[i].Set(item)
		s.row.Objects = append(s.row.Objects, s.tiles[i])
	}
	if s.tail != nil {
		s.row.Objects = append(s.row.Objects, s.tail)
	}
	s.row.Refresh()
}

// Tiles gives the tiles shown, in order.
func (s *PhotoStrip) Tiles() []*PhotoTile { return s.tiles }

func (s *PhotoStrip) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(s.row) }

// PhotoTile is a photo cell that can be tapped, focused and opened with Enter.
type PhotoTile struct {
	widget.BaseWidget
	Pressable
	OnTapped func()
	// OnDelete is called by the Delete key.
	OnDelete func()

	cell *PhotoCell
}

// NewPhotoTile makes a tile of a picture size with lines of words beneath.
func NewPhotoTile(loader *Loader, picture fyne.Size, rows int, tapped func()) *PhotoTile {
	t := &PhotoTile{cell: NewPhotoCell(loader, picture, rows), OnTapped: tapped}
	t.Pressable = Pressable{self: t, press: func() { call(t.OnTapped) }}
	t.ExtendBaseWidget(t)
	return t
}

// Filling lets the picture take all the height that it is given.
func (t *PhotoTile) Filling() *PhotoTile {
	t.cell.Filling()
	return t
}

// Set shows an item.
func (t *PhotoTile) Set(item PhotoItem) { t.cell.Set(item, t.cell.marked) }

// Item gives what the tile shows.
func (t *PhotoTile) Item() PhotoItem { return t.cell.item }

func (t *PhotoTile) FocusGained() { t.cell.Set(t.cell.item, true); reveal(t) }

func (t *PhotoTile) FocusLost() { t.cell.Set(t.cell.item, false) }

// TypedKey opens on Enter and Space, and deletes on Delete.
func (t *PhotoTile) TypedKey(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeyDelete {
		call(t.OnDelete)
		return
	}
	t.Pressable.TypedKey(ev)
}

func (t *PhotoTile) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(t.cell) }
