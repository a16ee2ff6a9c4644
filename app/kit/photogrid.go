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
	OnChoose func(i int) // Space, the tick, or a tap with Ctrl or Shift held; see Modifiers
	OnEnter  func(i int) // the Enter key; without it, Enter is OnOpen
	// OnRange, if set, is told of a tap or an arrow with Shift held: from where the last
	// one was chosen to there.
	OnRange func(from, to int)
	// Held gives the modifier keys that are held down: modifiers, unless a test sets another.
	Held func() fyne.KeyModifier

	loader  *Loader
	least   fyne.Size // of a picture
	picture fyne.Size // as they are shown
	rows    int
	item    func(i int) PhotoItem
	cursor  int
	anchor  int // where the last one was chosen
	focused bool
}

// NewPhotoGrid makes a grid of pictures of at least a size. Length and item are asked often, on the main goroutine:
// they must answer at once. Item may be asked for an index that is gone; it then
// gives the zero item.
func NewPhotoGrid(loader *Loader, least fyne.Size, rows int, length func() int, item func(i int) PhotoItem) *PhotoGrid {
	g := &PhotoGrid{loader: loader, least: least, picture: least, rows: rows, item: item, Held: modifiers}
	g.Length = length
	g.CreateItem = func() fyne.CanvasObject { return newGridCell(g) }
	g.UpdateItem = func(id widget.GridWrapItemID, o fyne.CanvasObject) {
		if id < 0 || id >= g.Length() {
			return
		}
		c := o.(*gridCell)
		c.at = id
		item := g.item(id)
		item.Choosable = g.OnChoose != nil && !item.Folder
		c.cell.setPictureSize(g.picture)
		c.cell.Set(item, g.focused && id == g.cursor)
		SetVisible(c.tick, item.Choosable)
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
	switch mod := g.Held(); {
	case mod&fyne.KeyModifierShift != 0 && g.OnRange != nil:
		g.OnRange(g.anchor, id)
	case mod != 0 && g.OnChoose != nil:
		g.choose(id)
	default:
		tell(g.OnOpen, id)
	}
}

// choose chooses one, from which a later Shift reaches.
func (g *PhotoGrid) choose(i int) {
	g.anchor = i
	tell(g.OnChoose, i)
}

// goTo moves the keyboard; with Shift held, what lies between is chosen.
func (g *PhotoGrid) goTo(i int) {
	g.SetCursor(i)
	if g.OnRange != nil && g.Held()&fyne.KeyModifierShift != 0 {
		g.OnRange(g.anchor, g.cursor)
	}
}

// Start is where the keyboard goes while there are photos.
func (g *PhotoGrid) Start() fyne.Focusable {
	if g.Length() == 0 {
		return nil
	}
	return g
}

// modifiers gives the modifier keys held down now.
func modifiers() fyne.KeyModifier {
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

func (g *PhotoGrid) FocusGained() { g.focused = true; g.Refresh() }

func (g *PhotoGrid) FocusLost() { g.focused = false; g.Refresh() }

func (g *PhotoGrid) TypedRune(r rune) { PassRune(g, r) }

func (g *PhotoGrid) TypedKey(ev *fyne.KeyEvent) {
	n, cols := g.Length(), max(1, g.ColumnCount())
	if n == 0 {
		PassKey(g, ev)
		return
	}
	switch ev.Name {
	case fyne.KeyRight:
		g.goTo(g.cursor + 1)
	case fyne.KeyLeft:
		g.goTo(g.cursor - 1)
	case fyne.KeyDown:
		if g.cursor+cols < n || g.cursor/cols < (n-1)/cols {
			g.goTo(g.cursor + cols)
		}
	case fyne.KeyUp:
		if g.cursor-cols >= 0 {
			g.goTo(g.cursor - cols)
		}
	case fyne.KeyHome:
		g.goTo(0)
	case fyne.KeyEnd:
		g.goTo(n - 1)
	case fyne.KeyPageDown:
		g.goTo(g.cursor + 3*cols)
	case fyne.KeyPageUp:
		g.goTo(g.cursor - 3*cols)
	case fyne.KeySpace:
		g.choose(g.cursor)
	case fyne.KeyReturn, fyne.KeyEnter:
		open := g.OnEnter
		if open == nil {
			open = g.OnOpen
		}
		ByKey(g, func() { tell(open, g.cursor) })
	default:
		PassKey(g, ev)
	}
}

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

// gridCell gives a photo cell room for its ring within the grid, and its tick a place to
// be tapped.
type gridCell struct {
	widget.BaseWidget
	of   *PhotoGrid
	at   int
	cell *PhotoCell
	tick *cellTick
}

func newGridCell(g *PhotoGrid) *gridCell {
	c := &gridCell{of: g, cell: NewPhotoCell(g.loader, g.picture, g.rows)}
	c.tick = &cellTick{c: c}
	c.tick.ExtendBaseWidget(c.tick)
	c.tick.Hide()
	c.ExtendBaseWidget(c)
	return c
}

// Cursor is a pointing hand: the cell opens something.
func (c *gridCell) Cursor() desktop.Cursor { return desktop.PointerCursor }

func (c *gridCell) CreateRenderer() fyne.WidgetRenderer {
	d := &Drawing{Of: c, Things: []fyne.CanvasObject{c.cell, c.tick}}
	d.Least = func() fyne.Size { return c.cell.MinSize().Add(fyne.NewSquareSize(2 * gridCellRim)) }
	d.Lay = func(s fyne.Size) {
		Put(c.cell, fyne.NewPos(gridCellRim, gridCellRim), s.Subtract(fyne.NewSquareSize(2*gridCellRim)))
		Put(c.tick, fyne.NewPos(s.Width-gridCellRim-tickTarget, gridCellRim), fyne.NewSquareSize(tickTarget))
	}
	d.Paint = func() { c.cell.Refresh() }
	return d
}

const gridCellRim = 8

// tickTarget is the side of the square that a tap on a tick must hit.
const tickTarget = 36

// cellTick takes the taps on the tick that a cell draws.
type cellTick struct {
	widget.BaseWidget
	c *gridCell
}

// Tapped chooses the cell, or with Shift held all from the last one chosen.
func (t *cellTick) Tapped(*fyne.PointEvent) {
	g := t.c.of
	g.cursor = t.c.at
	if g.OnRange != nil && g.Held()&fyne.KeyModifierShift != 0 {
		g.OnRange(g.anchor, t.c.at)
		return
	}
	g.choose(t.c.at)
}

func (t *cellTick) Cursor() desktop.Cursor { return desktop.PointerCursor }

func (t *cellTick) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(Gap(0)) }
