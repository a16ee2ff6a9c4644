package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// OpenRows is a short list whose rows open something: each is pressed anywhere on it,
// and is one stop for Tab. Arrows move from row to row, Home and End go to the ends.
// For lists of any length there is [RowList].
type OpenRows struct {
	widget.BaseWidget
	column *fyne.Container
	rows   []*OpenRow
	at     string // the key of the row that has the keyboard, or had it last
}

// OpenRow is one row of [OpenRows].
type OpenRow struct {
	widget.BaseWidget
	Pressable
	of      *OpenRows
	key     string
	content fyne.CanvasObject
	inset   func(width float32) float32
}

// NewOpenRows makes an empty list.
func NewOpenRows() *OpenRows {
	r := &OpenRows{column: Stack(0)}
	r.ExtendBaseWidget(r)
	return r
}

// NewOpenRow makes a row. The key tells it from the others when the list is made anew;
// inset, if any, is how far it stands in from the left at a width of the list. What the row holds takes no taps itself,
// unless it is there to do something else than to open the row.
func NewOpenRow(key string, inset func(width float32) float32, content fyne.CanvasObject, open func()) *OpenRow {
	if inset == nil {
		inset = func(float32) float32 { return 0 }
	}
	o := &OpenRow{key: key, content: content, inset: inset}
	o.Pressable = Pressable{self: o, press: open}
	o.ExtendBaseWidget(o)
	return o
}

// Set replaces the rows; between them may stand what is no row, such as rules. The
// keyboard stays at the row of the same key, if it was in the list.
func (r *OpenRows) Set(things ...fyne.CanvasObject) {
	had := r.focused() != nil
	r.rows, r.column.Objects = nil, things
	for _, o := range things {
		if row, ok := o.(*OpenRow); ok {
			row.of = r
			r.rows = append(r.rows, row)
		}
	}
	r.column.Refresh()
	r.Refresh()
	if had {
		if to := r.Start(); to != nil {
			focusOn(to)
		} else if c := canvasOf(r); c != nil {
			c.Unfocus()
		}
	}
}

// Start is the row that the keyboard goes to: where it was last, or the first.
func (r *OpenRows) Start() fyne.Focusable {
	for _, row := range r.rows {
		if row.key == r.at {
			return row
		}
	}
	if len(r.rows) == 0 {
		return nil
	}
	return r.rows[0]
}

// At gives the key of the row that has the keyboard; none when it is elsewhere.
func (r *OpenRows) At() (key string, ok bool) {
	if row := r.focused(); row != nil {
		return row.key, true
	}
	return "", false
}

func (r *OpenRows) focused() *OpenRow {
	for _, row := range r.rows {
		if row.focused {
			return row
		}
	}
	return nil
}

// step moves the keyboard from a row by a number of rows.
func (r *OpenRows) step(from *OpenRow, by int) {
	for i, row := range r.rows {
		if row == from {
			focusOn(r.rows[max(0, min(i+by, len(r.rows)-1))])
			return
		}
	}
}

func (r *OpenRows) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(r.column) }

func (o *OpenRow) FocusGained() {
	if o.of != nil {
		o.of.at = o.key
	}
	o.Pressable.FocusGained()
}

// TypedKey moves, and opens on Enter and Space.
func (o *OpenRow) TypedKey(ev *fyne.KeyEvent) {
	if o.of != nil {
		switch n := len(o.of.rows); ev.Name {
		case fyne.KeyDown:
			o.of.step(o, 1)
			return
		case fyne.KeyUp:
			o.of.step(o, -1)
			return
		case fyne.KeyHome:
			o.of.step(o, -n)
			return
		case fyne.KeyEnd:
			o.of.step(o, n)
			return
		}
	}
	o.Pressable.TypedKey(ev)
}

func (o *OpenRow) CreateRenderer() fyne.WidgetRenderer {
	wash := canvas.NewRectangle(color.Transparent)
	wash.CornerRadius = look.Radius
	d := &Drawing{Of: o, Things: []fyne.CanvasObject{wash, o.content}}
	d.Least = func() fyne.Size { return o.content.MinSize().Add(fyne.NewSize(o.inset(o.Size().Width), 2*openRowRim)) }
	d.Lay = func(size fyne.Size) {
		in := o.inset(size.Width)
		Put(wash, fyne.NewPos(in-openRowSide, 0), fyne.NewSize(size.Width-in+2*openRowSide, size.Height))
		Put(o.content, fyne.NewPos(in, openRowRim), fyne.NewSize(size.Width-in, size.Height-2*openRowRim))
	}
	d.Paint = func() {
		wash.FillColor, wash.StrokeWidth = color.Transparent, 0
		if o.hovered {
			wash.FillColor = theme.Color(look.ColorWash)
		}
		if o.focused {
			wash.StrokeColor, wash.StrokeWidth = theme.Color(look.ColorCrust), 2
		}
		o.content.Refresh()
	}
	return d.Painted()
}

// The wash of a row under the pointer reaches this far beyond its words.
const (
	openRowSide = 10
	openRowRim  = 8
)
