package kit

import (
	"strconv"
	"strings"
	"time"
)

// clock reads 7:30, 07:30:15, 7h30, 0730, 7pm, 7.30pm.
func (w *whenReader) clock(tok string) bool {
	if w.hasTime {
		return false
	}
	half := ""
	for _, h := range []string{"am", "pm", "a.m.", "p.m."} {
		if t, ok := strings.CutSuffix(tok, h); ok {
			tok, half = t, h[:1]
			break
		}
	}
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
	if ms == "" {
		ms = "0"
	}
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
		if half == "p" {
			h += 12
		}
	}
	if h > 23 {
		return false
	}
	return w.setClock(h, m)
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

func meridiem(tok string) string {
	switch tok {
	case "am", "a.m.", "a.m":
		return "am"
	case "pm", "p.m.", "p.m":
		return "pm"
	}
	return ""
}

func weekdayNamed(s string) (time.Weekday, bool) {
	s = strings.TrimSuffix(s, ".")
	for d := time.Sunday; d <= time.Saturday; d++ {
		if abbreviates(s, strings.ToLower(d.String())) {
			return d, true
		}
	}
	return 0, false
}

func monthNamed(s string) int {
	s = strings.TrimSuffix(s, ".")
	for m := time.January; m <= time.December; m++ {
		if abbreviates(s, strings.ToLower(m.String())) {
			return int(m)
		}
	}
	return 0
}

// abbreviates says whether s is a name or its first three or more letters.
func abbreviates(s, name string) bool {
	return len(s) >= 3 && strings.HasPrefix(name, s)
}
