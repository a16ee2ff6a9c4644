package bakeday

import (
	"context"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// planStage is a bake that has not begun: when, with what water, of what, in which
// steps, and how it differs from the one it repeats.
type planStage struct {
	env   *pages.Env
	id    journal.ID
	units measure.Units
	page  *kit.Page

	anchor   anchor
	words    []string // of the last schedule made here
	nearest  *plan.Plan
	starts   map[journal.ID]time.Time // the steps, by the plan shown; nil before it is
	cancel   func()                   // stops a schedule that is being made
	learned  learned
	knows    bool // what is learned has been read
	cultures []*journal.Culture

	name    *kit.TextField
	culture *kit.ChoiceField
	mode    *kit.Segments
	when    *kit.WhenField
	saying  *kit.Text
	caution *kit.Text // its culture is to be thrown away
	take    *kit.Link
	rows    *kit.Schedule
	none    *fyne.Container // in place of the rows
	levain  *levainSection
	water   *waterPanel
	editor  *dough.Editor
	steps   *dough.Steps
	rest    *fyne.Container // what stands below the water
	apart   *fyne.Container
	against *dough.Side // what it is told apart from, or nil
	apartAs []dough.Difference
	wished  string // by the flours, of the water
}

func newPlanStage(env *pages.Env, b *journal.Bake) (f *planStage, err error) {
	f = &planStage{env: env, id: b.ID, units: env.Units(), cancel: func() {}}
	holder := bakeHolder{f}
	if f.editor, err = dough.NewEditor(env, holder); err != nil {
		return nil, err
	}
	if f.cultures, err = journal.All[journal.Culture](env.Journal); err != nil {
		return nil, err
	}
	f.steps = dough.NewSteps(env, holder)
	f.water = newWaterPanel(f.units, func(label string, change func(*journal.WaterPlan)) {
		f.edit(label, func(b *journal.Bake) { change(&b.Water) })
	})
	if f.against, err = toldApart(env.Journal, b); err != nil {
		return nil, err
	}
	f.anchor = anchor{at: soon(env.Now())}
	if len(b.Steps) > 0 && !b.Steps[0].PlannedAt.IsZero() {
		f.anchor.at = b.Steps[0].PlannedAt
	}
	f.build()
	f.show(b)
	return f, nil
}

// toldApart is what a plan is compared with: the bake it repeats, or else the
// formula it follows.
func toldApart(j *journal.Journal, b *journal.Bake) (*dough.Side, error) {
	switch {
	case b.From != "":
		from, err := journal.Get[journal.Bake](j, b.From)
		if err != nil {
			return nil, nil // it is gone, and with it what there was to compare
		}
		return new(dough.SideOf(from)), nil
	case b.Formula != "":
		f, err := journal.Get[journal.Formula](j, b.Formula)
		if err != nil {
			return nil, nil
		}
		return new(dough.SideOfFormula(f)), nil
	}
	return nil, nil
}

func (f *planStage) build() {
	f.name = kit.NewTextField(lang.L("Name"), lang.L("what it is called"))
	f.name.OnChanged = func(text string) { f.edit(lang.L("name of the bake"), func(b *journal.Bake) { b.Name = text }) }
	names := []string{lang.L("no culture")}
	for _, c := range f.cultures {
		names = append(names, c.Name)
	}
	f.culture = kit.NewChoiceField(lang.L("Culture"), names[0], names, func(i int) {
		id := journal.ID("")
		if i > 0 {
			id = f.cultures[i-1].ID
		}
		if f.env.Failed(histories.Barred(f.env.Journal, id, f.env.Now())) {
			return
		}
		f.do(lang.L("culture of the bake"), func(b *journal.Bake) { b.Culture = id })
	})
	f.mode = kit.NewSegments("", []string{lang.L("from when it begins"), lang.L("back from when it is ready"), lang.L("around when it is mixed")}, 0, f.turn)
	f.when = kit.NewWhenField(kit.WhenOptions{Units: f.units, Now: f.env.Now, Hint: lang.L("when"),
		OnChanged: func(t time.Time) {
			f.anchor.at = t
			f.plan()
		}})
	f.saying = kit.Body("")
	f.caution = kit.NewText()
	f.take = kit.NewLink(lang.L("Use that plan"), f.takeNearest)
	f.levain = newLevainSection(f)
	f.rows = kit.NewSchedule(look.TextBody, kit.ScheduleHeads{})
	f.none = kit.Stack(2, kit.Body(f.units.ErrorText(plan.Check(nil))), kit.NewLink(lang.L("Begin with a usual day"), f.steps.TakeUsual))
	f.apart = kit.Stack(2)
	left := kit.Stack(3, f.name, f.culture, f.caution, f.mode, f.when, f.saying, f.take)
	f.rest = kit.Stack(7, kit.Rule(),
		// As the formula's page has them.
		kit.WeightedColumns(look.Space(144), []float32{7, 5}, f.editor.Object,
			kit.Stack(7, kit.Stack(2, kit.Section(lang.L("Steps")), f.steps.Object), f.apart)),
		kit.Small(f.units.Say(ferment.RawFlour())+" "+lang.L("Hot pots: dry gloves on both hands.")))
	f.rest.Hide()
	// What is still reckoned when the page opens stands last until it is known, so that nothing moves when it comes.
	body := kit.Stack(7, kit.BesideBothFrom(look.Space(78), 7.0/5, left, kit.Stack(0, f.rows, f.none),
		kit.Stack(6, kit.Rule(), f.water.object, kit.Stack(3, f.levain.text, f.levain.use, f.levain.grow))), f.rest)
	f.page = kit.NewPage(kit.PageOptions{Body: body})
	f.page.SetActions(nil,
		kit.PrimaryButton(lang.L("Start the day"), f.start).WithKey("G"),
		kit.NewButton(lang.L("Calendar"), func() { saveCalendar(f.env, f.id) }).WithKey("C"),
		kit.NewButton(lang.L("Kitchen sheet"), func() { saveSheet(f.env, f.id) }).WithKey("K"))
}

func (f *planStage) object() fyne.CanvasObject { return f.page }
func (f *planStage) begins() fyne.Focusable    { return f.page.Start() }
func (f *planStage) title() string             { return lang.L("Plan a bake") }
func (f *planStage) left()                     { f.cancel() }

func (f *planStage) keys() []kit.Key {
	return []kit.Key{
		{Name: "G", Doc: lang.L("start the day"), Do: f.start},
		{Name: "W", Doc: lang.L("to when"), Do: func() { f.when.Focus() }},
		{Name: "E", Doc: lang.L("to its name"), Do: func() { f.name.Focus() }},
		{Name: "C", Doc: lang.L("calendar file"), Do: func() { saveCalendar(f.env, f.id) }},
		{Name: "K", Doc: lang.L("kitchen sheet"), Do: func() { saveSheet(f.env, f.id) }},
		{Name: "X", Doc: lang.L("move the plan to the bin"), Do: f.bin},
	}
}

func (f *planStage) shown() {
	pages.Fetch(f.env, func(ctx context.Context) (learned, error) { return learn(f.env.Journal.Until(ctx), f.id) }, func(l learned, err error) {
		f.env.Fail(err)
		f.learned, f.knows = l, true
		f.reread()
	})
	b, err := journal.Get[journal.Bake](f.env.Journal, f.id)
	if err != nil {
		return // the page has seen it too
	}
	f.levain.read(b)
	if len(b.Steps) > 0 && b.Steps[0].PlannedAt.IsZero() {
		f.plan()
	}
}

func (f *planStage) reread() {
	if b, err := journal.Get[journal.Bake](f.env.Journal, f.id); err == nil {
		f.show(b)
	}
}

func (f *planStage) changed(b *journal.Bake, c journal.Changed) {
	f.levain.stale = f.levain.stale || c.TouchesKind(journal.KindCulture, journal.KindFeeding, journal.KindReading)
	f.show(b)
}

func (f *planStage) edit(label string, change func(*journal.Bake)) {
	f.env.Fail(journal.Edit(f.env.Journal, f.id, label, change))
}

func (f *planStage) do(label string, change func(*journal.Bake)) bool {
	return f.env.Do(label, func(tx *journal.Tx) error { return journal.Change(tx, f.id, change) })
}

// turn plans from the other end, with the time that the plan has there now.
func (f *planStage) turn(i int) {
	f.anchor.of = plan.Anchor(i)
	if b, err := journal.Get[journal.Bake](f.env.Journal, f.id); err == nil {
		if day, ok := b.Day(); ok {
			f.anchor.at = f.anchor.in(day)
		}
	}
	f.when.SetTime(f.anchor.at)
	f.plan()
}

// plan makes the schedule anew, away from the main goroutine, and keeps it.
func (f *planStage) plan() {
	f.cancel()
	b, err := journal.Get[journal.Bake](f.env.Journal, f.id)
	if err != nil {
		return
	}
	night, err := nightOf(f.env.Journal)
	if f.env.Failed(err) {
		return
	}
	a, now, steps := f.anchor, f.env.Now(), slices.Clone(b.Steps)
	type planned struct {
		plan.Schedule
		others  []pages.DoughDay
		clashes []plan.Clash
	}
	f.cancel = pages.Fetch(f.env, func(ctx context.Context) (p planned, err error) {
		if p.others, err = otherDays(f.env.Journal.Until(ctx), f.id, now); err == nil {
			p.Schedule, p.clashes, err = schedule(steps, a, now, night, plansOf(p.others))
		}
		return p, err
	}, func(p planned, err error) {
		if err != nil {
			f.words, f.nearest = []string{f.units.ErrorText(err)}, nil
			f.reread()
			return
		}
		f.words, f.nearest = append(clashWords(p.clashes, p.others, f.units), f.units.SayAll(p.Words())...), p.Nearest
		f.starts = nil // this plan is the one that is spoken of
		f.edit(lang.L("the plan"), func(b *journal.Bake) { b.SetPlan(p.Plan) })
		f.reread()
	})
}

func (f *planStage) takeNearest() {
	if f.nearest == nil {
		return
	}
	f.anchor.at = f.anchor.in(*f.nearest)
	f.plan()
}

// start begins the day. A plan whose beginning has gone by begins now, unless something of it was
// written down already.
func (f *planStage) start() {
	now := f.env.Now()
	b, err := journal.Get[journal.Bake](f.env.Journal, f.id)
	if f.env.Failed(err) {
		return
	}
	if f.env.Failed(histories.BarredDough(f.env.Journal, b, now)) {
		return
	}
	if err := plan.Check(journal.PlanSteps(b.Steps)); err != nil {
		f.env.Say(f.units.ErrorText(err), false)
		return
	}
	f.do(lang.L("starting the day"), func(b *journal.Bake) {
		if day, ok := b.Day(); ok && day.Start.Before(now) && len(day.Marks) == 0 {
			day.Start = now.Truncate(time.Minute)
			b.SetPlan(day)
		}
		b.State = journal.Running
	})
}

func (f *planStage) bin() {
	done := f.env.Do(lang.L("moving a plan to the bin"), func(tx *journal.Tx) error { return journal.MoveToBin[journal.Bake](tx, f.id) })
	if done {
		f.env.Say(lang.L("The plan is in the bin."), true)
		f.env.Back()
	}
}
