package kit

import (
	"fyne.io/fyne/v2"

	"twinloaf/app/look"
)

// scheduleLayout places the cells of a schedule. Its height follows from its width.
type scheduleLayout struct {
	rows  []*scheduleCells
	heads [scheduleColumns]*Text
	seen  [scheduleColumns]bool // columns in which anything stands
	width float32
}

// scheduleStep is the least room that a step's name has on its line.
const scheduleStep = 150

func (l *scheduleLayout) set(rows []*scheduleCells, heads ScheduleHeads) {
	l.rows, l.seen = rows, [scheduleColumns]bool{}
	for _, r := range rows {
		for k, c := range r.cells {
			l.seen[k] = l.seen[k] || c.String() != ""
		}
	}
	words := [scheduleColumns]string{clockColumn: heads.Clock, lengthColumn: heads.Length, plannedColumn: heads.Planned, byColumn: heads.By, noteColumn: heads.Note}
	for k, w := range words {
		l.heads[k] = nil
		if w != "" && l.seen[k] {
			l.heads[k] = NewLine(Span{Text: w, Size: look.TextSmall, Color: look.ColorFaint})
		}
	}
}

func (l *scheduleLayout) objects() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, h := range l.heads {
		if h != nil {
			out = append(out, h)
		}
	}
	for _, r := range l.rows {
		out = append(out, r.rule)
		if r.row.Late != "" {
			out = append(out, r.late)
		}
		for k, c := range r.cells {
			if l.seen[k] {
				out = append(out, c)
			}
		}
	}
	return out
}

// columns are the widths in a width: of those that stand side by side. Where the width runs
// out, a note goes below its step, a day above its moments, and at last what has a length
// or a plan goes below its step, too.
func (l *scheduleLayout) columns(width float32) (widths [scheduleColumns]float32, dayAbove bool, below [scheduleColumns]bool) {
	wide := func(k int) float32 {
		w := float32(0)
		if h := l.heads[k]; h != nil {
			w = h.MinSize().Width
		}
		for _, r := range l.rows {
			if r.cells[k].String() != "" {
				w = max(w, r.cells[k].MinSize().Width)
			}
		}
		return w
	}
	left := width
	take := func(k int) float32 {
		if !l.seen[k] {
			return 0
		}
		return wide(k) + look.Space(6)
	}
	widths[clockColumn] = take(clockColumn)
	left -= widths[clockColumn]
	beside := float32(0)
	for _, k := range []int{lengthColumn, plannedColumn, byColumn} {
		widths[k] = take(k)
		beside += widths[k]
	}
	note := float32(0)
	if l.seen[noteColumn] {
		note = scheduleStep
	}
	if left-beside-note < scheduleStep {
		below[noteColumn], note = true, 0
	}
	asideBelow := left-beside < scheduleStep
	if !asideBelow {
		left -= beside
	}
	day := take(dayColumn)
	dayAbove = left-note-day < scheduleStep && day > 0
	if !dayAbove {
		widths[dayColumn] = day
		left -= day
	}
	if asideBelow {
		widths[titleColumn] = left
		for k := lengthColumn; k < scheduleColumns; k++ {
			widths[k], below[k] = 0, true
		}
		return widths, dayAbove, below
	}
	title := float32(0)
	for _, r := range l.rows {
		title = max(title, r.cells[titleColumn].natural)
	}
	widths[titleColumn] = min(left-note, title+look.Space(8))
	switch {
	case below[noteColumn]: // and no room behind the last column
		widths[titleColumn] = left + min(beside, look.Space(6))
	case l.seen[noteColumn]:
		widths[noteColumn] = left - widths[titleColumn]
	}
	return widths, dayAbove, below
}

func (l *scheduleLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	width := l.width
	if width <= 0 {
		width = look.Space(150)
	}
	return fyne.NewSize(look.Space(50), l.place(width, false))
}

func (l *scheduleLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.place(size.Width, true)
}

// place lays the cells out, and gives the height that they take.
func (l *scheduleLayout) place(width float32, move bool) float32 {
	widths, dayAbove, below := l.columns(width)
	put := func(o fyne.CanvasObject, x, y, w, h float32) {
		if move {
			Put(o, fyne.NewPos(x, y), fyne.NewSize(w, h))
		}
	}
	var x [scheduleColumns]float32
	for k := 1; k < scheduleColumns; k++ {
		x[k] = x[k-1] + widths[k-1]
	}
	across := width // from where the table begins to where it ends
	if !below[lengthColumn] && !l.seen[noteColumn] {
		across = x[byColumn] + widths[byColumn] - look.Space(6)
	}
	y := float32(0)
	for k, h := range l.heads {
		if h != nil {
			SetVisible(h, !below[k])
			at := x[k]
			if rightEdged(k) && !below[k] {
				at += widths[k] - look.Space(6) - h.MinSize().Width
			}
			put(h, at, 0, h.MinSize().Width, look.Space(6))
			y = look.Space(6)
		}
	}
	for i, r := range l.rows {
		day := r.cells[dayColumn]
		newDay := day.String() != ""
		SetVisible(r.rule, newDay && i > 0)
		if newDay && i > 0 {
			y += look.Space(1)
			put(r.rule, 0, y, across, 1)
			y += look.Space(1)
		}
		if dayAbove && newDay {
			put(day, 0, y, width, day.MinSize().Height)
			y += day.MinSize().Height + look.Space(1)
		}
		title := r.cells[titleColumn]
		room := widths[titleColumn] - look.Space(2)
		h := max(float32(tableRow), fitted(title, room)+look.Space(1.5))
		first := float32(tableRow) // of the first line
		if !below[noteColumn] && r.cells[noteColumn].String() != "" {
			h = max(h, fitted(r.cells[noteColumn], widths[noteColumn])+look.Space(1.5))
		}
		for k, c := range r.cells {
			m := c.MinSize()
			line := y + (first-m.Height)/2
			switch {
			case k == dayColumn && dayAbove || !l.seen[k]:
			case k == titleColumn:
				t := fitted(title, room)
				put(c, x[k], y+(first-lineOf(title))/2, room, t)
			case below[k]:
				SetVisible(c, c.String() != "")
				if c.String() == "" {
					break
				}
				t := fitted(c, width-x[titleColumn])
				put(c, x[titleColumn], y+h-look.Space(1), width-x[titleColumn], t)
				h += t
			case k == noteColumn:
				put(c, x[k], y+(first-lineOf(c))/2, widths[k], fitted(c, widths[k]))
			case rightEdged(k):
				put(c, x[k]+widths[k]-look.Space(6)-m.Width, line, m.Width, m.Height)
			default:
				put(c, x[k], line, m.Width, m.Height)
			}
			if k >= lengthColumn && !below[k] && l.seen[k] {
				SetVisible(c, true)
			}
		}
		if r.row.Late != "" {
			m := r.late.MinSize()
			put(r.late, x[titleColumn], y+h-look.Space(1), m.Width, m.Height)
			h += m.Height
		}
		y += h
	}
	return y
}

// rightEdged says of which columns the words stand at the right edge: those of figures.
func rightEdged(k int) bool { return k == lengthColumn || k == plannedColumn }

// fitted gives a text a width and tells the height that it takes.
func fitted(t *Text, width float32) float32 {
	t.Resize(fyne.NewSize(max(1, width), t.Size().Height))
	return t.MinSize().Height
}

// lineOf is the height of one line of a text.
func lineOf(t *Text) float32 {
	size := float32(0)
	for _, s := range t.spans {
		size = max(size, s.size())
	}
	return Span{Text: "x", Size: size}.Extent().Height
}
