package templog

import (
	"strings"
	"time"
)

// stamp is a date and time of day as written, before day and month are told
// apart and before it is put into a zone.
type stamp struct {
	hasDate, hasTime bool

	year, a, b int  // a and b are day and month, or month and day
	settled    bool // a is the month and b the day

	hour, minute, second, nano int
	hasOffset                  bool
	offset                     int       // seconds east
	instant                    time.Time // for a count of seconds since 1970; else zero
}

// date gives month and day under an order.
func (s stamp) date(o DateOrder) (month, day int) {
	if s.settled || o != DayFirst {
		return s.a, s.b
	}
	return s.b, s.a
}

// real says whether the date is one of the calendar under an order.
func (s stamp) real(o DateOrder) bool {
	m, d := s.date(o)
	return m >= 1 && m <= 12 && d >= 1 && d <= daysIn(s.year, m)
}

func daysIn(year, month int) int {
	return time.Date(year, time.Month(month)+1, 0, 0, 0, 0, 0, time.UTC).Day()
}

// parseStamp reads a date, a time of day, or both.
func parseStamp(text string) (stamp, bool) {
	p := scanner{s: strings.TrimSpace(text)}
	var st stamp
	if p.epoch(&st) {
		return st, true
	}
	p.weekday()
	st.hasDate = p.date(&st)
	if st.hasDate {
		p.skip(" ,T\u00a0")
		if p.done() {
			return st, true
		}
	}
	st.hasTime = p.clock(&st)
	if !st.hasTime || !p.done() {
		return stamp{}, false
	}
	return st, true
}

// scanner walks a text from left to right.
type scanner struct {
	s string
}

func (p *scanner) done() bool      { return p.s == "" }
func (p *scanner) skip(set string) { p.s = strings.TrimLeft(p.s, set) }
func (p *scanner) peek() byte {
	if p.s == "" {
		return 0
	}
	return p.s[0]
}

// number reads up to most digits and says how many there were; a number that
// would have more is none.
func (p *scanner) number(most int) (value, digits int) {
	for digits < len(p.s) && p.s[digits] >= '0' && p.s[digits] <= '9' {
		if digits == most {
			return 0, 0
		}
		value = value*10 + int(p.s[digits]-'0')
		digits++
	}
	p.s = p.s[digits:]
	return value, digits
}

// letters reads a word of plain letters.
func (p *scanner) letters() string {
	n := 0
	for n < len(p.s) && (p.s[n]|0x20) >= 'a' && (p.s[n]|0x20) <= 'z' {
		n++
	}
	word := p.s[:n]
	p.s = p.s[n:]
	return word
}

// epoch reads seconds or thousandths since 1970, between 2001 and 2096.
func (p *scanner) epoch(st *stamp) bool {
	q := scanner{s: p.s}
	v, digits := q.number(13)
	if !q.done() || (digits != 10 && digits != 13) || p.s[0] == '0' {
		return false
	}
	if digits == 13 {
		st.instant = time.UnixMilli(int64(v)).UTC()
	} else {
		st.instant = time.Unix(int64(v), 0).UTC()
	}
	st.hasDate, st.hasTime = true, true
	return st.instant.Year() <= 2096
}

// weekday passes over the name of a day in front of a date.
func (p *scanner) weekday() {
	q := *p
	if word := q.letters(); len(word) >= 2 && !isMonth(word) && len(q.s) > 0 && strings.IndexByte(" ,.", q.s[0]) >= 0 {
		q.skip(" ,.")
		*p = q
	}
}

// date reads 2026-11-25, 25.11.2026, 11/25/26, 25-Nov-2026, Nov 25 2026 or
// 20261125.
func (p *scanner) date(st *stamp) bool {
	q := *p
	if word := q.letters(); word != "" {
		return p.namedMonthFirst(q, word, st)
	}
	n1, d1 := q.number(8)
	if d1 == 8 {
		st.year, st.a, st.b, st.settled = n1/10000, n1/100%100, n1%100, true
		*p = q
		return st.year >= 1990 && st.year < 2100 && st.real(OrderAuto)
	}
	sep := q.peek()
	if d1 == 0 || d1 == 3 || d1 > 4 || strings.IndexByte("-/. ", sep) < 0 || sep == 0 {
		return false
	}
	q.s = q.s[1:]
	if word := q.letters(); word != "" {
		return p.namedMonthSecond(q, n1, d1, word, st)
	}
	n2, d2 := q.number(2)
	if d2 == 0 || q.peek() != sep || sep == ' ' {
		return false
	}
	q.s = q.s[1:]
	n3, d3 := q.number(4)
	switch {
	case d1 == 4 && (d3 == 1 || d3 == 2):
		st.year, st.a, st.b, st.settled = n1, n2, n3, true
	case d1 <= 2 && (d3 == 2 || d3 == 4):
		st.year, st.a, st.b = fullYear(n3, d3), n1, n2
		if sep == '.' { // with dots the day is first wherever dates are written so
			st.a, st.b, st.settled = n2, n1, true
		}
	default:
		return false
	}
	*p = q
	return st.year >= 1970 && st.year < 2100 && (st.real(DayFirst) || st.real(MonthFirst))
}

func (p *scanner) namedMonthFirst(q scanner, word string, st *stamp) bool {
	st.a = month(word)
	q.skip(" .-/")
	day, d := q.number(2)
	q.skip(" ,-/")
	year, dy := q.number(4)
	if st.a == 0 || d == 0 || (dy != 4 && dy != 2) {
		return false
	}
	st.year, st.b, st.settled = fullYear(year, dy), day, true
	*p = q
	return st.year >= 1970 && st.year < 2100 && st.real(OrderAuto)
}

func (p *scanner) namedMonthSecond(q scanner, n1, d1 int, word string, st *stamp) bool {
	st.a = month(word)
	q.skip(" .-/,")
	n3, d3 := q.number(4)
	if st.a == 0 {
		return false
	}
	switch {
	case d1 == 4 && d3 > 0 && d3 <= 2:
		st.year, st.b = n1, n3
	case d1 <= 2 && (d3 == 2 || d3 == 4):
		st.year, st.b = fullYear(n3, d3), n1
	default:
		return false
	}
	st.settled = true
	*p = q
	return st.year >= 1970 && st.year < 2100 && st.real(OrderAuto)
}

func fullYear(n, digits int) int {
	if digits == 2 {
		return 2000 + n
	}
	return n
}

// clock reads 14:05, 14:05:09.5, 2:05 pm, with Z or +01:00 behind it.
func (p *scanner) clock(st *stamp) bool {
	var d int
	if st.hour, d = p.number(2); d == 0 || p.peek() != ':' {
		return false
	}
	p.s = p.s[1:]
	if st.minute, d = p.number(2); d != 2 {
		return false
	}
	if p.peek() == ':' {
		p.s = p.s[1:]
		if st.second, d = p.number(2); d != 2 {
			return false
		}
		if c := p.peek(); c == '.' || c == ',' {
			p.s = p.s[1:]
			frac, digits := p.number(9)
			if digits == 0 {
				return false
			}
			for ; digits < 9; digits++ {
				frac *= 10
			}
			st.nano = frac
		}
	}
	return p.half(st) && p.zone(st) && st.hour < 24 && st.minute < 60 && st.second < 60
}

// half reads am or pm.
func (p *scanner) half(st *stamp) bool {
	q := *p
	q.skip(" \u00a0\u202f")
	c := q.peek() | 0x20
	if c != 'a' && c != 'p' {
		return true
	}
	q.s = strings.TrimPrefix(q.s[1:], ".")
	if q.peek()|0x20 != 'm' {
		return false
	}
	q.s = strings.TrimPrefix(q.s[1:], ".")
	*p = q
	if st.hour < 1 || st.hour > 12 {
		return false
	}
	st.hour %= 12
	if c == 'p' {
		st.hour += 12
	}
	return true
}

// zone reads Z, UTC, GMT or an offset.
func (p *scanner) zone(st *stamp) bool {
	p.skip(" ")
	if p.done() {
		return true
	}
	st.hasOffset = true
	switch word := strings.ToUpper(p.letters()); word {
	case "Z", "UTC", "GMT":
		if p.done() {
			return true
		}
	case "":
	default:
		return false
	}
	sign := 1
	switch p.peek() {
	case '-':
		sign = -1
	case '+':
	default:
		return false
	}
	p.s = p.s[1:]
	h, d := p.number(4)
	m := 0
	switch {
	case d == 4:
		h, m = h/100, h%100
	case (d == 1 || d == 2) && p.peek() == ':':
		p.s = p.s[1:]
		if m, d = p.number(2); d != 2 {
			return false
		}
	case d != 1 && d != 2:
		return false
	}
	st.offset = sign * (h*3600 + m*60)
	return h <= 14 && m < 60
}

var monthNames = [12]string{"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"}

func isMonth(word string) bool { return month(word) > 0 }

// month is the number of an English month, in full or by its first three
// letters, or 0.
func month(word string) int {
	if len(word) < 3 {
		return 0
	}
	low := strings.ToLower(word)
	for i, name := range monthNames {
		full := strings.ToLower(time.Month(i + 1).String())
		if low == name || (len(low) > 3 && strings.HasPrefix(full, low)) || low == "sept" && name == "sep" {
			return i + 1
		}
	}
	return 0
}
