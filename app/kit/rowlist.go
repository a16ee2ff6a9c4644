package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// RowList shows any number of rows of one height in a list that scrolls. Only the
// rows on screen exist; each is used again for another item. Arrows move, Enter or
// Space opens, Delete deletes, Home and End go to the ends.
type RowList struct {
	widget.List
	OnOpen   func(i int)
	OnDelete func(i int)
	OnMove   func(i int) // the keyboard is at another row
	OnPoint  func(i int) // the pointer is on this row; -1 when it is on none any more
	// Plain leaves out the rules between rows.
	Plain bool
	// Most is how high rows grow where the list has room for all of them; zero: they do not.
	Most float32
	// Least is how high what a row shows is at least in a list so wide; nil: as high as it asks.
	Least func(width float32) float32

	cursor  int
	focused bool
}

// NewRowList makes a list. Row makes an empty row; show fills it for the item i, and
// is called often, on the main goroutine: it must answer at once.
func NewRowList(length func() int, row func() fyne.CanvasObject, show func(i int, row fyne.CanvasObject)) *RowList {
	l := &RowList{}
	l.HideSeparators = true // ours are in line with the rows' words
	l.Length = length
	l.CreateItem = func() fyne.CanvasObject { return newListRow(l, row()) }
	l.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) {
		if i < 0 || i >= length() {
			return
		}
		r := o.(*listRow)
		show(i, r.content)
		SetVisible(r.rule, i > 0 && !l.Plain)
		r.take(i, l.focused && i == l.cursor)
	}
	l.OnSelected = func(i widget.ListItemID) {
		l.UnselectAll()
		l.move(i)
		tell(l.OnOpen, i)
	}
	l.ExtendBaseWidget(l)
	return l
}

// Resize gives the list the width that its rows' words take: the room for the ring
// around a row stands out on both sides, so that the words are in line with the page's.
func (l *RowList) Resize(s fyne.Size) {
	high := l.spread()
	l.List.Resize(s.Add(fyne.NewSize(2*listRowSide, 0)))
	if l.spread() != high {
		l.Refresh()
	}
}

// spread is how high a row is for its width, and so that all of them fill the list.
func (l *RowList) spread() float32 {
	high := min(l.Most, l.Size().Height/float32(max(1, l.Length()))-theme.Padding())
	if l.Least != nil {
		high = max(high, l.Least(l.Size().Width-2*listRowSide)+2*listRowRim)
	}
	return max(0, high)
}

// Move puts the list where its rows' words begin.
func (l *RowList) Move(pos fyne.Position) { l.List.Move(pos.SubtractXY(listRowSide, 0)) }

// Start is where the keyboard goes while there are rows.
func (l *RowList) Start() fyne.Focusable {
	if l.Length() == 0 {
		return nil
	}
	return l
}

// Cursor gives the index of the row that the keyboard is at.
func (l *RowList) Cursor() int { return l.cursor }

// SetCursor puts the keyboard at a row and scrolls to it.
func (l *RowList) SetCursor(i int) {
	l.move(i)
	if l.Length() > 0 {
		l.ScrollTo(l.cursor)
	}
}

func (l *RowList) move(i int) {
	was := l.cursor
	l.cursor = max(0, min(i, l.Length()-1))
	l.RefreshItem(was)
	l.RefreshItem(l.cursor)
	tell(l.OnMove, l.cursor)
}

func (l *RowList) FocusGained() { l.focused = true; l.RefreshItem(l.cursor) }

func (l *RowList) FocusLost() { l.focused = false; l.RefreshItem(l.cursor) }

func (l *RowList) TypedRune(r rune) { PassRune(l, r) }

func (l *RowList) TypedKey(ev *fyne.KeyEvent) {
	n := l.Length()
	if n == 0 {
		PassKey(l, ev)
		return
	}
	l.cursor = min(l.cursor, n-1)
	switch ev.Name {
	case fyne.KeyDown:
		l.SetCursor(l.cursor + 1)
	case fyne.KeyUp:
		l.SetCursor(l.cursor - 1)
	case fyne.KeyHome:
		l.SetCursor(0)
	case fyne.KeyEnd:
		l.SetCursor(n - 1)
	case fyne.KeyPageDown:
		l.SetCursor(l.cursor + 6)
	case fyne.KeyPageUp:
		l.SetCursor(l.cursor - 6)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		ByKey(l, func() { tell(l.OnOpen, l.cursor) })
	case fyne.KeyDelete:
		if l.OnDelete == nil {
			PassKey(l, ev)
			return
		}
		l.OnDelete(l.cursor)
	default:
		PassKey(l, ev)
	}
}

// listRow gives a row its inset, the ring of the keyboard's place and the wash of the pointer's.
type listRow struct {
	widget.BaseWidget
	of              *RowList
	i               int
	content         fyne.CanvasObject
	rule            fyne.CanvasObject // above it
	wash            *canvas.Rectangle
	ring            FocusRing
	marked, hovered bool
}

func newListRow(of *RowList, content fyne.CanvasObject) *listRow {
	r := &listRow{of: of, i: -1, content: content, rule: Rule(), wash: canvas.NewRectangle(color.Transparent), ring: NewFocusRing(look.Radius)}
	r.wash.CornerRadius = look.Radius
	r.ExtendBaseWidget(r)
	return r
}

// MouseIn tells the list where the pointer is.
func (r *listRow) MouseIn(*desktop.MouseEvent) {
	r.hovered = true
	r.Refresh()
	tell(r.of.OnPoint, r.i)
}

func (r *listRow) MouseMoved(*desktop.MouseEvent) {}

// MouseOut tells the list that the pointer has left the row.
func (r *listRow) MouseOut() {
	r.hovered = false
	r.Refresh()
	tell(r.of.OnPoint, -1)
}

// Cursor is a pointing hand: the row opens something.
func (r *listRow) Cursor() desktop.Cursor { return desktop.PointerCursor }

// take makes it the row of an item: of another one when it was scrolled out of sight.
func (r *listRow) take(i int, marked bool) {
	hovered := r.hovered && r.i == i
	if r.i = i; r.marked != marked || r.hovered != hovered {
		r.marked, r.hovered = marked, hovered
		r.Refresh()
	}
}

func (r *listRow) CreateRenderer() fyne.WidgetRenderer {
	things := []fyne.CanvasObject{r.rule, r.wash, r.ring.Object(), r.content}
	return &Drawing{Of: r, Things: things, Least: r.least, Lay: r.lay, Paint: r.paint}
}

const (
	listRowSide = 10
	listRowRim  = 6
)

func (r *listRow) least() fyne.Size {
	s := r.content.MinSize().Add(fyne.NewSize(2*listRowSide, 2*listRowRim))
	return fyne.NewSize(s.Width, max(s.Height, TargetSide, r.of.spread()))
}
func (r *listRow) lay(s fyne.Size) {
	r.wash.Resize(s)
	r.ring.Within(s)
	// In the middle of the room that the list leaves between rows.
	Put(r.rule, fyne.NewPos(listRowSide, -theme.Padding()/2), fyne.NewSize(s.Width-2*listRowSide, 1))
	Put(r.content, fyne.NewPos(listRowSide, listRowRim), s.Subtract(fyne.NewSize(2*listRowSide, 2*listRowRim)))
}
func (r *listRow) paint() {
	r.wash.FillColor = color.Transparent
	if r.hovered {
		r.wash.FillColor = theme.Color(look.ColorWash)
	}
	r.ring.Show(r, r.marked)
	r.content.Refresh()
}
