package bakeday

import (
	"slices"
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
	env   *pages.Env
	id    journal.ID
	page  *kit.Page
	bake  *journal.Bake
	dough *measuredSection
}

func newOverStage(env *pages.Env, b *journal.Bake) *overStage {
	f := &overStage{env: env, id: b.ID, page: kit.NewPage(kit.PageOptions{}), dough: newMeasuredSection(env)}
	f.page.SetActions(nil, kit.PrimaryButton(lang.L("The record"), f.record).WithKey("D"),
		kit.NewButton(lang.L("Bake it again"), f.again).WithKey("A"))
	f.show(b)
	return f
}

func (f *overStage) object() fyne.CanvasObject { return f.page }
func (f *overStage) begins() fyne.Focusable    { return f.page.Start() }
func (f *overStage) title() string             { return lang.L("A day that is over") }
func (f *overStage) shown()                    { f.dough.read(f.bake) }
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
	f.page.SetHeading(dayWords(b, u))
	body := kit.Stack(6)
	f.bake = b
	f.dough.show(b)
	if lanes := twoDays(b); lanes != nil {
		strips := kit.Stack(2, kit.NewDayLanes(lanes, u, now))
		if words := mostBehind(b, now, u); words != "" {
			strips.Add(kit.Faint(words))
		}
		body.Add(strips)
	}
	rows := kit.NewSchedule(look.TextBody, kit.ScheduleHeads{Clock: lang.L("as it went"), Planned: lang.L("planned")})
	rows.SetRows(deviationRows(b, now, u))
	body.Add(f.beside(kit.Columns(look.Space(118), rows, kit.Stack(6, f.dough.box, before(f.env, b)))))
	if against, err := toldApart(f.env.Journal, b); err != nil {
		f.env.Fail(err)
	} else if against != nil && b.From != "" {
		body.Add(kit.Stack(2, kit.Section(lang.L("What was different from the bake it repeats")),
			dough.DifferenceTable(lang.L("before"), lang.L("this time"), dough.Differences(*against, dough.SideOf(b), u))))
	}
	f.page.SetBody(body)
}

// beside sets the loaf beside how its day went, where there is a picture of it.
func (f *overStage) beside(rows fyne.CanvasObject) fyne.CanvasObject {
	photos, err := journal.Photos(f.env.Journal, f.id)
	if err != nil {
		f.env.Fail(err)
	}
	ph := pages.MainPhoto(photos)
	if ph == nil {
		return rows
	}
	tile := func(of *journal.Photo, least fyne.Size, words int) *kit.PhotoTile {
		t := kit.NewPhotoTile(f.env.Thumbs, least, words, func() { f.env.Go(pages.At(pages.Photo, of.ID)) }).Filling()
		t.Set(kit.PhotoItem{Key: of.Hash, Title: pages.PhotoRoleWord(of.Role), Sub: of.Caption, Plain: true})
		return t
	}
	others := kit.Tiles(otherSize.Width, 4)
	for _, of := range photos {
		if of != ph {
			others.Add(tile(of, otherSize, 2))
		}
	}
	return kit.WeightedColumns(look.Space(82), []float32{7, 5}, rows, kit.Stack(3, kit.Grown(0.67, 200, 720, tile(ph, loafSize, 0)), others))
}

// loafSize is how large the picture of the loaf is asked for, and otherSize those of its other photos.
var loafSize, otherSize = fyne.NewSize(480, 320), fyne.NewSize(200, 140)

// deviationRows lists how the day went, moment by moment.
func deviationRows(b *journal.Bake, now time.Time, u measure.Units) []kit.ScheduleRow {
	day, _ := b.Day()
	var out []kit.ScheduleRow
	last := ""
	for _, d := range day.Deviations() {
		at := d.Planned
		if d.Noted() && !d.Skipped {
			at = d.Actual
		}
		row := kit.ScheduleRow{Title: u.Say(d.Title), Planned: pages.PlannedClock(d.Planned, at, now, u)}
		switch {
		case d.Skipped:
			row.State, row.By = kit.StepSkipped, lang.L("left out")
		case d.Noted():
			row.Clock = u.Clock(at.In(now.Location()))
			if row.By = lateWords(d.By(), u); row.By == "" {
				row.By = lang.L("as planned")
			}
		}
		if w := pages.Weekday(at, now, u); w != last {
			row.Day, last = w, w
		}
		out = append(out, row)
	}
	return out
}

// twoDays are the strips of a day as it was planned and, below, as it went.
func twoDays(b *journal.Bake) []kit.Lane {
	meant := *b
	meant.Steps = slices.Clone(b.Steps)
	for i, s := range meant.Steps {
		meant.Steps[i].Skipped, meant.Steps[i].Done = false, nil
		meant.Steps[i].At, meant.Steps[i].End = s.PlannedAt, s.PlannedAt.Add(s.Planned)
	}
	planned, went := pages.LaneOf(lang.L("planned"), &meant), pages.LaneOf(lang.L("as it went"), b)
	if len(planned.Blocks) == 0 || len(went.Blocks) == 0 {
		return nil
	}
	return []kit.Lane{planned, went}
}

// mostBehind says where a day was furthest behind its plan; nothing of one that never was.
func mostBehind(b *journal.Bake, now time.Time, u measure.Units) string {
	day, _ := b.Day()
	var most plan.Deviation
	for _, d := range day.Deviations() {
		if d.Noted() && !d.Skipped && d.By() > most.By() {
			most = d
		}
	}
	if lateWords(most.By(), u) == "" {
		return ""
	}
	return lang.L("Ran at most {{.Time}} behind: {{.Step}}, at {{.Clock}}", map[string]any{
		"Time": u.Span(most.By()), "Step": u.Say(most.Title), "Clock": u.Clock(most.Actual.In(now.Location()))})
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
