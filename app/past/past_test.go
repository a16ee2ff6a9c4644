package past_test

import (
	"context"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
)

var start = time.Date(2026, 3, 4, 8, 54, 0, 0, time.UTC)

func open(t rapid.TB, dir string) *journal.Journal {
	j, err := journal.Open(context.Background(), dir, journal.Options{
		Clock: func() time.Time { return start }, Random: rand.NewChaCha8([32]byte{7}), GatherFor: time.Hour,
	})
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// drawBake makes a bake whose shares are often the very ones that are asked for.
func drawBake(t *rapid.T, cultures []journal.ID) *journal.Bake {
	b := &journal.Bake{
		Name: rapid.SampledFrom([]string{"", "Ferry loaf", "Flat loaf"}).Draw(t, "name"),
		At:   start.AddDate(0, 0, -rapid.IntRange(0, 600).Draw(t, "days ago")), State: journal.Finished,
		Culture: rapid.SampledFrom(append([]journal.ID{""}, cultures...)).Draw(t, "culture"),
		Notes:   rapid.SampledFrom([]string{"", "Slack dough", "long COLD rest"}).Draw(t, "notes"),
	}
	if rapid.IntRange(0, 9).Draw(t, "state") == 0 {
		b.State = journal.Planned
	}
	for _, name := range []string{"Strong white", "Spelt", "Dark rye", "spelt "} {
		if g := rapid.SampledFrom([]formula.Grams{0, 0, 100, 200, 300}).Draw(t, "grams"); g > 0 {
			b.Ingredients = append(b.Ingredients, journal.Ingredient{Name: name, Role: formula.Flour, Grams: g})
		}
	}
	b.Ingredients = append(b.Ingredients, journal.Ingredient{Name: "Water", Role: formula.Water, Grams: formula.Grams(rapid.IntRange(0, 300).Draw(t, "water"))})
	if rapid.Bool().Draw(t, "seeds") {
		b.Ingredients = append(b.Ingredients, journal.Ingredient{Name: "Sesame", Role: formula.Seeds, Grams: 20})
	}
	if score := rapid.IntRange(0, 9).Draw(t, "score"); score > 0 {
		b.Outcome.Scores = []journal.AttributeScore{{Attribute: journal.Overall, Score: score}}
	}
	if rapid.Bool().Draw(t, "weighed") {
		b.Outcome.DoughWeight, b.Outcome.LoafWeight = new(formula.Grams(1000)), new(formula.Grams(rapid.IntRange(850, 950).Draw(t, "loaf")))
	}
	return b
}

func drawFilter(t *rapid.T, cultures []journal.ID) shelf.Filter {
	var f shelf.Filter
	bound := func(from []float64) *float64 {
		if rapid.Bool().Draw(t, "bounded") {
			return new(rapid.SampledFrom(from).Draw(t, "bound"))
		}
		return nil
	}
	if rapid.Bool().Draw(t, "asks spelt") {
		f.SetFlour(shelf.FlourPart{Flour: "spelt", AtLeast: bound([]float64{20, 25, 50}), AtMost: bound([]float64{50, 60, 75, 100})})
	}
	if rapid.IntRange(0, 2).Draw(t, "asks culture") == 0 {
		f.Cultures = []string{string(rapid.SampledFrom(cultures).Draw(t, "asked"))}
	}
	if rapid.IntRange(0, 2).Draw(t, "asks score") == 0 {
		f.SetRange(shelf.Range{Figure: shelf.Score, AtLeast: bound([]float64{3, 5}), AtMost: bound([]float64{7, 8})})
	}
	if rapid.IntRange(0, 2).Draw(t, "asks loss") == 0 {
		f.SetRange(shelf.Range{Figure: shelf.Loss, AtLeast: bound([]float64{8, 10}), AtMost: bound([]float64{12})})
	}
	f.Text = rapid.SampledFrom([]string{"", "", "cold", "loaf SLACK", "sesame"}).Draw(t, "text")
	return f
}

// holds says from the record itself, in the plainest way, whether a filter lets a
// bake through.
func holds(f shelf.Filter, b *journal.Bake) bool {
	if b.State == journal.Planned {
		return false
	}
	var spelt, flour float64
	text := strings.ToLower(b.Name + "\n" + b.Notes)
	for _, in := range b.Ingredients {
		if in.Role == formula.Flour {
			flour += float64(in.Grams)
			text += "\n" + strings.ToLower(in.Name)
			if strings.TrimSpace(strings.ToLower(in.Name)) == "spelt" {
				spelt += float64(in.Grams)
			}
		}
		if in.Role == formula.Seeds {
			text += "\n" + strings.ToLower(in.Name)
		}
	}
	within := func(v float64, least, most *float64) bool {
		return (least == nil || v >= *least-1e-9) && (most == nil || v <= *most+1e-9)
	}
	for _, p := range f.Flours {
		if spelt == 0 || !within(100*spelt/flour, p.AtLeast, p.AtMost) {
			return false
		}
	}
	if len(f.Cultures) > 0 && f.Cultures[0] != string(b.Culture) {
		return false
	}
	for _, r := range f.Ranges {
		switch r.Figure {
		case shelf.Score:
			if len(b.Outcome.Scores) == 0 || !within(float64(b.Outcome.Scores[0].Score), r.AtLeast, r.AtMost) {
				return false
			}
		case shelf.Loss:
			if b.Outcome.LoafWeight == nil || !within(100*(1000-float64(*b.Outcome.LoafWeight))/1000, r.AtLeast, r.AtMost) {
				return false
			}
		}
	}
	for _, w := range strings.Fields(strings.ToLower(f.Text)) {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}

// What the shelf finds in a journal after random changes, bins, removals and undos
// is what a scan of its records finds, before and after it is opened again.
func TestShelfFindsWhatTheRecordsHold(t *testing.T) {
	root := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		dir, err := os.MkdirTemp(root, "journal-")
		if err != nil {
			t.Fatal(err)
		}
		j := open(t, dir)
		defer func() { _ = j.Close() }()
		do := func(fn func(tx *journal.Tx) error) {
			if err := j.Do("change", fn); err != nil {
				t.Fatal(err)
			}
		}
		var cultures, bakes []journal.ID
		for _, name := range []string{"Harbour", "Gorse"} {
			c := &journal.Culture{Name: name}
			do(func(tx *journal.Tx) error { return journal.Put(tx, c) })
			cultures = append(cultures, c.ID)
		}
		add := func() {
			b := drawBake(t, cultures)
			do(func(tx *journal.Tx) error { return journal.Put(tx, b) })
			bakes = append(bakes, b.ID)
		}
		for range rapid.IntRange(1, 8).Draw(t, "bakes") {
			add()
		}
		pick := func() journal.ID { return rapid.SampledFrom(bakes).Draw(t, "bake") }
		for range rapid.IntRange(0, 6).Draw(t, "changes") {
			switch rapid.IntRange(0, 4).Draw(t, "change") {
			case 0:
				add()
			case 1:
				id := pick()
				do(func(tx *journal.Tx) error {
					err := journal.Change(tx, id, func(b *journal.Bake) { b.Ingredients = drawBake(t, cultures).Ingredients })
					return ignoreGone(err)
				})
			case 2:
				id := pick()
				do(func(tx *journal.Tx) error { return ignoreGone(journal.MoveToBin[journal.Bake](tx, id)) })
			case 3:
				id := pick()
				do(func(tx *journal.Tx) error { return tx.Remove(journal.Ref{Kind: journal.KindBake, ID: id}) })
			case 4:
				_, _ = j.Undo() // there may be nothing to undo
			}
		}
		f := drawFilter(t, cultures)
		compare(t, j, f)
		if err := j.Close(); err != nil {
			t.Fatal(err)
		}
		j = open(t, dir)
		compare(t, j, f)
		if report, err := j.Check(t.Context(), false); err != nil || report.Indexes != 0 {
			t.Fatalf("the index is not what the records give: %+v, %v", report, err)
		}
	})
}

// A bake that was begun in another time zone is of the month that it was here.
func TestTheMonthOfABakeFromElsewhere(t *testing.T) {
	j := open(t, t.TempDir())
	defer j.Close()
	at := time.Date(2026, 1, 31, 23, 0, 0, 0, time.UTC).In(time.FixedZone("", 7*3600)) // the first of February there
	if err := j.Do("a bake", func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Bake{Name: "Ferry loaf", At: at, State: journal.Finished})
	}); err != nil {
		t.Fatal(err)
	}
	record, err := past.Of(j)
	if err != nil {
		t.Fatal(err)
	}
	if groups := record.Grouped([]int{0}, shelf.ByMonth); len(groups) != 1 || groups[0].Key != "2026-01" {
		t.Errorf("a bake of 31 January is grouped under %+v", groups)
	}
}

func ignoreGone(err error) error {
	if err != nil && strings.Contains(err.Error(), journal.ErrNotFound.Error()) {
		return nil
	}
	return err
}

func compare(t *rapid.T, j *journal.Journal, f shelf.Filter) {
	record, err := past.Of(j)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, row := range record.Filter(f).Rows(shelf.Order{}) {
		got = append(got, string(record.Bakes[row].ID))
	}
	all, err := journal.All[journal.Bake](j)
	if err != nil {
		t.Fatal(err)
	}
	var want []string
	for _, b := range all {
		if holds(f, b) {
			want = append(want, string(b.ID))
		}
	}
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Fatalf("filter %+v finds %v, the records hold %v", f, got, want)
	}
}

func TestRow(t *testing.T) {
	summary := &journal.BakeSummary{
		ID: "x", At: start, Metrics: []shelf.Value{
			{Figure: shelf.ColdHours, Value: 12}, {Figure: shelf.CrumbOf("porosity"), Value: 0.3}, {Figure: shelf.Hydration, Value: 72},
			{Figure: shelf.Score, Value: 7}, {Figure: shelf.ScoreOf("aroma"), Value: 5},
		},
	}
	s := shelf.New([]shelf.Row{past.Row(summary, start.AddDate(0, 0, -30)), past.Row(&journal.BakeSummary{At: start}, time.Time{})})
	for figure, want := range map[shelf.Metric]float64{
		shelf.Hydration: 72, shelf.Score: 7, shelf.ScoreOf("aroma"): 5, shelf.CrumbOf("porosity"): 0.3, shelf.ColdHours: 12, shelf.CultureAge: 30,
	} {
		if got := s.Metric(0, figure); got != want {
			t.Errorf("%s is %v, want %v", figure, got, want)
		}
		if got := s.Metric(1, figure); got == got {
			t.Errorf("a bake of which nothing is known has a %s of %v", figure, got)
		}
	}
}

func TestInSentence(t *testing.T) {
	for name, want := range map[string]string{
		"Strong white": "strong white", "spelt": "spelt", "T65": "T65", "French T65": "French T65",
		"Mill Lane 80": "Mill Lane 80", "": "", "Épeautre": "épeautre", "R": "R",
	} {
		if got := past.InSentence(name); got != want {
			t.Errorf("%q becomes %q, want %q", name, got, want)
		}
	}
}

// A difference of temperatures has no zero point.
func TestDifference(t *testing.T) {
	r := &past.BakeIndex{Shelf: shelf.New(nil)}
	for _, tt := range []struct {
		units measure.Units
		want  string
	}{{measure.Units{}, "2\u00a0°C"}, {measure.Units{Fahrenheit: true}, "3.6\u00a0°F"}} {
		if got := r.Describe(shelf.DoughTemp, tt.units).Measure.WriteDifference(-2); got != tt.want {
			t.Errorf("two degrees are %q, want %q", got, tt.want)
		}
	}
}
