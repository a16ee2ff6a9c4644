package bakeday

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	ics "github.com/arran4/golang-ical"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
	"twinloaf/journal/plan/calendar"
	"twinloaf/journal/plan/sheet"
)

// planned shows the plan of a new bake that has not been given a time yet.
func planned(t testing.TB) (*pagestest.Bench, *planStage, journal.ID) {
	t.Helper()
	b := pagestest.New(t)
	bake := putDough(b, "Ferry loaf", journal.Planned, b.Clock)
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, bake.ID, func(b *journal.Bake) { b.Steps = journal.Wishes(b.Steps) })
	})
	f := b.Show(open, pages.At(pages.BakeDay, bake.ID)).(*page).face.(*planStage)
	b.Wait()
	return b, f, bake.ID
}

// A time that is undone, and what was said of the plan that it gave, stand in no field any more.
func TestATimeOfAPlanThatIsUndone(t *testing.T) {
	b, f, _ := planned(t)
	if err := b.Journal.Flush(); err != nil {
		t.Fatal(err)
	}
	b.Clock = b.Clock.Add(time.Minute) // else it is one step with the first plan
	when, words, rows := f.when.Text(), f.saying.String(), b.Texts()
	b.Type(f.when, "5 Mar 20:00")
	b.Leave()
	b.Wait()
	if f.when.Text() == when || f.saying.String() == words {
		t.Fatalf("at %s it says %q", f.when.Text(), f.saying.String())
	}
	if label, err := b.Journal.Undo(); err != nil || label != "the plan" {
		t.Fatal(label, err)
	}
	b.Wait()
	if f.when.Text() != when || f.saying.String() != words || b.Texts() != rows {
		t.Errorf("undone, it is at %s and says %q, and before at %s, %q", f.when.Text(), f.saying.String(), when, words)
	}
	if _, err := b.Journal.Redo(); err != nil {
		t.Fatal(err)
	}
	b.Wait()
	if !strings.Contains(f.when.Text(), "20:00") {
		t.Errorf("made again, it is at %s", f.when.Text())
	}
}

// A plan made with a culture that was found to be bad since says so, and does not begin.
func TestAPlanWithACondemnedCultureDoesNotBegin(t *testing.T) {
	b, f, id := planned(t)
	if f.caution.Visible() {
		t.Errorf("with no culture it says %q", f.caution.String())
	}
	b.Put(func(tx *journal.Tx) error {
		gorse := &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, -1, 0)}
		if err := journal.Put(tx, gorse); err != nil {
			return err
		}
		if err := journal.Put(tx, &journal.Feeding{Culture: gorse.ID, At: b.Clock.AddDate(0, 0, -1), Kept: 20, Flour: 40, Water: 40}); err != nil {
			return err
		}
		if err := journal.Put(tx, &journal.Reading{Culture: gorse.ID, At: b.Clock.Add(-time.Hour), Mould: true}); err != nil {
			return err
		}
		return journal.Change(tx, id, func(b *journal.Bake) { b.Culture = gorse.ID })
	})
	b.Wait()
	if !f.caution.Visible() || !strings.Contains(f.caution.String(), "Throw Gorse away") {
		t.Errorf("the plan says %q", f.caution.String())
	}
	f.start()
	b.Wait()
	if got := pagestest.Stored[journal.Bake](b, id); got.State != journal.Planned {
		t.Errorf("the day began: %v", got.State)
	}
	// That the mould was seen is taken back while the plan is open.
	readings, err := journal.All[journal.Reading](b.Journal)
	if err != nil || len(readings) != 1 {
		t.Fatal(readings, err)
	}
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, readings[0].ID, func(r *journal.Reading) { r.Mould = false })
	})
	b.Wait()
	if f.caution.Visible() {
		t.Errorf("without mould it says %q", f.caution.String())
	}
}

// While the plan is made its schedule begins when the field says, and the heading with it.
func TestFieldAndScheduleAgreeFromTheBeginning(t *testing.T) {
	b, f, id := planned(t)
	bake := pagestest.Stored[journal.Bake](b, id)
	bake.Steps = journal.Wishes(bake.Steps)
	f.anchor.at = b.Clock.Add(3 * time.Minute)
	f.showPlan(bake, b.Clock)
	want := b.Units().Clock(f.anchor.at)
	var said []string
	for _, x := range pagestest.All[*kit.Text](f.rows) {
		said = append(said, x.String())
	}
	if !slices.Contains(said, want) || slices.Contains(said, b.Units().Clock(b.Clock)) {
		t.Errorf("the field says %s, the schedule %q", want, said)
	}
}

// What is seen of a plan before its water and its levain are reckoned stays where it is, in a
// narrow window too.
func TestNothingMovesWhenTheWaterComes(t *testing.T) {
	b, _, id := planned(t)
	gorse := &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, -1, 0), Usual: new(formula.Celsius(24))}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, gorse) })
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, id, func(x *journal.Bake) {
			x.Culture, x.Water.Wanted, x.Water.Room = gorse.ID, new(formula.Celsius(25)), new(formula.Celsius(21))
			x.Levains = []journal.LevainBuild{{Lines: []journal.Ingredient{
				{ID: "seed", Name: "Gorse", Role: formula.Culture, Grams: 40}, {ID: "fed", Role: formula.Flour, Grams: 80}, {ID: "drink", Role: formula.Water, Grams: 80}}}}
		})
	})
	b.Wait()
	for _, width := range []float32{752, 1132} { // beside the sidebar of windows 900 and 1280 wide
		f := b.Show(open, pages.At(pages.BakeDay, id)).(*page).face.(*planStage)
		lie := func() map[fyne.CanvasObject]fyne.Position {
			b.Window.Resize(fyne.NewSize(width, 701))
			b.Window.Resize(fyne.NewSize(width, 700))
			out := map[fyne.CanvasObject]fyne.Position{}
			for _, x := range pagestest.All[*kit.Text](f.page) {
				out[x] = b.App.Driver().AbsolutePositionForObject(x)
			}
			return out
		}
		before := lie()
		if f.rest.Visible() {
			t.Errorf("%v wide, what stands below the water is shown before that is reckoned", width)
		}
		b.Wait()
		after := lie()
		for x, was := range before {
			if is, seen := after[x]; seen && is != was {
				t.Errorf("%v wide, %q goes from %v to %v", width, x.(*kit.Text).String(), was, is)
			}
		}
		if !f.rest.Visible() || f.water.from.String() == "" || f.levain.text.String() == "" {
			t.Errorf("%v wide, water %q, levain %q", width, f.water.from.String(), f.levain.text.String())
		}
	}
}

func TestAPlanBeginsSoon(t *testing.T) {
	b, _, id := planned(t)
	bake := pagestest.Stored[journal.Bake](b, id)
	if want := time.Date(2026, 3, 4, 8, 55, 0, 0, time.UTC); !bake.At.Equal(want) || !bake.Steps[0].PlannedAt.Equal(want) {
		t.Errorf("it begins at %v, want %v", bake.At, want)
	}
	// Nothing that needs hands is at night: 22:30 to 6:30.
	night, err := nightOf(b.Journal)
	if err != nil {
		t.Fatal(err)
	}
	day, _ := bake.Day()
	if at := day.AtNight(night, time.Time{}); len(at) > 0 {
		t.Errorf("at night: %v", at)
	}
}

// TestBackFromWhenItIsReady asks for bread at eight on Saturday.
func TestBackFromWhenItIsReady(t *testing.T) {
	b, f, id := planned(t)
	f.mode.OnChanged(1)
	b.Wait()
	b.Type(f.when, "7 Mar 08:00")
	b.Wait()
	bake := pagestest.Stored[journal.Bake](b, id)
	day, _ := bake.Day()
	if want := time.Date(2026, 3, 7, 8, 0, 0, 0, time.UTC); !day.ReadyAt().Equal(want) {
		t.Errorf("ready at %v, want %v", day.ReadyAt(), want)
	}
	words := strings.Join(f.words, "\n")
	if !strings.Contains(words, "is lengthened from") && !strings.Contains(words, "is shortened from") && !strings.Contains(words, "within the sleep hours") {
		t.Errorf("to be ready at eight somebody bakes before half past six, and it says %q", words)
	}
	if got, want := f.saying.String(), words; got != want {
		t.Errorf("the page says %q, want %q", got, want)
	}
	if f.nearest == nil {
		t.Fatal("there is no nearest plan")
	}
	f.takeNearest()
	b.Wait()
	day, _ = pagestest.Stored[journal.Bake](b, id).Day()
	night, _ := nightOf(b.Journal)
	if at := day.AtNight(night, time.Time{}); len(at) > 0 || f.nearest != nil {
		t.Errorf("taken, the nearest plan has %v at night", at)
	}
	// The wishes are as they were, whatever the plan made of them.
	for i, s := range journal.Wishes(pagestest.Stored[journal.Bake](b, id).Steps) {
		if want := plan.CountryLoaf()[i].Length.Duration(); s.Planned != want {
			t.Errorf("step %d is wished for %v, want %v", i+1, s.Planned, want)
		}
	}
}

// A plan that takes of a culture before it is ripe says when it will be.
func TestAPlanThatIsTooEarlyForItsCulture(t *testing.T) {
	b, f, id := planned(t)
	gorse := &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, -1, 0), Usual: new(formula.Celsius(24))}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, gorse) })
	b.Put(func(tx *journal.Tx) error {
		if err := journal.Put(tx, &journal.Feeding{Culture: gorse.ID, At: b.Clock.Add(-time.Hour), Kept: 40, Flour: 80, Water: 80}); err != nil {
			return err
		}
		return journal.Change(tx, id, func(x *journal.Bake) {
			x.Culture = gorse.ID
			x.Levains = []journal.LevainBuild{{Lines: []journal.Ingredient{
				{ID: "seed", Name: "Gorse", Role: formula.Culture, Grams: 40}, {ID: "fed", Role: formula.Flour, Grams: 80}, {ID: "drink", Role: formula.Water, Grams: 80}}}}
		})
	})
	b.Wait()
	f.levain.use.OnTapped()
	b.Wait()
	said := func(at time.Time) string {
		b.Type(f.when, at.Format("2 Jan 15:04"))
		b.Wait()
		return f.levain.text.String()
	}
	f.mode.OnChanged(int(plan.Beginning))
	b.Wait()
	if words := said(b.Clock.Add(5 * time.Minute)); !strings.Contains(words, "Gorse should be ripe from") {
		t.Errorf("an hour after the feeding it says %q", words)
	}
	if words := said(b.Clock.Add(12 * time.Hour)); strings.Contains(words, "should be ripe") {
		t.Errorf("thirteen hours after the feeding it says %q", words)
	}
}

// The levain of the bake's culture is ripe by that culture's hours; with one link the plan
// goes by them, and the hour of mixing sets that of the build, as that of the build sets
// when it is mixed.
// A plan whose levain is of no known culture says that its hours are a guess, and the place of
// the water's temperature is kept while nothing is known of it.
func TestALevainOfNoCultureIsAGuess(t *testing.T) {
	b, f, id := planned(t)
	if f.levain.text.Visible() {
		t.Errorf("without a levain it says %q", f.levain.text.String())
	}
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, id, func(x *journal.Bake) {
			x.Levains = []journal.LevainBuild{{Lines: []journal.Ingredient{
				{ID: "seed", Role: formula.Culture, Grams: 40}, {ID: "fed", Role: formula.Flour, Grams: 80}, {ID: "drink", Role: formula.Water, Grams: 80}}}}
		})
	})
	b.Wait()
	if words := f.levain.text.String(); !f.levain.text.Visible() || !strings.Contains(words, "is a guess") {
		t.Errorf("with a levain it says %q", words)
	}
	f.water.show(journal.WaterPlan{}, waterAdvice{})
	if !f.water.water.Visible() || !strings.HasPrefix(f.water.water.String(), "–") {
		t.Errorf("of the water nothing is known, and it says %q", f.water.water.String())
	}
}

func TestTheLevainSetsTheDay(t *testing.T) {
	b, f, id := planned(t)
	culture := &journal.Culture{Name: "Gorse"}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, culture) })
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, id, func(x *journal.Bake) {
			x.Culture = culture.ID
			x.Levains = []journal.LevainBuild{{Lines: []journal.Ingredient{
				{ID: "seed", Role: formula.Culture, Grams: 40}, {ID: "fed", Role: formula.Flour, Grams: 80}, {ID: "drink", Role: formula.Water, Grams: 80}}}}
		})
	})
	b.Wait()
	if words := f.levain.text.String(); !strings.Contains(words, "the levain is ripe") || !strings.Contains(words, "a guess, for no feeding of Gorse") || f.levain.use.Text() != "Put the build into the day" {
		t.Fatalf("it says %q and offers %q", words, f.levain.use.Text())
	}
	f.levain.use.OnTapped()
	b.Wait()
	step, ok := levainStep(pagestest.Stored[journal.Bake](b, id).Steps)
	if !ok || f.levain.use.Visible() || step.Min != toMinutes(f.levain.ripe.RipeFrom).Duration() || step.Max != toMinutes(f.levain.ripe.RipeTo).Duration() {
		t.Fatalf("the levain's step is %+v, and it still offers %q", step, f.levain.use.Text())
	}
	f.mode.OnChanged(int(plan.Around))
	b.Wait()
	b.Type(f.when, "6 Mar 16:00")
	b.Wait()
	day, _ := pagestest.Stored[journal.Bake](b, id).Day()
	built, mixed := day.Start, anchor{of: plan.Around}.in
	if want := time.Date(2026, 3, 6, 16, 0, 0, 0, time.UTC); !mixed(day).Equal(want) || want.Sub(built) != toMinutes(f.levain.ripe.Peak).Duration() {
		t.Errorf("to mix at four it is built at %v and mixed at %v; best after %v h", built, mixed(day), f.levain.ripe.Peak)
	}
	// And the other way: built then, it is mixed then.
	f.mode.OnChanged(int(plan.Beginning))
	b.Wait()
	if day, _ := pagestest.Stored[journal.Bake](b, id).Day(); !day.Start.Equal(built) || mixed(day).Sub(built) < step.Min || mixed(day).Sub(built) > step.Max {
		t.Errorf("built at %v it is mixed at %v", day.Start, mixed(day))
	}
	if len(b.Failed) > 0 {
		t.Error(b.Failed)
	}
}

// A second plan for the hour of the first wants the oven when that has it: it is said, and
// the nearest plan at which the oven is free is offered.
func TestTwoDoughsWantOneOven(t *testing.T) {
	b, f, id := planned(t)
	if len(f.words) > 0 && strings.Contains(strings.Join(f.words, " "), "oven") {
		t.Errorf("alone it says %q", f.words)
	}
	other := putDough(b, "Deck rye", journal.Planned, b.Clock.Add(10*time.Minute))
	first := pagestest.Stored[journal.Bake](b, id).Steps
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, other.ID, func(x *journal.Bake) {
			for i, s := range first { // ten minutes after the first, all day
				x.Steps[i].PlannedAt, x.Steps[i].Planned = s.PlannedAt.Add(10*time.Minute), s.Planned
			}
		})
	})
	f.plan()
	b.Wait()
	if words := f.saying.String(); !strings.Contains(words, "this dough and Deck rye both need the oven") || f.nearest == nil {
		t.Fatalf("it says %q, nearest %v", words, f.nearest)
	}
	f.takeNearest()
	b.Wait()
	if words := f.saying.String(); strings.Contains(words, "want the oven") {
		t.Errorf("moved, it says %q", words)
	}
	mine, theirs := mustDay(pagestest.Stored[journal.Bake](b, id)), mustDay(pagestest.Stored[journal.Bake](b, other.ID))
	if got := mine.Clashes(b.Clock, theirs); len(got) > 0 {
		t.Errorf("moved, they clash: %v", got)
	}
}

func mustDay(b *journal.Bake) plan.Plan {
	day, _ := b.Day()
	return day
}

func TestStartingTheDay(t *testing.T) {
	b, _, id := planned(t)
	p := b.Show(open, pages.At(pages.BakeDay, id)).(*page)
	b.Wait()
	b.Clock = b.Clock.Add(20 * time.Minute) // the kettle was slow
	b.Press("G")
	bake := pagestest.Stored[journal.Bake](b, id)
	if bake.State != journal.Running || !bake.Steps[0].PlannedAt.Equal(b.Clock) {
		t.Errorf("started it is %q from %v", bake.State, bake.Steps[0].PlannedAt)
	}
	if _, ok := p.face.(*dayStage); !ok {
		t.Fatalf("the page shows %T", p.face)
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	if _, ok := p.face.(*planStage); !ok {
		t.Errorf("undone, the page shows %T", p.face)
	}
}

func TestBakeItAgain(t *testing.T) {
	b := pagestest.New(t)
	first := putDough(b, "Ferry loaf", journal.Finished, b.Clock.AddDate(0, 0, -7))
	p := b.Show(open, pages.Route{Name: pages.BakeDay, ID: first.ID, More: Again}).(*page)
	b.Wait()
	f := p.face.(*planStage)
	// Begun at nine it would be shaped and baked in the night: the cold rest
	// gives way, and that alone is different.
	if f.against == nil || len(f.apartAs) != 1 || f.apartAs[0].What != "Cold proof" {
		t.Fatalf("as it was, it differs by %v", f.apartAs)
	}
	bakeHolder{f}.Edit("salt", bakeHolder{f}.Mix().SetGrams("salt", 22))
	bakeHolder{f}.EditSteps("bulk", func(steps *[]journal.Step) { (*steps)[3].Planned = 90 * time.Minute })
	b.Wait()
	var words []string
	for _, d := range f.apartAs {
		words = append(words, d.What+": "+d.Was+" → "+d.Now)
	}
	all := strings.Join(words, "\n")
	for _, want := range []string{"Salt: 1.8\u00a0% → 2.0\u00a0%", "Salt: 20\u00a0g, 1.8\u00a0% → 22\u00a0g, 2.0\u00a0%", "Bulk: 1\u00a0h → "} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is missing in\n%s", want, all)
		}
	}
	// Half of it wholegrain, it is said how much more water that wants.
	if f.wish(pagestest.Stored[journal.Bake](b, p.id)) != "" {
		t.Errorf("with the same flours it says %q", f.wish(pagestest.Stored[journal.Bake](b, p.id)))
	}
	bakeHolder{f}.Edit("flour", func(m *dough.Mix) {
		m.Ingredients = append(m.Ingredients, journal.Ingredient{ID: "whole", Name: "Wholemeal", Role: formula.Flour, Grams: 1000, Flour: &journal.FlourFacts{Wholegrain: 100}})
	})
	b.Wait()
	if words := f.wish(pagestest.Stored[journal.Bake](b, p.id)); !strings.Contains(words, "should need +") || !strings.Contains(words, "g of water") {
		t.Errorf("with wholegrain it says %q", words)
	}
	if again := pagestest.Stored[journal.Bake](b, p.id); again.From != first.ID || again.State != journal.Planned {
		t.Errorf("the plan is %+v", again)
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
}

func TestAPlanThatIsUndoneIsLeft(t *testing.T) {
	b := pagestest.New(t)
	first := putDough(b, "Ferry loaf", journal.Finished, b.Clock.AddDate(0, 0, -7))
	b.Show(open, pages.Route{Name: pages.BakeDay, ID: first.ID, More: Again})
	b.Wait()
	for range 5 {
		if b.Backs > 0 {
			break
		}
		if _, err := b.Journal.Undo(); err != nil {
			t.Fatal(err)
		}
	}
	if b.Backs != 1 {
		t.Errorf("it was left %d times", b.Backs)
	}
}

// TestTheCalendarFileParses reads what the page writes with another reader than
// the writer's own test does, and looks for the alarms.
func TestTheCalendarFileParses(t *testing.T) {
	b, _, id := planned(t)
	_, day, ok := dayOf(b.Env, id)
	if !ok {
		t.Fatal("no day")
	}
	var out bytes.Buffer
	if err := calendar.Write(&out, calendar.Options{Stamp: b.Clock, Lead: lead}, day); err != nil {
		t.Fatal(err)
	}
	cal, err := ics.ParseCalendar(&out)
	if err != nil {
		t.Fatal(err)
	}
	events := cal.Events()
	// Ten steps, six turns and the end.
	if len(events) != 17 {
		t.Errorf("%d entries, want 17", len(events))
	}
	alarms := 0
	for _, e := range events {
		alarms += len(e.Alarms())
	}
	// Two each for mixing, six turns, shaping, heating, two of baking, cooling, the end.
	if alarms != 2*13 {
		t.Errorf("%d alarms, want 26", alarms)
	}
	start, err := events[0].GetStartAt()
	if err != nil || !start.Equal(day.Start) {
		t.Errorf("it begins at %v (%v), want %v", start, err, day.Start)
	}
}

func TestTheKitchenSheet(t *testing.T) {
	b, _, id := planned(t)
	bake, day, _ := dayOf(b.Env, id)
	s, look := kitchenSheet(bake, day, measure.Units{}, b.Env)
	var out bytes.Buffer
	if err := sheet.Write(&out, s, look); err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(out.Bytes(), []byte("%PDF-")) {
		t.Error("it is no PDF")
	}
	if len(s.Moments) != 17 || len(s.Tables) != 1 || s.Title != "Ferry loaf" {
		t.Errorf("it has %d moments and %d tables under %q", len(s.Moments), len(s.Tables), s.Title)
	}
	if got := pages.FileName(`Spelt/oats: "new"? `, "bake", ".pdf"); got != "Spelt-oats- -new-.pdf" && got != "Spelt-oats- -new--.pdf" {
		t.Errorf("the file is called %q", got)
	}
}

// TestAdviseWater has the rule worked out by hand in each row; the rule itself is
// checked against published examples where it lives.
func TestAdviseWater(t *testing.T) {
	c := func(v formula.Celsius) *formula.Celsius { return &v }
	kitchen := c(20)
	for _, tt := range []struct {
		name               string
		plan               journal.WaterPlan
		kitchen            *formula.Celsius
		learned            learned
		want               formula.Celsius
		known              bool
		from, ice, caution string
	}{
		{name: "nothing is wanted", from: "how warm the dough should be"},
		{name: "nothing is known", plan: journal.WaterPlan{Wanted: c(25)}, from: "how warm the flour and the room are"},
		{name: "three temperatures, no friction known", plan: journal.WaterPlan{Wanted: c(25), Flour: c(20), Room: c(22)},
			known: true, want: 33, from: "no friction"}, // 75 - 42
		{name: "four, and friction given", plan: journal.WaterPlan{Wanted: c(25), Flour: c(20), Room: c(22), Levain: c(24), Friction: c(2)},
			known: true, want: 32, from: "(yours)"}, // 100 - 66 - 2
		{name: "learned friction", plan: journal.WaterPlan{Wanted: c(25), Flour: c(20), Room: c(22)},
			learned: learned{LearnedFriction: formula.LearnedFriction{Median: 3, Doughs: 11}, known: true}, known: true, want: 30, from: "learned from 11 doughs"},
		{name: "the kitchen stands in", plan: journal.WaterPlan{Wanted: c(25)}, kitchen: kitchen, known: true, want: 35, from: "as warm as your kitchen", caution: "about 35"},
		{name: "a tap too warm", plan: journal.WaterPlan{Wanted: c(22), Flour: c(27), Room: c(30), Tap: c(20)},
			known: true, want: 9, from: "3 × ", ice: "77\u00a0g of ice"}, // 700 x 11 / 100
		{name: "the yeast would stop", plan: journal.WaterPlan{Wanted: c(28), Flour: c(15), Room: c(18)},
			known: true, want: 51, caution: "yeast stops growing at about 35"},
		{name: "no kitchen has it", plan: journal.WaterPlan{Wanted: c(18), Flour: c(27), Room: c(30), Tap: c(20)},
			known: true, want: -3, caution: "no kitchen has"},
		{name: "it would scald", plan: journal.WaterPlan{Wanted: c(32), Flour: c(10), Room: c(12)},
			known: true, want: 74, caution: "scald"},
	} {
		a := adviseWater(tt.plan, false, tt.kitchen, tt.learned, 700, measure.Units{})
		if (a.Water != nil) != tt.known || tt.known && (*a.Water-tt.want > 1e-9 || tt.want-*a.Water > 1e-9) {
			t.Errorf("%s: %v, want %v", tt.name, a.Water, tt.want)
		}
		if !strings.Contains(a.From, tt.from) || !strings.Contains(a.Ice, tt.ice) || !strings.Contains(a.Caution, tt.caution) || tt.caution == "" && a.Caution != "" {
			t.Errorf("%s: it says %q, %q, %q", tt.name, a.From, a.Ice, a.Caution)
		}
	}
	if got := (measure.Units{Fahrenheit: true}).Warmer().Write(5); got != "9\u00a0°F" {
		t.Errorf("5 degrees Celsius more are %q", got)
	}
}

// With weights the water is a balance of heat, and the rule is told beside it.
func TestWaterByWeight(t *testing.T) {
	c := func(v formula.Celsius) *formula.Celsius { return &v }
	b := &journal.Bake{
		Water: journal.WaterPlan{Wanted: c(26), Flour: c(20), Room: c(20), Levain: c(5)},
		Ingredients: []journal.Ingredient{
			{Name: "wheat", Role: formula.Flour, Grams: 800}, {Name: "water", Role: formula.Water, Grams: 520},
			{Name: "levain", Role: formula.Culture, Grams: 200, Hydration: new(formula.Percent(100))},
		},
	}
	l := learned{kitchen: formula.LearnKitchen(nil)}
	rule := adviseWater(b.Water, true, nil, l, 520, measure.Units{})
	a := byWeight(rule, b, nil, l, measure.Units{})
	if rule.Water == nil || *rule.Water != 59 || a.Water == nil || *a.Water < 33 || *a.Water > 40 || a.Caution != (measure.Units{}).Say(formula.CheckWater(*a.Water).Line()) {
		t.Errorf("rule %v, by weight %v, %q", rule.Water, a.Water, a.Caution)
	}
	if !strings.Contains(a.From, "59\u00a0°C") || !strings.Contains(a.From, "from weights") {
		t.Errorf("it says %q", a.From)
	}
	// Left blank, the levain is as warm as the kitchen, for the rule and for the balance.
	blank := *b
	blank.Water.Levain = nil
	blankRule := adviseWater(blank.Water, true, nil, l, 520, measure.Units{})
	if got := byWeight(blankRule, &blank, nil, l, measure.Units{}); *blankRule.Water != 44 || *got.Water > 34 || *got.Water < 30 || !strings.Contains(got.From, "as warm as your kitchen") {
		t.Errorf("with the levain left blank: rule %v, by weight %v, %q", *blankRule.Water, *got.Water, got.From)
	}
	own := *b
	own.Water.Friction = c(2)
	if got := byWeight(rule, &own, nil, l, measure.Units{}); got.Water != rule.Water {
		t.Error("a friction that the baker set is passed over")
	}
	if got := byWeight(rule, &journal.Bake{Water: b.Water}, nil, l, measure.Units{}); got.Water != rule.Water {
		t.Error("a balance without weights")
	}
}

func TestFrictionIsLearnedFromOtherBakes(t *testing.T) {
	b := pagestest.New(t)
	for _, dough := range []formula.Celsius{24, 25, 27} { // with the culture as warm as the room: friction 96-64-30=2, 6, 14
		bake := putDough(b, "Ferry loaf", journal.Finished, b.Clock)
		b.Put(func(tx *journal.Tx) error {
			return journal.Change(tx, bake.ID, func(b *journal.Bake) {
				b.Water = journal.WaterPlan{Flour: new(formula.Celsius(20)), Room: new(formula.Celsius(22)), Water: new(formula.Celsius(30)), Dough: new(dough)}
			})
		})
	}
	l, err := learn(b.Journal, "")
	if err != nil || !l.known || l.Doughs != 3 || l.Median != 6 {
		t.Errorf("learned %+v (%v), want 6 °C from 3 doughs", l, err)
	}
}

func TestHowTheDayWent(t *testing.T) {
	b := pagestest.New(t)
	bake := putDough(b, "Ferry loaf", journal.Running, b.Clock)
	day, _ := bake.Day()
	for i, m := range day.Timeline(time.Time{}) {
		var err error
		if i == 3 {
			day, err = day.Skip(m.Ref, m.Due)
		} else {
			day, err = day.Done(m.Ref, m.Due.Add(6*time.Minute))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	bake.SetDay(day)
	if got := dayWords(bake, measure.Units{}); got != "The day ended 6\u00a0min late, with 1 left out" {
		t.Errorf("it says %q", got)
	}
	rows := deviationRows(bake, b.Clock, measure.Units{})
	if r := rows[0]; r.Title != "Mix" || r.Clock != "09:00" || r.By != "6\u00a0min late" {
		t.Errorf("mixing: %+v", r)
	}
	if r := rows[3]; r.Title != "Fold 1 of 6" || r.By != "left out" || r.Clock != "" {
		t.Errorf("the turn left out: %+v", r)
	}
}

func TestAPlanWithoutStepsTakesUsualOnes(t *testing.T) {
	b := pagestest.New(t)
	bake := &journal.Bake{Name: "Anchor roll", State: journal.Planned, At: b.Clock}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, bake) })
	p := b.Show(open, pages.At(pages.BakeDay, bake.ID)).(*page)
	b.Wait()
	b.Press("G") // there is nothing to start yet
	if pagestest.Stored[journal.Bake](b, bake.ID).State != journal.Planned || len(b.Said) == 0 {
		t.Errorf("a day without steps was started; it said %v", b.Said)
	}
	none := p.face.(*planStage).none
	if !none.Visible() {
		t.Error("nothing stands in the place of the schedule")
	}
	for _, l := range pagestest.All[*kit.Link](none) {
		l.OnTapped()
	}
	b.Wait()
	if none.Visible() {
		t.Error("a plan with steps is said to have none")
	}
	if day, ok := pagestest.Stored[journal.Bake](b, bake.ID).Day(); !ok || len(day.Steps) != len(plan.CountryLoaf()) {
		t.Errorf("it has %d steps", len(day.Steps))
	}
}
