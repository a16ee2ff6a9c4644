package shorthand

import (
	"math"
	"strconv"
	"strings"
	"time"
	"unicode"

	"twinloaf/journal/say"
)

// When reads a moment as a baker writes it, in the zone of now, to the minute:
//
//	now, -20 min, 1 h 30 min ago, half an hour ago, in 40 min, +2 h, vor 20 min
//	7:30, 7.30, 7.30 Uhr, 7.30 pm, 7pm, 0730, noon, midnight (today)
//	half past seven, quarter to eight, ten past six, 7 o'clock, at seven in the evening
//	halb acht, viertel nach sieben, dreiviertel acht, fünf vor halb neun, 19 Uhr 30
//	today 7:30, yesterday 21:10, morgen früh um 6, tue 7:30 (the Tuesday nearest to now)
//	24 Nov 07:30, Nov 24 2026 7:30 pm, 24/11 07:30, 24.11.2026, 2026-11-24 07:30
//	2026-11-24T07:30:00+01:00
//
// Of two bare numbers the first is the day, unless MonthFirst is set. With a point between
// them they are a time where they can be no day (7.30), or where a day was said before
// (yesterday 10.05) or a word that goes with a time (um 10.05); 10.05 alone is the tenth of
// May. A weekday beside a date must be that date's. A day without a time means noon; a day without a year is the one nearest to now. An hour without
// its half of the day is that of the 24-hour clock. Case does not matter.
func (s Style) When(text string, now time.Time) (time.Time, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return time.Time{}, ErrNoTime
	}
	if len(text) > 60 {
		return time.Time{}, ErrTime
	}
	if t, err := time.Parse(time.RFC3339, strings.ToUpper(text)); err == nil {
		return possibleTime(t.In(now.Location()).Truncate(time.Minute), nil)
	}
	w := whenReader{now: now.Truncate(time.Minute), style: s}
	if t, ok := w.relative(text); ok {
		return t, nil
	}
	if !w.words(text) {
		return time.Time{}, ErrTime
	}
	return possibleTime(w.result())
}

// HourFrom reads an hour that stands alone, "20:00" or "half past 8", as the first such hour
// from the given moment on; false for any other text, a day or "20 min ago" among them.
func (s Style) HourFrom(text string, from time.Time) (time.Time, bool) {
	w := whenReader{now: from, style: s}
	if _, ok := w.relative(strings.TrimSpace(text)); ok || len(text) > 60 || !w.words(text) || !w.hasTime || w.hasDay || w.hasWeekday {
		return time.Time{}, false
	}
	y, m, d := from.Date()
	t := time.Date(y, m, d, w.hour, w.min, 0, 0, from.Location())
	if t.Before(from) {
		t = time.Date(y, m, d+1, w.hour, w.min, 0, 0, from.Location())
	}
	return t, true
}

// possibleTime lets through the years that a journal of bread can speak of.
func possibleTime(t time.Time, err error) (time.Time, error) {
	if err == nil && (t.Year() < firstYear || t.Year() > lastYear) {
		return time.Time{}, say.NewError("The year must be between {{.First}} and {{.Last}}.", say.With{"First": firstYear, "Last": lastYear})
	}
	return t, err
}

// The years that can be meant. The program's own choice.
const (
	firstYear = 1900
	lastYear  = 2200
)

// whenReader gathers what the words of a moment say.
type whenReader struct {
	now         time.Time
	style       Style
	year        int
	month, day  int
	hasDay      bool
	hour, min   int
	hasTime     bool
	half        string // of the day: "am", "pm", or not said
	weekday     time.Weekday
	hasWeekday  bool
	wantsTime   bool // the word before was "um" or "at"
	bareNumbers []int
}

// relative reads "now", "-20 min", "20 min ago", "in 2 h", "vor 20 min".
func (w *whenReader) relative(text string) (time.Time, bool) {
	s := strings.ToLower(text)
	switch s {
	case "now", "just now", "right now", "jetzt", "gerade", "gerade eben", "sofort":
		return w.now, true
	}
	sign := 0.0
	if t, ok := strings.CutSuffix(s, " ago"); ok {
		s, sign = t, -1
	}
	for _, p := range []struct {
		prefix string
		sign   float64
	}{{"in ", 1}, {"+", 1}, {"-", -1}, {"−", -1}, {"–", -1}, {"vor ", -1}} {
		if t, ok := strings.CutPrefix(s, p.prefix); ok && sign == 0 {
			s, sign = t, p.sign
			break
		}
	}
	if sign == 0 {
		return time.Time{}, false
	}
	minutes, err := w.style.Span(s)
	const tenYears = 10 * 366 * 24 * 60
	if err != nil || math.IsNaN(minutes) || minutes < 0 || minutes > tenYears {
		return time.Time{}, false
	}
	return w.now.Add(time.Duration(sign*math.Round(minutes)) * time.Minute), true
}

// words takes the text apart and lets each word say its part.
func (w *whenReader) words(text string) bool {
	tokens := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return unicode.IsSpace(r) || r == ',' })
	tokens = w.spoken(tokens)
	for i := 0; i < len(tokens); i++ {
		tok := tokens[i]
		next := ""
		if i+1 < len(tokens) {
			next = tokens[i+1]
		}
		if half := w.meridiem(next); half != "" && w.clock(tok+half) {
			i++
			continue
		}
		if !w.word(tok) {
			return false
		}
	}
	return w.settleNumbers() && w.settleHalf()
}

// dayWords are words for a day, counted from today.
var dayWords = map[string]int{
	"today": 0, "yesterday": -1, "tomorrow": 1, "tonight": 0,
	"heute": 0, "gestern": -1, "morgen": 1, "vorgestern": -2, "übermorgen": 2,
}

func (w *whenReader) word(tok string) bool {
	wantsTime := w.wantsTime
	w.wantsTime = false
	switch tok {
	case "at", "um", "gegen", "about":
		w.wantsTime = true
		return true
	case "on", "the", "of", "am", "den", "der":
		return true
	case "noon", "midday", "mittag", "mittags":
		return w.setClock(12, 0)
	case "midnight", "mitternacht":
		return w.setClock(0, 0)
	}
	if shift, ok := dayWords[tok]; ok {
		if tok == "tonight" && !w.setHalf("pm") {
			return false
		}
		return w.setDate(w.now.AddDate(0, 0, shift))
	}
	if half, ok := halfWords[tok]; ok {
		return w.setHalf(half)
	}
	if d, ok := w.weekdayNamed(tok); ok {
		w.weekday, w.hasWeekday = d, true
		return true
	}
	if m := w.monthNamed(tok); m > 0 && w.month == 0 {
		w.month = m
		return true
	}
	if wantsTime && w.pointClock(tok) {
		return true
	}
	return w.isoDate(tok) || w.numericDate(tok) || w.clock(tok) || w.pointClock(tok) || w.bare(tok)
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
		case w.month > 0 && w.year == 0 && n >= firstYear && n <= lastYear:
			w.year = n
		case (w.hasDay || w.hasWeekday || w.half != "") && !w.hasTime && n <= 23:
			w.hour, w.hasTime = n, true
		default:
			return false
		}
	}
	return w.month == 0 || w.hasDay
}

// settleHalf moves an hour into the half of the day that was said.
func (w *whenReader) settleHalf() bool {
	switch {
	case w.half == "":
		return true
	case !w.hasTime:
		return false // "this evening" is no time
	case w.half == "pm" && w.hour < 12:
		w.hour += 12
	case w.half == "am" && w.hour == 12:
		w.hour = 0
	}
	return w.half != "am" || w.hour < 12
}

func (w *whenReader) setHalf(half string) bool {
	if w.half != "" && w.half != half {
		return false
	}
	w.half = half
	return true
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
	if w.meridiem(tok) != "" || strings.HasSuffix(tok, "m") {
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
	if w.style.MonthFirst && strings.Contains(tok, "/") {
		day, month = month, day
	}
	if month < 1 || month > 12 || day < 1 || day > 31 {
		return false
	}
	if len(parts) == 3 {
		switch {
		case n[2] >= firstYear && n[2] <= lastYear:
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
		return time.Time{}, ErrTime
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
	switch noon := time.Date(year, time.Month(w.month), w.day, 12, 0, 0, 0, time.UTC); {
	case noon.Day() != w.day:
		return time.Time{}, ErrNoSuch
	case w.hasWeekday && noon.Weekday() != w.weekday:
		return time.Time{}, ErrWeekday
	}
	return time.Date(year, time.Month(w.month), w.day, w.hour, w.min, 0, 0, w.now.Location()), nil
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
