package charts

import (
	"io"
	"time"

	"twinloaf/journal/table"
)

// grid is a figure's data as rows of cells.
type grid struct {
	head []table.Cell
	rows [][]table.Cell
}

func (g grid) write(w io.Writer) error { return table.Write(w, g.head, g.rows) }

// cell writes a value of the axis: a time with its zone, or a number.
func (a Axis) cell(v float64) table.Cell {
	if a.Zone == nil || !finite(v) {
		return table.Number(v)
	}
	return table.Cell(moment(v, a.Zone).Format(time.RFC3339))
}

// heading names the axis' column.
func (a Axis) heading(fallback string) table.Cell {
	if a.Title == "" {
		return table.Cell(fallback)
	}
	return table.Text(a.Title)
}
