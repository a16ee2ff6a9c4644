package charts

import (
	"cmp"
	"time"

	"twinloaf/journal/say"
)

// Words say how a chart writes what its figure does not give: its own
// sentences, the names of days and months, numbers and times of day. The zero
// Words write English. The Format of an axis writes its own. CSV tables are not
// touched: they are for other programs.
type Words struct{ say.Locale }

// nothing is what stands in the place of a figure without data.
func (w Words) nothing(given string) string {
	return cmp.Or(given, w.Say(say.Of("Nothing to show yet.")))
}

// named puts the name of a series or a row before what is said of it.
func (w Words) named(name, said string) string {
	if name == "" {
		return said
	}
	return w.Say(say.Of("{{.Name}}, {{.Said}}", say.With{"Name": name, "Said": said}))
}

// valued puts a name before its value.
func (w Words) valued(name string, value any) string {
	return w.Say(say.Of("{{.Name}}: {{.Value}}", say.With{"Name": name, "Value": value}))
}

// between says a stretch from one value to another.
func (w Words) between(from, to string) string {
	return w.Say(say.Of("{{.From}} to {{.To}}", say.With{"From": from, "To": to}))
}

// weekdayDay writes a day with its weekday: "Mon 2 Jan".
func (w Words) weekdayDay(t time.Time, day string) string {
	return w.Say(say.Of("{{.Weekday}} {{.Date}}", say.With{"Weekday": w.Weekday(t), "Date": day}))
}

// moment writes a day and the time of day: "Mon 2 Jan 15:04".
func (w Words) moment(t time.Time) string {
	return w.Say(say.Of("{{.Date}} {{.Clock}}", say.With{"Date": w.weekdayDay(t, w.ShortDay(t)), "Clock": w.Clock(t)}))
}
