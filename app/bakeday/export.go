package bakeday

import (
	"cmp"
	"io"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
	"twinloaf/journal/plan/calendar"
	"twinloaf/journal/plan/sheet"
)

// lead is how long before each alarm of the calendar another one is given.
const lead plan.Minutes = 10

// saveCalendar asks where to keep the day as a calendar file.
func saveCalendar(env *pages.Env, id journal.ID) *kit.FilePicker {
	b, day, ok := dayOf(env, id)
	if !ok {
		return nil
	}
	now, u := env.Now(), env.Units()
	o := calendar.Options{Stamp: now, Now: now, Lead: lead, Say: u.Say, Overdue: func(due time.Time) string { return kit.OverdueWords(due, now, u) }}
	return env.SaveFile(lang.L("Calendar file"), pages.FileName(b.Name, lang.L("bake"), ".ics"), func(w io.Writer) error {
		return calendar.Write(w, o, day)
	})
}

// saveSheet asks where to keep the kitchen sheet, and shows it when it is there.
func saveSheet(env *pages.Env, id journal.ID) *kit.FilePicker {
	b, day, ok := dayOf(env, id)
	if !ok {
		return nil
	}
	s, look := kitchenSheet(b, day, env.Units(), env)
	return env.SaveAndOpen(lang.L("Kitchen sheet"), pages.FileName(b.Name, lang.L("bake"), ".pdf"), func(w io.Writer) error {
		return sheet.Write(w, s, look)
	})
}

// dayOf reads a bake that has a plan.
func dayOf(env *pages.Env, id journal.ID) (*journal.Bake, plan.Plan, bool) {
	b, err := journal.Get[journal.Bake](env.Journal, id)
	if env.Failed(err) {
		return nil, plan.Plan{}, false
	}
	day, ok := b.Day()
	if !ok {
		env.Say(lang.L("There are no steps to plan with yet."), false)
	}
	return b, day, ok
}

// kitchenSheet puts the dough and the day on paper.
func kitchenSheet(b *journal.Bake, day plan.Plan, u measure.Units, env *pages.Env) (sheet.Sheet, sheet.Style) {
	m := dough.SideOf(b).Mix
	f := m.Formula()
	now := env.Now()
	s := sheet.Sheet{
		Title: b.Name, Total: lang.L("Total"), PlanTitle: lang.L("The day"),
		Subtitle: lang.N("{{.N}} loaves of {{.Each}}", max(1, m.Loaves), map[string]any{"N": max(1, m.Loaves), "Each": m.Loaf(u)}),
	}
	for _, l := range f.Levains {
		t := l.BuildTable(formula.WithCulture)
		t.Name = cmp.Or(t.Name, lang.L("Levain"))
		s.Tables = append(s.Tables, t)
	}
	final := f.FinalDough(formula.WithCulture)
	final.Name = lang.L("Final dough")
	for i := range final.Rows {
		if final.Rows[i].Levain && final.Rows[i].Name == "" {
			final.Rows[i].Name = lang.L("Levain")
		}
	}
	s.Tables = append(s.Tables, final)
	for _, fig := range dough.MetricsOf(m, u) {
		if fig.Of != formula.FigureDough && fig.Of != formula.FigureFlour {
			s.Figures = append(s.Figures, sheet.Fact{Name: fig.Name, Value: fig.Value + "\u00a0" + fig.Unit})
		}
	}
	for _, moment := range day.Timeline(now) {
		if late := kit.OverdueWords(moment.Due, now, u); late != "" && moment.State == plan.Pending && moment.Hands {
			moment.Note = joined(late, moment.Note)
		}
		moment.Due, moment.End = moment.Due.In(now.Location()), moment.End.In(now.Location())
		s.Moments = append(s.Moments, moment)
	}
	r, err := m.Allergens(env.Journal)
	env.Fail(err)
	s.Notes = append(dough.AllergenWords(m, r), env.Units().Say(ferment.RawFlour()), lang.L("Hot pots: dry gloves on both hands."))
	return s, sheet.Style{
		Paper:   env.Paper(),
		Clock:   u.Clock,
		Day:     func(t time.Time) string { return pages.Weekday(t, now, u) },
		Say:     u.Say,
		Weight:  func(g formula.Grams) string { return dough.Weights(f, u).Write(float64(g)) },
		Percent: func(p formula.Percent) string { return u.Percent(1).Fixed(1).Write(float64(p)) },
	}
}
