// Package calendar writes the plan of a bake day as a calendar file with
// alarms, after RFC 5545, for the telephone in the baker's pocket.
package calendar

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode"

	ics "github.com/arran4/golang-ical"

	"twinloaf/journal/plan"
	"twinloaf/journal/say"
)

// Options say how the file is made.
type Options struct {
	// Stamp is when the file was made; it stands in every entry.
	Stamp time.Time
	// Lead is how long before each alarm another one is given; 0 for none.
	Lead plan.Minutes
	// Now is when the day is looked at: what should have been done by then holds back what
	// follows, and is called overdue. The zero time looks at no clock.
	Now time.Time
	// Overdue says by how much something that was due is overdue, for its entry to begin
	// with, and "" for what is not; nil calls nothing overdue.
	Overdue func(due time.Time) string
	// Say puts what a moment is called into the baker's language; nil says it in
	// English.
	Say func(say.Line) string
}

// How long an entry is shown that only says "do this now". RFC 5545 lets an
// entry take no time at all, but then many calendars do not draw it.
const shown = 5 * time.Minute

// overdue is the colour of what is overdue: of the names that RFC 7986, section 5.9, takes
// from CSS, the nearest to the window's.
const overdue = "firebrick"

// ErrNoID is returned for a plan without an ID: entries imported twice would
// stand in the calendar twice.
var ErrNoID = errors.New("the plan has no ID")

// Write writes the plans to w. There is one entry for each step, one for each
// turn, and one for the time when the bread is ready; what needs hands, and the
// end, has an alarm. Times are those of [plan.Plan.Timeline] with all marks and
// shifts as expected at Now, in UTC, so that a telephone shows them right in whatever zone it is;
// what was skipped is left out. UIDs depend on the plan's ID and the moment
// alone: a file made again after a shift replaces the entries of the first.
func Write(w io.Writer, o Options, plans ...plan.Plan) error {
	if o.Say == nil {
		o.Say = say.Line.String
	}
	cal := ics.NewCalendar()
	cal.SetProductId("-//Twinloaf//Bake day//EN")
	for _, p := range plans {
		if p.ID == "" {
			return fmt.Errorf("write %q to a calendar: %w", p.Name, ErrNoID)
		}
		for _, m := range p.Timeline(o.Now) {
			if m.State != plan.Skipped {
				addEntry(cal, o, p, m)
			}
		}
	}
	if err := cal.SerializeTo(w, ics.WithNewLine("\r\n")); err != nil {
		return fmt.Errorf("write the calendar: %w", err)
	}
	return nil
}

func addEntry(cal *ics.Calendar, o Options, p plan.Plan, m plan.Moment) {
	start, end := m.Due, m.End
	if m.State == plan.Done {
		start = m.At
	}
	if !end.After(start) {
		end = start.Add(shown)
	}
	called := m.Title
	if p.Name != "" {
		called = say.Of("{{.What}}: {{.Name}}", say.With{"What": m.Title, "Name": p.Name})
	}
	title := plain(o.Say(called))
	late := ""
	if m.State == plan.Pending && (m.Hands || m.Ref == plan.Ready) && o.Overdue != nil {
		late = o.Overdue(m.Due)
	}
	if late != "" {
		title = plain(late) + " – " + title
	}

	e := cal.AddEvent(uid(p.ID, m.Ref))
	e.SetDtStampTime(o.Stamp)
	e.SetStartAt(start)
	e.SetEndAt(end)
	e.SetSummary(title)
	if late != "" {
		e.SetColor(overdue)
	}
	if m.Note != "" {
		e.SetDescription(plain(m.Note))
	}
	if m.State != plan.Pending || !m.Hands && m.Ref != plan.Ready {
		return
	}
	alarm(e, title, 0)
	if o.Lead > 0 {
		alarm(e, title, o.Lead)
	}
}

func alarm(e *ics.VEvent, title string, before plan.Minutes) {
	a := e.AddAlarm()
	a.SetAction(ics.ActionDisplay)
	a.SetTrigger(fmt.Sprintf("-PT%dM", int(before)))
	a.SetDescription(title)
}

// uid is the name by which calendars know the entry of a moment.
func uid(planID string, ref plan.Ref) string {
	return fmt.Sprintf("%s-%s-%d@twinloaf", plain(planID), plain(ref.Step), ref.Turn)
}

// plain keeps text within what a calendar line may hold: no control characters
// but the line feed, which is written as an escape, and no broken UTF-8.
func plain(s string) string {
	s = strings.ToValidUTF8(strings.ReplaceAll(s, "\r\n", "\n"), "\uFFFD")
	return strings.Map(func(r rune) rune {
		if r != '\n' && unicode.IsControl(r) {
			return ' '
		}
		return r
	}, s)
}
