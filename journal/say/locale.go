package say

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
)

// A Locale is a language and how numbers and times are written in it. The zero Locale is
// English, with a decimal point, a clock of 24 hours and the day before its month.
type Locale struct {
	// Find gives the words that stand for an English text in another language. A text is
	// a template: a name in it, {{.From}}, is left where it belongs. Where something is
	// counted, one is the English for a count of one, and text that for all others;
	// otherwise one is empty. It may be called from several goroutines at once. Nil keeps
	// the English.
	Find func(text, one string, count int) string

	Comma      bool // "1,5" rather than "1.5"
	TwelveHour bool // "3:30 pm" rather than "15:30"
	MonthFirst bool // "Jan 2" rather than "2 Jan"
}

// Say puts a line into words.
func (l Locale) Say(line Line) string { return line.Fill(l.find, l.Write) }

// Word puts a single English word into the language: the name of a month, a unit.
func (l Locale) Word(english string) string { return l.find(english, "", 0) }

func (l Locale) find(text, one string, count int) string {
	switch {
	case l.Find != nil:
		return l.Find(text, one, count)
	case one != "" && count == 1:
		return one
	}
	return text
}

// Write writes a value of a line, its quantities in metric.
func (l Locale) Write(value any) string {
	switch v := value.(type) {
	case Number:
		return l.marked(v.String())
	case Quantity:
		if v.Unit == "" {
			return l.marked(v.Number.String())
		}
		return l.marked(v.Number.String()) + "\u00a0" + l.Word(v.Unit)
	case Moment:
		return l.moment(v)
	}
	return fmt.Sprint(value)
}

// Number writes a number with at most the given decimals, without trailing zeros.
// What is not finite is written "?".
func (l Locale) Number(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return l.written(v, s)
}

// Fixed writes a number as Number does, but with all the decimals: figures of one
// column line up by their decimal marks.
func (l Locale) Fixed(v float64, decimals int) string {
	return l.written(v, strconv.FormatFloat(v, 'f', decimals, 64))
}

// Times writes a ratio, such as how high something rose: "1.50×".
func (l Locale) Times(v float64) string { return l.Fixed(v, 2) + "×" }

func (l Locale) written(v float64, s string) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "?"
	}
	return l.marked(s)
}

// marked sets a true minus sign, as wide as a figure, and the decimal mark.
func (l Locale) marked(s string) string {
	if strings.Trim(s, "-0.") == "" { // nothing is not less than nothing
		s = strings.TrimPrefix(s, "-")
	}
	if l.Comma {
		s = strings.Replace(s, ".", ",", 1)
	}
	return strings.Replace(s, "-", "−", 1)
}

// Clock writes the time of day: "07:30" or "7:30 am".
func (l Locale) Clock(t time.Time) string { return l.halved(t, "15:04", "3:04") }

// Hour writes a whole hour: "07" or "7 am".
func (l Locale) Hour(t time.Time) string { return l.halved(t, "15", "3") }

func (l Locale) halved(t time.Time, whole, half string) string {
	if l.TwelveHour {
		return t.Format(half) + "\u00a0" + l.Word(t.Format("pm"))
	}
	return t.Format(whole)
}

// Weekday names the day, cut short: "Mon".
func (l Locale) Weekday(t time.Time) string { return l.Word(t.Format("Mon")) }

// Month names the month.
func (l Locale) Month(t time.Time) string { return l.Word(t.Month().String()) }

// MonthDay writes a day of its month: "2 January".
func (l Locale) MonthDay(t time.Time) string { return l.ofMonth(t, l.Month(t)) }

// ShortMonth names the month, cut short: "Jan".
func (l Locale) ShortMonth(t time.Time) string { return l.Word(t.Format("Jan")) }

// ShortDay writes a day of its month, cut short: "2 Jan".
func (l Locale) ShortDay(t time.Time) string { return l.ofMonth(t, l.ShortMonth(t)) }

func (l Locale) ofMonth(t time.Time, month string) string {
	if l.MonthFirst {
		return month + "\u00a0" + strconv.Itoa(t.Day())
	}
	return l.Say(Of("{{.Day}}\u00a0{{.Month}}", With{"Day": t.Day(), "Month": month}))
}

func (l Locale) moment(m Moment) string {
	switch m.As {
	case WeekdayClock:
		return l.Weekday(m.At) + " " + l.Clock(m.At)
	case Day:
		return l.MonthDay(m.At)
	case DayClock:
		return l.MonthDay(m.At) + " " + l.Clock(m.At)
	case Date:
		return l.MonthDay(m.At) + " " + strconv.Itoa(m.At.Year())
	}
	return l.Clock(m.At)
}
