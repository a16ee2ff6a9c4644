package ferment

import (
	"fmt"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"
)

// CalendarOptions are what a calendar file needs beside the plan.
type CalendarOptions struct {
	Culture string        // name, for the titles
	UID     string        // stem of the identifiers; the same plan exported again replaces itself
	Stamp   time.Time     // when the file is made
	Alarm   time.Duration // before each feeding; 0 for none
}

// Calendar writes the feedings of a build, and the hour it is ripe, as an
// iCalendar file (RFC 5545) in UTC.
func (b Build) Calendar(o CalendarOptions) string {
	cal := ics.NewCalendarFor("Twinloaf")
	cal.SetMethod(ics.MethodPublish)
	add := func(n int, at time.Time, title, text string) {
		e := cal.AddEvent(fmt.Sprintf("%s-%d@twinloaf", o.UID, n))
		e.SetDtStampTime(o.Stamp.UTC())
		e.SetStartAt(at.UTC())
		e.SetEndAt(at.Add(15 * time.Minute).UTC())
		e.SetSummary(title)
		e.SetDescription(text)
		if o.Alarm > 0 {
			alarm := e.AddAlarm()
			alarm.SetAction(ics.ActionDisplay)
			alarm.SetDescription(title)
			alarm.SetTrigger(fmt.Sprintf("-PT%dM", int(o.Alarm.Minutes())))
		}
	}
	words := b.Sentences()
	for i, s := range b.Steps {
		add(i+1, s.At, "Feed "+o.Culture, words[i])
	}
	add(len(b.Steps)+1, b.RipeAt, strings.TrimSpace(o.Culture+" is ripe"), words[len(words)-1])
	return cal.Serialize(ics.WithNewLineWindows)
}
