package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

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
