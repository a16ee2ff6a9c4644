package bakeday

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// show shows the bake as it is in the journal.
func (f *planStage) show(b *journal.Bake) {
	now := f.env.Now()
	f.follow(b)
	f.name.SetText(b.Name)
	f.culture.SetChosen(1 + slices.IndexFunc(f.cultures, func(c *journal.Culture) bool { return c.ID == b.Culture })) // 0 is none
	f.when.SetTime(f.anchor.at)
	f.showPlan(b, now)
	f.editor.Show()
	f.steps.Show()
	f.levain.show(b)
	s, err := f.env.Journal.Settings()
	if f.env.Failed(err) {
		return
	}
	m := dough.SideOf(b).Mix
	var advice waterAdvice // none that would be another when friction is known
	if f.knows {
		advice = byWeight(adviseWater(b.Water, b.Dough().Bowl().HasLevain(), s.Kitchen, f.learned, poured(m), f.units), b, s.Kitchen, f.learned, f.units)
	}
	f.water.show(b.Water, advice)
	f.showApart(b)
	if f.knows && !f.levain.busy {
		f.rest.Show()
	}
}

// follow lets go of what was said of the last plan, and of when that was asked for, where the
// bake has another: it was undone, or made again.
func (f *planStage) follow(b *journal.Bake) {
	begins, other := map[journal.ID]time.Time{}, false
	for _, s := range b.Steps {
		was, known := f.starts[s.ID]
		other = other || known && !was.Equal(s.PlannedAt)
		begins[s.ID] = s.PlannedAt
	}
	f.starts = begins
	if !other {
		return
	}
	f.words, f.nearest = nil, nil
	if day, ok := b.Day(); ok && !b.Steps[0].PlannedAt.IsZero() {
		f.anchor.at = f.anchor.in(day)
	}
}

// showBarred shows why nothing is to be made of a culture, if there is a reason.
func showBarred(t *kit.Text, why error, u measure.Units) {
	kit.SetVisible(t, why != nil)
	if why != nil {
		t.SetSpans(kit.Span{Text: u.ErrorText(why), Bold: true, Color: look.ColorEmber})
	}
}

func (f *planStage) showPlan(b *journal.Bake, now time.Time) {
	name := cmp.Or(b.Name, lang.L("A new bake"))
	f.page.SetEyebrow(lang.L("Plan"))
	f.page.SetHeading(name)
	words := f.words
	day, ok := b.Day()
	var rows []kit.ScheduleRow
	if ok {
		if b.Steps[0].PlannedAt.IsZero() { // it is being planned: from when the field says
			day.Start = f.anchor.at
		}
		night, err := nightOf(f.env.Journal)
		f.env.Fail(err)
		rows = planRows(day, night, now, f.units)
		f.page.SetHeading(lang.L("{{.Name}}: ready {{.When}}", map[string]any{"Name": name, "When": when(day.ReadyAt(), now, f.units)}))
		if words == nil {
			words = wishWords(b, f.units)
		}
	}
	f.saying.SetText(strings.Join(words, "\n"))
	kit.SetVisible(f.saying, len(words) > 0)
	kit.SetVisible(f.take, f.nearest != nil)
	f.rows.SetRows(rows)
	kit.SetVisible(f.none, len(b.Steps) == 0)
}

// wishWords says what gave way when the plan was made, from the record.
func wishWords(b *journal.Bake, u measure.Units) []string {
	var s plan.Schedule
	for i, p := range journal.PlanSteps(b.Steps) {
		if w := b.Steps[i].Wished; w > 0 {
			s.Changes = append(s.Changes, plan.Change{Step: p, From: plan.Minutes(w / time.Minute), To: p.Length})
		}
	}
	return u.SayAll(s.Words())
}

// showApart tells the plan apart from what it repeats or follows.
func (f *planStage) showApart(b *journal.Bake) {
	kit.SetVisible(f.apart, f.against != nil)
	if f.against == nil {
		return
	}
	all := dough.Differences(*f.against, dough.SideOf(b), f.units)
	wish := f.wish(b)
	if f.apartAs != nil && slices.Equal(all, f.apartAs) && wish == f.wished {
		return
	}
	f.wished = wish
	f.apartAs = append([]dough.Difference{}, all...)
	was, title := lang.L("the formula"), lang.L("What is different from the formula")
	if b.From != "" {
		was, title = lang.L("before"), lang.L("What is different from the bake it repeats")
	}
	f.apart.Objects = []fyne.CanvasObject{kit.Rule(), kit.Section(title), dough.DifferenceTable(was, lang.L("this time"), all)}
	if wish != "" {
		f.apart.Add(kit.Body(wish))
	}
	f.apart.Refresh()
}

// wish says how much more water the flours want than those of what is repeated; nothing
// while they are the same.
func (f *planStage) wish(b *journal.Bake) string {
	old, now := journal.FlourParts(f.against.Ingredients, f.against.Levains), journal.FlourParts(b.Ingredients, b.Levains)
	if f.learned.water == nil || len(old) == 0 || len(now) == 0 {
		return ""
	}
	w := f.learned.water.Instead(old, now)
	if w.High-w.Low < 0.1 {
		return ""
	}
	return f.units.Say(w.WaterLine(b.Dough().Metrics().Flour))
}
