package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/look"
)

// TableColumn is one column of a table that is read.
type TableColumn struct {
	Head string
	// Right sets the column's words at its right edge, as figures want it.
	Right bool
	// Unit writes a column small and faint, close to the figures before it.
	Unit bool
	// Grow gives the column the room that the others leave; the first is given it if
	// none asks.
	Grow bool
	// Spare lets the column go, the last first, where the room runs out.
	Spare bool
}

// tableRow is the height of a row: figures of ten rows are read at a glance.
const tableRow = 30

// Table sets rows in columns that line up. Of a row that Bold names all is bold.
func Table(columns []TableColumn, rows [][]string, bold func(row int) bool) fyne.CanvasObject {
	l := &tableLayout{columns: columns}
	box := container.New(l)
	for _, c := range columns {
		box.Add(NewLine(Span{Text: c.Head, Size: look.TextSmall, Color: look.ColorFaint}))
	}
	for i, row := range rows {
		for k, c := range columns {
			s := Span{Bold: bold != nil && bold(i)}
			if k < len(row) {
				s.Text = row[k]
			}
			if c.Unit {
				s.Size, s.Color, s.Bold = look.TextSmall, look.ColorFaint, false
			}
			if l.grows(k) {
				box.Add(NewElided(s))
			} else {
				box.Add(NewLine(s))
			}
		}
	}
	return box
}

// tableLayout places the cells, the heads first, row by row.
type tableLayout struct{ columns []TableColumn }

func (l *tableLayout) grows(k int) bool {
	for i, c := range l.columns {
		if c.Grow {
			return i == k
		}
	}
	return k == 0
}

// gap is the room before a column.
func (l *tableLayout) gap(k int) float32 {
	switch {
	case k == 0:
		return 0
	case l.columns[k].Unit:
		return look.Space(1.5)
	}
	return look.Space(6)
}

// leastGrown is the least room of the column that grows, roomyGrown what it has before
// columns go that may, and widestGrown the most: further apart a name and its figures are
// not seen together.
var leastGrown, roomyGrown, widestGrown = look.Space(20), look.Space(36), look.Space(100)

// widths of the columns that do not grow, and of all that they take together; those from the
// one called gone on that may go have none.
func (l *tableLayout) widths(things []fyne.CanvasObject, gone int) (widths []float32, sum float32) {
	n := len(l.columns)
	widths = make([]float32, n)
	for i, o := range things {
		if k := i % n; !l.grows(k) && !l.goes(k, gone) {
			widths[k] = max(widths[k], o.MinSize().Width)
		}
	}
	for k, w := range widths {
		if !l.goes(k, gone) {
			sum += w + l.gap(k)
		}
	}
	return widths, sum
}

// goes says that a column is left out.
func (l *tableLayout) goes(k, gone int) bool { return k >= gone && l.columns[k].Spare }

func (l *tableLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	_, sum := l.widths(things, 0)
	return fyne.NewSize(sum+leastGrown, l.headHeight()+tableRow*float32(len(things)/len(l.columns)-1))
}

// headHeight is that of the heads, none where no column has one.
func (l *tableLayout) headHeight() float32 {
	for _, c := range l.columns {
		if c.Head != "" {
			return look.Space(6)
		}
	}
	return 0
}

func (l *tableLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	n := len(l.columns)
	gone := n
	widths, sum := l.widths(things, gone)
	for size.Width-sum < roomyGrown && gone > 0 {
		gone--
		if l.columns[gone].Unit { // it goes with its figures
			continue
		}
		widths, sum = l.widths(things, gone)
	}
	for k := range widths {
		if l.grows(k) {
			widths[k] = max(0, min(size.Width-sum, widestGrown))
		}
	}
	for i, o := range things {
		k, row := i%n, i/n
		if l.goes(k, gone) {
			o.Hide()
			continue
		}
		o.Show()
		x := float32(0)
		for before := range k {
			if !l.goes(before, gone) {
				x += l.gap(before) + widths[before]
			}
		}
		x += l.gap(k)
		y, h := l.headHeight()+tableRow*float32(row-1), float32(tableRow)
		if row == 0 {
			y, h = 0, l.headHeight()
		}
		m := o.MinSize()
		w := widths[k]
		if !l.grows(k) {
			w = m.Width
		}
		if l.columns[k].Right {
			x += widths[k] - w
		}
		Put(o, fyne.NewPos(x, y+(h-m.Height)/2), fyne.NewSize(w, m.Height))
	}
}
