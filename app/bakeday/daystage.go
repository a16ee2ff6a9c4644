package bakeday

import (
	"context"
	"fmt"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/layout"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// The sizes of what must be read from a metre away.
const (
	sizeCount float32 = 168
	// sizeCountSmall is that of the countdown beside the scale, and where the schedule takes
	// much of the width.
	sizeCountSmall float32 = 84
	sizeCountWide  float32 = 232
	sizeStep       float32 = 68
	sizeStepWide   float32 = 92
	// sizeStepNarrow has a step such as "Fold 3 of 5" on one line beside the schedule.
	sizeStepNarrow float32 = 46
	sizeDue        float32 = 40
)

// dayStage is the large view of a dough under way. What it shows is worked out
// from the record and the clock each second; nothing runs down by itself.
type dayStage struct {
	env  *pages.Env
	page *page
	act  actor
	bake *journal.Bake
	all  []*journal.Bake // every dough under way
	view dayView
	room dayRoom

	stop func() // of the ticking
	body *fyne.Container
	foot *fyne.Container // what is pressed: always in sight
	high float32         // how high that was when it was last laid out

	doughs                  *fyne.Container
	pills                   []doughPill
	name, step, count, then *kit.Text
	began                   *kit.Text // since when it runs
	due                     *kit.Due
	note, caution           *kit.Text
	barred                  error           // why nothing is to be made of its culture,
	ofBarred                journal.ID      // which is this one
	adding                  *fyne.Container // the progress of photos
	main                    *kit.Button
	later, skip, onlyNow    *kit.Button
	list                    *momentList
	bulk                    *bulkSection
	scale                   *scale
	kitchen                 *fyne.Container // all doughs on one clock, where there are several
	clocked                 time.Time       // when that was drawn
	needs                   *kit.Text       // what else the step asks for
	ease                    *easeSection
	dough                   *measuredSection
	across, earlier         *fyne.Container // what stands side by side, and what there is of it where there is much room
}

func newDayStage(env *pages.Env, p *page, b *journal.Bake) (*dayStage, error) {
	f := &dayStage{env: env, page: p, act: actor{env}, bake: b, stop: func() {}}
	f.build()
	return f, f.read(b)
}

func (f *dayStage) build() {
	serif := func(size float32, c fyne.ThemeColorName) *kit.Text {
		return kit.NewLine(kit.Span{Size: size, Serif: true, Color: c})
	}
	f.doughs = kit.Flow(2)
	f.name = kit.NewText(kit.Span{Size: look.TextTitle, Color: look.ColorFaint})
	f.step = kit.NewText(f.stepSpan())
	f.count = serif(sizeCount, look.ColorCrust)
	f.began = kit.NewText(kit.Span{Size: look.TextTitle, Color: look.ColorFaint})
	f.due = kit.NewDue(sizeDue)
	f.then = kit.NewText(kit.Span{Size: look.TextTitle, Color: look.ColorFaint})
	f.note = kit.NewText(kit.Span{Size: look.TextLarge})
	f.bulk, f.ease = newBulkSection(f), newEaseSection(f)
	f.dough, f.earlier = newMeasuredSection(f.env), container.NewStack()
	f.caution = kit.NewText()
	f.scale = newScale(f)
	f.kitchen = container.NewStack()
	f.needs = kit.NewText(kit.Span{Size: look.TextLead, Color: look.ColorCrust})
	f.adding = container.NewStack()
	f.main = kit.PrimaryButton("", func() { f.press() }).WithKey("D")
	f.later = kit.NewButton(lang.L("10 min later"), func() { f.act.later(f.bake.ID) }).WithKey("L")
	f.skip = kit.NewButton(lang.L("Skip"), func() { f.act.skip(f.bake.ID) }).WithKey("S")
	f.onlyNow = kit.NewButton(lang.L("It begins only now"), func() { f.act.beginNow(f.bake.ID) }).WithKey("A")
	f.list = newMomentList()
	large := []*kit.Button{f.main, f.onlyNow, f.later, f.skip}
	for _, b := range large {
		b.SetBig(true)
	}
	buttons := kit.Flow(3, f.main, f.onlyNow, f.later, f.skip)
	small := kit.Flow(2,
		kit.NewButton(lang.L("Note"), f.askNote).WithKey("N"),
		kit.NewButton(lang.L("Temperature"), f.askTemperature).WithKey("T"),
		kit.NewButton(lang.L("Rise"), f.askRise).WithKey("R"),
		kit.NewButton(lang.L("Photo"), f.askPhoto).WithKey("P"),
		kit.QuietButton(lang.L("The record"), f.record).WithKey("B"))
	// Each sentence stands apart from the next: they answer different questions.
	when := kit.Stack(2, kit.Stack(0, f.count, f.due, f.began), f.then, f.needs, f.bulk.object, f.bulk.move, f.note)
	f.across = kit.WeightedColumns(look.Space(64), []float32{1, 1.1, 1.1}, when, f.scale.beside, f.earlier)
	left := kit.Stack(1, f.doughs, f.name, f.caution, f.step, f.across,
		f.scale.below, f.ease.object, f.kitchen)
	f.foot = kit.Stack(2, buttons, small, f.adding)
	f.body = &fyne.Container{Layout: &bigLayout{onRoom: func(room dayRoom) {
		f.room = room
		_, _, _, list := room.letters()
		f.list.rows.SetSize(list)
		f.scale.build()
		f.showEarlier()
		f.step.SetSpans(f.stepSpan())
		f.count.SetSpans(f.countSpan())
		for _, b := range large {
			b.SetBig(room != tightRoom)
		}
	}}, Objects: []fyne.CanvasObject{container.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, ringRoom, ringRoom), left)), f.foot, f.list.object}}
}

func (f *dayStage) object() fyne.CanvasObject { return f.body }

// title says what is next, for the window's title bar.
func (f *dayStage) title() string { return f.view.Heading }

func (f *dayStage) shown() {
	f.stop()
	f.stop = f.env.Every(time.Second, f.second)
	f.env.Fail(f.read(nil))
	f.bulk.learn()
}

func (f *dayStage) left() {
	f.stop()
	f.stop = func() {}
}

func (f *dayStage) changed(*journal.Bake, journal.Changed) { f.env.Fail(f.read(nil)) }

// read asks the journal again. With b it is taken for the dough shown.
func (f *dayStage) read(b *journal.Bake) (err error) {
	if f.all, err = underWay(f.env.Journal); err != nil {
		return err
	}
	if b == nil {
		if b, err = journal.Get[journal.Bake](f.env.Journal, f.bake.ID); err != nil {
			return err
		}
	}
	f.bake = b
	f.askBarred()
	f.tick()
	f.list.follow(f.view)
	f.bulk.show()
	f.ease.look()
	f.showMeasured()
	f.showEarlier()
	return f.showKitchen()
}

// showEarlier shows what was measured and the bakes before it where there is much room.
func (f *dayStage) showEarlier() {
	if f.room == widestRoom {
		kit.SetOnly(f.earlier, kit.Stack(6, f.dough.box, before(f.env, f.bake)))
	}
	kit.SetVisible(f.earlier, f.room == widestRoom)
	f.across.Refresh()
}

// showMeasured draws what was measured of this dough, and what is known of pictures of it.
func (f *dayStage) showMeasured() {
	f.dough.seen = f.bulk.seen[f.bake.ID]
	f.dough.show(f.bake)
}

// showKitchen puts this dough and the others on one clock.
func (f *dayStage) showKitchen() error {
	now := f.env.Now()
	f.clocked = now
	others, err := otherDays(f.env.Journal, f.bake.ID, now)
	if err != nil {
		return err
	}
	f.kitchen.Objects = nil
	if day, planned := f.bake.Day(); planned {
		if o := pages.Kitchen(append([]pages.DoughDay{{Name: f.view.Bake, Day: day}}, others...), now, f.env.Units()); o != nil {
			f.kitchen.Add(kit.Stack(3, kit.Gap(4), kit.Rule(), o))
		}
	}
	f.kitchen.Refresh()
	return nil
}

// askBarred looks, away from the main goroutine, whether something may be made of the
// dough's culture.
func (f *dayStage) askBarred() {
	bake, id, now := f.bake, f.bake.Culture, f.env.Now()
	if id != f.ofBarred {
		f.ofBarred, f.barred = id, nil
	}
	pages.Try(f.env, func(ctx context.Context) error { return histories.BarredDough(f.env.Journal.Until(ctx), bake, now) }, func(why error) {
		if id == f.ofBarred {
			f.barred = why
			f.show()
		}
	})
}

// second goes on with the clock. What it changes by itself it says.
func (f *dayStage) second() {
	before, now := f.view, f.env.Now()
	f.tick()
	f.ease.age(now)
	if now.Truncate(time.Minute) != f.clocked.Truncate(time.Minute) {
		f.env.Fail(f.showKitchen())
	}
	if v := f.view; v.ByClock && (v.Step != before.Step || !before.Runs) && !before.Over {
		f.env.Say(lang.L("{{.What}} has begun by the clock, at {{.When}}.", map[string]any{"What": v.Step, "When": v.Since}), false)
	}
}

// tick shows the time.
func (f *dayStage) tick() {
	now, u := f.env.Now(), f.env.Units()
	before := f.view
	f.view = viewDay(f.bake, now, u)
	f.show()
	f.showDoughs(now, u)
	f.list.rows.SetRows(f.view.Rows)
	if before.Next != f.view.Next || before.Runs != f.view.Runs {
		f.list.follow(f.view)
		f.bulk.show()
	} else {
		f.bulk.age(now)
	}
	if before.Heading != f.view.Heading {
		f.env.Retitle()
	}
}

// letters is how large the countdown and what is said of it are written: small beside the scale.
func (f *dayStage) letters() (count, due float32) {
	room := f.room
	if f.scale.beside.Visible() || f.scale.below.Visible() {
		room = narrowRoom
	}
	count, _, due, _ = room.letters()
	return count, due
}

// countSpan is the countdown, as large as there is room for.
func (f *dayStage) countSpan() kit.Span {
	v := f.view
	ink := look.ColorCrust
	if kit.Overdue(v.Until, f.env.Now()) && !v.Over {
		ink = look.ColorEmber
	}
	size, _ := f.letters()
	return kit.Span{Text: v.Count, Size: size, Serif: true, Count: true, Color: ink}
}

// stepSpan is what is to be done now, as large as there is room for.
func (f *dayStage) stepSpan() kit.Span {
	_, size, _, _ := f.room.letters()
	return kit.Span{Text: f.view.Step, Size: size, Serif: true}
}

// show puts the view on the screen.
func (f *dayStage) show() {
	v := f.view
	f.scale.show()
	f.name.SetText(v.Bake)
	showBarred(f.caution, f.barred, f.env.Units())
	f.step.SetSpans(f.stepSpan())
	now, u := f.env.Now(), f.env.Units()
	f.count.SetSpans(f.countSpan())
	_, due := f.letters()
	f.due.SetSize(due)
	f.due.Set(v.Due, v.Until, now, u)
	f.began.Say(v.Began)
	f.then.SetText(v.Then)
	note := v.Note
	if s := underHand(f.bake, f.env.Now()); s != nil && s.Note != "" {
		note = joinLines(note, s.Note)
	}
	f.note.Say(note)
	for _, o := range []fyne.CanvasObject{f.count, f.due, f.later} {
		kit.SetVisible(o, !v.Over)
	}
	kit.SetVisible(f.skip, !v.Over && !v.Runs)
	kit.SetVisible(f.onlyNow, v.ByClock)
	kit.SetVisible(f.then, v.Then != "")
	wants := strings.Join(needs(f.bake, f.env.Now()), " · ")
	f.needs.Say(wants)
	if v.Over {
		f.main.SetLabel(lang.L("Write down how it came out"))
	} else {
		f.main.SetLabel(v.Press)
	}
	if high := f.foot.MinSize().Height; high != f.high { // what is read has the rest
		f.high = high
		f.body.Refresh()
	}
}

func joinLines(a, b string) string {
	if a == "" {
		return b
	}
	return a + "\n" + b
}

// A doughPill turns to one of the doughs under way, and says how long it has or by how much
// it is overdue.
type doughPill struct {
	pill *kit.Pill
	late *kit.Due
}

// showDoughs shows every dough under way, the most urgent first, each with the
// key that turns to it.
func (f *dayStage) showDoughs(now time.Time, u measure.Units) {
	kit.SetVisible(f.doughs, len(f.all) > 1)
	if len(f.all) < 2 {
		return
	}
	f.all = urgentFirst(f.all, now)
	for i, b := range f.all {
		v := viewDay(b, now, u)
		if i == len(f.pills) {
			d := doughPill{kit.NewChoicePill("", false, func() { f.turn(i) }), kit.NewDue(0)}
			f.pills = append(f.pills, d)
			f.doughs.Add(kit.Row(1, d.pill, d.late))
		}
		d := f.pills[i]
		d.late.Set("", v.Until, now, u)
		kit.SetVisible(d.late, d.late.Late() && !v.Over)
		words := fmt.Sprintf("%d  %s", i+1, v.Bake)
		if !d.late.Visible() && !v.Over {
			words += "  " + v.Count
		}
		d.pill.SetWords(words)
		d.pill.SetChosen(b.ID == f.bake.ID)
	}
	f.pills, f.doughs.Objects = f.pills[:len(f.all)], f.doughs.Objects[:len(f.all)]
	f.doughs.Refresh()
}

// turn shows the dough that is at a place in the row.
func (f *dayStage) turn(i int) {
	if i >= len(f.all) || f.all[i].ID == f.bake.ID {
		return
	}
	b := f.all[i]
	f.page.id = b.ID // the page is this dough's from now on
	f.env.Fail(f.read(b))
	f.list.follow(f.view)
	f.bulk.learn()
}

// begins puts the keyboard at the day's one key.
func (f *dayStage) begins() fyne.Focusable { return f.main }

func (f *dayStage) keys() []kit.Key {
	keys := []kit.Key{
		{Name: "D", Doc: lang.L("start what is next, or done with what runs"), Do: f.press},
		{Name: "A", Doc: lang.L("what began by the clock begins only now"), Do: func() { f.act.beginNow(f.bake.ID) }},
		{Name: "L", Doc: lang.L("later by ten minutes"), Do: func() { f.act.later(f.bake.ID) }},
		{Name: "S", Doc: lang.L("skip"), Do: func() { f.act.skip(f.bake.ID) }},
		{Name: "E", Doc: lang.L("make the change that is offered"), Do: f.ease.take},
		{Name: "W", Doc: lang.L("weighed: tick off the next on the scale"), Do: f.scale.next},
		{Name: "N", Doc: lang.L("a note"), Do: f.askNote},
		{Name: "T", Doc: lang.L("a temperature"), Do: f.askTemperature},
		{Name: "R", Doc: lang.L("a rise reading"), Do: f.askRise},
		{Name: "P", Doc: lang.L("a photo"), Do: f.askPhoto},
		{Name: "B", Doc: lang.L("the record of this bake"), Do: f.record},
		{Name: "C", Doc: lang.L("calendar file"), Do: func() { saveCalendar(f.env, f.bake.ID) }},
		{Name: "K", Doc: lang.L("kitchen sheet"), Do: func() { saveSheet(f.env, f.bake.ID) }},
	}
	for i := range 9 {
		keys = append(keys, kit.Key{Name: fmt.Sprint(i + 1), Doc: lang.L("another dough"), Hidden: i > 0, Do: func() { f.turn(i) }})
	}
	return keys
}

// press is the main key: what is next begins, what runs is over, or, when the day is over,
// the bake is finished.
func (f *dayStage) press() {
	if f.view.Over {
		pages.FinishDay(f.env, f.bake.ID)
		return
	}
	f.act.press(f.bake.ID)
}

func (f *dayStage) record() { f.env.Go(pages.At(pages.Bake, f.bake.ID)) }
