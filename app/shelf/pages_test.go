package shelf

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/plan"
)

func rowNames(rows []sideRow) []string {
	var out []string
	for _, r := range rows {
		out = append(out, r.name)
	}
	return out
}

// Differences come first; what is alike is folded away.
func TestCompare(t *testing.T) {
	b := pagestest.New(t)
	ids := baked(t, b)
	for _, id := range ids[:2] { // one step of one name, of two lengths
		length := map[journal.ID]time.Duration{ids[0]: 12 * time.Hour, ids[1]: 16 * time.Hour}[id]
		b.Put(func(tx *journal.Tx) error {
			return journal.Change(tx, id, func(k *journal.Bake) {
				k.Steps = []journal.Step{
					{Kind: string(plan.Mix), At: k.At, End: k.At.Add(20 * time.Minute)},
					{Kind: journal.StepCold, At: k.At.Add(5 * time.Hour), End: k.At.Add(5*time.Hour + length)},
				}
			})
		})
	}
	p := b.Show(Routes()[pages.Compare], comparePlace(ids[0], ids[1])).(*comparePage)
	b.Wait()
	differ, alike := rowNames(p.found.differ), rowNames(p.found.alike)
	for _, name := range []string{"overall score", "hydration", "spelt", "strong white", "notes", "cold proof"} {
		if !slices.Contains(differ, name) {
			t.Errorf("%q is not among what differs: %v", name, differ)
		}
	}
	for _, name := range []string{"culture", "salt", "mix"} {
		if !slices.Contains(alike, name) {
			t.Errorf("%q is not among what is alike: %v", name, alike)
		}
	}
	if i := slices.Index(differ, "cold proof"); plain(strings.Join(p.found.differ[i].values, "|")) != "12 h|16 h" {
		t.Errorf("cold proof: %v", p.found.differ[i].values)
	}
	if differ[0] != "overall score" {
		t.Errorf("the first row is %q", differ[0])
	}
	if p.sides[0].frame.Visible() || p.zoom.Visible() {
		t.Error("room is left for pictures that no bake has")
	}
	folded := len(p.table.Objects)
	b.Press("A")
	if len(p.table.Objects) <= folded {
		t.Error("what is alike was not unfolded")
	}
	b.Press("T")
	if p.tied {
		t.Error("the pictures are still tied")
	}
	lanes := timelines(mustBakes(t, b, ids[:2]), []string{"a", "b"})
	if len(lanes.Lanes) != 2 || lanes.Lanes[0].Blocks[1].From != 5 || lanes.Lanes[1].Blocks[1].To != 21 {
		t.Errorf("the days lie as %+v", lanes.Lanes)
	}
}

// What is told of how much differs counts nothing twice: not a figure that follows from
// the dough's lines, nor every line of a larger dough.
func TestWhatDiffersIsCountedOnce(t *testing.T) {
	bake := func(flour, water, salt formula.Grams, score int) *journal.Bake {
		return &journal.Bake{
			Name: "Ferry loaf", At: march, State: journal.Finished,
			Ingredients: []journal.Ingredient{
				{Name: "Strong white", Role: formula.Flour, Grams: flour},
				{Name: "Water", Role: formula.Water, Grams: water}, {Name: "Salt", Role: formula.Salt, Grams: salt},
			},
			Outcome: journal.Outcome{Scores: []journal.AttributeScore{{Attribute: journal.Overall, Score: score}}},
		}
	}
	base := bake(500, 350, 10, 6)
	warm := bake(500, 350, 10, 6)
	warm.Steps = []journal.Step{{Kind: string(plan.Mix), Dough: new(formula.Celsius(26))}}
	for _, c := range []struct {
		name  string
		other *journal.Bake
		rows  []string // that differ
		want  string
	}{
		{"the same", bake(500, 350, 10, 6), nil, "Nothing that was written down differs"},
		{"wetter", bake(500, 375, 10, 6), []string{"hydration", "weight of the dough", "water"}, "2 things differ between these two"},
		{"twice as much", bake(1000, 700, 20, 6), []string{"weight of the dough", "strong white", "water", "salt"}, "One thing differs: weight of the dough"},
		{"scored otherwise", bake(500, 350, 10, 8), []string{"overall score"}, "One thing differs: overall score"},
		{"measured in one only", warm, nil, "Nothing that was written down differs"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := pagestest.New(t)
			ids := make([]journal.ID, 2)
			for i, k := range []*journal.Bake{base, c.other} {
				k.ID = ""
				b.Put(func(tx *journal.Tx) error { return journal.Put(tx, k) })
				ids[i] = k.ID
			}
			p := b.Show(Routes()[pages.Compare], comparePlace(ids...)).(*comparePage)
			b.Wait()
			if got := compareHeading(p.found, 2); got != c.want {
				t.Errorf("%q, want %q; what differs: %v", got, c.want, rowNames(p.found.differ))
			}
			if c.name == "measured in one only" && !slices.Equal(rowNames(p.found.unknown), []string{"mix: dough"}) {
				t.Errorf("not known of both: %v", rowNames(p.found.unknown))
			}
			for _, name := range c.rows {
				if !slices.Contains(rowNames(p.found.differ), name) {
					t.Errorf("%q does not differ: %v", name, rowNames(p.found.differ))
				}
			}
			if len(p.lanes.Objects) != 0 {
				t.Error("days are shown of which no hour is known")
			}
		})
	}
}

// A name that the baker gave keeps its capital.
func TestLineName(t *testing.T) {
	for _, c := range []struct {
		in   journal.Ingredient
		want string
	}{
		{journal.Ingredient{Name: "Gorse", Role: formula.Culture}, "Gorse"},
		{journal.Ingredient{Name: "Strong white", Role: formula.Flour}, "strong white"},
		{journal.Ingredient{Role: formula.Water}, "water"},
	} {
		if got := lineName(c.in); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// What is warm around a loaf that bakes is the oven.
func TestWhatIsWarmAroundAStep(t *testing.T) {
	pagestest.New(t)
	table := &sideTable{n: 1, at: map[[2]string]int{}}
	warm := new(formula.Celsius(24))
	wording{}.putSteps(table, 0, &journal.Bake{Steps: []journal.Step{{Kind: string(plan.Mix), Air: warm}, {Kind: string(plan.BakeCovered), Air: warm}}}, map[string][]warmth{})
	if got := strings.Join(rowNames(table.rows), "|"); !strings.Contains(got, "mix: around it") || !strings.Contains(got, ": oven") {
		t.Errorf("the rows are %s", got)
	}
}

// The figures of a row have as many decimals one as the other.
func TestPlacesOfARowAreAlike(t *testing.T) {
	b := pagestest.New(t)
	var ids []journal.ID
	for _, warm := range []formula.Celsius{24, 23.1} {
		k := &journal.Bake{Name: "Ferry loaf", At: march, State: journal.Finished, Steps: []journal.Step{{Kind: string(plan.Mix), Dough: new(warm)}}}
		b.Put(func(tx *journal.Tx) error { return journal.Put(tx, k) })
		ids = append(ids, k.ID)
	}
	p := b.Show(Routes()[pages.Compare], comparePlace(ids...)).(*comparePage)
	b.Wait()
	for _, r := range p.found.differ {
		if r.name == "mix: dough" && (!strings.HasPrefix(r.values[0], "24.0") || !strings.HasPrefix(r.values[1], "23.1")) {
			t.Errorf("it reads %q", r.values)
		}
	}
	if !slices.Contains(rowNames(p.found.differ), "mix: dough") {
		t.Errorf("what differs: %v", rowNames(p.found.differ))
	}
}

func mustBakes(t *testing.T, b *pagestest.Bench, ids []journal.ID) []*journal.Bake {
	t.Helper()
	var out []*journal.Bake
	for _, id := range ids {
		k, err := journal.Get[journal.Bake](b.Journal, id)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, k)
	}
	return out
}

func TestCompareTwoToFour(t *testing.T) {
	b := pagestest.New(t)
	ids := baked(t, b)
	for _, some := range [][]journal.ID{nil, ids[:1], append(slices.Clone(ids), ids[0])} {
		if _, err := newComparePage(b.Env, some); !errors.Is(err, ErrTwoToFour) {
			t.Errorf("%d bakes: %v", len(some), err)
		}
	}
	if _, err := newComparePage(b.Env, []journal.ID{ids[0], "gone"}); !errors.Is(err, journal.ErrNotFound) {
		t.Errorf("a bake that is gone: %v", err)
	}
}

// The facts of a flour without a record make one when they are first written.
func TestFlourPage(t *testing.T) {
	b := pagestest.New(t)
	ids := baked(t, b)
	p := b.Show(Routes()[pages.Flour], pages.Route{Name: pages.Flour, More: " SPELT"}).(*flourPage)
	b.Wait()
	if got := p.speaker().flourHeading(p.state); got != "Spelt, in 2 of 3 bakes" {
		t.Errorf("heading %q", got)
	}
	if len(p.facts.box.Objects) == 0 || p.id != "" {
		t.Fatal("the flour has a record before anything was written")
	}
	b.Window.Canvas().Focus(p.facts.ash.Entry())
	test.Type(p.facts.ash.Entry(), "0.6")
	b.Window.Canvas().Focus(p.facts.kind.Entry())
	if err := b.Journal.Flush(); err != nil {
		t.Fatal(err)
	}
	f, err := journal.FlourNamed(b.Journal, "spelt")
	if err != nil || f == nil || f.Facts.Ash == nil || *f.Facts.Ash != 0.6 {
		t.Fatalf("the larder holds %+v, %v", f, err)
	}
	b.Press("L")
	b.Wait()
	if f, _ = journal.FlourNamed(b.Journal, "spelt"); len(f.Lots) != 1 {
		t.Errorf("%d lots, want 1", len(f.Lots))
	}
	// The newest bake is the last point of the chart.
	p.open(charts.Mark{Index: 1})
	if want := pages.At(pages.Bake, ids[0]); b.Went[0] != want {
		t.Errorf("went to %v, want %v", b.Went[0], want)
	}
	b.Press("S")
	s, err := stateOf(b.Journal, b.Went[1])
	if err != nil || len(s.Filter.Flours) != 1 || s.Filter.Flours[0].Flour != "spelt" {
		t.Errorf("went to %v (%v)", b.Went[1], err)
	}
}

// Behind the price of a bag stands the money of the settings, or else the computer's; and
// nothing where no price is.
func TestThePriceOfABagSaysItsMoney(t *testing.T) {
	b := pagestest.New(t)
	p := b.Show(Routes()[pages.Flour], pages.Route{Name: pages.Flour, More: "spelt"}).(*flourPage)
	here := speak()
	here.units.Currency = "EUR"
	for _, tt := range []struct {
		price          float64
		settings, want string
	}{{7.65, "CHF", "CHF"}, {7.65, "", "EUR"}, {0, "CHF", ""}} {
		r := newLotRow(p, "bag")
		r.show(journal.FlourLot{ID: "bag", Grams: 5000, Price: tt.price}, here, tt.settings)
		said := ""
		for _, x := range pagestest.All[*kit.Text](r.price) {
			if s := x.String(); s == "CHF" || s == "EUR" {
				said += s
			}
		}
		if said != tt.want {
			t.Errorf("%v in %q: behind the price stands %q, want %q", tt.price, tt.settings, said, tt.want)
		}
	}
}

// The types of three countries, side by side: DIN 10355, the French decree and the
// Italian one, as in the tables of journal/formula.
func TestFlourTypesSideBySide(t *testing.T) {
	for _, tt := range []struct {
		facts journal.FlourFacts
		want  string
	}{
		{journal.FlourFacts{Grain: "wheat", Ash: new(formula.Percent(0.55))}, "550|T55|00|0"},
		{journal.FlourFacts{Grain: "wheat", Type: "Type 1050"}, "1050|T110|2"},
		{journal.FlourFacts{Grain: "rye", Ash: new(formula.Percent(1.4))}, "1370|T130|"},
		{journal.FlourFacts{Type: "t 65"}, "812|T65|1"},
		{journal.FlourFacts{Grain: "wheat"}, ""},
	} {
		rows, _ := speak().typeRows(tt.facts)
		var names []string
		for _, r := range rows {
			names = append(names, r.name)
		}
		if got := strings.Join(names, "|"); got != tt.want {
			t.Errorf("%+v: %q, want %q", tt.facts, got, tt.want)
		}
	}
}

func TestYear(t *testing.T) {
	b := pagestest.New(t)
	ids := baked(t, b)
	b.Put(func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Flour{Name: "Spelt", Lots: []journal.FlourLot{{Grams: 1000, Price: 4, Bought: march.AddDate(0, -1, 0)}}})
	})
	cultures, err := journal.All[journal.Culture](b.Journal)
	if err != nil {
		t.Fatal(err)
	}
	b.Put(func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Feeding{Culture: cultures[0].ID, At: march, Flour: 50,
			Flours: []journal.FlourShare{{Name: "spelt", Share: 50}, {Name: "Dark rye", Share: 50}}})
	})
	p := b.Show(Routes()[pages.Shelf], yearRoute(2026)).(*yearPage)
	if got := b.Texts(); strings.Contains(got, "Bakes and feedings stand here") {
		t.Errorf("before the year is read the page calls it bare:\n%s", got)
	}
	b.Wait()
	y := p.state
	if y.baked != 2 || y.fed != 1 || y.first != 2025 {
		t.Fatalf("%d baked, %d fed, from %d", y.baked, y.fed, y.first)
	}
	m := y.months[time.March-1]
	if m.grams["spelt"] != 175 || m.grams["dark rye"] != 25 || m.total != 1050 {
		t.Errorf("March used %+v", m)
	}
	if math.Abs(m.cost-0.7) > 1e-9 || m.priced != 175 {
		t.Errorf("March cost %v for %v g, want 0.7 for 175", m.cost, m.priced)
	}
	day := march.YearDay() - 1
	p.openDay(charts.Mark{Index: day})
	if want := pages.At(pages.Bake, ids[0]); len(b.Went) != 1 || b.Went[0] != want {
		t.Errorf("went to %v, want %v", b.Went, want)
	}
	b.Press("Left")
	b.Wait()
	if p.state.year != 2025 || p.state.baked != 1 {
		t.Errorf("%d: %d baked", p.state.year, p.state.baked)
	}
	p.onShelf()
	s, err := stateOf(b.Journal, b.Went[1])
	if err != nil || s.Filter.From.Year() != 2025 || s.Filter.To.Year() != 2026 {
		t.Errorf("the shelf is asked for %+v (%v)", s.Filter, err)
	}
}

// The sum of a year is that of the months as they are shown.
func TestTheCostOfAYearIsThatOfItsMonths(t *testing.T) {
	y := &yearState{}
	for i, cost := range []float64{25.404, 27.624, 2.314} { // 55.342, shown as 25.40, 27.62 and 2.31
		y.months[i].cost = cost
	}
	if _, cost, _ := y.sum(); math.Abs(cost-55.33) > 1e-9 {
		t.Errorf("the year cost %v", cost)
	}
}

// A year that runs shows the months that have been, and a later one only if something is
// written down for it; a past year shows all.
func TestMonthsThatHaveBeen(t *testing.T) {
	s := wording{now: time.Date(2026, 3, 4, 0, 0, 0, 0, time.UTC)}
	for _, c := range []struct{ year, used, want int }{{2026, 0, 3}, {2026, 2, 3}, {2026, 5, 5}, {2025, 1, 12}, {2027, 2, 2}} {
		y := &yearState{year: c.year}
		if c.used > 0 {
			y.months[c.used-1].total = 100
		}
		if got := len(s.monthsOf(y)); got != c.want {
			t.Errorf("%d, used in month %d: %d months, want %d", c.year, c.used, got, c.want)
		}
	}
}

// So do the days: nobody can say of one to come that there was no bread.
func TestDaysThatHaveBeen(t *testing.T) {
	s := wording{now: time.Date(2026, 3, 4, 0, 0, 0, 0, time.UTC)}
	for _, c := range []struct{ year, baked, fed, want int }{
		{2026, 0, 0, 63}, {2026, 3, 9, 63}, {2026, 70, 0, 70}, {2026, 0, 80, 80}, {2025, 1, 1, 365}, {2027, 0, 0, 1}, {2027, 5, 0, 5},
	} {
		y := &yearState{year: c.year, byDay: make([][]int, 365), feedings: make([]int, 365)}
		if c.baked > 0 {
			y.byDay[c.baked-1] = []int{0}
		}
		if c.fed > 0 {
			y.feedings[c.fed-1] = 1
		}
		if got := s.daysOf(y); got != c.want {
			t.Errorf("%+v: %d days", c, got)
		}
	}
}

func TestYearOf(t *testing.T) {
	for more, want := range map[string]int{"year 2026": 2026, "year 0": 0, "year x": 0, "": 0, "look {}": 0} {
		if got, ok := yearOf(more); ok != (want > 0) || ok && got != want {
			t.Errorf("%q is the year %d, %v", more, got, ok)
		}
	}
}

// Of one bake it is asked with which others it should be compared: those of its formula
// come first, in any version, then those of its trial, then those of its flour.
func TestCompareWithWhich(t *testing.T) {
	b := pagestest.New(t)
	ids := baked(t, b)
	flour := func(name string) []journal.Ingredient {
		return []journal.Ingredient{{Name: name, Role: formula.Flour, Grams: 500}}
	}
	first := &journal.Formula{Family: "f", Number: 1}
	second := &journal.Formula{Family: "f", Number: 2}
	b.Put(func(tx *journal.Tx) error { return errors.Join(journal.Put(tx, first), journal.Put(tx, second)) })
	put := func(k *journal.Bake) journal.ID {
		k.State = journal.Finished
		b.Put(func(tx *journal.Tx) error { return journal.Put(tx, k) })
		return k.ID
	}
	own := put(&journal.Bake{Name: "Own", At: march, Formula: second.ID, Trial: "t", Ingredients: flour("Emmer")})
	put(&journal.Bake{Name: "Flour alike", At: march.AddDate(0, 0, -9), Ingredients: flour("Emmer")})
	put(&journal.Bake{Name: "Trial alike", At: march.AddDate(0, 0, -8), Trial: "t", Ingredients: flour("Barley")})
	put(&journal.Bake{Name: "Formula alike", At: march.AddDate(0, -7, 0), Formula: first.ID, Ingredients: flour("Barley")})
	p := b.Show(Routes()[pages.Compare], comparePlace(own)).(*comparePick)
	b.Wait()
	var names, why []string
	for i := range p.others {
		it := p.item(i)
		names, why = append(names, it.Title), append(why, it.Sub)
	}
	if got := strings.Join(names, "|"); got != "Formula alike|Trial alike|Flour alike|Ferry loaf|Flat loaf|Dark pan" {
		t.Errorf("offered in the order %s", got)
	}
	for i, want := range []string{"same formula", "same trial", "same flour"} {
		if !strings.HasPrefix(why[i], want) {
			t.Errorf("%s is offered because of %q", names[i], why[i])
		}
	}
	b.Window.Canvas().Focus(p.grid)
	key := func(k fyne.KeyName) { p.grid.TypedKey(&fyne.KeyEvent{Name: k}) }
	key(fyne.KeyReturn) // one alone: at once
	if want := comparePlace(own, p.others[0].summary.ID); b.Went[0] != want {
		t.Errorf("went to %v, want %v", b.Went[0], want)
	}
	key(fyne.KeySpace)
	key(fyne.KeyEnd)
	key(fyne.KeySpace)
	b.Press("C")
	if want := comparePlace(own, p.others[0].summary.ID, ids[2]); b.Went[1] != want {
		t.Errorf("went to %v, want %v", b.Went[1], want)
	}
	if _, ok := b.Show(Routes()[pages.Compare], b.Went[1]).(*comparePage); !ok {
		t.Error("the choice opens no comparison")
	}
}
