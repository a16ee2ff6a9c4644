// Package table writes tables for spreadsheets: CSV after RFC 4180, in UTF-8, with
// every cell safe to open. It is a leaf that knows only the standard library, so that
// charts may use it too.
package table

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode"
)

// Cell is what stands in a cell, made safe: make one with Text, Number, Int, Time or
// Bool. A constant of the program's own is safe as it stands, and the zero Cell is
// empty.
type Cell string

// Text is a cell of words. A spreadsheet takes words that begin with = + - @, a tab or a
// new line for a formula and may run it; an apostrophe before them keeps them words
// (common practice, after OWASP's note on CSV injection). The wide forms of the four
// signs count, blanks before them do not. What is a number is written by Number, and
// stays one.
func Text(s string) Cell {
	s = strings.ToValidUTF8(strings.ReplaceAll(s, "\x00", ""), "\uFFFD")
	begins := strings.TrimLeftFunc(s, func(r rune) bool {
		return r != '\t' && r != '\r' && r != '\n' && (unicode.IsSpace(r) || unicode.Is(unicode.Cf, r))
	})
	if begins != "" && strings.ContainsRune("=+-@\t\r\n＝＋－＠", []rune(begins)[0]) {
		return Cell("'" + s)
	}
	return Cell(s)
}

// Number is a cell holding a number in full with a decimal point, or nothing where
// it is missing or no number.
func Number(v float64) Cell {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	return Cell(strconv.FormatFloat(v, 'f', -1, 64))
}

// Int is a cell holding a whole number.
func Int(n int) Cell { return Cell(strconv.Itoa(n)) }

// Time is a cell holding an instant with its zone (ISO 8601, RFC 3339), or nothing for
// the zero time.
func Time(t time.Time) Cell {
	if t.IsZero() {
		return ""
	}
	return Cell(t.Format(time.RFC3339))
}

// Bool is a cell holding yes or no.
func Bool(b bool) Cell {
	if b {
		return "yes"
	}
	return "no"
}

// mark lets spreadsheets know that the file is UTF-8.
const mark = "\uFEFF"

// Write writes a table: a line of headings and its rows, each ended by CRLF. A row that
// is shorter than the headings is filled up with empty cells.
func Write(w io.Writer, head []Cell, rows [][]Cell) error {
	b := bufio.NewWriter(w)
	// A bufio.Writer keeps its first error until it is flushed.
	_, _ = b.WriteString(mark)
	line(b, head, len(head))
	for _, r := range rows {
		line(b, r, len(head))
	}
	if err := b.Flush(); err != nil {
		return fmt.Errorf("writing a table: %w", err)
	}
	return nil
}

func line(b *bufio.Writer, cells []Cell, width int) {
	for i := range max(width, len(cells)) {
		if i > 0 {
			_ = b.WriteByte(',')
		}
		if i < len(cells) {
			_, _ = b.WriteString(quoted(string(cells[i])))
		}
	}
	_, _ = b.WriteString("\r\n")
}

// quoted puts a cell in quotes where RFC 4180 asks for it, and where a spreadsheet
// of another country would part it or trim it.
func quoted(s string) string {
	if !strings.ContainsAny(s, "\",;\t\r\n") && strings.TrimSpace(s) == s {
		return s
	}
	return `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
}
