package kit

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// PhotoGrid shows any number of photos in a grid that scrolls, in as many columns as
// there is room for; the pictures grow to fill the width. Only what is on screen exists.
// Arrows move, Enter opens, Space chooses, Home and End go to the ends.
type PhotoGrid struct {
	widget.GridWrap
	OnOpen   func(i int)
	OnChoose func(i int) // Space, or a tap with Ctrl or Shift held; see Modifiers
	OnEnter  func(i int) // the Enter key; without it, Enter is OnOpen

	loader  *Loader
	least   fyne.Size // of a picture
	picture fyne.Size // as they are shown
	rows    int
	item    func(i int) PhotoItem
	cursor  int
	focused bool
}

// NewPhotoGrid makes a grid of pictures of at least a size. Length and item are asked often, on the main goroutine:
// they must answer at once. Item may be asked for an index that is gone; it then
// gives the zero item.
func NewPhotoGrid(loader *Loader, least fyne.Size, rows int, length func() int, item func(i int) PhotoItem) *PhotoGrid {
	g := &PhotoGrid{loader: loader, least: least, picture: least, rows: rows, item: item}
	g.Length = length
	g.CreateItem = func() fyne.CanvasObject { return newGridCell(g) }
	g.UpdateItem = func(id widget.GridWrapItemID, o fyne.CanvasObject) {
		if id < 0 || id >= g.Length() {
			return
		}
		cell := o.(*gridCell).cell
		cell.SetPictureSize(g.picture)
		cell.Set(g.item(id), g.focused && id == g.cursor)
	}
	g.OnSelected = g.tapped
	g.ExtendBaseWidget(g)
	return g
}

// Resize lets the pictures grow until their columns fill the width.
func (g *PhotoGrid) Resize(size fyne.Size) {
	before := g.picture
	g.picture = filling(g.least, size.Width, g.Theme().Size(theme.SizeNamePadding))
	g.GridWrap.Resize(size)
	if g.picture != before {
		g.GridWrap.Refresh() // asks a cell anew how large it is
		g.GridWrap.Resize(size)
	}
}

// filling gives the size of pictures of at least a size that fill a width, in cells with
// a gap between.
func filling(least fyne.Size, width, gap float32) fyne.Size {
	columns := float32(math.Floor(float64((width + gap) / (least.Width + 2*gridCellRim + gap))))
	if columns < 1 {
		return least
	}
	w := float32(math.Floor(float64((width+gap)/columns-gap))) - 2*gridCellRim
	return fyne.NewSize(w, float32(math.Round(float64(least.Height*w/least.Width))))
}

// tapped hears of a tap on a cell. The grid's own selection is not used.
func (g *PhotoGrid) tapped(id widget.GridWrapItemID) {
	g.UnselectAll()
	g.cursor = id
	if Modifiers() != 0 && g.OnChoose != nil {
		g.OnChoose(id)
		return
	}
	call(g.OnOpen, id)
}

// Modifiers gives the modifier keys held down now.
func Modifiers() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}

// Cursor gives the index of the cell that the keyboard is at.
func (g *PhotoGrid) Cursor() int { return g.cursor }

// SetCursor puts the keyboard at a cell and scrolls to it.
func (g *PhotoGrid) SetCursor(i int) {
	g.cursor = max(0, min(i, g.Length()-1))
	g.ScrollTo(g.cursor)
}

// FocusGained is called by Fyne.
func (g *PhotoGrid) FocusGained() { g.focused = true; g.Refresh() }

// FocusLost is called by Fyne.
func (g *PhotoGrid) FocusLost() { g.focused = false; g.Refresh() }

// TypedRune hands the character on to the page.
func (g *PhotoGrid) TypedRune(r rune) { PassRune(g, r) }

// TypedKey moves and opens.
func (g *PhotoGrid) TypedKey(ev *fyne.KeyEvent) {
	n, cols := g.Length(), max(1, g.ColumnCount())
	if n == 0 {
		PassKey(g, ev)
		return
	}
	switch ev.Name {
	case fyne.KeyRight:
		g.SetCursor(g.cursor + 1)
	case fyne.KeyLeft:
		g.SetCursor(g.cursor - 1)
	case fyne.KeyDown:
		if g.cursor+cols < n || g.cursor/cols < (n-1)/cols {
			g.SetCursor(g.cursor + cols)
		}
	case fyne.KeyUp:
		if g.cursor-cols >= 0 {
			g.SetCursor(g.cursor - cols)
		}
	case fyne.KeyHome:
		g.SetCursor(0)
	case fyne.KeyEnd:
		g.SetCursor(n - 1)
	case fyne.KeyPageDown:
		g.SetCursor(g.cursor + 3*cols)
	case fyne.KeyPageUp:
		g.SetCursor(g.cursor - 3*cols)
	case fyne.KeySpace:
		call(g.OnChoose, g.cursor)
	case fyne.KeyReturn, fyne.KeyEnter:
		if g.OnEnter != nil {
			g.OnEnter(g.cursor)
			return
		}
		call(g.OnOpen, g.cursor)
	default:
		PassKey(g, ev)
	}
}

// CreateRenderer is called by Fyne.
func (g *PhotoGrid) CreateRenderer() fyne.WidgetRenderer {
	return outdented{g.GridWrap.CreateRenderer()}
}

// outdented moves the grid out by the rim of its cells, so that its pictures stand
// under the words above it.
type outdented struct{ fyne.WidgetRenderer }

func (r outdented) Layout(size fyne.Size) {
	r.WidgetRenderer.Layout(size.Add(fyne.NewSize(gridCellRim, 0)))
	r.Objects()[0].Move(fyne.NewPos(-gridCellRim, 0))
}

// gridCell gives a photo cell room for its ring within the grid.
type gridCell struct {
	widget.BaseWidget
	cell *PhotoCell
}

func newGridCell(g *PhotoGrid) *gridCell {
	c := &gridCell{cell: NewPhotoCell(g.loader, g.picture, g.rows)}
	c.ExtendBaseWidget(c)
	return c
}

func (c *gridCell) CreateRenderer() fyne.WidgetRenderer { return &gridCellRenderer{c} }

type gridCellRenderer struct{ c *gridCell }

const gridCellRim = 8

func (r *gridCellRenderer) Destroy()                     {}
func (r *gridCellRenderer) Refresh()                     { r.c.cell.Refresh() }
func (r *gridCellRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.c.cell} }
func (r *gridCellRenderer) MinSize() fyne.Size {
	return r.c.cell.MinSize().Add(fyne.NewSquareSize(2 * gridCellRim))
}
func (r *gridCellRenderer) Layout(s fyne.Size) {
	r.c.cell.Move(fyne.NewPos(gridCellRim, gridCellRim))
	r.c.cell.Resize(s.Subtract(fyne.NewSquareSize(2 * gridCellRim)))
}
