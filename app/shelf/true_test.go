package shelf

import (
	"strings"
	"testing"
	"time"

	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/app/past"
	"twinloaf/assets/words"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
)

// A flour that was bought and never baked with is one, too: what takes its name is said to
// become one with it.
func TestRenamingToAFlourOfTheLarder(t *testing.T) {
	b := pagestest.New(t)
	baked(t, b)
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, &journal.Flour{Name: "Light rye"}) })
	p := b.Show(Routes()[pages.Flour], pages.Route{Name: pages.Flour, More: "dark rye"}).(*flourPage)
	b.Wait()
	b.Loop.Own()
	p.facts.rename("light rye")
	if said := b.Texts(); !strings.Contains(said, "Make one flour of the two?") {
		t.Errorf("the sheet says\n%s", said)
	}
}

// A view that was kept asks for a flour under the name that it has now.
func TestRenamingAFlourThatAViewAsksFor(t *testing.T) {
	b := pagestest.New(t)
	baked(t, b)
	asked := state{Order: shelf.Order{By: shelf.ShareOf("dark rye")}}
	asked.Filter.SetFlour(shelf.FlourPart{Flour: "dark rye", AtLeast: new(1.0)})
	filter, err := asked.keep()
	if err != nil {
		t.Fatal(err)
	}
	v := &journal.View{Name: "rye", Filter: filter}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, v) })
	p := b.Show(Routes()[pages.Flour], pages.Route{Name: pages.Flour, More: "dark rye"}).(*flourPage)
	b.Wait()
	b.Loop.Own()
	p.facts.rename("Night rye")
	b.Press("Ctrl+Enter")
	b.Wait()
	s, err := readState(pagestest.Stored[journal.View](b, v.ID).Filter)
	if part := s.Filter.Flour("night rye"); err != nil || part == nil || *part.AtLeast != 1 || len(s.Filter.Flours) != 1 || s.Order.By != shelf.ShareOf("night rye") {
		t.Errorf("the view asks for %+v, %v", s, err)
	}
}

// A group by hydration opens on the bakes that it counted: the next begins where it ends.
func TestAGroupByHydrationHoldsWhatItCounted(t *testing.T) {
	s := shelf.New([]shelf.Row{
		{ID: "a", At: march, Figures: []shelf.Value{{Figure: shelf.Hydration, Value: 70}}},
		{ID: "b", At: march, Figures: []shelf.Value{{Figure: shelf.Hydration, Value: 69.9}}},
		{ID: "c", At: march, Figures: []shelf.Value{{Figure: shelf.Hydration, Value: 75}}},
	})
	for _, g := range s.Grouped(s.Filter(shelf.Filter{}).Rows(shelf.Order{}), shelf.ByHydrationBand) {
		at := state{GroupBy: shelf.ByHydrationBand}
		into(&at, g.Key)
		if n := len(s.Filter(at.Filter).Rows(shelf.Order{})); n != len(g.Rows) {
			t.Errorf("the group %s counts %d and opens on %d", g.Key, len(g.Rows), n)
		}
		if said := speak().rangeWords(at.Filter.Ranges[0]); g.Key == "070" && said != "hydration 70 to below 75\u00a0%" {
			t.Errorf("it opens as %q", said)
		}
	}
}

// Nothing is said to be alike over a table of what differs, though all of it may follow from
// something that was not written down.
func TestTheHeadingOfAComparisonFitsItsTable(t *testing.T) {
	c := comparison{differ: []sideRow{{name: "water", values: []string{"350", "700"}, gist: []string{"70", "70"}}}}
	if got := compareHeading(c, 2); got != "One thing differs: water" {
		t.Errorf("%q", got)
	}
}

// A kept view from elsewhere may name a figure and no bounds.
func TestARangeWithoutBounds(t *testing.T) {
	if got := speak().rangeWords(shelf.Range{Figure: shelf.Hydration}); got != "hydration" {
		t.Errorf("%q", got)
	}
}

// Where a system has no type for the grain that a type on the bag tells of, the grain is named.
func TestTheGrainOfATypeIsNamed(t *testing.T) {
	rows, _ := speak().typeRows(journal.FlourFacts{Type: "1150"})
	for _, r := range rows {
		if strings.Contains(r.ash, "no type known") && !strings.Contains(r.ash, "rye") {
			t.Errorf("%s: %q", r.system, r.ash)
		}
	}
}

// One fold is one, and so is one bake.
func TestOneFold(t *testing.T) {
	if err := words.Load(); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		step journal.Step
		want string
	}{
		{journal.Step{Done: []time.Time{march}}, "1 fold"},
		{journal.Step{Times: 1}, "1 fold planned"},
	} {
		if got := speak().stepWords(tt.step); got != tt.want {
			t.Errorf("%+v: %q, want %q", tt.step, got, tt.want)
		}
	}
}

// A bake that was begun elsewhere has the day that it was here, on every page.
func TestTheDayOfABakeFromElsewhere(t *testing.T) {
	here := time.FixedZone("here", -5*3600)
	now := time.Date(2026, 3, 4, 8, 0, 0, 0, here)
	begun := time.Date(2026, 3, 2, 1, 0, 0, 0, time.UTC) // the first of March here
	if got := (measure.Units{}).Day(begun, now); got != (measure.Units{}).Day(begun.In(here), now) {
		t.Errorf("it is dated %q", got)
	}
}

// A bound that a bar left out is said so, and stays left out when the other one is changed.
func TestABoundThatIsLeftOut(t *testing.T) {
	b := pagestest.New(t)
	var got shelf.Range
	d := (&past.BakeIndex{}).Describe(shelf.Hydration, b.Env.Units())
	f := newRangeFacet(b.Env.Main, d, func(r shelf.Range) { got = r })
	spread := shelf.Spread{Edges: []float64{70, 72, 74}, Counts: []float64{1, 2}, Least: 70, Most: 73}
	f.show(spread, &shelf.Range{Figure: shelf.Hydration, AtLeast: new(70.0), AtMost: new(72.0), Below: true}, d)
	if f.bounds.to.String() != "below" {
		t.Errorf("before the upper bound stands %q", f.bounds.to.String())
	}
	f.bounds.low.SetValue(68)
	f.bounds.tell()
	if !got.Below || *got.AtLeast != 68 || *got.AtMost != 72 {
		t.Errorf("with another lower bound it asks for %+v", got)
	}
	f.bounds.high.SetValue(73)
	f.bounds.tell()
	if got.Below {
		t.Error("a bound that was typed is left out")
	}
	f.show(spread, &got, d)
	if f.bounds.to.String() != "to" {
		t.Errorf("before a bound that was typed stands %q", f.bounds.to.String())
	}
}
