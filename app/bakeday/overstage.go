package bakeday

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// overStage is a day that is over: how it went against the plan, and how the
// bake differs from the one it repeats.
type overStage struct {
	env  *pages.Env
	id   journal.ID
	page *kit.Page
}

func newOverStage(env *pages.Env, b *journal.Bake) *overStage {
	f := &overStage{env: env, id: b.ID, page: kit.NewPage(kit.PageOptions{})}
	f.page.SetActions(nil, kit.PrimaryButton(lang.L("The record"), f.record).WithKey("D"),
		kit.NewButton(lang.L("Bake it again"), f.again).WithKey("A"))
	f.show(b)
	return f
}

func (f *overStage) object() fyne.CanvasObject { return f.page }
func (f *overStage) title() string             { return lang.L("A day that is over") }
func (f *overStage) shown()                    {}
func (f *overStage) left()                     {}
func (f *overStage) record()                   { f.env.Go(pages.At(pages.Bake, f.id)) }
func (f *overStage) again()                    { f.env.Go(pages.Route{Name: pages.BakeDay, ID: f.id, More: Again}) }

func (f *overStage) keys() []kit.Key {
	return []kit.Key{
		{Name: "D", Doc: lang.L("the record of this bake"), Do: f.record},
		{Name: "A", Doc: lang.L("bake it again"), Do: f.again},
	}
}

func (f *overStage) changed(b *journal.Bake, _ journal.Changed) { f.show(b) }

func (f *overStage) show(b *journal.Bake) {
	u, now := f.env.Units(), f.env.Now()
	f.page.SetEyebrow(b.Name)
	rows := deviationRows(b, now, u)
	f.page.SetHeading(dayWords(b, u))
	body := kit.Stack(6, deviationTable(rows))
	if against, err := toldApart(f.env.Journal, b); err != nil {
		f.env.Fail(err)
	} else if against != nil && b.From != "" {
		body.Add(kit.Stack(2, kit.Section(lang.L("What was different from the bake it repeats")),
			dough.DifferenceTable(lang.L("before"), lang.L("this time"), dough.Differences(*against, dough.SideOf(b), u))))
	}
	f.page.SetBody(body)
}

// deviationRow is a moment as it was against what was planned.
type deviationRow struct{ Title, Planned, Actual, By string }

// deviationRows lists how the day went, moment by moment.
func deviationRows(b *journal.Bake, now time.Time, u measure.Units) []deviationRow {
	day, _ := b.Day()
	var out []deviationRow
	for _, d := range day.Deviations() {
		row := deviationRow{Title: u.Say(d.Title), Planned: u.Moment(d.Planned.In(now.Location()), now)}
		switch {
		case d.Skipped:
			row.Actual = lang.L("left out")
		case d.Noted():
			row.Actual = u.Clock(d.Actual.In(now.Location()))
			if row.By = lateWords(d.By(), u); row.By == "" {
				row.By = lang.L("as planned")
			}
		}
		out = append(out, row)
	}
	return out
}

// dayWords says in one sentence how the day went.
func dayWords(b *journal.Bake, u measure.Units) string {
	day, _ := b.Day()
	skipped, last := 0, time.Duration(0)
	for _, d := range day.Deviations() {
		if d.Skipped && d.Ref != plan.Ready {
			skipped++
		}
		if d.Noted() {
			last = d.By()
		}
	}
	words := lateWords(last, u)
	switch {
	case words == "" && skipped == 0:
		return lang.L("The day went as planned")
	case words == "":
		return lang.L("On time, with {{.N}} left out", map[string]any{"N": skipped})
	case skipped == 0:
		return lang.L("The day ended {{.By}}", map[string]any{"By": words})
	}
	return lang.L("The day ended {{.By}}, with {{.N}} left out", map[string]any{"By": words, "N": skipped})
}

func deviationTable(rows []deviationRow) fyne.CanvasObject {
	line := func(span kit.Span, words ...string) fyne.CanvasObject {
		r := &fyne.Container{Layout: planTable{}}
		for _, w := range words {
			span.Text = w
			r.Add(kit.NewText(span))
		}
		return r
	}
	table := kit.Stack(1, line(kit.Span{Size: look.TextSmall, Color: look.ColorFaint}, lang.L("what"), lang.L("planned"), lang.L("as it went"), ""))
	for _, r := range rows {
		table.Add(line(kit.Span{}, r.Title, r.Planned, r.Actual, r.By))
	}
	return table
}

// planTable sets four columns.
type planTable struct{}

var planTableWidths = []float32{220, 180, 120, 160}

func (planTable) MinSize(things []fyne.CanvasObject) fyne.Size {
	h := float32(0)
	for _, o := range things {
		h = max(h, o.MinSize().Height)
	}
	return fyne.NewSize(680, h)
}

func (planTable) Layout(things []fyne.CanvasObject, size fyne.Size) {
	x := float32(0)
	for i, o := range things {
		o.Move(fyne.NewPos(x, 0))
		o.Resize(fyne.NewSize(planTableWidths[i], size.Height))
		x += planTableWidths[i]
	}
}
