package pages

import (
	"cmp"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// A DoughDay is the day of one of the kitchen's doughs.
type DoughDay struct {
	Name string
	Day  plan.Plan
}

// How far the kitchen's timeline looks back and ahead, and within what time a second dough
// must want something for there to be a timeline at all.
const (
	kitchenBack  = 2 * time.Hour
	kitchenAhead = 36 * time.Hour
	kitchenDay   = 24 * time.Hour
	kitchenNext  = 5 // of what comes next, in all doughs
)

// Kitchen shows several doughs on one clock, with what they want of the oven, the
// refrigerator and the baker's hands, what clashes, and what comes next in any of them;
// nil unless two of them are under way or begin within a day.
func Kitchen(all []DoughDay, now time.Time, u measure.Units) fyne.CanvasObject {
	var names []string
	var plans []plan.Plan
	for _, d := range all {
		if end := endOf(d.Day, now); end.After(now) && d.Day.Start.Before(now.Add(kitchenDay)) {
			names, plans = append(names, d.Name), append(plans, d.Day.In(now.Location()))
		}
	}
	if len(plans) < 2 {
		return nil
	}
	meetings := plan.Meetings(now, plans...)
	column := kit.Stack(2, kit.Section(lang.L("All doughs on one clock")), kit.NewDayLanes(kitchenLanes(names, plans, meetings, now), u, now))
	for _, line := range plan.MeetingLines(meetings, names) {
		column.Add(kit.NewText(kit.Span{Text: u.Say(line), Color: look.ColorEmber}))
	}
	if len(meetings) == 0 {
		column.Add(kit.Faint(lang.L("Oven and hands serve one dough at a time.")))
	}
	for i, next := range plan.Merge(now, plans...) {
		if i == kitchenNext {
			break
		}
		what := kit.NewDue(0)
		what.Set(lang.L("{{.Step}}, {{.Dough}}", map[string]any{"Step": u.Say(next.Title), "Dough": names[next.Plan]}), next.Due, now, u)
		column.Add(kit.RowGrow(3, 1, kit.NewLine(kit.Span{Text: u.Clock(next.Due.In(now.Location())), Bold: true}), what))
	}
	column.Add(kit.Small(lang.L("There is one oven and one pair of hands; the refrigerator is taken to have room for all.")))
	return column
}

func endOf(p plan.Plan, now time.Time) time.Time {
	timeline := p.Timeline(now)
	return timeline[len(timeline)-1].Due
}

// kitchenLanes are a lane for each dough, and one each for the oven, the refrigerator and
// the hands, on which what is wanted twice is marked.
func kitchenLanes(names []string, plans []plan.Plan, meetings []plan.Meeting, now time.Time) []kit.Lane {
	from, to := now.Add(-kitchenBack), now.Add(kitchenAhead)
	add := func(l *kit.Lane, b kit.LaneBlock) {
		if b.From.Before(from) {
			b.From = from
		}
		if b.To.After(to) {
			b.To = to
		}
		if b.To.After(b.From) {
			l.Blocks = append(l.Blocks, b)
		}
	}
	var lanes []kit.Lane
	for i, p := range plans {
		l := kit.Lane{Name: names[i]}
		for _, m := range p.Timeline(now) {
			begins := m.Due
			if m.State == plan.Done {
				begins = m.At
			}
			if m.Turn == 0 && m.State != plan.Skipped {
				add(&l, kit.LaneBlock{From: begins, To: m.End, Color: StepColor(m.Kind)})
			}
		}
		lanes = append(lanes, l)
	}
	uses := plan.Kitchen(now, plans...)
	for _, w := range []struct {
		want  plan.Want
		name  string
		color fyne.ThemeColorName
	}{{plan.Oven, lang.L("Oven"), look.ColorCrust}, {plan.Fridge, lang.L("Refrigerator"), look.ColorRest}, {plan.Baker, lang.L("Hands"), look.ColorDough}} {
		l := kit.Lane{Name: w.name}
		for _, use := range uses {
			if use.Want == w.want {
				add(&l, kit.LaneBlock{From: use.From, To: use.To, Color: w.color})
			}
		}
		for _, m := range meetings {
			if m.Want == w.want {
				add(&l, kit.LaneBlock{From: m.From, To: m.To, Color: look.ColorEmber})
			}
		}
		lanes = append(lanes, l)
	}
	return lanes
}

// LaneOf gives a bake's day as it happened, as blocks of a lane: each step that has a
// beginning and an end, its turns as ticks. What was left out is not in it.
func LaneOf(name string, b *journal.Bake) kit.Lane {
	l := kit.Lane{Name: name}
	for _, s := range b.Steps {
		if s.Skipped || s.At.IsZero() || !s.End.After(s.At) {
			continue
		}
		words := cmp.Or(s.Name, StepWord(plan.Kind(s.Kind)))
		l.Blocks = append(l.Blocks, kit.LaneBlock{From: s.At, To: s.End, Color: StepColor(plan.Kind(s.Kind)), Words: words, Ticks: s.Done})
	}
	slices.SortStableFunc(l.Blocks, func(a, b kit.LaneBlock) int { return a.From.Compare(b.From) })
	return l
}

// StepColor is the colour of a step in a dough's lane, wherever it is drawn: it tells
// cold from warm, and the oven from both.
func StepColor(k plan.Kind) fyne.ThemeColorName {
	switch k {
	case plan.ColdRest:
		return look.ColorRest
	case plan.BakeCovered, plan.BakeUncovered:
		return look.ColorCrust
	}
	return look.ColorDough
}

// MainPhoto is the photo that says most of a bake: the crumb, or else the crust, or the
// first there is; nil without any.
func MainPhoto(photos []*journal.Photo) *journal.Photo {
	for _, role := range []journal.Role{journal.RoleCrumb, journal.RoleCrust} {
		if i := slices.IndexFunc(photos, func(ph *journal.Photo) bool { return ph.Role == role }); i >= 0 {
			return photos[i]
		}
	}
	if len(photos) > 0 {
		return photos[0]
	}
	return nil
}
