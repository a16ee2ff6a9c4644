package charts

import (
	"fmt"
	"strings"
	"time"
)

// Words say how a chart writes what its figure does not give: its own
// sentences, the names of days and months, numbers and times of day. The zero
// Words write English, with a decimal point, a clock of 24 hours and the day
// before its month. CSV tables are not touched: they are for other programs.
type Words struct {
	// Find gives the words that stand for an English text in another language.
	// A text is a template: a name in it, {{.From}}, is left where it belongs
	// and filled by the chart. Where something is counted, one is the English
	// for a count of one, and text that for all others; otherwise one is empty.
	// It may be called from several goroutines at once. Nil keeps the English.
	Find func(text, one string, count int) string

	Comma      bool // "1,5" rather than "1.5"; the Format of an axis writes its own
	TwelveHour bool // "3:30 pm" rather than "15:30"
	MonthFirst bool // "Jan 2" rather than "2 Jan"
}

// values fill the names of a template.
type values map[string]any

// tell says an English text in the words of w.
func tell(w Words, text string, with values) string {
	if w.Find != nil {
		text = w.Find(text, "", 0)
	}
	return fill(text, with)
}

// tellCount says a text that counts n of something, which it calls {{.N}}.
func tellCount(w Words, one, many string, n int, with values) string {
	text := many
	switch {
	case w.Find != nil:
		text = w.Find(many, one, n)
	case n == 1:
		text = one
	}
	all := values{"N": n}
	for name, v := range with {
		all[name] = v
	}
	return fill(text, all)
}

// fill puts values in the place of their names. What a value holds is never
// taken for a template.
func fill(text string, with values) string {
	var b strings.Builder
	for {
		before, after, found := strings.Cut(text, "{{.")
		name, rest, closed := strings.Cut(after, "}}")
		if !found || !closed {
			b.WriteString(text)
			return b.String()
		}
		b.WriteString(before)
		if v, ok := with[name]; ok {
			fmt.Fprint(&b, v)
		}
		text = rest
	}
}

// nothing is what stands in the place of a figure without data.
func (w Words) nothing(given string) string {
	if given != "" {
		return given
	}
	return tell(w, "Nothing to show yet.", nil)
}

// named puts the name of a series or a row before what is said of it.
func (w Words) named(name, said string) string {
	if name == "" {
		return said
	}
	return tell(w, "{{.Name}}, {{.Said}}", values{"Name": name, "Said": said})
}

// valued puts a name before its value.
func (w Words) valued(name string, value any) string {
	return tell(w, "{{.Name}}: {{.Value}}", values{"Name": name, "Value": value})
}

// between says a stretch from one value to another.
func (w Words) between(from, to string) string {
	return tell(w, "{{.From}} to {{.To}}", values{"From": from, "To": to})
}

func (w Words) weekday(t time.Time) string    { return tell(w, t.Format("Mon"), nil) }
func (w Words) month(t time.Time) string      { return tell(w, t.Format("January"), nil) }
func (w Words) shortMonth(t time.Time) string { return tell(w, t.Format("Jan"), nil) }

// day writes a day of a month that is already named: "2 Jan".
func (w Words) day(t time.Time, month string) string {
	with := values{"Day": t.Day(), "Month": month}
	if w.MonthFirst {
		return tell(w, "{{.Month}} {{.Day}}", with)
	}
	return tell(w, "{{.Day}} {{.Month}}", with)
}

// weekdayDay writes a day with its weekday: "Mon 2 Jan".
func (w Words) weekdayDay(t time.Time, month string) string {
	return tell(w, "{{.Weekday}} {{.Date}}", values{"Weekday": w.weekday(t), "Date": w.day(t, month)})
}

// moment writes a day and the time of day: "Mon 2 Jan 15:04".
func (w Words) moment(t time.Time) string {
	return tell(w, "{{.Date}} {{.Clock}}", values{"Date": w.weekdayDay(t, w.shortMonth(t)), "Clock": w.clock(t)})
}

// clock writes the time of day to the minute.
func (w Words) clock(t time.Time) string { return w.halved(t, "15:04", "3:04") }

// hour writes a whole hour.
func (w Words) hour(t time.Time) string { return w.halved(t, "15", "3") }

func (w Words) halved(t time.Time, whole, half string) string {
	switch with := (values{"Clock": t.Format(half)}); {
	case !w.TwelveHour:
		return t.Format(whole)
	case t.Hour() < 12:
		return tell(w, "{{.Clock}}\u00a0am", with)
	default:
		return tell(w, "{{.Clock}}\u00a0pm", with)
	}
}
