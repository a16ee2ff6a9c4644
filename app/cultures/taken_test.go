package cultures

import (
	"strings"
	"testing"
	"time"

	"twinloaf/app/kit"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/measure"
)

// putFed puts a culture with one feeding, an hour ago, into the journal.
func putFed(b *pagestest.Bench) *journal.Culture {
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -30)})
	b.Put(func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Feeding{Culture: c.ID, At: b.Clock.Add(-time.Hour), Kept: 60, Flour: 120, Water: 120})
	})
	return c
}

// What went into a bake stays tied to it when the taking is altered: else the step of the
// bake would take it once more.
func TestAlteringATakingKeepsItsBake(t *testing.T) {
	b := pagestest.New(t)
	c := putFed(b)
	rec := &journal.Feeding{Culture: c.ID, At: b.Clock, Kept: 250, Taken: []journal.TakenOff{{Grams: 50, For: journal.Baked, Bake: "some bake"}}}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, rec) })
	b.Loop.Own()
	s := retake(b.Env, lifeOf(t, b, c.ID), rec)
	b.Type(s.amount, "60")
	s.keep()
	got := pagestest.Stored[journal.Feeding](b, rec.ID)
	if got.Kept != 240 || len(got.Taken) != 1 || got.Taken[0].Grams != 60 || got.Taken[0].Bake != "some bake" {
		t.Errorf("became %+v", got)
	}
}

// One that left the jar for two things is altered where both stand, and neither is lost.
func TestATakingForTwoThingsIsAlteredAsTwo(t *testing.T) {
	b := pagestest.New(t)
	c := putFed(b)
	rec := &journal.Feeding{Culture: c.ID, At: b.Clock, Kept: 200, Taken: []journal.TakenOff{
		{Grams: 30, For: journal.Baked, Bake: "some bake"}, {Grams: 20, For: journal.Baked, Bake: "another"}, {Grams: 50, For: journal.Given}}}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, rec) })
	b.Loop.Own()
	openEntry(b.Env, lifeOf(t, b, c.ID), journal.RefOf(rec))
	fields := pagestest.All[*kit.TextField](b.Window.Canvas().Overlays().Top())
	b.Type(fields[len(fields)-1], "to two friends") // the note
	kit.SubmitDialog(b.Window.Canvas())
	got := pagestest.Stored[journal.Feeding](b, rec.ID)
	if got.Note != "to two friends" || len(got.Taken) != 3 || got.Taken[1].Bake != "another" || got.Taken[2].Grams != 50 {
		t.Errorf("became %+v", got)
	}
}

// What stays is what was in the jar at the time that is written down, not now.
func TestATakingOfAnEarlierHour(t *testing.T) {
	b := pagestest.New(t)
	c := putFed(b)
	b.Put(func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Feeding{Culture: c.ID, At: b.Clock.Add(-24 * time.Hour), Kept: 20, Flour: 40, Water: 40})
	})
	b.Loop.Own()
	s := take(b.Env, lifeOf(t, b, c.ID))
	b.Type(s.amount, "50")
	b.Type(pagestest.All[*kit.WhenField](b.Window.Canvas().Overlays().Top())[0], "07:00")
	if words := s.left.String(); !strings.HasPrefix(words, "50\u00a0g of 100\u00a0g stay") {
		t.Errorf("it is said that %q", words)
	}
	s.keep()
	for _, f := range lifeOf(t, b, c.ID).Feedings {
		if len(f.Taken) > 0 && f.Kept != 50 {
			t.Errorf("%v g are written down as left", f.Kept)
		}
	}
}

// What is put back from a levain has no weight that was taken: it is said what is missing.
func TestATakingWithoutAWeight(t *testing.T) {
	b := pagestest.New(t)
	c := putFed(b)
	b.Loop.Own()
	s := take(b.Env, lifeOf(t, b, c.ID))
	s.keep()
	if words := s.left.String(); words != "Say how much is taken." || !s.sheet.Open() {
		t.Errorf("it is said that %q", words)
	}
}

// Of a jar that nobody weighed it is not known what stays, before nor after something is taken.
func TestATakingFromAJarThatNobodyWeighed(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse"})
	b.Loop.Own()
	s := take(b.Env, lifeOf(t, b, c.ID))
	b.Type(s.amount, "50")
	s.keep()
	l := lifeOf(t, b, c.ID)
	if len(l.Feedings) != 1 {
		t.Fatalf("%d takings, %v", len(l.Feedings), b.Failed)
	}
	if jar, known := l.Jar(b.Clock); known {
		t.Errorf("%v g are said to be in the jar", jar.Mix.Total())
	}
	if words := feedingWords(l.Feedings[0], measure.Units{}); !strings.HasPrefix(words, "50\u00a0g taken out · ") {
		t.Errorf("it is written down as %q", words)
	}
	if e := feedingEntry(l.Feedings[0], measure.Units{}); e.figures[keptFigure] != "" {
		t.Errorf("%q are listed as kept", e.figures[keptFigure])
	}
}

// Splitting off all that a jar holds would end the parent: that is asked for, as a taking asks.
func TestSplittingOffAllOfItIsAskedFor(t *testing.T) {
	for split, asks := range map[float64]bool{25: false, 120: true} {
		b := pagestest.New(t)
		c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -30)})
		b.Put(func(tx *journal.Tx) error {
			return journal.Put(tx, &journal.Feeding{Culture: c.ID, At: b.Clock.Add(-5 * time.Hour), Kept: 20, Flour: 50, Water: 50})
		})
		s := newCulture(b.Env, c.ID, func(journal.ID) {})
		s.birth.name, s.birth.split = "Gorse, stiff", split
		s.keep()
		all, err := journal.All[journal.Culture](b.Journal)
		if err != nil {
			t.Fatal(err)
		}
		if kept := len(all) == 2; kept == asks || strings.Contains(b.Texts(), "Keep nothing back?") != asks {
			t.Errorf("%v g of 120 g split off: %d cultures, it says\n%s", split, len(all), b.Texts())
		}
	}
}

// Who is asked whether to delete a temperature log is told what it holds.
func TestATemperatureLogIsToldBeforeItGoes(t *testing.T) {
	b := pagestest.New(t)
	c := &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, -1, 0)}
	putCulture(b, c)
	log := &journal.TempLog{Culture: c.ID, From: b.Clock.Add(-3 * time.Hour), To: b.Clock.Add(-time.Hour), Count: 24}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, log) })
	b.Loop.Own()
	openEntry(b.Env, lifeOf(t, b, c.ID), journal.RefOf(log))
	var said []string
	for _, x := range pagestest.All[*kit.Text](b.Window.Canvas().Overlays().Top()) {
		said = append(said, strings.ReplaceAll(x.String(), "\u00a0", " "))
	}
	if all := strings.Join(said, "\n"); !strings.Contains(all, "Temperatures from Mar 4 05:54 to Mar 4 07:54: 24.") {
		t.Errorf("it says\n%s", all)
	}
}
