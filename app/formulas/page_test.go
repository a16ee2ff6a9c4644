package formulas

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// begin shows the page of a new formula.
func begin(t testing.TB) (*pagestest.Bench, *page) {
	t.Helper()
	b := pagestest.New(t)
	return b, b.Show(openOne, pages.Route{Name: pages.Formula}).(*page)
}

// figureWith finds the quantity field that shows a text; of several, the last.
func figureWith(t testing.TB, p *page, text string) *kit.QuantityField {
	t.Helper()
	all := pagestest.All[*kit.QuantityField](p.Object())
	for _, f := range slices.Backward(all) {
		if f.Text() == text {
			return f
		}
	}
	t.Fatalf("no field shows %q", text)
	return nil
}

// saltOf finds the field with the salt's weight: the one culture there is, and
// the seed of the levain, weigh as much at the start.
func saltOf(t testing.TB, p *page) *kit.QuantityField {
	t.Helper()
	n := 0
	for _, f := range pagestest.All[*kit.QuantityField](p.Object()) {
		if f.Text() == "20" {
			if n++; n == 2 {
				return f
			}
		}
	}
	t.Fatal("no field shows the salt")
	return nil
}

func lineNamed(f *journal.Formula, name string) journal.Ingredient {
	for _, in := range f.Ingredients {
		if in.Name == name {
			return in
		}
	}
	return journal.Ingredient{}
}

func TestANewFormulaIsOneThatWorks(t *testing.T) {
	b, p := begin(t)
	f := pagestest.Stored[journal.Formula](b, p.id)
	fig := f.Dough().Metrics()
	// 800 + 100 + 90 + half of 20 of flour; 620 + 90 + 10 of water.
	if fig.Flour != 1000 || fig.Hydration != 72 || fig.Salt != 2 || fig.Wholegrain != 10 {
		t.Errorf("it comes to %+v", fig)
	}
	if _, ok := (&journal.Bake{Steps: f.Steps}).Day(); !ok || f.Number != 1 || f.Family == "" {
		t.Errorf("it is version %d of %q with %d steps", f.Number, f.Family, len(f.Steps))
	}
}

func TestGramsAndPercentFollowOneAnotherInTheTable(t *testing.T) {
	b, p := begin(t)
	b.Type(saltOf(t, p), "22") // the salt's grams
	if f := figureWith(t, p, "2.2"); f.Editing() {
		t.Error("the percent is not another field")
	}
	b.Leave()
	b.Type(figureWith(t, p, "2.2"), "1.9") // its percent
	b.Leave()
	if g := lineNamed(pagestest.Stored[journal.Formula](b, p.id), "Salt").Grams; g < 18.999 || g > 19.001 {
		t.Errorf("1.9 %% of 1000 g of flour is %v g of salt, want 19", g)
	}
	figureWith(t, p, "19")
	// A flour takes from its neighbour: 20 % wholemeal leaves 700 g of white.
	b.Type(figureWith(t, p, "10.0"), "20")
	b.Leave()
	f := pagestest.Stored[journal.Formula](b, p.id)
	if w, g := lineNamed(f, "Wholemeal wheat flour").Grams, lineNamed(f, "Strong white wheat flour").Grams; math.Abs(float64(w-200))+math.Abs(float64(g-700)) > 1e-9 {
		t.Errorf("wholemeal %v and white %v, want 200 and 700", w, g)
	}
	figureWith(t, p, "700")
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	if w := lineNamed(pagestest.Stored[journal.Formula](b, p.id), "Wholemeal wheat flour").Grams; w != 100 {
		t.Errorf("undone, the wholemeal weighs %v, want 100", w)
	}
	figureWith(t, p, "800")
}

func TestScalingInThePage(t *testing.T) {
	b, p := begin(t)
	b.Type(figureWith(t, p, "1740"), "870") // the dough, half as much
	b.Leave()
	if f := pagestest.Stored[journal.Formula](b, p.id).Dough().Metrics(); f.Dough < 869.99 || f.Dough > 870.01 || f.Hydration < 71.99 || f.Hydration > 72.01 {
		t.Errorf("half the dough: %+v", f)
	}
	loaves := pagestest.All[*kit.QuantityField](p.Object())[0]
	b.Type(loaves, "4")
	b.Leave()
	f := pagestest.Stored[journal.Formula](b, p.id)
	if d := f.Dough().Metrics().Dough; f.Loaves != 4 || d < 1739.9 || d > 1740.1 {
		t.Errorf("four loaves of 435 g: %d of %v g", f.Loaves, d)
	}
	if len(b.Failed) > 0 {
		t.Error(b.Failed)
	}
}

// The tin of 1.9 l takes a loaf of 680 g of white dough (1900 / 2.8), by its measures or by
// the water that fills it.
func TestDoughForATin(t *testing.T) {
	b, p := begin(t)
	links := pagestest.All[*kit.Link](p.Object())
	links[slices.IndexFunc(links, func(l *kit.Link) bool { return l.Text() == "From a tin…" })].OnTapped()
	sheet := b.Window.Canvas().Overlays().Top()
	fields := pagestest.All[*kit.QuantityField](sheet)
	for i, text := range []string{"20", "10", "9.5"} { // cm
		b.Type(fields[i], text)
	}
	b.Leave()
	if !slices.ContainsFunc(pagestest.All[*kit.Text](sheet), func(x *kit.Text) bool {
		return strings.HasPrefix(x.String(), "It holds 1900\u00a0ml: about 680\u00a0g of dough")
	}) {
		t.Error("it does not say what the tin takes")
	}
	b.Type(fields[5], "2800") // the water
	b.Leave()
	buttons := pagestest.All[*kit.Button](sheet)
	test.Tap(buttons[len(buttons)-1])
	f := pagestest.Stored[journal.Formula](b, p.id)
	if d := f.Dough().Metrics().Dough; math.Abs(float64(d)-1000*float64(f.Loaves)) > 1e-6 {
		t.Errorf("%d loaves of %v g of dough, want 1000 g each", f.Loaves, d)
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	if d := pagestest.Stored[journal.Formula](b, p.id).Dough().Metrics().Dough; d != 1740 {
		t.Errorf("undone, the dough weighs %v", d)
	}
}

// TestAVersionThatWasBakedStays alters a version that a bake follows.
func TestAVersionThatWasBakedStays(t *testing.T) {
	b, p := begin(t)
	first := p.id
	bake := journal.PlanBake(pagestest.Stored[journal.Formula](b, first))
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, bake) })
	if words := p.frozen.String(); !strings.Contains(words, "become version 2") {
		t.Errorf("it does not say that it stays: %q", words)
	}
	salt := saltOf(t, p)
	b.Type(salt, "22")
	if !salt.Editing() || salt.Text() != "22" {
		t.Errorf("the caret is lost: editing %v, %q", salt.Editing(), salt.Text())
	}
	b.Leave()
	if g := lineNamed(pagestest.Stored[journal.Formula](b, first), "Salt").Grams; g != 20 {
		t.Errorf("the version that was baked has %v g of salt now", g)
	}
	second := pagestest.Stored[journal.Formula](b, p.id)
	if p.id == first || second.Number != 2 || lineNamed(second, "Salt").Grams != 22 {
		t.Errorf("the page is at version %d with %v g", second.Number, lineNamed(second, "Salt").Grams)
	}
	if words := p.frozen.String(); !strings.Contains(words, "may still be changed") {
		t.Errorf("of the new version it says %q", words)
	}
	p.compare(first)
	if !p.apart.Visible() || len(p.shownAs) == 0 {
		t.Error("the two versions are not told apart")
	}
	// Undone as far as it goes, the page is back at the first version.
	for range 3 {
		if p.id == first {
			break
		}
		if _, err := b.Journal.Undo(); err != nil {
			t.Fatal(err)
		}
	}
	if p.id != first || b.Backs > 0 {
		t.Errorf("undone, the page is at %s, and left %d times", p.id, b.Backs)
	}
}

func TestPlanningFollowsTheVersion(t *testing.T) {
	b, p := begin(t)
	culture := &journal.Culture{Name: "Ripe culture"}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, culture) })
	b.Press("G")
	if len(b.Went) != 1 || b.Went[0].Name != pages.BakeDay {
		t.Fatalf("it went to %v", b.Went)
	}
	bake, err := journal.Get[journal.Bake](b.Journal, b.Went[0].ID)
	if err != nil {
		t.Fatal(err)
	}
	if bake.Formula != p.id || bake.State != journal.Planned || bake.Culture != culture.ID || bake.Water.Wanted == nil {
		t.Errorf("the plan is %+v", bake)
	}
}

func TestAFormulaFromABake(t *testing.T) {
	b := pagestest.New(t)
	bake := &journal.Bake{Name: "Crossing tin", At: b.Clock, Loaves: 3,
		Ingredients: []journal.Ingredient{{ID: "f", Name: "Rye", Role: formula.Flour, Grams: 500}}}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, bake) })
	p := b.Show(openOne, pages.Route{Name: pages.Formula, ID: bake.ID, More: fromBake}).(*page)
	if f := pagestest.Stored[journal.Formula](b, p.id); f.Name != "Crossing tin" || f.Loaves != 3 || len(f.Ingredients) != 1 {
		t.Errorf("the formula is %+v", f)
	}
}

func TestFamilies(t *testing.T) {
	day := func(d int) time.Time { return time.Date(2026, 3, d, 9, 0, 0, 0, time.UTC) }
	version := func(id, family journal.ID, n int, name string) *journal.Formula {
		return &journal.Formula{Head: journal.Head{ID: id}, Family: family, Number: n, Name: name}
	}
	all := []*journal.Formula{version("a1", "a", 1, "Ferry loaf"), version("a2", "a", 2, "Ferry loaf"), version("b1", "b", 1, "Deck rye"), version("c1", "c", 1, "Anchor roll")}
	summaries := []*journal.BakeSummary{
		{ID: "1", Formula: "a1", At: day(3)}, {ID: "2", Formula: "b1", At: day(2)}, {ID: "3", Formula: "a2", At: day(1)},
		{ID: "4", Formula: "c1", At: day(4), State: journal.Planned}, {ID: "5", Formula: "c1", At: day(5), Binned: true},
		{ID: "6", Formula: "b1", At: day(6), State: journal.Running},
	}
	got := ""
	for _, f := range families(all, summaries) {
		r := rowOf(f, day(3), measure.Units{})
		got += fmt.Sprintln(r.Name, "|", r.Version, "|", f.versions, len(f.past), "|", r.Baked)
	}
	want := "Ferry loaf | version 2 | 2 2 | last baked 3\u00a0Mar\nDeck rye | version 1 | 1 1 | last baked 2\u00a0Mar\nAnchor roll | version 1 | 1 0 | not baked yet\n"
	if got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

func TestTheListInvites(t *testing.T) {
	b := pagestest.New(t)
	p := b.Show(openList, pages.Route{Name: pages.Formulas}).(*listPage)
	b.Press("N")
	if len(b.Went) != 1 || b.Went[0] != (pages.Route{Name: pages.Formula}) {
		t.Errorf("N goes to %v", b.Went)
	}
	b.Put(func(tx *journal.Tx) error { return journal.NewFormula(tx, &journal.Formula{Name: "Ferry loaf"}) })
	if len(p.rows) != 1 || !p.full {
		t.Errorf("the list shows %d formulas", len(p.rows))
	}
	p.bin(0)
	if len(p.rows) != 0 {
		t.Errorf("binned, the list shows %v", p.rows)
	}
	if _, err := b.Journal.Undo(); err != nil || len(p.rows) != 1 {
		t.Errorf("undone, the list shows %v (%v)", p.rows, err)
	}
}

// BenchmarkKeystroke types a digit into a formula of forty lines.
func BenchmarkKeystroke(b *testing.B) {
	bench, p := begin(b)
	bench.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, p.id, func(f *journal.Formula) {
			for i := len(f.Ingredients); i < 40; i++ {
				f.Ingredients = append(f.Ingredients, journal.Ingredient{ID: journal.ID(fmt.Sprint("line", i)), Name: fmt.Sprint("Flour ", i), Role: formula.Flour, Grams: 10})
			}
		})
	})
	field := saltOf(b, p)
	digits := []string{"21", "22"}
	i := 0
	for b.Loop() {
		bench.Type(field, digits[i%2])
		i++
	}
}

// The next version is shown from its beginning, wherever on the page the one before was.
func TestANextVersionBeginsAtTheTop(t *testing.T) {
	b, p := begin(t)
	b.Window.Resize(fyne.NewSize(752, 500))
	p.page.ScrollTo(300)
	if p.page.Offset() == 0 {
		t.Fatal("the page does not scroll")
	}
	before := p.id
	b.Press("V")
	if p.id == before || p.page.Offset() != 0 || b.Window.Canvas().Focused() != nil {
		t.Errorf("%s after %s begins %v down, with the keyboard on %v", p.id, before, p.page.Offset(), b.Window.Canvas().Focused())
	}
}

// The bars of a list stand in one column, and so do the scores, however long its rows say when they were baked.
func TestRowsOfFormulasLineUp(t *testing.T) {
	maintest.App(t)
	rows := []row{{Name: "Ferry loaf", Version: "Fassung 2", Baked: "zuletzt gebacken 2. Mär"}, {Name: "Deck rye", Version: "Fassung 12", Baked: "zuletzt gebacken 26. Feb 2024"}}
	lineUp(rows)
	for _, width := range []float32{672, 1060} {
		var bars, scores [2]float32
		for i, v := range rows {
			o := newFormulaRow(nil)
			r := o.Layout.(*formulaRow)
			r.show(v)
			o.Resize(fyne.NewSize(width, 62))
			bars[i], scores[i] = r.figures.Position().X, r.score.Position().X
		}
		if bars[0] != bars[1] || scores[0] != scores[1] {
			t.Errorf("%v wide, the bars of two rows begin at %v, their scores at %v", width, bars, scores)
		}
	}
}
