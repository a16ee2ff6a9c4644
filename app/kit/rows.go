package kit

import (
	"slices"
	"sort"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A textRow is one row of a text that wraps: the bytes from start to end, without the
// line break that may follow.
type textRow struct{ start, end int }

// wrapRows breaks a text into rows no wider than room. Its cost grows with the text
// alone.
func wrapRows(text string, a *advances, room float32) []textRow {
	var rows []textRow
	for at := 0; ; {
		row, next, last := wrapRow(text, at, a, room)
		rows = append(rows, row)
		if last {
			return rows
		}
		at = next
	}
}

// rewrapRows breaks a text anew after added bytes took the place of removed ones at an
// offset. Only what the change moved is broken: from the row before it to the first row
// that begins where one began before.
func rewrapRows(rows []textRow, text string, at, removed, added int, a *advances, room float32) []textRow {
	if len(rows) == 0 {
		return wrapRows(text, a, room)
	}
	from := max(0, rowAt(rows, at)-1)
	shift := added - removed
	old := from
	out := append([]textRow(nil), rows[:from]...)
	for begin := rows[from].start; ; {
		row, next, last := wrapRow(text, begin, a, room)
		out = append(out, row)
		if last {
			return out
		}
		begin = next
		if begin < at+added {
			continue
		}
		for old < len(rows) && (rows[old].start < at+removed || rows[old].start+shift < begin) {
			old++
		}
		if old < len(rows) && rows[old].start+shift == begin {
			for _, r := range rows[old:] {
				out = append(out, textRow{r.start + shift, r.end + shift})
			}
			return out
		}
	}
}

// wrapRow gives the row that begins at an offset, and where the next one begins; last
// says that there is none. Spaces may hang over the end of a row.
func wrapRow(text string, at int, a *advances, room float32) (row textRow, next int, last bool) {
	x, word := float32(0), at // word: where the word under hand began
	for i := at; i < len(text); {
		r, n := utf8.DecodeRuneInString(text[i:])
		if r == '\n' {
			return textRow{at, i}, i + n, false
		}
		space := unicode.IsSpace(r) && r != '\u00a0' && r != '\u202f'
		x += a.of(r)
		if x > room && !space && i > at {
			if word > at {
				return textRow{at, word}, word, false
			}
			return textRow{at, i}, i, false
		}
		i += n
		if space {
			word = i
		}
	}
	return textRow{at, len(text)}, len(text), true
}

// rowAt finds the row that an offset lies in.
func rowAt(rows []textRow, at int) int {
	return max(0, sort.Search(len(rows), func(i int) bool { return rows[i].start > at })-1)
}

// wordBefore and wordAfter are where the word beside an offset begins or ends.
func wordBefore(text string, at int) int {
	s := strings.TrimRightFunc(text[:at], func(r rune) bool { return !wordly(r) })
	return len(strings.TrimRightFunc(s, wordly))
}

func wordAfter(text string, at int) int {
	s := strings.TrimLeftFunc(text[at:], func(r rune) bool { return !wordly(r) })
	return len(text) - len(strings.TrimLeftFunc(s, wordly))
}

func wordly(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) }

// KeptRows gives a row for each of the things: one of the old rows where it shows the
// thing, so that no field is rebuilt under the caret, and a new one elsewhere.
func KeptRows[Row, Thing any](old []Row, things []Thing, shows func(Row, Thing) bool, row func(Thing) Row) []Row {
	rows := make([]Row, 0, len(things))
	for _, t := range things {
		if i := slices.IndexFunc(old, func(r Row) bool { return shows(r, t) }); i >= 0 {
			rows = append(rows, old[i])
		} else {
			rows = append(rows, row(t))
		}
	}
	return rows
}
