package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// PhotoTile is a photo cell that can be tapped, focused and opened with Enter.
type PhotoTile struct {
	widget.BaseWidget
	OnTapped func()
	// OnMenu may show what else can be done; it gets the place on the canvas.
	OnMenu func(at fyne.Position)
	// OnDelete is called by the Delete key.
	OnDelete func()

	cell *PhotoCell
}

// NewPhotoTile makes a tile of a picture size with lines of words beneath.
func NewPhotoTile(loader *Loader, picture fyne.Size, rows int, tapped func()) *PhotoTile {
	t := &PhotoTile{cell: NewPhotoCell(loader, picture, rows), OnTapped: tapped}
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

// Tapped opens the picture.
func (t *PhotoTile) Tapped(*fyne.PointEvent) {
	focusOn(t)
	t.open()
}

func (t *PhotoTile) open() { call(t.OnTapped) }

// TappedSecondary shows what else can be done.
func (t *PhotoTile) TappedSecondary(ev *fyne.PointEvent) { tell(t.OnMenu, ev.AbsolutePosition) }

func (t *PhotoTile) FocusGained() { t.cell.Set(t.cell.item, true); reveal(t) }

func (t *PhotoTile) FocusLost() { t.cell.Set(t.cell.item, false) }

// TypedKey opens on Enter and Space.
func (t *PhotoTile) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		ByKey(t, t.open)
	case fyne.KeyDelete:
		call(t.OnDelete)
	default:
		PassKey(t, ev)
	}
}

// TypedRune hands the character on to the page.
func (t *PhotoTile) TypedRune(r rune) { PassRune(t, r) }

// Cursor is a pointing hand.
func (t *PhotoTile) Cursor() desktop.Cursor { return desktop.PointerCursor }

func (t *PhotoTile) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(t.cell) }
