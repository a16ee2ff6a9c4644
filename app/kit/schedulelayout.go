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

// A scheduleGrid is where the columns of a schedule stand in a width.
type scheduleGrid struct {
	width     float32
	x, widths [scheduleColumns]float32
	below     [scheduleColumns]bool // columns that stand below their step
	dayAbove  bool
	across    float32 // from where the table begins to where it ends
	move      bool    // the cells are moved, and not only measured
}

func (g *scheduleGrid) put(o fyne.CanvasObject, x, y, w, h float32) {
	if g.move {
		Put(o, fyne.NewPos(x, y), fyne.NewSize(w, h))
	}
}

// edge is where something as wide as w begins in a column.
func (g *scheduleGrid) edge(k int, w float32) float32 {
	if rightEdged(k) && !g.below[k] {
		return g.x[k] + g.widths[k] - look.Space(6) - w
	}
	return g.x[k]
}

// place lays the cells out, and gives the height that they take.
func (l *scheduleLayout) place(width float32, move bool) float32 {
	g := &scheduleGrid{width: width, across: width, move: move}
	g.widths, g.dayAbove, g.below = l.columns(width)
	for k := 1; k < scheduleColumns; k++ {
		g.x[k] = g.x[k-1] + g.widths[k-1]
	}
	if !g.below[lengthColumn] && !l.seen[noteColumn] {
		g.across = g.x[byColumn] + g.widths[byColumn] - look.Space(6)
	}
	y := float32(0)
	for k, h := range l.heads {
		if h != nil {
			SetVisible(h, !g.below[k])
			g.put(h, g.edge(k, h.MinSize().Width), 0, h.MinSize().Width, look.Space(6))
			y = look.Space(6)
		}
	}
	for i, r := range l.rows {
		y = l.beginDay(g, r, i > 0, y)
		y += l.placeRow(g, r, y)
	}
	return y
}

// beginDay places at y what a new day has over its first row: a rule, and where it has no
// column its name. It gives where the row begins.
func (l *scheduleLayout) beginDay(g *scheduleGrid, r *scheduleCells, ruled bool, y float32) float32 {
	day := r.cells[dayColumn]
	newDay := day.String() != ""
	SetVisible(r.rule, newDay && ruled)
	if newDay && ruled {
		y += look.Space(1)
		g.put(r.rule, 0, y, g.across, 1)
		y += look.Space(1)
	}
	if newDay && g.dayAbove {
		g.put(day, 0, y, g.width, day.MinSize().Height)
		y += day.MinSize().Height + look.Space(1)
	}
	return y
}

// placeRow places a row at y and gives its height.
func (l *scheduleLayout) placeRow(g *scheduleGrid, r *scheduleCells, y float32) float32 {
	title := r.cells[titleColumn]
	room := g.widths[titleColumn] - look.Space(2)
	h := max(float32(tableRow), fitted(title, room)+look.Space(1.5))
	first := float32(tableRow) // of the first line
	if !g.below[noteColumn] && r.cells[noteColumn].String() != "" {
		h = max(h, fitted(r.cells[noteColumn], g.widths[noteColumn])+look.Space(1.5))
	}
	for k, c := range r.cells {
		if !l.seen[k] || k == dayColumn && g.dayAbove {
			continue
		}
		if k >= lengthColumn {
			SetVisible(c, !g.below[k] || c.String() != "")
		}
		switch {
		case g.below[k]:
			if c.String() != "" {
				t := fitted(c, g.width-g.x[titleColumn])
				g.put(c, g.x[titleColumn], y+h-look.Space(1), g.width-g.x[titleColumn], t)
				h += t
			}
		case k == titleColumn:
			g.put(c, g.x[k], y+(first-lineOf(c))/2, room, fitted(c, room))
		case k == noteColumn:
			g.put(c, g.x[k], y+(first-lineOf(c))/2, g.widths[k], fitted(c, g.widths[k]))
		default:
			m := c.MinSize()
			g.put(c, g.edge(k, m.Width), y+(first-m.Height)/2, m.Width, m.Height)
		}
	}
	if r.row.Late != "" {
		m := r.late.MinSize()
		g.put(r.late, g.x[titleColumn], y+h-look.Space(1), m.Width, m.Height)
		h += m.Height
	}
	return h
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
