package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// ScheduleRow is one moment of a dough's day. What is empty in every row has no column.
type ScheduleRow struct {
	Day     string // written where it changes
	Clock   string
	Title   string
	Length  string
	Planned string // when it was meant to be
	By      string // how far from that it was
	Note    string // what else is to be said of it
	Late    string // by how much it is overdue, where it is next and overdue
	State   ScheduleState
}

// ScheduleState says how a moment stands.
type ScheduleState int

// The states of a moment.
const (
	StepPlain ScheduleState = iota
	StepDone
	StepSkipped
	StepNext
	StepLate  // it is next, and overdue
	StepNight // it falls into the hours of sleep
)

// ScheduleHeads are the heads of a schedule's columns; empty for none. The columns of
// day and step have none: they speak for themselves.
type ScheduleHeads struct{ Clock, Length, Planned, By, Note string }

// A Schedule lists the moments of a day, planned or past: the day where it changes, the
// clock, the step, and what is known of each. A day has a column of its own where there
// is room, and else a line above its first moment; what is said of a moment goes below
// its step where it has no room beside it.
type Schedule struct {
	widget.BaseWidget
	box    *fyne.Container
	layout *scheduleLayout
	size   float32
	heads  ScheduleHeads
	rows   []ScheduleRow
	cells  []*scheduleCells
}

// NewSchedule makes an empty schedule in letters of a size.
func NewSchedule(size float32, heads ScheduleHeads) *Schedule {
	s := &Schedule{size: size, heads: heads, layout: &scheduleLayout{}}
	s.box = container.New(s.layout)
	s.ExtendBaseWidget(s)
	return s
}

// scheduleCells are the texts of a row, in the order of the columns.
type scheduleCells struct {
	cells [scheduleColumns]*Text
	rule  fyne.CanvasObject // above the first moment of a day
	late  *Due              // below the step, where it is overdue
	row   ScheduleRow
}

// The columns of a schedule, from the left.
const (
	dayColumn = iota
	clockColumn
	titleColumn
	lengthColumn
	plannedColumn
	byColumn
	noteColumn
	scheduleColumns
)

// SetRows shows other moments, and tells whether anything changed.
func (s *Schedule) SetRows(rows []ScheduleRow) bool {
	changed := len(rows) != len(s.rows)
	for i, row := range rows {
		if i == len(s.cells) {
			s.cells = append(s.cells, newScheduleCells())
			changed = true
		} else if s.cells[i].row == row {
			continue
		}
		s.cells[i].show(row, s.size)
		changed = true
	}
	if !changed {
		return false
	}
	s.rows, s.cells = rows, s.cells[:len(rows)]
	s.layout.set(s.cells, s.heads)
	s.box.Objects = s.layout.objects()
	s.box.Refresh()
	s.Refresh()
	return true
}

// SetSize writes the rows in letters of another size.
func (s *Schedule) SetSize(size float32) {
	if size == s.size {
		return
	}
	rows := s.rows
	s.size, s.rows, s.cells = size, nil, nil
	s.SetRows(rows)
}

func (s *Schedule) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(s.box) }

// Top is where a row begins.
func (s *Schedule) Top(row int) float32 {
	if row < 0 || row >= len(s.cells) {
		return 0
	}
	return s.cells[row].cells[clockColumn].Position().Y
}

func newScheduleCells() *scheduleCells {
	c := &scheduleCells{rule: Rule(), late: NewDue(look.TextSmall)}
	for k := range c.cells {
		switch k {
		case titleColumn, noteColumn:
			c.cells[k] = NewText()
		default:
			c.cells[k] = NewLine()
		}
	}
	return c
}

// show writes a row.
func (c *scheduleCells) show(row ScheduleRow, size float32) {
	c.row = row
	c.late.say(row.Late, "")
	main := Span{Size: size}
	switch row.State {
	case StepDone, StepSkipped:
		main.Color = look.ColorFaint
	case StepNext:
		main.Bold, main.Color = true, look.ColorCrust
	case StepLate:
		main.Bold, main.Color = true, look.ColorEmber
	case StepNight:
		main.Color = look.ColorEmber
	}
	title, clock := main, main
	title.Text, clock.Text = row.Title, row.Clock
	switch row.State {
	case StepDone:
		title.Text = "✓ " + row.Title
	case StepSkipped:
		title.Text = "– " + row.Title
	}
	aside := Span{Color: look.ColorFaint}
	if size <= look.TextBody {
		aside.Size = size
	}
	for k, text := range [scheduleColumns]string{dayColumn: row.Day, lengthColumn: row.Length, plannedColumn: row.Planned, byColumn: row.By, noteColumn: row.Note} {
		span := aside
		span.Text = text
		c.cells[k].SetSpans(span)
	}
	c.cells[clockColumn].SetSpans(clock)
	c.cells[titleColumn].SetSpans(title)
}
