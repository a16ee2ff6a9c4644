package shorthand

import (
	"fmt"
	"strconv"
	"strings"
)

// numbers are the numbers that hours and minutes are said with.
var numbers = map[string]int{
	"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
	"fifteen": 15, "twenty": 20, "twenty-five": 25, "thirty": 30, "forty": 40, "forty-five": 45, "fifty": 50,
	"eins": 1, "ein": 1, "zwei": 2, "zwo": 2, "drei": 3, "vier": 4, "fünf": 5, "sechs": 6, "sieben": 7, "acht": 8, "neun": 9, "zehn": 10, "elf": 11, "zwölf": 12,
	"fünfzehn": 15, "zwanzig": 20, "fünfundzwanzig": 25, "dreißig": 30, "vierzig": 40, "fünfzig": 50,
}

// halfWords say in which half of the day an hour lies.
var halfWords = map[string]string{
	"morgens": "am", "früh": "am", "vormittags": "am", "vormittag": "am", "nachmittags": "pm", "nachmittag": "pm", "abends": "pm", "abend": "pm",
}

// beforeHours are what is said before an hour, and how many minutes are meant from it.
var beforeHours = map[string]int{
	"half": 30, "half past": 30, "quarter past": 15, "quarter after": 15, "quarter to": -15, "quarter before": -15,
	"halb": -30, "dreiviertel": -15, "drei viertel": -15, "viertel nach": 15, "viertel vor": -15,
	"viertel": -45, // as they say in the south and east
}

// dayParts say a part of a day, and what is read in their place.
var dayParts = map[string][]string{
	"in the morning": {"morgens"}, "in the afternoon": {"abends"}, "in the evening": {"abends"}, "at night": {"abends"},
	"this morning": {"today", "morgens"}, "this afternoon": {"today", "abends"}, "this evening": {"today", "abends"},
}

func itoa(n int) string { return strconv.Itoa(n) }

// hourOf is an hour that is said: "seven", "sieben", "7".
func hourOf(tok string) (int, bool) { return upTo(tok, 24) }

func upTo(tok string, most int) (int, bool) {
	n, ok := numbers[tok]
	if !ok {
		v, err := strconv.Atoi(tok)
		if err != nil || len(tok) > 2 {
			return 0, false
		}
		n = v
	}
	return n, n >= 0 && n <= most
}

// spoken writes the ways of saying an hour as clocks show it, and leaves all else.
func (w *whenReader) spoken(tokens []string) []string {
	var out []string
	for i := 0; i < len(tokens); {
		n, words := w.phrase(tokens[i:])
		if n == 0 {
			n, words = 1, tokens[i:i+1]
		}
		out = append(out, words...)
		i += n
	}
	return out
}

// phrase reads one way of saying an hour at the beginning of some words; it gives how
// many words it is and what stands in their place.
func (w *whenReader) phrase(t []string) (n int, words []string) {
	for n := min(3, len(t)); n > 0; n-- {
		said := strings.Join(t[:n], " ")
		if words, ok := dayParts[said]; ok {
			return n, words
		}
		if minutes, ok := beforeHours[said]; ok {
			return hourAt(t, n, minutes)
		}
	}
	switch t[0] {
	case "at", "um", "gegen", "about":
		if h, ok := hourOf(word(t, 1)); ok && h < 24 && w.endsHour(word(t, 2)) {
			return 2, []string{fmt.Sprintf("%d:00", h)}
		}
		return 0, nil
	}
	return minutesAndHour(t)
}

// word is word i of some, or none.
func word(t []string, i int) string {
	if i < len(t) {
		return t[i]
	}
	return ""
}

// hourAt reads the hour that word i says, and so many minutes.
func hourAt(t []string, i, minutes int) (n int, words []string) {
	h, ok := hourOf(word(t, i))
	if !ok {
		return 0, nil
	}
	n = i + 1
	if word(t, n) == "uhr" {
		n++
	}
	all := (h*60 + minutes + 24*60) % (24 * 60)
	return n, []string{fmt.Sprintf("%d:%02d", all/60, all%60)}
}

// endsHour says that the word after an hour does not go on with it.
func (w *whenReader) endsHour(next string) bool {
	switch next {
	case "past", "to", "after", "before", "nach", "vor", "uhr", "o'clock", "oclock", "o’clock", "minutes":
		return false
	}
	return w.meridiem(next) == ""
}

// minutesAndHour reads "ten past six", "fünf vor halb neun", "7 o'clock", "19 uhr 30".
func minutesAndHour(t []string) (n int, words []string) {
	if h, m, found := strings.Cut(t[0], "."); found && word(t, 1) == "uhr" { // 19.30 Uhr
		return 2, []string{h + ":" + m}
	}
	if strings.Contains(t[0], ":") && word(t, 1) == "uhr" {
		return 2, t[:1]
	}
	v, ok := upTo(t[0], 59)
	if !ok {
		return 0, nil
	}
	i := 1
	if word(t, i) == "minutes" || word(t, i) == "minuten" {
		i++
	}
	sign := map[string]int{"past": 1, "after": 1, "nach": 1, "to": -1, "before": -1, "vor": -1}[word(t, i)]
	switch {
	case sign != 0 && word(t, i+1) == "halb":
		return hourAt(t, i+2, -30+sign*v)
	case sign != 0:
		return hourAt(t, i+1, sign*v)
	}
	if v > 24 || i != 1 {
		return 0, nil
	}
	switch word(t, 1) {
	case "o'clock", "o’clock", "oclock", "uhr":
		if m, ok := upTo(word(t, 2), 59); ok && word(t, 1) == "uhr" {
			return 3, []string{fmt.Sprintf("%d:%02d", v%24, m)}
		}
		return 2, []string{fmt.Sprintf("%d:00", v%24)}
	}
	if _, named := numbers[t[0]]; named {
		return 1, []string{itoa(v)}
	}
	return 0, nil
}
