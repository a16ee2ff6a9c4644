package charts

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"
	"time"
)

// table is a figure's data as rows of cells.
type table struct {
	head []string
	rows [][]string
}

// bom lets spreadsheets know that the file is UTF-8.
const bom = "\uFEFF"

func (t table) write(w io.Writer) error {
	if _, err := io.WriteString(w, bom); err != nil {
		return err
	}
	out := csv.NewWriter(w)
	if err := out.Write(t.head); err != nil {
		return err
	}
	return out.WriteAll(t.rows)
}

// text is a cell of words. A spreadsheet takes a cell that begins with one of
// these signs for a formula and may run it; an apostrophe keeps it text.
func text(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r\n", []rune(s)[0]) {
		return "'" + s
	}
	return s
}

// number is a cell holding a number in full, or nothing where it is missing.
func number(v float64) string {
	if !finite(v) {
		return ""
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// cell writes a value of the axis: a time with its zone, or a number.
func (a Axis) cell(v float64) string {
	if a.Zone == nil || !finite(v) {
		return number(v)
	}
	return moment(v, a.Zone).Format(time.RFC3339)
}

// heading names the axis' column.
func (a Axis) heading(fallback string) string {
	if a.Title == "" {
		return fallback
	}
	return text(a.Title)
}
