package kit

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode"

	"fyne.io/fyne/v2/lang"
)

// ParseWhen reads a moment as a baker writes it, in the zone of now, to the minute:
//
//	now, -20 min, 1 h 30 min ago, in 40 min, +2 h
//	7:30, 7.30 pm, 7pm, 0730, noon, midnight (today)
//	today 7:30, yesterday 21:10, tomorrow 6:00, tue 7:30 (the Tuesday nearest to now)
//	24 Nov 07:30, Nov 24 2026 7:30 pm, 24/11 07:30, 24.11.2026, 2026-11-24 07:30
//	2026-11-24T07:30:00+01:00
//
// Of two bare numbers the first is the day, unless MonthFirst is set. A day without
// a time means noon; a day without a year is the one nearest to now. The words are
// English or those of the catalogue, and do not depend on case. The error is a sentence for the user.
func ParseWhen(text string, now time.Time, u Units) (time.Time, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return time.Time{}, errors.New(lang.L("There is no time here yet."))
	}
	if len(text) > 60 {
		return time.Time{}, errWhen()
	}
	if t, err := time.Parse(time.RFC3339, strings.ToUpper(text)); err == nil {
		return possibleTime(t.In(now.Location()).Truncate(time.Minute), nil)
	}
	w := whenReader{now: now.Truncate(time.Minute), units: u}
	if t, ok := w.relative(text); ok {
		return t, nil
	}
	if !w.words(text) {
		return time.Time{}, errWhen()
	}
	return possibleTime(w.result())
}

// possibleTime lets through the years that a journal of bread can speak of.
func possibleTime(t time.Time, err error) (time.Time, error) {
	if err == nil && (t.Year() < firstYear || t.Year() > lastYear) {
		err = errors.New(lang.L("The year must be between {{.First}} and {{.Last}}.",
			map[string]any{"First": firstYear, "Last": lastYear}))
	}
	return t, err
}

// The years that can be meant. The program's own choice.
const (
	firstYear = 1900
	lastYear  = 2200
)

func errWhen() error {
	return errors.New(lang.L("This is not a time that can be read; try “24 Nov 07:30”, “yesterday 21:10” or “-20 min”."))
}

// whenReader gathers what the words of a moment say.
type whenReader struct {
	now         time.Time
	units       Units
	year        int
	month, day  int
	hasDay      bool
	hour, min   int
	hasTime     bool
	weekday     time.Weekday
	hasWeekday  bool
	bareNumbers []int
}

// relative reads "now", "-20 min", "20 min ago", "in 2 h".
func (w *whenReader) relative(text string) (time.Time, bool) {
	s := strings.ToLower(text)
	if s == "just now" || isWord(s, "now", lang.L("now")) {
		return w.now, true
	}
	sign := 0.0
	if t, ok := spanWithin(s, "{{.Span}} ago", lang.L("{{.Span}} ago", asIs{"Span": "{{.Span}}"})); ok {
		s, sign = t, -1
	} else if t, ok := spanWithin(s, "in {{.Span}}", lang.L("in {{.Span}}", asIs{"Span": "{{.Span}}"})); ok {
		s, sign = t, 1
	} else if t, ok := strings.CutPrefix(s, "+"); ok {
		s, sign = t, 1
	} else {
		for _, minus := range []string{"-", "−", "–"} {
			if t, ok := strings.CutPrefix(s, minus); ok {
				s, sign = t, -1
				break
			}
		}
	}
	if sign == 0 {
		return time.Time{}, false
	}
	minutes, err := w.units.Duration().Parse(s)
	const tenYears = 10 * 366 * 24 * 60
	if err != nil || math.IsNaN(minutes) || minutes < 0 || minutes > tenYears {
		return time.Time{}, false
	}
	return w.now.Add(time.Duration(sign*math.Round(minutes)) * time.Minute), true
}

// isWord says whether a word in small letters is the English one or the catalogue's.
func isWord(tok, english, said string) bool { return tok == english || tok == strings.ToLower(said) }

// spanWithin gives what stands for the one name of a template, English or the catalogue's, in a
// text in small letters.
func spanWithin(text string, templates ...string) (string, bool) {
	for _, t := range templates {
		before, rest, _ := strings.Cut(strings.ToLower(t), "{{.")
		_, after, _ := strings.Cut(rest, "}}")
		if s, ok := strings.CutPrefix(text, before); ok {
			if s, ok = strings.CutSuffix(s, after); ok {
				return s, true
			}
		}
	}
	return "", false
}

// words takes the text apart and lets each word say its part.
func (w *whenReader) words(text string) bool {
	tokens := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return unicode.IsSpace(r) || r == ',' })
	for i := 0; i < len(tokens); i++ {
		tok := tokens[i]
		next := ""
		if i+1 < len(tokens) {
			next = tokens[i+1]
		}
		if half := meridiem(next); half != "" && w.clock(tok+half) {
			i++
			continue
		}
		if !w.word(tok) {
			return false
		}
	}
	return w.settleNumbers()
}

func (w *whenReader) word(tok string) bool {
	switch {
	case tok == "on", tok == "the", tok == "of", isWord(tok, "at", lang.L("at")), isWord(tok, "o'clock", lang.L("o'clock")):
		return true
	case isWord(tok, "today", lang.L("today")):
		return w.setDate(w.now)
	case isWord(tok, "yesterday", lang.L("yesterday")):
		return w.setDate(w.now.AddDate(0, 0, -1))
	case isWord(tok, "tomorrow", lang.L("tomorrow")):
		return w.setDate(w.now.AddDate(0, 0, 1))
	case isWord(tok, "noon", lang.L("noon")):
		return w.setClock(12, 0)
	case isWord(tok, "midnight", lang.L("midnight")):
		return w.setClock(0, 0)
	}
	if d, ok := weekdayNamed(tok); ok {
		w.weekday, w.hasWeekday = d, true
		return true
	}
	if m := monthNamed(tok); m > 0 && w.month == 0 {
		w.month = m
		return true
	}
	return w.isoDate(tok) || w.numericDate(tok) || w.clock(tok) || w.bare(tok)
}

// bare keeps a number whose meaning shows when all words are known.
func (w *whenReader) bare(tok string) bool {
	for _, ending := range []string{"st", "nd", "rd", "th", "."} {
		tok = strings.TrimSuffix(tok, ending)
	}
	n, err := strconv.Atoi(tok)
	if err != nil || n < 0 || len(tok) > 4 {
		return false
	}
	w.bareNumbers = append(w.bareNumbers, n)
	return true
}

// settleNumbers gives bare numbers their meaning: beside a month a day and a year,
// after a day an hour.
func (w *whenReader) settleNumbers() bool {
	for _, n := range w.bareNumbers {
		switch {
		case w.month > 0 && !w.hasDay && n >= 1 && n <= 31:
			w.day, w.hasDay = n, true
		case w.month > 0 && w.year == 0 && n >= 1900 && n <= 2200:
			w.year = n
		case (w.hasDay || w.hasWeekday) && !w.hasTime && n <= 23:
			w.hour, w.hasTime = n, true
		default:
			return false
		}
	}
	return w.month == 0 || w.hasDay
}

func (w *whenReader) setDate(t time.Time) bool {
	if w.hasDay {
		return false
	}
	y, m, d := t.Date()
	w.year, w.month, w.day, w.hasDay = y, int(m), d, true
	return true
}

func (w *whenReader) setClock(h, m int) bool {
	if w.hasTime {
		return false
	}
	w.hour, w.min, w.hasTime = h, m, true
	return true
}

func (w *whenReader) isoDate(tok string) bool {
	if t, err := time.Parse("2006-01-02", tok); err == nil {
		return w.setDate(t)
	}
	date, clock, ok := strings.Cut(tok, "t")
	if !ok {
		return false
	}
	t, err := time.Parse("2006-01-02", date)
	if err != nil {
		return false
	}
	if len(clock) > 5 && clock[5] == ':' {
		clock = clock[:5]
	}
	return w.setDate(t) && w.clock(clock)
}

// numericDate reads 24/11, 24.11., 24.11.2026, 24-11-26, or month first.
func (w *whenReader) numericDate(tok string) bool {
	if meridiem(tok) != "" || strings.HasSuffix(tok, "m") {
		return false
	}
	parts := strings.FieldsFunc(tok, func(r rune) bool { return r == '/' || r == '.' || r == '-' })
	if len(parts) < 2 || len(parts) > 3 || strings.Contains(tok, ":") || w.hasDay {
		return false
	}
	n := make([]int, 3)
	for i, p := range parts {
		v, err := strconv.Atoi(p)
		if err != nil || v < 1 || len(p) > 4 {
			return false
		}
		n[i] = v
	}
	day, month := n[0], n[1]
	if w.units.MonthFirst && strings.Contains(tok, "/") {
		day, month = month, day
	}
	if month < 1 || month > 12 || day < 1 || day > 31 {
		return false
	}
	if len(parts) == 3 {
		switch {
		case n[2] >= 1900 && n[2] <= 2200:
			w.year = n[2]
		case n[2] < 100:
			w.year = 2000 + n[2]
		default:
			return false
		}
	}
	w.month, w.day, w.hasDay = month, day, true
	return true
}

// result puts the parts together.
func (w *whenReader) result() (time.Time, error) {
	if !w.hasDay && !w.hasTime && !w.hasWeekday {
		return time.Time{}, errWhen()
	}
	if !w.hasTime {
		w.hour = 12
	}
	if w.hasDay {
		return w.onDate()
	}
	y, m, d := w.now.Date()
	if w.hasWeekday {
		d += w.toWeekday()
	}
	return time.Date(y, m, d, w.hour, w.min, 0, 0, w.now.Location()), nil
}

// toWeekday counts the days to the nearest such day: from three before now to
// three after.
func (w *whenReader) toWeekday() int {
	away := (int(w.weekday) - int(w.now.Weekday()) + 7) % 7
	if away > 3 {
		away -= 7
	}
	return away
}

func (w *whenReader) onDate() (time.Time, error) {
	year := w.year
	if year == 0 {
		year = w.nearestYear()
	}
	t := time.Date(year, time.Month(w.month), w.day, w.hour, w.min, 0, 0, w.now.Location())
	if t.Day() != w.day || int(t.Month()) != w.month {
		// Not a day of that month, or a time that the change to summer time skips at
		// midnight; the first is a mistake.
		if noon := time.Date(year, time.Month(w.month), w.day, 12, 0, 0, 0, time.UTC); noon.Day() != w.day {
			return time.Time{}, errors.New(lang.L("That month has no such day."))
		}
	}
	return t, nil
}

// nearestYear is the year that puts the day closest to now.
func (w *whenReader) nearestYear() int {
	best, least := w.now.Year(), time.Duration(math.MaxInt64)
	for y := w.now.Year() - 1; y <= w.now.Year()+1; y++ {
		t := time.Date(y, time.Month(w.month), w.day, 12, 0, 0, 0, w.now.Location())
		if t.Day() != w.day {
			continue
		}
		if d := t.Sub(w.now).Abs(); d < least {
			best, least = y, d
		}
	}
	return best
}
