package bakes

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/maintest"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
	"twinloaf/journal/shelf"
)

var noon = time.Date(2026, 3, 4, 12, 0, 0, 0, time.UTC) // a Wednesday

func summary(id, name string, daysAgo int, flours ...string) *journal.BakeSummary {
	c := &journal.BakeSummary{ID: journal.ID(id), Name: name, At: noon.AddDate(0, 0, -daysAgo), Text: strings.ToLower(name)}
	for _, f := range flours {
		c.Flours = append(c.Flours, journal.SummaryFlour{Key: journal.FlourKey(f), Name: f, Share: 50})
	}
	return c
}

func summaries() []*journal.BakeSummary {
	planned, running, binned := summary("p", "Next", -2, "Rye"), summary("r", "Now", 0, "Rye"), summary("b", "Gone", 1, "Rye")
	planned.State, running.State, binned.Binned = journal.Planned, journal.Running, true
	finished := summary("1", "Deck rye", 1, "Rye", "Strong white")
	finished.State, finished.AddIns = journal.Finished, []string{"poppy seed"}
	return []*journal.BakeSummary{planned, running, binned, finished, summary("2", "Ferry loaf", 3, "Strong white"), summary("3", "Spelt", 9, "Spelt")}
}

func ids(summaries []*journal.BakeSummary) string {
	var out []string
	for _, c := range summaries {
		out = append(out, string(c.ID))
	}
	return strings.Join(out, " ")
}

func TestListBakes(t *testing.T) {
	for _, tt := range []struct {
		name, flour, text string
		past              string
	}{
		{"all, newest first", "", "", "1 2 3"},
		{"by flour", "strong white", "", "1 2"},
		{"by a word of the name", "", "FERRY", "2"},
		{"by a word of a flour", "", "spel", "3"},
		{"by what else went in", "", "poppy", "1"},
		{"every word must be held", "", "rye ferry", ""},
		{"both", "strong white", "deck", "1"},
	} {
		l := listBakes(summaries(), filter{flour: tt.flour, text: tt.text})
		if got := ids(l.past); got != tt.past {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.past)
		}
		if got := ids(l.ahead); got != "r p" || l.all != 3 {
			t.Errorf("%s: ahead %q of %d past; want what is under way, then what is planned, and 3", tt.name, got, l.all)
		}
	}
}

func TestCountFlours(t *testing.T) {
	got := countFlours(summaries())
	want := []flourCount{{"strong white", "Strong white", 2}, {"rye", "Rye", 1}, {"spelt", "Spelt", 1}}
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("flour %d is %+v, want %+v: bakes to come and in the bin do not count", i, got[i], want[i])
		}
	}
}

func TestListHeading(t *testing.T) {
	oven := func(out time.Time) *journal.Bake {
		return &journal.Bake{At: out.Add(-20 * time.Hour), Steps: []journal.Step{
			{Kind: string(plan.BakeUncovered), At: out.Add(-25 * time.Minute), End: out},
			{Kind: string(plan.Cool), At: out, End: out.Add(30 * time.Hour)},
		}}
	}
	one := lists{ahead: []*journal.BakeSummary{{Name: "Deck rye", State: journal.Running}}}
	for _, tt := range []struct {
		want string
		l    lists
		last *journal.Bake
	}{
		{"Nothing is baked yet", lists{}, nil},
		{"The first bake is planned", lists{ahead: []*journal.BakeSummary{{State: journal.Planned}}}, nil},
		{"Deck rye is under way", one, oven(noon)},
		{"2 doughs are under way", lists{ahead: append(one.ahead, one.ahead...)}, nil},
		{"The last loaf came out today", lists{}, oven(noon.Add(-time.Hour))},
		{"The last loaf came out yesterday", lists{}, oven(noon.Add(-13 * time.Hour))},
		{"The last loaf came out on Saturday", lists{}, oven(noon.AddDate(0, 0, -4))},
		{"The last loaf came out on 3\u00a0Feb", lists{}, oven(noon.AddDate(0, -1, -1))},
		{"The last loaf came out yesterday", lists{}, &journal.Bake{At: noon.AddDate(0, 0, -3), Ready: noon.AddDate(0, 0, -1)}},
		{"The last bake was begun today", lists{}, &journal.Bake{At: noon.Add(-time.Hour)}},
		{"The last bake was begun yesterday", lists{}, &journal.Bake{At: noon.Add(-13 * time.Hour)}},
		{"The last bake was begun on Saturday", lists{}, &journal.Bake{At: noon.AddDate(0, 0, -4)}},
		{"The last bake was begun on 3\u00a0Feb", lists{}, &journal.Bake{At: noon.AddDate(0, -1, -1)}},
	} {
		if got := listHeading(tt.l, tt.last, measure.Units{}, noon); got != tt.want {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
}

func TestViewRow(t *testing.T) {
	c := summary("1", " ", 1, "Rye", "Strong white")
	c.Photos = 2
	c.Metrics = []shelf.Value{{Figure: shelf.Loss, Value: 12.3}, {Figure: shelf.Hydration, Value: 71.6}, {Figure: shelf.Score, Value: 7}}
	slices.SortFunc(c.Metrics, func(a, b shelf.Value) int { return cmp.Compare(a.Figure, b.Figure) })
	got := viewRow(c, nil, measure.Units{}, noon)
	want := rowView{id: "1", loaf: kit.BrownLoaf, title: "A bake without a name", when: "yesterday 12:00", flours: "Rye 50 %, Strong white 50 %",
		figures: "71.6 % hydration · 12.3 % bake loss · 2 photos", score: "7"}
	if got != want {
		t.Errorf("%+v\nwant %+v", got, want)
	}
}

// bench is a bench without thumbnails.
func bench(t *testing.T) *pagestest.Bench {
	b := pagestest.New(t)
	return b
}

// put writes bakes down and gives their IDs.
func put(b *pagestest.Bench, bakes ...*journal.Bake) {
	b.Put(func(tx *journal.Tx) error {
		for _, bake := range bakes {
			if err := journal.Put(tx, bake); err != nil {
				return err
			}
		}
		return nil
	})
}

func TestListPage(t *testing.T) {
	b := bench(t)
	var started []string
	b.Env.StartProgram = func(args ...string) error { started = args; return nil }
	p := b.Show(Routes()[pages.Bakes], pages.Route{Name: pages.Bakes}).(*listPage)
	if got := b.Texts(); !strings.Contains(got, "Nothing is baked yet") || !strings.Contains(got, "Write down the first bake") {
		t.Fatalf("an empty journal shows\n%s", got)
	}
	b.Env.OpenDemo()
	if len(started) != 1 || started[0] != "-demo" {
		t.Errorf("the demonstration is started with %q", started)
	}
	b.Press("N")
	if len(b.Went) != 1 || b.Went[0] != (pages.Route{Name: pages.Bake}) {
		t.Fatalf("N goes to %+v", b.Went)
	}

	rye := journal.Ingredient{ID: "f", Name: "Dark rye", Role: formula.Flour, Grams: 500}
	white := journal.Ingredient{ID: "g", Name: "White", Role: formula.Flour, Grams: 500}
	put(b, &journal.Bake{Name: "Deck rye", At: b.Clock.Add(-48 * time.Hour), Ingredients: []journal.Ingredient{rye}},
		&journal.Bake{Name: "Ferry loaf", At: b.Clock.Add(-time.Hour), Ingredients: []journal.Ingredient{rye, white}})
	if got := b.Texts(); !strings.Contains(got, "The last bake was begun today") {
		t.Fatalf("after two bakes it shows\n%s", got)
	}
	if len(p.shown.past) != 2 || p.shown.past[0].Name != "Ferry loaf" {
		t.Fatalf("the list holds %s", ids(p.shown.past))
	}
	pill := p.pills.Objects[1].(*kit.Pill)
	if pill.Words() != "White 1" {
		t.Fatalf("the second pill says %q", pill.Words())
	}
	test.Tap(pill)
	if len(p.shown.past) != 1 || p.shown.past[0].Name != "Ferry loaf" {
		t.Errorf("filtered by white it lists %d bakes", len(p.shown.past))
	}
	if p.pills.Objects[1] != pill {
		t.Error("the pill that was tapped is another now: the keyboard loses its place")
	}
	test.Tap(pill)
	if len(p.shown.past) != 2 {
		t.Error("a second tap does not drop the filter")
	}
	b.Window.Canvas().Focus(p.find.Entry())
	test.Type(p.find.Entry(), "xyzzy")
	if got := b.Texts(); !strings.Contains(got, "None of the 2 bakes is like that.") {
		t.Errorf("a filter that lets nothing through shows\n%s", got)
	}
}

// Where the flours would leave fewer than three rows of the list in sight, they go, unless one is chosen.
func TestFloursGiveWayToTheList(t *testing.T) {
	b := bench(t)
	put(b, &journal.Bake{Name: "One", At: b.Clock.Add(-time.Hour), Ingredients: []journal.Ingredient{{Name: "Rye", Role: formula.Flour, Grams: 500}}})
	p := b.Show(Routes()[pages.Bakes], pages.Route{Name: pages.Bakes}).(*listPage)
	for _, c := range []struct {
		height float32
		flour  string
		seen   bool
	}{{800, "", true}, {330, "", false}, {330, p.offered[0].key, true}} {
		p.filter.flour = c.flour
		p.body.Resize(fyne.NewSize(400, c.height))
		if p.pills.Visible() != c.seen {
			t.Errorf("%v high, with %q chosen, the flours are seen: %v", c.height, c.flour, !c.seen)
		}
		p.body.Resize(fyne.NewSize(400, c.height+1))
	}
}

// What the search looks in is told whole, however wide the window.
func TestTheSearchSaysAllThatItLooksIn(t *testing.T) {
	b := bench(t)
	put(b, &journal.Bake{Name: "One", At: b.Clock.Add(-time.Hour), Ingredients: []journal.Ingredient{{Name: "Rye", Role: formula.Flour, Grams: 500}}})
	p := b.Show(Routes()[pages.Bakes], pages.Route{Name: pages.Bakes}).(*listPage)
	for width := float32(400); width < 1200; width += 40 {
		p.body.Resize(fyne.NewSize(width, 800))
		if got := fmt.Sprint(pagestest.All[*kit.Text](p.find)); !strings.Contains(got, "names, flours or notes") {
			t.Errorf("%v wide it says %s", width, got)
		}
	}
}

// What stands beside the list is the bake that the keyboard is at, or the one that the pointer rests on.
func TestListKeyboard(t *testing.T) {
	b := bench(t)
	first, second := &journal.Bake{Name: "One", At: b.Clock.Add(-time.Hour)}, &journal.Bake{Name: "Two", At: b.Clock.Add(-2 * time.Hour)}
	put(b, first, second)
	p := b.Show(Routes()[pages.Bakes], pages.Route{Name: pages.Bakes}).(*listPage)
	b.Press("L")
	if b.Window.Canvas().Focused() != p.list {
		t.Fatal("L does not go to the list")
	}
	down, enter, del := key("Down"), key("Return"), key("Delete")
	beside := func(want string) {
		t.Helper()
		b.Wait()
		if got := pagestest.All[*kit.Link](p.glance.box)[0].Text(); got != want {
			t.Errorf("beside the list stands %q, want %q", got, want)
		}
	}
	beside("One")
	p.list.TypedKey(down)
	beside("Two")
	test.MoveMouse(b.Window.Canvas(), b.App.Driver().AbsolutePositionForObject(p.list).AddXY(40, 40))
	beside("One")
	test.MoveMouse(b.Window.Canvas(), fyne.NewPos(1, 1)) // it stays when the pointer leaves
	beside("One")
	p.list.TypedKey(key("Down")) // the last row: the keyboard has not moved
	beside("Two")
	p.list.TypedKey(enter)
	if len(b.Went) != 1 || b.Went[0] != pages.At(pages.Bake, second.ID) {
		t.Fatalf("Enter on the second row goes to %+v", b.Went)
	}
	p.list.TypedKey(del)
	if len(p.shown.past) != 1 || len(b.Said) != 1 {
		t.Fatalf("Delete leaves %d rows and says %q", len(p.shown.past), b.Said)
	}
	if _, err := b.Journal.Undo(); err != nil || len(p.shown.past) != 2 {
		t.Errorf("undo brings back %d rows, %v", len(p.shown.past), err)
	}
}

// BenchmarkList is what each key typed into the filter costs on a list of ten
// years.
func BenchmarkList(b *testing.B) {
	var all []*journal.BakeSummary
	for i := range 10_000 {
		all = append(all, summary(string(rune('a'+i%26)), "Ferry loaf", i, "Strong white", "Rye"))
	}
	for b.Loop() {
		listBakes(all, filter{flour: "rye", text: "ferry"})
		countFlours(all)
	}
}

// In a narrow list, as with large letters in a small window, names, dates and figures have the room
// over and under the score, and names that over what is done.
func TestNarrowRowsAreNotCut(t *testing.T) {
	maintest.App(t)
	for _, v := range []rowView{
		{loaf: kit.BrownLoaf, mark: &charts.SeriesStyle{}, title: "Spelt and oats", when: "Fr 27. Feb 15:30", figures: "66,0 % Hydratation · 12,7 % Backverlust · 3 Fotos", score: "6"},
		{loaf: kit.BrownLoaf, title: "Ferry loaf, Gorse, 28. Feb", flours: "Brot", figures: "gelöscht gerade eben", do: "Zurückholen"},
	} {
		r := newListRow(nil)
		r.set(v)
		r.Resize(fyne.NewSize(428, 72))
		for _, line := range []*kit.Elided{r.title, r.figures} {
			if kit.Fit(kit.Span{Text: line.String(), Size: look.TextSmall}, line.Size().Width) != line.String() {
				t.Errorf("%q has %v points", line.String(), line.Size().Width)
			}
		}
		if title := (kit.Span{Text: v.title, Size: look.TextLarge, Serif: true}); kit.Fit(title, r.title.Size().Width) != v.title {
			t.Errorf("%q has %v points", v.title, r.title.Size().Width)
		}
	}
}
