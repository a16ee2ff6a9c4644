package kit

import (
	"image/color"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// Month is a small calendar: six weeks from Monday, arrows move by a day or a week,
// Page up and Page down by a month, Enter picks, Esc gives up.
type Month struct {
	widget.BaseWidget
	OnPicked func(day time.Time)
	OnCancel func()

	at, today time.Time // noon of the marked day and of today
	hover     int
}

// NewMonth makes a calendar with the day of at marked.
func NewMonth(at, today time.Time) *Month {
	m := &Month{at: noonOf(at), today: noonOf(today), hover: -1}
	m.ExtendBaseWidget(m)
	return m
}

func noonOf(t time.Time) time.Time {
	y, mo, d := t.Date()
	return time.Date(y, mo, d, 12, 0, 0, 0, time.UTC)
}

// Day gives the marked day.
func (m *Month) Day() time.Time { return m.at }

// first is the Monday that the grid begins with.
func (m *Month) first() time.Time {
	one := time.Date(m.at.Year(), m.at.Month(), 1, 12, 0, 0, 0, time.UTC)
	return one.AddDate(0, 0, -(int(one.Weekday())+6)%7)
}

// addMonths keeps the day of the month where it can: 31 Jan and one is 28 Feb.
func addMonths(t time.Time, n int) time.Time {
	one := time.Date(t.Year(), t.Month()+time.Month(n), 1, 12, 0, 0, 0, time.UTC)
	last := one.AddDate(0, 1, -1).Day()
	return time.Date(one.Year(), one.Month(), min(t.Day(), last), 12, 0, 0, 0, time.UTC)
}

func (m *Month) move(t time.Time) {
	m.at = t
	m.Refresh()
}

func (m *Month) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyLeft:
		m.move(m.at.AddDate(0, 0, -1))
	case fyne.KeyRight:
		m.move(m.at.AddDate(0, 0, 1))
	case fyne.KeyUp:
		m.move(m.at.AddDate(0, 0, -7))
	case fyne.KeyDown:
		m.move(m.at.AddDate(0, 0, 7))
	case fyne.KeyPageUp:
		m.move(addMonths(m.at, -1))
	case fyne.KeyPageDown:
		m.move(addMonths(m.at, 1))
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		m.pick(m.at)
	case fyne.KeyEscape:
		call(m.OnCancel)
	}
}

// TypedRune goes to today on "t".
func (m *Month) TypedRune(r rune) {
	if r == 't' || r == 'T' {
		m.move(m.today)
	}
}

func (m *Month) FocusGained() {}

func (m *Month) FocusLost() {}

func (m *Month) pick(day time.Time) { tell(m.OnPicked, day) }

const (
	monthCell = 32
	monthHead = 32
	monthWeek = 20
)

// Tapped picks a day, or goes a month back or on by the arrows in the title.
func (m *Month) Tapped(ev *fyne.PointEvent) {
	if ev.Position.Y < monthHead {
		switch {
		case ev.Position.X < monthCell:
			m.move(addMonths(m.at, -1))
		case ev.Position.X > 6*monthCell:
			m.move(addMonths(m.at, 1))
		}
		return
	}
	if i := m.cellAt(ev.Position); i >= 0 {
		m.pick(m.first().AddDate(0, 0, i))
	}
}

func (m *Month) cellAt(p fyne.Position) int {
	y := p.Y - monthHead - monthWeek
	if y < 0 || p.X < 0 {
		return -1
	}
	col, row := int(p.X/monthCell), int(y/monthCell)
	if col > 6 || row > 5 {
		return -1
	}
	return row*7 + col
}

func (m *Month) MouseIn(ev *desktop.MouseEvent) { m.MouseMoved(ev) }

func (m *Month) MouseMoved(ev *desktop.MouseEvent) {
	if i := m.cellAt(ev.Position); i != m.hover {
		m.hover = i
		m.Refresh()
	}
}

func (m *Month) MouseOut() { m.hover = -1; m.Refresh() }

func (m *Month) CreateRenderer() fyne.WidgetRenderer {
	arrow := func(sign string) *Text {
		return NewLine(Span{Text: sign, Size: look.TextLarge, Color: look.ColorCrust})
	}
	title, back, on := NewLine(), arrow("‹"), arrow("›")
	title.SetAlign(fyne.TextAlignCenter)
	d := &Drawing{Of: m, Things: []fyne.CanvasObject{title, back, on}}
	var names [7]*Text
	for i := range names {
		name := lang.L(time.Weekday((i + 1) % 7).String()[:2])
		names[i] = NewLine(Span{Text: name, Size: look.TextSmall, Color: look.ColorFaint})
		names[i].SetAlign(fyne.TextAlignCenter)
		d.Things = append(d.Things, names[i])
	}
	var beds [42]*canvas.Rectangle
	var days [42]*Text
	for i := range days {
		days[i] = NewLine()
		days[i].SetAlign(fyne.TextAlignCenter)
		beds[i] = canvas.NewRectangle(color.Transparent)
		beds[i].CornerRadius = look.Radius
		d.Things = append(d.Things, beds[i], days[i])
	}
	d.Least = func() fyne.Size { return fyne.NewSize(7*monthCell, monthHead+monthWeek+6*monthCell) }
	d.Lay = func(fyne.Size) {
		put := func(t *Text, x, y, w, h float32) {
			m := t.MinSize()
			Put(t, fyne.NewPos(x, y+(h-m.Height)/2), fyne.NewSize(w, m.Height))
		}
		put(title, monthCell, 0, 5*monthCell, monthHead)
		put(back, 10, 0, monthCell, monthHead)
		put(on, 6*monthCell+12, 0, monthCell, monthHead)
		for i, n := range names {
			put(n, float32(i)*monthCell, monthHead, monthCell, monthWeek)
		}
		for i := range days {
			x, y := float32(i%7)*monthCell, monthHead+monthWeek+float32(i/7)*monthCell
			Put(beds[i], fyne.NewPos(x+1, y+1), fyne.NewSize(monthCell-2, monthCell-2))
			put(days[i], x, y, monthCell, monthCell)
		}
	}
	d.Paint = func() {
		title.SetSpans(Span{Text: lang.L(m.at.Month().String()) + " " + strconv.Itoa(m.at.Year()), Bold: true})
		first := m.first()
		for i := range days {
			day := first.AddDate(0, 0, i)
			s := Span{Text: strconv.Itoa(day.Day())}
			bed := color.Color(color.Transparent)
			beds[i].StrokeWidth = 0
			switch {
			case day.Equal(m.at):
				bed, s.Color, s.Bold = theme.Color(look.ColorCrust), look.ColorOnCrust, true
			case day.Month() != m.at.Month():
				s.Color = look.ColorFaint
			}
			if i == m.hover && !day.Equal(m.at) {
				bed = theme.Color(look.ColorWash)
			}
			if day.Equal(m.today) {
				beds[i].StrokeWidth, beds[i].StrokeColor = 1, theme.Color(look.ColorCrust)
			}
			beds[i].FillColor = bed
			days[i].SetSpans(s)
		}
		back.Refresh()
		on.Refresh()
		for _, n := range names {
			n.Refresh()
		}
	}
	return d.Painted()
}

// monthButton is the small drawing of a calendar leaf that opens a month. It is not
// in the Tab order: Down in the field does the same.
type monthButton struct {
	widget.BaseWidget
	tapped func()
}

func newMonthButton(tapped func()) *monthButton {
	b := &monthButton{tapped: tapped}
	b.ExtendBaseWidget(b)
	return b
}

func (b *monthButton) Tapped(*fyne.PointEvent) { b.tapped() }
func (b *monthButton) Cursor() desktop.Cursor  { return desktop.PointerCursor }

func (b *monthButton) CreateRenderer() fyne.WidgetRenderer {
	leaf := canvas.NewRectangle(color.Transparent)
	leaf.CornerRadius, leaf.StrokeWidth = 2, 1.2
	bar := canvas.NewRectangle(color.Transparent)
	dot := canvas.NewRectangle(color.Transparent)
	d := &Drawing{Of: b, Things: []fyne.CanvasObject{leaf, bar, dot}}
	d.Least = func() fyne.Size { return fyne.NewSquareSize(TargetSide) }
	d.Lay = func(size fyne.Size) {
		x, y := (size.Width-14)/2, (size.Height-14)/2
		Put(leaf, fyne.NewPos(x, y), fyne.NewSize(14, 14))
		Put(bar, fyne.NewPos(x, y+3), fyne.NewSize(14, 2))
		Put(dot, fyne.NewPos(x+8, y+8), fyne.NewSize(3, 3))
	}
	d.Paint = func() {
		c := theme.Color(look.ColorFaint)
		leaf.StrokeColor, bar.FillColor, dot.FillColor = c, c, c
	}
	return d.Painted()
}
