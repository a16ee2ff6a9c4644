package shorthand

import (
	"cmp"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// clock reads 7:30, 07:30:15, 7h30, 0730, 7pm, 7.30pm.
func (w *whenReader) clock(tok string) bool {
	if w.hasTime {
		return false
	}
	tok, half := w.cutMeridiem(tok)
	var hs, ms string
	switch {
	case strings.Contains(tok, ":"):
		hs, ms, _ = strings.Cut(tok, ":")
		if sec, ok := cutSeconds(ms); ok {
			ms = sec
		}
	case strings.Contains(tok, "h"):
		hs, ms, _ = strings.Cut(tok, "h")
	case half != "" && strings.Contains(tok, "."):
		hs, ms, _ = strings.Cut(tok, ".")
	case half != "":
		hs, ms = tok, "0"
	case len(tok) == 4 && (tok < "1900" || tok > "2200" || w.hasDay && w.year > 0) && w.month == 0 || len(tok) == 4 && w.year > 0:
		hs, ms = tok[:2], tok[2:]
	default:
		return false
	}
	ms = cmp.Or(ms, "0")
	h, err1 := strconv.Atoi(hs)
	m, err2 := strconv.Atoi(ms)
	if err1 != nil || err2 != nil || h < 0 || m < 0 || m > 59 || len(ms) > 2 || len(hs) > 2 {
		return false
	}
	if half != "" {
		if h < 1 || h > 12 {
			return false
		}
		h %= 12
		if half == "pm" {
			h += 12
		}
	}
	if h > 23 {
		return false
	}
	return w.setClock(h, m)
}

// pointClock reads 7.30 and 07.05: an hour, a point and two digits of minutes.
func (w *whenReader) pointClock(tok string) bool {
	h, m, ok := strings.Cut(tok, ".")
	return ok && h != "" && len(m) == 2 && w.clock(h+":"+m)
}

func cutSeconds(ms string) (string, bool) {
	m, s, ok := strings.Cut(ms, ":")
	if !ok {
		return "", false
	}
	v, err := strconv.Atoi(s)
	if err != nil || v < 0 || v > 59 {
		return "", false
	}
	return m, true
}

// halves are the ways to write the halves of a day: in English, and as the baker's
// language does.
func (w *whenReader) halves() [2][]string {
	return [2][]string{
		{"am", "a.m.", "a.m", strings.ToLower(w.style.word("am"))},
		{"pm", "p.m.", "p.m", strings.ToLower(w.style.word("pm"))},
	}
}

// cutMeridiem takes the half of the day off a time: "am", "pm", or neither.
func (w *whenReader) cutMeridiem(tok string) (rest, half string) {
	for i, ways := range w.halves() {
		for _, way := range ways {
			if t, ok := strings.CutSuffix(tok, way); ok && way != "" {
				return t, [2]string{"am", "pm"}[i]
			}
		}
	}
	return tok, ""
}

// meridiem says which half of the day a word names.
func (w *whenReader) meridiem(tok string) string {
	rest, half := w.cutMeridiem(tok)
	if rest != "" {
		return ""
	}
	return half
}

var germanDays = [7]string{"sonntag", "montag", "dienstag", "mittwoch", "donnerstag", "freitag", "samstag"}

var germanMonths = [12]string{"januar", "februar", "märz", "april", "mai", "juni", "juli", "august", "september", "oktober", "november", "dezember"}

func (w *whenReader) weekdayNamed(s string) (time.Weekday, bool) {
	for d := time.Sunday; d <= time.Saturday; d++ {
		if w.isName(s, d.String(), germanDays[d]) {
			return d, true
		}
	}
	return time.Saturday, s == "sonnabend"
}

func (w *whenReader) monthNamed(s string) int {
	for m := time.January; m <= time.December; m++ {
		if w.isName(s, m.String(), germanMonths[m-1]) {
			return int(m)
		}
	}
	return 0
}

// isName says whether a word in small letters is a name of the calendar, or cuts it
// short, in English, in German, or as the baker's language writes it.
func (w *whenReader) isName(s, english, german string) bool {
	s = strings.TrimSuffix(s, ".")
	if r, _ := utf8.DecodeRuneInString(s); !unicode.IsLetter(r) {
		return false
	}
	if abbreviates(s, strings.ToLower(english)) || abbreviates(s, strings.ToLower(w.style.word(english))) || abbreviates(s, german) {
		return true
	}
	return s == strings.TrimSuffix(strings.ToLower(w.style.word(english[:3])), ".")
}

// abbreviates says whether s is a name or its first three or more letters.
func abbreviates(s, name string) bool {
	return utf8.RuneCountInString(s) >= 3 && strings.HasPrefix(name, s)
}
