package bakeday

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// underWay lists the bakes that are running.
func underWay(j *journal.Journal) ([]*journal.Bake, error) {
	summaries, err := j.BakeSummaries()
	if err != nil {
		return nil, err
	}
	var out []*journal.Bake
	for _, c := range summaries {
		if c.State != journal.Running || c.Binned {
			continue
		}
		b, err := journal.Get[journal.Bake](j, c.ID)
		if err != nil {
			return nil, err
		}
		if _, planned := b.Day(); planned {
			out = append(out, b)
		}
	}
	return out, nil
}

// urgentFirst sorts doughs by what is due in them next; those whose day is over
// come last.
func urgentFirst(doughs []*journal.Bake, now time.Time) []*journal.Bake {
	due := func(b *journal.Bake) time.Time {
		day, _ := b.Day()
		if stand, more := day.Stand(now); more {
			return stand.Until
		}
		return now.AddDate(100, 0, 0)
	}
	out := slices.Clone(doughs)
	slices.SortStableFunc(out, func(a, b *journal.Bake) int { return due(a).Compare(due(b)) })
	return out
}

// dayView is a dough under way as the day view shows it.
type dayView struct {
	Bake    string // the dough's name
	Step    string // what runs, or else what is next
	Runs    bool   // it runs
	ByClock bool   // it began by itself
	Since   string // when it began
	Began   string // the same in a sentence
	Count   string // the time until it is over or due, or by how much it is overdue
	Until   time.Time
	Due     string // when that is, by the clock
	Note    string // what the formula says about it
	Then    string // what comes after it
	Press   string // what the main key does
	Heading string // all that in a sentence, for the window's title
	Over    bool   // nothing is left to do
	Rows    []kit.ScheduleRow
	Next    int // the row of what is looked out for, -1 when the day is over
}

// viewDay says where a dough stands at now.
func viewDay(b *journal.Bake, now time.Time, u measure.Units) dayView {
	day, _ := b.Day()
	v := dayView{Bake: cmp.Or(b.Name, lang.L("A dough")), Next: -1}
	stand, more := day.Stand(now)
	v.Over = !more
	planned := plan.Plan{Start: day.Start, Steps: day.Steps}.Timeline(time.Time{})
	last := ""
	for i, m := range day.Timeline(now) {
		at := m.Due
		if m.State == plan.Done {
			at = m.At
		}
		row := kit.ScheduleRow{Clock: u.Clock(at.In(now.Location())), Title: u.Say(m.Title)}
		switch m.State {
		case plan.Done:
			row.State, row.By = kit.StepDone, lateWords(m.At.Sub(planned[i].Due), u)
		case plan.Skipped:
			row.State, row.By = kit.StepSkipped, lang.L("left out")
		}
		if more && m.Ref == stand.Ref {
			v.Next, row.State = i, kit.StepNext
			if kit.Overdue(stand.Until, now) {
				row.State, row.Late = kit.StepLate, kit.OverdueWords(stand.Until, now, u)
			}
			if stand.Runs {
				row.By = joined(lang.L("until {{.When}}", map[string]any{"When": u.Clock(stand.Until.In(now.Location()))}), row.By)
			}
		}
		if d := pages.Weekday(at, now, u); d != last {
			row.Day, last = d, d
		}
		v.Rows = append(v.Rows, row)
	}
	if v.Over {
		v.Step = lang.L("The bread is ready")
		v.Heading, v.Then = v.Step, dayWords(b, u)
		return v
	}
	v.stand(stand, now, u)
	return v
}

func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + " · " + b
}

// stand fills in what is looked out for.
func (v *dayView) stand(s plan.Stand, now time.Time, u measure.Units) {
	v.Step, v.Note, v.Runs, v.ByClock, v.Until = u.Say(s.Title), s.Note, s.Runs, s.ByClock, s.Until
	v.Count = countdown(s.Left(now))
	at := func(t time.Time) string {
		t = t.In(now.Location())
		if u.Day(t, now) != u.Day(now, now) {
			return u.Moment(t, now)
		}
		return u.Clock(t)
	}
	v.Due, v.Press = lang.L("at {{.When}}", map[string]any{"When": at(s.Until)}), pages.PressWord(s)
	if s.Runs {
		v.Due = lang.L("until {{.When}}", map[string]any{"When": at(s.Until)})
		v.Since = at(s.Since())
		v.Began = lang.L("began at {{.When}}", map[string]any{"When": v.Since})
		if s.ByClock {
			v.Began = lang.L("began at {{.When}}, by the clock", map[string]any{"When": v.Since})
		}
	}
	if s.More {
		v.Then = lang.L("then {{.What}} at {{.When}}", map[string]any{"What": u.Say(s.Then.Title), "When": u.Clock(s.Then.Due.In(now.Location()))})
		if s.Runs {
			v.Then = lang.L("then {{.What}}", map[string]any{"What": u.Say(s.Then.Title)})
		}
	}
	data := map[string]any{"What": v.Step, "Time": u.Span(s.Left(now).Abs()), "Late": kit.OverdueWords(s.Until, now, u)}
	switch {
	case kit.Overdue(s.Until, now):
		v.Heading = lang.L("{{.What}}: {{.Late}}", data)
	case s.Runs:
		v.Heading = lang.L("{{.What}}: {{.Time}} left", data)
	default:
		v.Heading = lang.L("{{.What}} in {{.Time}}", data)
	}
}

// countdown writes a time as it runs down: "11:48", from an hour on "2 h 05",
// with a plus when it is overdue. A begun second counts whole until it is over.
func countdown(left time.Duration) string {
	sign := ""
	s := int((left + time.Second - 1) / time.Second)
	if left < 0 {
		sign, s = "+", int(-left/time.Second)
	}
	switch h := s / 3600; {
	case h >= 48:
		return fmt.Sprintf("%s%d d %d h", sign, h/24, h%24)
	case h > 0:
		return fmt.Sprintf("%s%d h %02d", sign, h, s/60%60)
	}
	return fmt.Sprintf("%s%d:%02d", sign, s/60, s%60)
}

// lateWords says by how much something was later or earlier than planned;
// nothing for less than two minutes.
func lateWords(by time.Duration, u measure.Units) string {
	data := map[string]any{"Time": u.Span(by.Abs())}
	switch {
	case by >= 2*time.Minute:
		return lang.L("{{.Time}} late", data)
	case by <= -2*time.Minute:
		return lang.L("{{.Time}} early", data)
	}
	return ""
}

// underHand is the step that a note or a reading belongs to at now: the one
// begun last, or the first; nil for a bake whose steps were all taken out.
func underHand(b *journal.Bake, now time.Time) *journal.Step {
	if len(b.Steps) == 0 {
		return nil
	}
	day, _ := b.Day()
	at := 0
	for _, m := range day.Timeline(now) {
		if m.State == plan.Pending {
			break
		}
		for i, s := range b.Steps {
			if string(s.ID) == m.Step && m.State != plan.Skipped {
				at = i
			}
		}
	}
	return &b.Steps[at]
}

// stepOr is a step of the bake, or the one under hand where it was taken out.
func stepOr(b *journal.Bake, id journal.ID, now time.Time) *journal.Step {
	if i := slices.IndexFunc(b.Steps, func(s journal.Step) bool { return s.ID == id }); i >= 0 {
		return &b.Steps[i]
	}
	return underHand(b, now)
}
