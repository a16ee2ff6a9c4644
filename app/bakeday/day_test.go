package bakeday

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
	"twinloaf/journal/plan"
)

// putDough puts a bake into the journal whose day begins at a time.
func putDough(b *pagestest.Bench, name string, state journal.BakeState, start time.Time) *journal.Bake {
	steps, err := b.Journal.TemplateSteps(plan.CountryLoaf())
	if err != nil {
		panic(err)
	}
	bake := &journal.Bake{Name: name, State: state, Loaves: 2, At: start, Steps: steps,
		Ingredients: []journal.Ingredient{
			{ID: "flour", Name: "Strong white flour", Role: formula.Flour, Grams: 1000},
			{ID: "water", Name: "Water", Role: formula.Water, Grams: 700},
			{ID: "salt", Name: "Salt", Role: formula.Salt, Grams: 20},
			{ID: "culture", Name: "Harbour", Role: formula.Culture, Grams: 200},
		}}
	bake.SetPlan(plan.Plan{Start: start, Steps: journal.PlanSteps(steps)})
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, bake) })
	return bake
}

// stageOf gives the day view of a page, and stops its ticking: the test moves the
// clock, and ticks when it has.
func stageOf(p pages.Page) *dayStage {
	f := p.(*page).face.(*dayStage)
	f.left()
	return f
}

// TestAWholeDay goes from the scale to the cooled loaf by keys alone, with the
// program closed and the machine asleep in the middle of the turns.
func TestAWholeDay(t *testing.T) {
	b := pagestest.New(t)
	start := b.Clock
	id := putDough(b, "Ferry loaf", journal.Running, start).ID
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	at := func(d time.Duration) {
		b.Clock = start.Add(d)
		f.tick()
	}
	see := func(step, count string) {
		t.Helper()
		if f.step.String() != step || f.count.String() != count {
			t.Errorf("at %s it shows %q in %q, want %q in %q", b.Clock.Format("15:04:05"), f.step.String(), f.count.String(), step, count)
		}
	}
	see("Mix", "0:00")
	if f.main.Label() != "Start" {
		t.Errorf("to begin, the main button says %q", f.main.Label())
	}
	b.Press("D")
	see("Rest", "15:00")
	at(3*time.Minute + 10*time.Second)
	see("Rest", "11:50")
	b.Clock = start.Add(20 * time.Minute)
	f.second()
	see("Rest", "25:00") // it began by itself, and that is said
	if said := strings.Join(b.Said, " "); !strings.Contains(said, "Rest has begun by the clock, at 09:09.") || f.main.Label() != "Done" || !f.onlyNow.Visible() || f.skip.Visible() {
		t.Errorf("when the rest began it said %q, and the button says %q", said, f.main.Label())
	}
	b.Press("A") // the mixing took longer
	see("Rest", "30:00")
	if f.began.String() != "began at 09:14" || f.onlyNow.Visible() {
		t.Errorf("it says %q", f.began.String())
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	at(50 * time.Minute)
	see("Fold 1 of 6", "25:00")
	at(78 * time.Minute)
	see("Fold 1 of 6", "+3:00")
	if got := f.due.String(); got != "overdue by 3\u00a0min at 10:09" {
		t.Errorf("overdue, it says %q", got)
	}
	b.Press("D")
	see("Fold 2 of 6", "27:00") // by the clock: the turn before was late
	at(107 * time.Minute)
	b.Press("L") // overdue: ten minutes from now
	see("Fold 2 of 6", "10:00")

	// The journal is closed and opened again an hour and a half later.
	b.Reopen()
	b.Clock = start.Add(200 * time.Minute)
	f = stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	see("Fold 2 of 6", "+1 h 23")
	b.Press("D")
	see("Fold 3 of 6", "15:00") // half of the time between two
	b.Press("S")
	see("Fold 4 of 6", "15:00")
	for range 3 { // turns 4 to 6
		at(f.bakeNext(t).Due.Sub(start))
		b.Press("D")
	}
	see("Bulk", "40:00") // by the clock: 285 min after mixing, and it is 245
	at(290 * time.Minute)
	see("Bulk", "+5:00") // left running, it says so
	if got := f.due.String(); got != "overdue by 5\u00a0min until 13:39" {
		t.Errorf("left running, it says %q", got)
	}
	at(285 * time.Minute)
	presses := map[string]int{}
	for range 30 {
		stand, more := f.stand()
		if !more {
			break
		}
		at(stand.Until.Sub(start))
		if now, _ := f.stand(); now.Runs != stand.Runs || now.Ref != stand.Ref {
			continue // by the clock
		}
		presses[stand.Step]++
		b.Press("D")
	}
	byKind := map[string]int{}
	for _, s := range pagestest.Stored[journal.Bake](b, id).Steps {
		byKind[s.Kind] += presses[string(s.ID)]
	}
	for kind, want := range map[plan.Kind]int{plan.Bulk: 1, plan.Divide: 1, plan.ColdRest: 1, plan.Heat: 1, plan.BakeCovered: 2, plan.BakeUncovered: 2, plan.Cool: 1} {
		if byKind[string(kind)] != want {
			t.Errorf("%s took %d presses, want %d", kind, byKind[string(kind)], want)
		}
	}
	if !f.view.Over || f.step.String() != "The bread is ready" || f.count.Visible() {
		t.Fatalf("the day does not end: %+v", f.view)
	}
	if f.main.Label() != "Write down how it came out" {
		t.Errorf("the main button says %q", f.main.Label())
	}
	b.Press("D")
	bake := pagestest.Stored[journal.Bake](b, id)
	if bake.State != journal.Finished || len(b.Went) != 1 || b.Went[0] != (pages.Route{Name: pages.Bake, ID: id, More: pages.ToOutcome}) {
		t.Errorf("finished it is %q, and the page went to %v", bake.State, b.Went)
	}
	turns := bake.Steps[2]
	if len(turns.Done) != 5 || len(turns.Missed) != 1 || turns.Missed[0] != 3 {
		t.Errorf("turns made %v, left out %v", turns.Done, turns.Missed)
	}
	for i, s := range bake.Steps {
		if s.At.IsZero() || s.End.IsZero() {
			t.Errorf("step %d, %s, has no beginning or end: %v to %v", i+1, s.Kind, s.At, s.End)
		}
	}
	// Turn 1 three minutes late, turn 2 by 95: the dough ferments by the clock, and is
	// shaped and baked when it was planned.
	day, _ := bake.Day()
	last := day.Deviations()[len(day.Deviations())-1]
	if last.By() != 0 {
		t.Errorf("the bread is ready %v later than planned", last.By())
	}
	if len(b.Failed) > 0 {
		t.Errorf("it complained: %v", b.Failed)
	}
}

// stand gives where the day stands, by the record.
func (f *dayStage) stand() (plan.Stand, bool) {
	day, _ := f.bake.Day()
	return day.Stand(f.env.Now())
}

func (f *dayStage) bakeNext(t *testing.T) plan.Stand {
	t.Helper()
	m, ok := f.stand()
	if !ok {
		t.Fatal("nothing is next")
	}
	return m
}

func TestUndoTakesBackAKey(t *testing.T) {
	b := pagestest.New(t)
	id := putDough(b, "Ferry loaf", journal.Running, b.Clock).ID
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	b.Press("D")
	b.Press("L")
	for _, want := range []string{"Rest", "Mix"} {
		if _, err := b.Journal.Undo(); err != nil {
			t.Fatal(err)
		}
		if got := f.step.String(); got != want {
			t.Errorf("undone, it shows %q, want %q", got, want)
		}
	}
	if s := pagestest.Stored[journal.Bake](b, id).Steps[0]; !s.At.IsZero() {
		t.Errorf("mixing is still begun at %v", s.At)
	}
}

// Every step of a bake under way may be taken out while its day is open, and put back.
func TestDayWithoutSteps(t *testing.T) {
	b := pagestest.New(t)
	id := putDough(b, "Ferry loaf", journal.Running, b.Clock).ID
	p := b.Show(open, pages.At(pages.BakeDay, id))
	f := stageOf(p)
	b.Press("D")
	steps := pagestest.Stored[journal.Bake](b, id).Steps
	p.Left() // to the record, where the steps are taken out
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, id, func(b *journal.Bake) { b.Steps = nil })
	})
	p.Shown() // and back
	f.read(nil)
	f.left()
	for _, k := range p.Keys() {
		if !strings.Contains("PBCK", k.Name) { // a photo, the record, files
			k.Do()
		}
	}
	for _, do := range []func(){f.askNote, f.askTemperature, f.askRise, f.press} {
		do()
	}
	if f.act.note(id, "", "slack") || f.act.keep(id, "", reading{Rise: new(2.0)}) {
		t.Error("a note was kept with no step to keep it with")
	}
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, id, func(b *journal.Bake) { b.State, b.Steps = journal.Running, steps })
	})
	if _, isDay := p.(*page).face.(*dayStage); !isDay {
		t.Errorf("with its steps again the bake shows %T", p.(*page).face)
	}
	p.Left()
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, id, func(b *journal.Bake) { b.Steps = nil })
	})
	pages.FinishDay(b.Env, id)
	if pagestest.Stored[journal.Bake](b, id).State != journal.Finished {
		t.Error("a bake without steps cannot be finished")
	}
}

func TestSeveralDoughs(t *testing.T) {
	b := pagestest.New(t)
	later := putDough(b, "Deck rye", journal.Running, b.Clock.Add(time.Hour)).ID
	sooner := putDough(b, "Ferry loaf", journal.Running, b.Clock.Add(10*time.Minute)).ID
	p := b.Show(open, pages.Route{Name: pages.BakeDay})
	f := stageOf(p)
	if f.bake.ID != sooner {
		t.Errorf("the most urgent dough is not the one shown: %s", f.bake.Name)
	}
	if pill := f.pills[1].pill.Words(); !strings.Contains(pill, "2  Deck rye  1 h 00") {
		t.Errorf("the other is %q", pill)
	}
	b.Press("2")
	if f.bake.ID != later || f.name.String() != "Deck rye" {
		t.Errorf("2 turns to %s", f.bake.Name)
	}
	b.Press("D")
	if !pagestest.Stored[journal.Bake](b, sooner).Steps[0].At.IsZero() || pagestest.Stored[journal.Bake](b, later).Steps[0].At.IsZero() {
		t.Error("D was for another dough")
	}
	b.Press("5") // there is none
	if f.bake.ID != later {
		t.Error("5 turned to a dough that is not there")
	}
}

func TestNotesAndReadings(t *testing.T) {
	b := pagestest.New(t)
	id := putDough(b, "Ferry loaf", journal.Running, b.Clock).ID
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	b.Press("D")
	f.act.note(id, "", "Slack.")
	f.act.keep(id, "", reading{Dough: new(formula.Celsius(24.5)), Water: new(formula.Celsius(31))})
	b.Clock = b.Clock.Add(time.Minute)
	f.act.keep(id, "", reading{Dough: new(formula.Celsius(25)), Rise: new(1.25)})
	bake := pagestest.Stored[journal.Bake](b, id)
	s := bake.Steps[0]
	if s.Dough == nil || *s.Dough != 25 || s.Rise == nil || *s.Rise != 1.25 {
		t.Errorf("the step has %+v", s)
	}
	if want := "08:54 Slack.\nBefore: dough 24.5\u00a0°C."; s.Note != want {
		t.Errorf("its note is %q, want %q", s.Note, want)
	}
	if w := bake.Water; w.Dough == nil || *w.Dough != 24.5 || w.Water == nil || *w.Water != 31 {
		t.Errorf("of the water is known %+v", w)
	}
	if !strings.Contains(f.note.String(), "Slack.") {
		t.Errorf("the note is not shown: %q", f.note.String())
	}
}

// While the dough is in bulk it is said when that will be over, from the baker's own bulks
// and from what is measured, and shaping can be moved there.
func TestTheEndOfBulk(t *testing.T) {
	b := pagestest.New(t)
	for i := range 6 { // bulks of five hours and a half, to 1.6 times
		began := b.Clock.AddDate(0, 0, -7*(i+1))
		past := putDough(b, "Ferry loaf", journal.Finished, began)
		b.Put(func(tx *journal.Tx) error {
			return journal.Change(tx, past.ID, func(x *journal.Bake) {
				x.Water.Dough = new(formula.Celsius(24))
				x.Steps[0].At = began
				x.Steps[3].At, x.Steps[3].End, x.Steps[3].Rise = began.Add(4*time.Hour), began.Add(330*time.Minute), new(1.6)
				x.Steps[4].At = began.Add(330 * time.Minute)
			})
		})
	}
	start := b.Clock
	id := putDough(b, "Ferry loaf", journal.Running, start).ID
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	b.Wait()
	if f.bulk.object.Visible() {
		t.Errorf("before it is mixed it says %q", f.bulk.object.String())
	}
	b.Press("D")
	b.Clock = start.Add(10 * time.Minute)
	f.act.keep(id, "", reading{Dough: new(formula.Celsius(24))})
	if words := f.bulk.object.String(); !strings.Contains(words, "over about 14:") || !strings.Contains(words, "From 6 bulks of yours") || !strings.Contains(words, "1.6× its start") {
		t.Errorf("mixed at %s, it says %q", start.Format("15:04"), words)
	}
	// Planned, shaping is at 13:39; the link moves it.
	shape, _ := shaping(f.bake, b.Clock)
	if shape.Due.Sub(start) != 285*time.Minute || !f.bulk.move.Visible() {
		t.Fatalf("shaping is planned %v after mixing, and the link is shown: %v", shape.Due.Sub(start), f.bulk.move.Visible())
	}
	told := f.bulk.move.Text()
	f.bulk.move.OnTapped()
	shape, _ = shaping(f.bake, b.Clock)
	if got := "Move shaping to " + shape.Due.Format("15:04"); got != told || f.bulk.move.Visible() {
		t.Errorf("it said %q, and shaping is at %s", told, shape.Due.Format("15:04"))
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	// A dough that is ahead is over sooner.
	b.Clock = start.Add(2 * time.Hour)
	before := f.bulk.object.String()
	f.act.keep(id, "", reading{Rise: new(1.45)})
	if words := f.bulk.object.String(); words == before || !strings.Contains(words, "over about 1") || strings.Contains(words, "over about 14:") {
		t.Errorf("risen by half in two hours it says %q, before %q", words, before)
	}
	// Nothing more is noted, and the clock goes on: by and by it is said to be over.
	b.Clock = start.Add(8 * time.Hour)
	f.tick()
	if words := f.bulk.object.String(); !strings.Contains(words, "look at the dough now") {
		t.Errorf("eight hours after mixing it says %q", words)
	}
	if readings := pagestest.Stored[journal.Bake](b, id).Steps; len(readings[0].Readings)+len(readings[1].Readings)+len(readings[2].Readings) != 2 {
		t.Errorf("the readings are kept as %+v", readings[:3])
	}
}

// A levain that is built takes its seed from the jar, and what is kept back of it goes
// there when the dough is mixed: each in the culture's history, undone with the step.
func TestTheBakeTakesFromTheJar(t *testing.T) {
	b := pagestest.New(t)
	gorse := &journal.Culture{Name: "Gorse"}
	b.Put(func(tx *journal.Tx) error {
		if err := journal.Put(tx, gorse); err != nil {
			return err
		}
		return journal.Put(tx, &journal.Feeding{Culture: gorse.ID, At: b.Clock.Add(-10 * time.Hour), Kept: 20, Flour: 40, Water: 40})
	})
	jar := func() float64 {
		t.Helper()
		l, err := histories.Of(b.Journal, gorse.ID)
		if err != nil {
			t.Fatal(err)
		}
		s, _ := l.Jar(b.Clock.Add(time.Minute))
		return float64(s.Mix.Total())
	}
	bake := putDough(b, "Ferry loaf", journal.Running, b.Clock)
	id := bake.ID
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, id, func(x *journal.Bake) {
			levain := journal.Step{ID: "build", Kind: string(plan.Levain), PlannedAt: b.Clock, Planned: 8 * time.Hour}
			x.Culture, x.Steps = gorse.ID, append([]journal.Step{levain}, x.Steps...)
			x.Ingredients = x.Ingredients[:3]
			x.Levains = []journal.LevainBuild{{Kept: 30, Lines: []journal.Ingredient{{ID: "seed", Name: "Gorse", Role: formula.Culture, Grams: 32},
				{ID: "fed", Name: "White", Role: formula.Flour, Grams: 100}, {ID: "drink", Name: "Water", Role: formula.Water, Grams: 100}}}}
		})
	})
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	b.Press("D") // the levain is built
	if got := jar(); got != 68 {
		t.Errorf("built with 32 g of 100, the jar holds %v", got)
	}
	if said := strings.Join(b.Said, " "); !strings.Contains(said, "32\u00a0g taken from the jar of Gorse.") {
		t.Errorf("it says %q", said)
	}
	if _, err := b.Journal.Undo(); err != nil || jar() != 100 || !pagestest.Stored[journal.Bake](b, id).Steps[0].At.IsZero() {
		t.Errorf("undone, the jar holds %v, and the levain is built at %v (%v)", jar(), pagestest.Stored[journal.Bake](b, id).Steps[0].At, err)
	}
	b.Press("D")
	b.Clock = b.Clock.Add(8 * time.Hour)
	f.tick()
	b.Press("D") // the levain is ripe
	b.Press("D") // mixed
	if got := jar(); got != 98 {
		t.Errorf("with 30 g kept back, the jar holds %v", got)
	}
	if len(b.Failed) > 0 {
		t.Error(b.Failed)
	}
}

// Begun at nine, the oven would be heated in the night: that is said, and one link has the
// cold proof give way.
func TestADelayIntoSleepIsEased(t *testing.T) {
	b := pagestest.New(t)
	id := putDough(b, "Ferry loaf", journal.Running, b.Clock).ID
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	b.Wait()
	if words := f.ease.words.String(); !strings.Contains(words, "within your sleep") || !f.ease.use.Visible() || !strings.HasPrefix(f.ease.use.Text(), "Lengthen Cold proof by 4 h") {
		t.Fatalf("it says %q and offers %q", words, f.ease.use.Text())
	}
	f.ease.use.OnTapped()
	b.Wait()
	night, _ := nightOf(b.Journal)
	if at := mustDay(pagestest.Stored[journal.Bake](b, id)).AtNight(night, b.Clock); len(at) > 0 || f.ease.object.Visible() || f.ease.use.Visible() {
		t.Errorf("eased, %d moments are at night, and it says %q", len(at), f.ease.words.String())
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	b.Wait()
	if !f.ease.use.Visible() {
		t.Error("undone, nothing is offered")
	}
}

// A day that was planned in another time zone is held against the night of this one.
func TestADayPlannedElsewhereFallsIntoTheNightHere(t *testing.T) {
	b := pagestest.New(t)
	id := putDough(b, "Ferry loaf", journal.Running, b.Clock.In(time.FixedZone("", -9*3600))).ID
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	b.Wait()
	elsewhere := f.ease.words.String()
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, id, func(b *journal.Bake) {
			b.At = b.At.UTC()
			for i := range b.Steps {
				b.Steps[i].PlannedAt = b.Steps[i].PlannedAt.UTC()
			}
		})
	})
	b.Wait()
	if here := f.ease.words.String(); elsewhere != here || !strings.Contains(here, "within your sleep") {
		t.Errorf("planned elsewhere it says %q, here %q", elsewhere, here)
	}
}

// What is overdue holds back what follows, so that by the clock alone the day comes to
// clash: it is looked at anew, and said that nothing helps where that is so.
func TestADayIsLookedAtAnewByTheClock(t *testing.T) {
	b := pagestest.New(t)
	b.Clock = time.Date(2026, 3, 4, 15, 0, 0, 0, time.UTC)
	id := putDough(b, "Ferry loaf", journal.Running, b.Clock).ID
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	b.Press("D")
	b.Wait()
	if f.ease.object.Visible() {
		t.Fatalf("begun at three, it says %q", f.ease.words.String())
	}
	b.Clock = b.Clock.Add(8 * time.Hour) // the first turn was not made
	f.second()
	b.Wait()
	if !strings.Contains(f.ease.words.String(), "within your sleep") || f.ease.use.Visible() || !strings.Contains(f.ease.how.String(), "No change") {
		t.Errorf("it says %q, %q, and offers %q", f.ease.words.String(), f.ease.how.String(), f.ease.use.Text())
	}
}

// Where no step alone is enough, the changes are listed, and one key makes them all.
func TestSeveralStepsGive(t *testing.T) {
	b := pagestest.New(t)
	b.Clock = time.Date(2026, 3, 4, 15, 0, 0, 0, time.UTC)
	id := putDough(b, "Ferry loaf", journal.Running, b.Clock).ID
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, id, func(b *journal.Bake) {
			for i := range b.Steps {
				if b.Steps[i].Kind == string(plan.Bulk) {
					b.Steps[i].Max = 90 * time.Minute
				}
			}
		})
	})
	other := putDough(b, "Deck rye", journal.Running, b.Clock).ID
	act := actor{b.Env}
	act.press(id)
	act.press(other)
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	b.Wait()
	if how := f.ease.how.String(); f.ease.use.Text() != "Use that plan" || !strings.Contains(how, "Lengthen Bulk") || !strings.Contains(how, "Lengthen Cold proof") {
		t.Fatalf("it lists %q and offers %q; wrong is %q", how, f.ease.use.Text(), f.ease.words.String())
	}
	f.ease.use.OnTapped()
	b.Wait()
	// What is being mixed at this moment cannot be helped.
	if words := f.ease.words.String(); strings.Contains(words, "oven") || strings.Contains(words, "shape") || f.ease.use.Visible() {
		t.Errorf("eased, it says %q", words)
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	b.Wait()
	if !f.ease.use.Visible() {
		t.Error("one undo does not take all of it back")
	}
}

// Overdue has one form for every dough under way and in the list of the day.
func TestOverdueEverywhereOnTheDay(t *testing.T) {
	b := pagestest.New(t)
	id := putDough(b, "Ferry loaf", journal.Running, b.Clock).ID
	putDough(b, "Deck rye", journal.Running, b.Clock)
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	late := func() int {
		n := 0
		for _, d := range pagestest.All[*kit.Due](f.body) {
			if d.Late() {
				n++
			}
		}
		return n
	}
	if n := late(); n > 0 {
		t.Errorf("on time, %d things are overdue", n)
	}
	b.Clock = b.Clock.Add(5 * time.Minute)
	f.second()
	// Beneath the countdown, in the list, beside either dough, and twice where they are on one clock.
	if n := late(); n != 6 {
		t.Errorf("%d things are overdue", n)
	}
	for _, d := range pagestest.All[*kit.Due](f.body) {
		if d.Late() && !strings.HasPrefix(d.String(), "overdue by 5\u00a0min") {
			t.Errorf("it says %q", d.String())
		}
	}
	b.Clock = b.Clock.Add(time.Minute)
	f.second()
	for _, d := range pagestest.All[*kit.Due](f.body) {
		if d.Late() && !strings.HasPrefix(d.String(), "overdue by 6\u00a0min") {
			t.Errorf("a minute later it says %q", d.String())
		}
	}
}

func TestAskingWithTheKeyboard(t *testing.T) {
	b := pagestest.New(t)
	id := putDough(b, "Ferry loaf", journal.Running, b.Clock).ID
	stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	b.Press("N")
	canvas := b.Window.Canvas()
	for _, r := range "bubbly" {
		canvas.Focused().TypedRune(r)
	}
	canvas.Overlays().Top().(*kit.Dialog).Close() // not kept
	if note := pagestest.Stored[journal.Bake](b, id).Steps[0].Note; note != "" {
		t.Errorf("a note that was given up is kept: %q", note)
	}
	b.Press("N")
	for _, r := range "bubbly" {
		canvas.Focused().TypedRune(r)
	}
	keep := pagestest.All[*kit.Button](canvas.Overlays().Top())
	test.Tap(keep[len(keep)-1])
	if note := pagestest.Stored[journal.Bake](b, id).Steps[0].Note; note != "08:54 bubbly" {
		t.Errorf("the note is %q", note)
	}
	b.Press("T")
	for _, r := range "24.6" {
		canvas.Focused().TypedRune(r)
	}
	canvas.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) // Enter keeps
	if c := pagestest.Stored[journal.Bake](b, id).Steps[0].Dough; c == nil || *c != 24.6 {
		t.Errorf("the dough's temperature is %v", c)
	}
}

func TestCountdown(t *testing.T) {
	for left, want := range map[time.Duration]string{
		0:                               "0:00",
		time.Millisecond:                "0:01",
		11*time.Minute + 48*time.Second: "11:48",
		time.Hour - time.Second:         "59:59",
		time.Hour:                       "1 h 00",
		2*time.Hour + 5*time.Minute + 59*time.Second: "2 h 05",
		50 * time.Hour:    "2 d 2 h",
		-time.Second:      "+0:01",
		-83 * time.Minute: "+1 h 23",
	} {
		if got := countdown(left); got != want {
			t.Errorf("Countdown(%v) = %q, want %q", left, got, want)
		}
	}
}

func BenchmarkDayView(b *testing.B) {
	bench := pagestest.New(b)
	id := putDough(bench, "Ferry loaf", journal.Running, bench.Clock).ID
	f := stageOf(bench.Show(open, pages.At(pages.BakeDay, id)))
	b.Run("tick", func(b *testing.B) {
		for b.Loop() {
			bench.Clock = bench.Clock.Add(time.Second)
			f.tick()
		}
	})
	b.Run("tick and draw", func(b *testing.B) {
		for b.Loop() {
			bench.Clock = bench.Clock.Add(time.Second)
			f.tick()
			bench.Window.Canvas().Capture()
		}
	})
}

// A jar that holds too little says so while the bake is planned, and one press opens the build,
// with the weight that is wanted and the hour at which it is taken filled in.
func TestTooLittleInTheJarOffersTheBuild(t *testing.T) {
	b := pagestest.New(t)
	gorse := &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(-1, 0, 0)}
	b.Put(func(tx *journal.Tx) error {
		if err := journal.Put(tx, gorse); err != nil {
			return err
		}
		return journal.Put(tx, &journal.Feeding{Culture: gorse.ID, At: b.Clock.Add(-10 * time.Hour), Kept: 10, Flour: 20, Water: 20})
	})
	var of journal.ID
	var amount formula.Grams
	var ripe time.Time
	b.Env.PlanBuild = func(id journal.ID, g formula.Grams, at time.Time) { of, amount, ripe = id, g, at }
	start := b.Clock.Add(26 * time.Hour)
	id := putDough(b, "Ferry loaf", journal.Planned, start).ID
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, id, func(x *journal.Bake) { x.Culture, x.Ingredients[3].Name = gorse.ID, "Gorse" })
	})
	p := b.Show(open, pages.At(pages.BakeDay, id))
	b.Wait()
	f := p.(*page).face.(*planStage)
	if words := f.levain.text.String(); !strings.Contains(words, "holds 50\u00a0g by the record, and 200\u00a0g are needed") || !f.levain.grow.Visible() {
		t.Fatalf("it says %q", words)
	}
	f.levain.grow.OnTapped()
	if of != gorse.ID || amount != 200 || !ripe.Equal(pagestest.Stored[journal.Bake](b, id).Steps[0].PlannedAt) {
		t.Errorf("the build is of %v g of %s, ripe at %v", amount, of, ripe)
	}
}

// A day that is over says where it was furthest behind its plan, and nothing of one that was
// not.
func TestFurthestBehind(t *testing.T) {
	b := pagestest.New(t)
	bake := putDough(b, "Ferry loaf", journal.Finished, b.Clock)
	day, _ := bake.Day()
	moments := day.Deviations()
	for i := range bake.Steps {
		bake.Steps[i].At = moments[0].Planned
		for _, m := range moments {
			if m.Ref.Step == string(bake.Steps[i].ID) && m.Ref.Turn == 0 {
				bake.Steps[i].At = m.Planned
			}
		}
	}
	if words := mostBehind(bake, b.Clock, b.Units()); words != "" {
		t.Errorf("of a day on time: %q", words)
	}
	bake.Steps[1].At = bake.Steps[1].At.Add(22 * time.Minute)
	bake.Steps[2].At = bake.Steps[2].At.Add(9 * time.Minute)
	if words := mostBehind(bake, b.Clock, b.Units()); !strings.HasPrefix(strings.ReplaceAll(words, "\u00a0", " "), "Ran at most 22 min behind: "+bake.Steps[1].Title()) {
		t.Errorf("of a day that ran late: %q", words)
	}
}

// In a wide window the schedule has a wider column, and is written larger, as all that is read
// from a metre away.
func TestAWideWindowIsReadFromFurtherAway(t *testing.T) {
	b := pagestest.New(t)
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, putDough(b, "Ferry loaf", journal.Running, b.Clock).ID)))
	at := func(width float32) (list fyne.Size, step float32) {
		b.Window.Resize(fyne.NewSize(width, 1000))
		f.body.Resize(fyne.NewSize(width, 1000))
		return fyne.NewSize(f.list.object.Size().Width, f.list.rows.MinSize().Height), f.step.MinSize().Height
	}
	usual, stepUsual := at(1132)
	wide, stepWide := at(1772)
	if wide.Width <= usual.Width || wide.Height < 1.1*usual.Height || stepWide <= stepUsual {
		t.Errorf("the schedule is %v, in a wide window %v; the step %v and %v high", usual, wide, stepUsual, stepWide)
	}
	if back, step := at(1132); back != usual || step != stepUsual {
		t.Errorf("back in the usual window the schedule is %v, the step %v high", back, step)
	}
}

// What is pressed during a day is in the window whatever is written above it, in narrow
// windows and low ones, what is read ends where it begins, and the countdown is all there.
func TestButtonsOfADayStayInSight(t *testing.T) {
	b := pagestest.New(t)
	id := putDough(b, "Ferry loaf", journal.Running, b.Clock).ID
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	f.note.SetText(strings.Repeat("Slack at first; better after the second. ", 30))
	f.note.Show()
	place := fyne.CurrentApp().Driver().AbsolutePositionForObject
	for _, size := range []fyne.Size{{Width: 1132, Height: 800}, {Width: 752, Height: 700}, {Width: 452, Height: 467}} {
		b.Window.Resize(size)
		f.body.Resize(size)
		top := place(f.body).Y
		seen := 0
		for _, o := range pagestest.All[*kit.Button](f.body) {
			if !o.Visible() {
				continue
			}
			seen++
			if bottom := place(o).Y - top + o.Size().Height; bottom > size.Height {
				t.Errorf("at %v %q ends %v down", size, o.Label(), bottom)
			}
		}
		if seen < 8 {
			t.Errorf("at %v there are %d buttons", size, seen)
		}
		if bottom := place(f.count).Y - top + f.count.Size().Height; bottom > f.foot.Position().Y {
			t.Errorf("at %v the countdown ends at %v, the buttons begin at %v", size, bottom, f.foot.Position().Y)
		}
		if reads := f.body.Objects[0]; reads.Position().Y+reads.Size().Height > f.foot.Position().Y {
			t.Errorf("at %v what is read ends at %v, the buttons begin at %v", size, reads.Position().Y+reads.Size().Height, f.foot.Position().Y)
		}
	}
}

// What was typed stays in its dialog until it is kept.
func TestWhatCannotBeKeptStaysTyped(t *testing.T) {
	b := pagestest.New(t)
	id := putDough(b, "Ferry loaf", journal.Running, b.Clock).ID
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	b.Press("D")
	steps := pagestest.Stored[journal.Bake](b, id).Steps
	f.askNote()
	test.Type(b.Window.Canvas().Focused(), "slack")
	setSteps := func(to []journal.Step) {
		b.Put(func(tx *journal.Tx) error {
			return journal.Change(tx, id, func(b *journal.Bake) { b.Steps = to })
		})
	}
	setSteps(nil)
	b.Press("Ctrl+Enter")
	if b.Window.Canvas().Overlays().Top() == nil || !strings.Contains(b.Texts(), "slack") {
		t.Fatal("with nothing to keep it with the note is gone")
	}
	setSteps(steps)
	b.Failed = nil
	b.Press("Ctrl+Enter")
	if top := b.Window.Canvas().Overlays().Top(); top != nil {
		t.Error("the dialog stays after the note was kept")
	}
	if s := underHand(pagestest.Stored[journal.Bake](b, id), b.Clock); !strings.HasSuffix(s.Note, " slack") {
		t.Errorf("the note is %q", s.Note)
	}
}

// A note goes under the step that its dialog names, whatever begins while it is written.
func TestANoteStaysUnderItsStep(t *testing.T) {
	b := pagestest.New(t)
	id := putDough(b, "Ferry loaf", journal.Running, b.Clock).ID
	f := stageOf(b.Show(open, pages.At(pages.BakeDay, id)))
	b.Press("D")
	f.askNote()
	if !strings.Contains(b.Texts(), "Saved under: Mix") {
		t.Fatalf("the dialog says:\n%s", b.Texts())
	}
	test.Type(b.Window.Canvas().Focused(), "slack")
	f.press() // mixed: the rest begins
	b.Press("Ctrl+Enter")
	steps := pagestest.Stored[journal.Bake](b, id).Steps
	if !strings.HasSuffix(steps[0].Note, " slack") || steps[1].At.IsZero() || strings.Contains(steps[1].Note, "slack") {
		t.Errorf("mixing says %q, the rest, begun at %v, %q", steps[0].Note, steps[1].At, steps[1].Note)
	}
}
