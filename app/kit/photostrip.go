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
