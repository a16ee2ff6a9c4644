package shelf

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/archive"
	"twinloaf/journal/formula"
	"twinloaf/journal/shelf"
)

// baked puts a few bakes into the journal of a bench and gives their IDs, newest
// first: spelt 20 %, spelt 10 %, rye, and one that is only planned.
func baked(t *testing.T, b *pagestest.Bench) []journal.ID {
	t.Helper()
	c := &journal.Culture{Name: "Harbour", Born: march.AddDate(0, -11, 0)}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, c) })
	line := func(name string, role formula.Role, g formula.Grams) journal.Ingredient {
		return journal.Ingredient{Name: name, Role: role, Grams: g}
	}
	bakes := []*journal.Bake{
		{Name: "Ferry loaf", At: march, Ingredients: []journal.Ingredient{line("Strong white", formula.Flour, 400), line("Spelt", formula.Flour, 100), line("Water", formula.Water, 350), line("Salt", formula.Salt, 10)}},
		{Name: "Flat loaf", At: march.AddDate(0, 0, -1), Notes: "wet", Ingredients: []journal.Ingredient{line("Strong white", formula.Flour, 450), line("Spelt", formula.Flour, 50), line("Water", formula.Water, 400), line("Salt", formula.Salt, 10)}},
		{Name: "Dark pan", At: march.AddDate(0, -4, 0), Ingredients: []journal.Ingredient{line("Dark rye", formula.Flour, 500), line("Water", formula.Water, 400)}},
		{Name: "Not yet", At: march.AddDate(0, 0, 1), State: journal.Planned, Ingredients: []journal.Ingredient{line("Spelt", formula.Flour, 500)}},
	}
	var ids []journal.ID
	for i, k := range bakes {
		if k.State == journal.Recorded {
			k.State, k.Culture = journal.Finished, c.ID
			k.Outcome.Scores = []journal.AttributeScore{{Attribute: journal.Overall, Score: 8 - i}}
		}
		b.Put(func(tx *journal.Tx) error { return journal.Put(tx, k) })
		ids = append(ids, k.ID)
	}
	return ids
}

func showShelf(t *testing.T, b *pagestest.Bench, at pages.Route) *shelfPage {
	t.Helper()
	p := b.Show(Routes()[pages.Shelf], at).(*shelfPage)
	b.Wait()
	return p
}

func titles(p *shelfPage) string {
	var out []string
	for i := range p.length() {
		out = append(out, p.item(i).Title)
	}
	return strings.Join(out, "|")
}

func plain(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

func bar(t *testing.T, l *choiceList, name string) *choiceBar {
	t.Helper()
	for _, o := range l.box.Objects {
		if c, ok := o.(*choiceBar); ok && c.name == name {
			return c
		}
	}
	t.Fatalf("no choice %q", name)
	return nil
}

// A flour is chosen with a tap, its share typed, and the filter taken off by its
// words.
func TestBrowseByFlour(t *testing.T) {
	b := pagestest.New(t)
	baked(t, b)
	p := showShelf(t, b, pages.Route{Name: pages.Shelf})
	if got := titles(p); got != "Ferry loaf|Flat loaf|Dark pan" {
		t.Fatalf("the shelf holds %q", got)
	}
	spelt := bar(t, p.facets.flours, "Spelt")
	if spelt.count != "2" {
		t.Errorf("%s beside spelt, want 2", spelt.count)
	}
	test.Tap(spelt)
	if got := titles(p); got != "Ferry loaf|Flat loaf" {
		t.Errorf("with spelt: %q", got)
	}
	if got := bar(t, p.facets.flours, "Spelt"); got != spelt || !got.chosen {
		t.Error("the bar of spelt is another one now, or not chosen")
	}
	share := p.facets.shares["spelt"].bounds.low
	b.Window.Canvas().Focus(share.Entry())
	test.Type(share.Entry(), "15")
	if got := titles(p); got != "Ferry loaf" {
		t.Errorf("with at least 15 %% spelt: %q", got)
	}
	if got := plain(p.speaker().heading(p.state.Filter, len(p.rows), 3)); got != "Bakes with spelt, at least 15 %" {
		t.Errorf("heading %q", got)
	}
	if got := plain(p.item(0).Sub); got != plain("spelt 20 % · "+b.Units().Day(march, march)) {
		t.Errorf("beneath the picture: %q", got)
	}
	if got := plain(p.line.count.String()); got != "1 of 3 bakes" {
		t.Errorf("the line says %q", got)
	}
	pill := p.line.pills[0].(*kit.Pill)
	b.Window.Canvas().Focus(pill)
	pill.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
	if got := titles(p); got != "Ferry loaf|Flat loaf|Dark pan" || len(p.line.pills) != 0 {
		t.Errorf("after the pill is off: %q, %d pills", got, len(p.line.pills))
	}
}

func TestOpenAndCompare(t *testing.T) {
	b := pagestest.New(t)
	ids := baked(t, b)
	p := showShelf(t, b, pages.Route{Name: pages.Shelf})
	b.Press("C")
	if len(b.Went) != 0 || len(b.Said) != 1 {
		t.Fatalf("comparing nothing went to %v and said %v", b.Went, b.Said)
	}
	b.Press("G")
	key := func(name fyne.KeyName) { p.grid.TypedKey(&fyne.KeyEvent{Name: name}) }
	key(fyne.KeySpace)
	key(fyne.KeyRight)
	key(fyne.KeyRight)
	key(fyne.KeySpace)
	if !p.item(0).Chosen || p.item(1).Chosen || !p.item(2).Chosen {
		t.Error("the wrong pictures are marked")
	}
	b.Press("C")
	if want := comparePlace(ids[0], ids[2]); b.Went[0] != want {
		t.Errorf("went to %v, want %v", b.Went[0], want)
	}
	key(fyne.KeyReturn)
	if want := pages.At(pages.Bake, ids[2]); b.Went[1] != want {
		t.Errorf("went to %v, want %v", b.Went[1], want)
	}
}

func TestKeepAView(t *testing.T) {
	b := pagestest.New(t)
	baked(t, b)
	p := showShelf(t, b, pages.Route{Name: pages.Shelf})
	p.narrow(func(f *shelf.Filter) { f.SetFlour(shelf.FlourPart{Flour: "dark rye"}) })
	p.state.Order = shelf.Order{By: shelf.Score, Upwards: true}
	p.again()
	if p.keepView("  ") {
		t.Error("kept under no name")
	}
	if !p.keepView("The dark  ones") {
		t.Fatalf("not kept: %v", b.Failed)
	}
	b.Wait()
	views, err := journal.All[journal.View](b.Journal)
	if err != nil || len(views) != 1 || views[0].Name != "The dark ones" {
		t.Fatalf("%v, %v", views, err)
	}
	if v := p.viewShown(); v == nil || v.ID != views[0].ID {
		t.Error("the view that is shown is not known as the kept one")
	}
	again := showShelf(t, b, pages.At(pages.Shelf, views[0].ID))
	if got := titles(again); got != "Dark pan" || again.state.Order.By != shelf.Score {
		t.Errorf("the kept view shows %q by %q", got, again.state.Order.By)
	}
	again.keepView("the DARK ones") // the same name again
	b.Wait()
	again.forgetView(again.views[0])
	b.Wait()
	if views, _ := journal.All[journal.View](b.Journal); len(views) != 0 {
		t.Errorf("%d views are left", len(views))
	}
}

func TestGroupsByFlour(t *testing.T) {
	b := pagestest.New(t)
	baked(t, b)
	p := showShelf(t, b, pages.Route{Name: pages.Shelf})
	p.state.GroupBy = shelf.ByFlour
	p.again()
	if got := titles(p); got != "Strong white|Spelt|Dark rye" {
		t.Fatalf("groups %q", got)
	}
	if it := p.item(1); it.Right != "2" || plain(it.Sub) != "median score 7.5" {
		t.Errorf("the group of spelt says %+v", it)
	}
	p.open(1)
	if got := titles(p); got != "Ferry loaf|Flat loaf" || p.groups != nil {
		t.Errorf("within the group: %q", got)
	}
}

// A bake that is written down while the shelf is shown comes onto it.
func TestShelfHearsOfChanges(t *testing.T) {
	b := pagestest.New(t)
	p := showShelf(t, b, pages.Route{Name: pages.Shelf})
	if p.record.Len() != 0 {
		t.Fatal("the shelf is not empty")
	}
	baked(t, b)
	b.Wait()
	if got := titles(p); got != "Ferry loaf|Flat loaf|Dark pan" {
		t.Errorf("the shelf holds %q", got)
	}
}

// What is selected is taken away in one archive, with what belongs to it and nothing else.
func TestTakeTheSelectedAway(t *testing.T) {
	b := pagestest.New(t)
	ids := baked(t, b)
	p := showShelf(t, b, pages.Route{Name: pages.Shelf})
	b.Press("T")
	if len(b.Said) != 1 {
		t.Errorf("with nothing selected it says %v", b.Said)
	}
	p.choose(0)
	p.choose(2)
	path := filepath.Join(t.TempDir(), "two.zip")
	b.Env.AskWhere = func(o kit.SaveOptions) { o.OnChosen(path) }
	b.Press("T")
	b.Wait()
	sheet := b.Window.Canvas().Overlays().Top()
	for _, btn := range pagestest.All[*kit.Button](sheet) {
		if btn.Label() == "Choose where…" {
			btn.Tapped(nil)
		}
	}
	b.Wait()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		t.Fatal(err)
	}
	a, err := archive.Open(f, info.Size())
	if err != nil {
		t.Fatal(err)
	}
	var got []journal.ID
	for _, ref := range a.Manifest.Chosen {
		got = append(got, journal.ID(ref.ID))
	}
	if want := []journal.ID{ids[0], ids[2]}; !slices.Equal(got, want) || a.Manifest.Scope != archive.Choice {
		t.Errorf("%s of %v, want a choice of %v", a.Manifest.Scope, got, want)
	}
}

// Where nothing matches, no chart of nothing is drawn: the page says which part of the filter
// alone is in the way, and takes it off.
func TestNothingMatches(t *testing.T) {
	b := pagestest.New(t)
	baked(t, b)
	p := showShelf(t, b, pages.Route{})
	bar(t, p.facets.flours, "Spelt").Press()
	p.narrow(func(f *shelf.Filter) { f.Text = "nowhere" })
	b.Wait()
	if n := p.length(); n != 0 {
		t.Fatalf("%d bakes match", n)
	}
	for figure, r := range p.facets.ranges {
		if r.box.Visible() {
			t.Errorf("the spread of %s is drawn", figure)
		}
	}
	if said := plain(b.Texts()); strings.Contains(said, "Without spelt") || !strings.Contains(said, "Without “nowhere”: 2 bakes") {
		t.Fatalf("the page says %s", said)
	}
	pagestest.Each(p.none, func(o fyne.CanvasObject) {
		if l, ok := o.(*kit.Link); ok {
			l.Tapped(nil)
		}
	})
	b.Wait()
	if got := titles(p); got != "Ferry loaf|Flat loaf" {
		t.Errorf("without it there are %s", got)
	}
	if !p.facets.ranges[shelf.Hydration].chart.Visible() {
		t.Error("the spread does not come back")
	}
}
