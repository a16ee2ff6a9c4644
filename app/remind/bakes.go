package remind

import (
	"cmp"
	"fmt"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// Bakes is the source of what is due in the doughs under way.
type Bakes struct {
	Journal *journal.Journal
	Units   func() measure.Units
}

// Due lists the moment that is due in each dough, if it needs hands or is the
// end of the day.
func (s Bakes) Due(now time.Time) ([]Reminder, error) {
	summaries, err := s.Journal.BakeSummaries()
	if err != nil {
		return nil, fmt.Errorf("looking for what is due: %w", err)
	}
	var out []Reminder
	for _, c := range summaries {
		if c.State != journal.Running || c.Binned {
			continue
		}
		b, err := journal.Get[journal.Bake](s.Journal, c.ID)
		if err != nil {
			return nil, fmt.Errorf("looking for what is due: %w", err)
		}
		r, ok := s.dueIn(b, now)
		if !ok {
			continue
		}
		r.Instead = func() string {
			if why := histories.BarredDough(s.Journal, b, now); why != nil {
				return s.Units().ErrorText(why) // whatever is due, the dough is not to be gone on with
			}
			return ""
		}
		out = append(out, r)
	}
	return out, nil
}

func (s Bakes) dueIn(b *journal.Bake, now time.Time) (Reminder, bool) {
	day, ok := b.Day()
	if !ok {
		return Reminder{}, false
	}
	m, ok := dueMoment(day, now)
	if !ok {
		return Reminder{}, false
	}
	name := cmp.Or(b.Name, lang.L("A dough"))
	text := m.Note
	if kit.Overdue(m.Due, now) {
		text = lang.L("It was due at {{.When}}.", map[string]any{"When": s.Units().Clock(m.Due.In(now.Location()))})
	}
	return Reminder{
		Key: fmt.Sprintf("%s/%s/%d/%d", b.ID, m.Step, m.Turn, m.Due.Unix()), At: m.Due,
		Title: lang.L("{{.What}}: {{.Name}}", map[string]any{"What": s.Units().Say(m.Title), "Name": name}),
		Text:  text,
	}, true
}

// dueMoment is the moment of a day that wants the baker now. The end of the day
// passes by itself, and is told all the same when nothing is left before it.
func dueMoment(day plan.Plan, now time.Time) (plan.Moment, bool) {
	next, more := day.Next(now)
	if more {
		return next, next.Hands && !next.Due.After(now)
	}
	timeline := day.Timeline(now)
	last := timeline[len(timeline)-1]
	return last, last.State == plan.Passed
}
