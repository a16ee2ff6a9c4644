package ferment

import (
	"fmt"
	"time"

	ics "github.com/arran4/golang-ical"

	"twinloaf/journal/say"
)

// CalendarOptions are what a calendar file needs beside the plan.
type CalendarOptions struct {
	Culture string        // name, for the titles
	UID     string        // stem of the identifiers; the same plan exported again replaces itself
	Stamp   time.Time     // when the file is made
	Alarm   time.Duration // before each feeding; 0 for none
	// Say puts a line into the baker's language; nil says it in English.
	Say func(say.Line) string
}

// Calendar writes the feedings of a build, and the hour it is ripe, as an
// iCalendar file (RFC 5545) in UTC.
func (b Build) Calendar(o CalendarOptions) string {
	if o.Say == nil {
		o.Say = say.Line.String
	}
	cal := ics.NewCalendarFor("Twinloaf")
	cal.SetMethod(ics.MethodPublish)
	add := func(n int, at time.Time, title, text say.Line) {
		e := cal.AddEvent(fmt.Sprintf("%s-%d@twinloaf", o.UID, n))
		e.SetDtStampTime(o.Stamp.UTC())
		e.SetStartAt(at.UTC())
		e.SetEndAt(at.Add(15 * time.Minute).UTC())
		e.SetSummary(o.Say(title))
		e.SetDescription(o.Say(text))
		if o.Alarm > 0 {
			alarm := e.AddAlarm()
			alarm.SetAction(ics.ActionDisplay)
			alarm.SetDescription(o.Say(title))
			alarm.SetTrigger(fmt.Sprintf("-PT%dM", int(o.Alarm.Minutes())))
		}
	}
	words := b.Words()
	name := say.With{"Name": o.Culture}
	for i, s := range b.Steps {
		add(i+1, s.At, say.Of("Feed {{.Name}}", name), words[i])
	}
	add(len(b.Steps)+1, b.RipeAt, say.Of("{{.Name}} is ripe", name), words[len(words)-1])
	return cal.Serialize(ics.WithNewLineWindows)
}
