package cultures

import (
	"math"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
)

// TestAFortnight begins a culture, feeds it and reads it over fourteen days by the
// page's own dialogs, under a clock of its own: the pause is named on the days that look
// like it, and the line of readiness turns.
func TestAFortnight(t *testing.T) {
	b := pagestest.New(t)
	start := time.Date(2026, 3, 4, 8, 0, 0, 0, time.UTC)
	b.Clock = start
	var id journal.ID
	s := newCulture(b.Env, "", func(made journal.ID) { id = made })
	s.birth.name, s.birth.flours = "Gorse", "strong white 80, whole wheat 20"
	s.keep()
	if id == "" {
		t.Fatalf("no culture was begun: %v", b.Failed)
	}
	p := showCulture(b, id)

	want := map[int]string{
		1: "A quiet beginning", 2: "The early burst", 3: "The early burst",
		4: "The usual lull", 5: "The usual lull", 6: "The usual lull",
		7: "Waking", 8: "Waking", 9: "Waking", 10: "Waking",
		11: "Nearly there", 12: "Nearly there", 13: "Ready to bake with", 14: "Ready to bake with",
	}
	for day := 1; day <= 14; day++ {
		b.Clock = start.AddDate(0, 0, day-1)
		if day > 1 {
			f := feed(b.Env, p.now.life)
			f.form.roomC = new(24.0)
			f.keep()
			settle(b, p)
		}
		for _, h := range []int{2, 4, 6, 7} {
			b.Clock = start.AddDate(0, 0, day-1).Add(time.Duration(h) * time.Hour)
			r := read(b.Env, p.now.life)
			rise := 1 + (youth[day-1]-1)*float64(min(h, 6))/6
			if err := r.form.setHeight(b.Units().FormatNumber(rise, 3)+"x", b.Units()); err != nil {
				t.Fatal(err)
			}
			if h == 7 {
				r.form.rec.Smells = smelling(day)
			}
			r.keep()
		}
		settle(b, p)
		got := leadOf(p.now, b.Units())
		if got.State != lang.L(want[day]) {
			t.Errorf("day %d: %q, want %q (%s)", day, got.State, want[day], got.Why)
		}
		if got.State == "The usual lull" && !strings.Contains(got.Why, "go on feeding") {
			t.Errorf("day %d: the pause is named without saying what to do: %q", day, got.Why)
		}
		if got.Evidence == "" {
			t.Errorf("day %d: it does not say on which readings it rests", day)
		}
		if shown := p.words.lead.String(); !strings.HasPrefix(shown, got.State) {
			t.Errorf("day %d: the page opens with %q", day, shown)
		}
		if ready := p.now.ready.Ready; ready != (day >= 13) {
			t.Errorf("day %d: ready %v: %+v", day, ready, p.now.ready.Conditions)
		}
	}
	if len(b.Failed) > 0 {
		t.Errorf("went wrong: %v", b.Failed)
	}
	g := p.now.guide
	if !g.Lull.Found || g.Lull.First != 4 || g.Lull.Last != 6 {
		t.Errorf("lull = %+v", g.Lull)
	}
	summary := drawn(t, p.weeks.pic.figure)
	if !strings.Contains(summary, "Gorse") {
		t.Errorf("the chart tells of %q", summary)
	}
	if n := len(p.weeks.pic.places["Gorse"]); n != 14 {
		t.Errorf("%d peaks are drawn, want 14", n)
	}
	if h := headingOf(p.now.life, p.now.now); h != "Gorse, day 14" {
		t.Errorf("heading = %q", h)
	}
	if p.now.unknown != nil || p.now.forecast.Basis == ferment.BasisPublished {
		t.Errorf("forecast rests on %q, %v", p.now.forecast.Basis, p.now.unknown)
	}
}

// Mould stands above all else, and the culture is not fed on.
func TestMouldComesFirst(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -20)})
	for day := range 10 {
		putDay(b, c.ID, b.Clock.AddDate(0, 0, day-10), 2.3, smelling(8))
	}
	p := showCulture(b, c.ID)
	// It was last fed a day ago: strong, and past its best.
	if s := leadOf(p.now, b.Units()).State; s != "Strong, but hungry" {
		t.Fatalf("before: %q", s)
	}
	r := read(b.Env, p.now.life)
	r.sign(ferment.SignMould)
	if got := r.cautions.String(); !strings.Contains(got, "throw this culture away") {
		t.Errorf("the sheet says %q", got)
	}
	r.keep()
	settle(b, p)
	got := leadOf(p.now, b.Units())
	if !got.Danger || !strings.Contains(got.Why, "throw this culture away") {
		t.Errorf("lead = %+v", got)
	}
	before := len(p.now.life.Feedings)
	p.feedAgain()
	settle(b, p)
	if len(p.now.life.Feedings) != before {
		t.Error("a culture with mould was fed")
	}
	if what, _, late := dueWords(p.now.due, p.now.hasDue, p.now.now, b.Units()); what != "Do not feed it" || !late {
		t.Errorf("due: %q", what)
	}
}

func TestUndoOfAFeeding(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -20)})
	putDay(b, c.ID, b.Clock.AddDate(0, 0, -1), 2, nil)
	p := showCulture(b, c.ID)
	b.Press("G")
	settle(b, p)
	if n := len(p.now.life.Feedings); n != 2 {
		t.Fatalf("%d feedings after G: %v", n, b.Failed)
	}
	last := p.now.life.Feedings[1]
	if last.Kept != 25 || last.Flour != 50 || last.Water != 50 || len(last.Taken) != 1 || last.Taken[0].Grams != 100 {
		t.Errorf("fed again as %+v", last)
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	settle(b, p)
	if n := len(p.now.life.Feedings); n != 1 {
		t.Errorf("%d feedings after undo", n)
	}
	binFeeding(b.Env, p.now.life.Feedings[0].ID)
	settle(b, p)
	if n := len(p.now.life.Feedings); n != 0 {
		t.Errorf("%d feedings after deleting", n)
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	settle(b, p)
	if n := len(p.now.life.Feedings); n != 1 {
		t.Errorf("%d feedings after bringing back", n)
	}
}

// What decides between the two shapes is said as it is: four readings have no AICc.
func TestTheCurveSaysWhatChoseIt(t *testing.T) {
	b := pagestest.New(t)
	fed := b.Clock
	for n, want := range map[int]string{4: "lies closer to the readings", 8: "lower AICc"} {
		c := ferment.Course{Feeding: ferment.Feeding{At: fed, Kept: 20, Flour: 40, Water: 40}}
		for i := range n {
			h := 8 * float64(i+1) / float64(n)
			c.Readings = append(c.Readings, ferment.Reading{At: fed.Add(time.Duration(h * float64(time.Hour))), Rise: ferment.Rise(1 + 1.2/(1+math.Exp(4-h)))})
		}
		r := riseOf(c)
		if r.unknown = ferment.ErrAsleep; r.none != nil || r.fit.Other == nil {
			t.Fatalf("%d readings: %v", n, r.none)
		}
		if words := riseWords(r, b.Units()); !strings.Contains(words, want) {
			t.Errorf("%d readings: %q, want %q", n, words, want)
		}
	}
}
