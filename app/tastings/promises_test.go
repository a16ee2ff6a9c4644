package tastings

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/measure"
)

// The list says what comes next, and beneath it, by name, the loaves that are compared.
func TestTheListSaysWhatComesNext(t *testing.T) {
	b := newBench(t)
	trial := b.trial()
	b.goTo(pages.At(pages.Trial, trial.ID))
	b.key("T")
	b.goTo(pages.Route{Name: pages.Tastings})
	at := b.tasting().At
	b.mustSay(pages.TastingName(b.tasting()) + "” comes next: " + b.Env.Units().When(at, b.Env.Now()))
	var names []string
	pagestest.Each(b.Window.Content(), func(o fyne.CanvasObject) {
		if cell, ok := o.(*kit.PhotoCell); ok {
			names = append(names, cell.Item().Title)
		}
	})
	if strings.Join(names, ", ") != "Harbour, Gorse" {
		t.Errorf("the loaves are named %q", names)
	}
	now := at.Add(time.Hour)
	rows, err := listRows(b.Env.Journal, b.Env.Units())
	if err != nil {
		t.Fatal(err)
	}
	if got := listHeading(rows, measure.Units{}, now); got != "Nothing tasted blind yet" {
		t.Errorf("after its time the heading is %q", got)
	}
}

// Every code that a loaf went by is named, however many there are.
func TestEveryCodeOfALoafIsNamed(t *testing.T) {
	codes := []string{"301", "158", "632", "480", "756", "911"}
	for n := 1; n <= len(codes); n++ {
		words := wasWords(codes[:n])
		for _, code := range codes[:n] {
			if !strings.Contains(words, code) {
				t.Errorf("of %d codes %s is missing: %q", n, code, words)
			}
		}
	}
	if got := wasWords(nil); got != "was not tasted" {
		t.Errorf("without a code: %q", got)
	}
}

// A trial names the bowl of each loaf by its mark, and the lanes of its days stand in the
// order of its loaves.
func TestATrialNamesItsBowlsAndLanes(t *testing.T) {
	b := newBench(t)
	trial := b.trial()
	for i, arm := range trial.Arms {
		err := b.Env.Journal.Do("baked", func(tx *journal.Tx) error {
			return journal.Change(tx, arm.Bake, func(x *journal.Bake) {
				x.State = journal.Finished
				x.Steps[0].At = b.Clock.Add(time.Duration(-5-i) * time.Hour) // the second ran ahead
				x.Steps[0].End = x.Steps[0].At.Add(time.Hour)
			})
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	b.goTo(pages.At(pages.Trial, trial.ID))
	for _, arm := range trial.Arms {
		b.mustSay("bowl with the " + arm.Mark)
	}
	var lanes []string
	pagestest.Each(b.Window.Content(), func(o fyne.CanvasObject) {
		if strip, ok := o.(*kit.DayLanes); ok {
			pagestest.Each(strip, func(o fyne.CanvasObject) {
				if name, ok := o.(*canvas.Text); ok && name.TextStyle.Bold {
					lanes = append(lanes, name.Text)
				}
			})
		}
	})
	if strings.Join(lanes, ", ") != "Harbour, Gorse" {
		t.Errorf("the lanes are named %q", lanes)
	}
}

// What a trial will tell is said of what is varied, and no more than one baking can tell.
func TestANewTrialSaysWhatItWillTell(t *testing.T) {
	b := newBench(t)
	b.trial()
	b.goTo(pages.Route{Name: pages.Trial})
	p, ok := b.Page().(*beginTrialPage)
	if !ok {
		t.Fatalf("the page is %T", b.Page())
	}
	b.mustSay("What it will tell")
	for i, v := range variations() {
		p.varied = i
		p.other = "the shaping"
		p.ask()
		word := variedWord(v.store)
		if v.store == "" {
			word = "the shaping"
		}
		b.mustSay("That is one baking: whether it is " + word + " each time, only further trials can tell.")
	}
}

// A new trial of two cultures shows the newest picture of each: of its readings, too, and
// else of the last bake with it.
func TestALoafToBeShowsItsCulture(t *testing.T) {
	b := newBench(t)
	b.trial()
	cultures, err := journal.All[journal.Culture](b.Env.Journal)
	if err != nil {
		t.Fatal(err)
	}
	put := func(owner journal.Ref, hash string, age time.Duration) {
		b.Put(func(tx *journal.Tx) error {
			return journal.Put(tx, &journal.Photo{Owner: owner, Hash: hash, Taken: b.Clock.Add(-age), Width: 40, Height: 30})
		})
	}
	is := func(want string) {
		t.Helper()
		if got, err := pictureOf(b.Env.Journal, cultures[0].ID); err != nil || got != want {
			t.Errorf("its picture is %.4q (%v), want %.4q", got, err, want)
		}
	}
	is("")
	bake := &journal.Bake{Name: "Ferry loaf", At: b.Clock.Add(-30 * time.Hour), State: journal.Finished, Culture: cultures[0].ID}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, bake) })
	put(journal.RefOf(bake), strings.Repeat("b", 64), 30*time.Hour)
	is(strings.Repeat("b", 64))
	put(journal.RefOf(cultures[0]), strings.Repeat("c", 64), 20*time.Hour)
	is(strings.Repeat("c", 64))
	reading := &journal.Reading{Culture: cultures[0].ID, At: b.Clock.Add(-time.Hour)}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, reading) })
	put(journal.RefOf(reading), strings.Repeat("d", 64), time.Hour)
	is(strings.Repeat("d", 64))
}

// Of steps on one day the table names the day once.
func TestATrialsTableNamesADayOnce(t *testing.T) {
	at := time.Date(2026, 2, 28, 15, 39, 0, 0, time.UTC)
	field := func(after time.Time) string {
		f := kit.NewWhenField(kit.WhenOptions{Now: func() time.Time { return at.Add(96 * time.Hour) }, After: after})
		f.SetTime(at)
		var words []string
		pagestest.Each(f, func(o fyne.CanvasObject) {
			if text, ok := o.(*kit.Text); ok {
				words = append(words, text.String())
			}
		})
		return strings.Join(words, " ")
	}
	if first, next := field(time.Time{}), field(at.Add(-8*time.Hour)); !strings.Contains(first, "Feb 15:39") || strings.Contains(next, "Feb") || !strings.Contains(next, "15:39") {
		t.Errorf("the first is %q, the next on that day %q", first, next)
	}
	if other := field(at.Add(-20 * time.Hour)); !strings.Contains(other, "Feb") {
		t.Errorf("on another day it is %q", other)
	}
}
