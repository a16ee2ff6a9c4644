package findings

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"twinloaf/app/pages/pagestest"
	"twinloaf/app/past"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
)

// measureCrumbs keeps a porosity for the bakes of the record whose loaf is even, the
// higher the better it scored, and gives it by bake.
func measureCrumbs(t *testing.T, b *pagestest.Bench) map[journal.ID]float64 {
	t.Helper()
	bakes, err := journal.All[journal.Bake](b.Journal)
	if err != nil {
		t.Fatal(err)
	}
	kept := map[journal.ID]float64{}
	for i, k := range bakes {
		if i%2 == 1 {
			continue
		}
		p := &journal.Photo{Owner: journal.RefOf(k), Hash: fmt.Sprintf("%064x", i), Role: journal.RoleCrumb, Added: march}
		b.Put(func(tx *journal.Tx) error { return journal.Put(tx, p) })
		open := 0.3 + 0.02*float64(k.Outcome.Scores[0].Score)
		s := crumb.Summary{Method: crumb.MethodVersion, LargeFrom: crumb.LargeFromMM, Figures: []crumb.Measurement{
			{ID: crumb.Porosity, Value: open}, {ID: crumb.Elongation, Value: 2, Trust: crumb.Doubtful},
		}}
		if ok, err := b.Journal.KeepCrumb(p, s); err != nil || !ok {
			t.Fatalf("kept %v, %v", ok, err)
		}
		kept[k.ID] = open
	}
	return kept
}

func TestFactorsOffered(t *testing.T) {
	b := pagestest.New(t)
	record(t, b, 30)
	offered := func() []shelf.Metric {
		r, err := past.Of(b.Journal)
		if err != nil {
			t.Fatal(err)
		}
		var out []shelf.Metric
		for _, f := range factors(r, measure.Units{}) {
			out = append(out, f.Key)
		}
		return out
	}
	before := offered()
	measureCrumbs(t, b)
	after := offered()
	for _, c := range []struct {
		figure              shelf.Metric
		unmeasured, measure bool
		why                 string
	}{
		{shelf.ColdHours, true, true, "what was done"},
		{shelf.Hydration, true, true, "what was done"},
		{shelf.ShareOf("strong white"), true, true, "a flour's share"},
		{byCulture, true, true, "two cultures"},
		{byTrial, false, false, "no bake is in a trial"},
		{shelf.CrumbOf(string(crumb.Porosity)), false, true, "once some bake has it"},
		{shelf.CrumbOf(string(crumb.Elongation)), false, false, "a doubtful figure is kept off the shelf"},
		{shelf.Score, false, false, "a judgement is an outcome alone"},
		{shelf.Loss, false, false, "an outcome alone, and no bake has it"},
	} {
		if got := slices.Contains(before, c.figure); got != c.unmeasured {
			t.Errorf("%s before any crumb is measured: offered %v (%s)", c.figure, got, c.why)
		}
		if got := slices.Contains(after, c.figure); got != c.measure {
			t.Errorf("%s after crumbs are measured: offered %v (%s)", c.figure, got, c.why)
		}
	}
}

// What follows from the crumb is asked of the bakes that have it measured; the others
// are left out, and that is said.
func TestACrumbMeasureAsFactor(t *testing.T) {
	b := pagestest.New(t)
	record(t, b, 30)
	kept := measureCrumbs(t, b)
	p := show(t, b, string(shelf.CrumbOf(string(crumb.Porosity))))
	a := p.answer
	if a.factor.Key != shelf.CrumbOf(string(crumb.Porosity)) || a.n != len(kept) || a.without != 30-len(kept) {
		t.Fatalf("asked of %s: %d bakes, %d left out", a.factor.Key, a.n, a.without)
	}
	figure, pointOf := chartOf(p.record, a, measure.Units{})
	layers := figure.(charts.Plot).Panels[0].Layers
	points := layers[len(layers)-1].(charts.Series) // above the trend
	if len(points.X) != len(kept) {
		t.Fatalf("%d points, want %d", len(points.X), len(kept))
	}
	for i, x := range points.X {
		row, ok := pointOf(charts.Mark{Series: points.Name, Index: i})
		if !ok {
			t.Fatalf("point %d is no bake", i)
		}
		c := p.record.Bakes[row]
		if want := kept[c.ID]; math.Abs(x-want) > 1e-12 || points.Y[i] != float64(c.Score()) {
			t.Errorf("%s lies at %v, %v, want %v, %d", c.Name, x, points.Y[i], want, c.Score())
		}
	}
	if got := headline(a); !strings.HasPrefix(got, "A higher ") || !strings.HasSuffix(got, " went with higher scores") {
		t.Errorf("headline %q", got)
	}
	said := plain(strings.Join(finds(a, measure.Units{}), " "))
	for _, want := range []string{"Over 15 bakes", "15 of 30 bakes have both figures; the others are left out."} {
		if !strings.Contains(said, want) {
			t.Errorf("%q is not in %q", want, said)
		}
	}
	if len(p.proposal.values) != 0 {
		t.Errorf("a trial is proposed that gives doughs their crumb: %+v", p.proposal)
	}
}

// What moved along is named only where it could stand behind the factor.
func TestWhatIsWorthNaming(t *testing.T) {
	porosity, mean := shelf.CrumbOf(string(crumb.Porosity)), shelf.CrumbOf(string(crumb.MeanArea))
	for _, c := range []struct {
		other, of shelf.Metric
		want      bool
		why       string
	}{
		{shelf.DoughTemp, shelf.ColdHours, true, "a cooler dough rests longer"},
		{shelf.DoughWeight, shelf.ShareOf("spelt"), false, "how many loaves were wanted"},
		{shelf.ShareOf("spelt"), shelf.DoughWeight, true, "large doughs may be of another flour"},
		{porosity, shelf.Hydration, false, "it follows from the water"},
		{shelf.Hydration, porosity, true, "the water may stand behind the crumb and the score"},
		{mean, porosity, false, "the same crumb, measured otherwise"},
		{shelf.ShareOf("rye"), shelf.ShareOf("spelt"), false, "shares of one whole"},
		{shelf.Wholegrain, shelf.ShareOf("spelt"), false, "reckoned from it"},
		{shelf.Inoculation, shelf.Prefermented, false, "reckoned alike"},
		{shelf.Salt, shelf.Salt, false, "itself"},
	} {
		if got := confounds(c.other, c.of); got != c.want {
			t.Errorf("%s beside %s: named %v (%s)", c.other, c.of, got, c.why)
		}
	}
}
