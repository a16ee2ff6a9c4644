package demo_test

import (
	"context"
	"errors"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"testing"
	"time"

	"twinloaf/assets/demo"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/verdict"
	"twinloaf/journal/journaltest/race"
	"twinloaf/journal/photo"
	"twinloaf/journal/plan"
	"twinloaf/journal/say"
	"twinloaf/journal/shelf"
)

var morning = time.Date(2026, 3, 4, 8, 54, 0, 0, time.FixedZone("", 3600))

func build(t *testing.T, now time.Time, opt demo.Options) *journal.Journal {
	t.Helper()
	dir := t.TempDir()
	if err := demo.Build(t.Context(), dir, now, opt); err != nil {
		t.Fatal(err)
	}
	j, err := journal.Open(t.Context(), dir, journal.Options{Clock: func() time.Time { return now }})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = j.Close() })
	return j
}

func all[T any, R journal.Record[T]](t *testing.T, j *journal.Journal) []R {
	t.Helper()
	out, err := journal.All[T, R](j)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestItIsSoundAtAnyHour(t *testing.T) {
	for _, now := range race.Few([]time.Time{morning, morning.Add(16 * time.Hour), time.Date(2026, 3, 29, 3, 30, 0, 0, time.UTC)}, 1) {
		j := build(t, now, demo.Options{NoPictures: true})
		report, err := j.Check(t.Context(), false)
		if err != nil || !report.Sound() || report.Records < 900 {
			t.Errorf("at %v: %+v, %v", now, report, err)
		}
		if undo, redo := j.Steps(); undo != "" || redo != "" {
			t.Errorf("at %v: undo %q, redo %q", now, undo, redo)
		}
	}
}

func TestEveryKindOfRecordIsThere(t *testing.T) {
	j := build(t, morning, demo.Options{NoPictures: true})
	for kind, n := range map[journal.Kind]int{
		journal.KindCulture: len(all[journal.Culture](t, j)), journal.KindFeeding: len(all[journal.Feeding](t, j)) - 100,
		journal.KindReading: len(all[journal.Reading](t, j)) - 300, journal.KindMove: len(all[journal.Move](t, j)) - 8,
		journal.KindTempLog: len(all[journal.TempLog](t, j)), journal.KindFlour: len(all[journal.Flour](t, j)) - 4,
		journal.KindFormula: len(all[journal.Formula](t, j)) - 4, journal.KindTrial: len(all[journal.Trial](t, j)) - 1,
		journal.KindTasting: len(all[journal.Tasting](t, j)) - 1, journal.KindSettings: len(all[journal.Settings](t, j)),
	} {
		if n <= 0 {
			t.Errorf("too few of %s", kind)
		}
	}
}

func TestOneTimeAndSeedTellOneStory(t *testing.T) {
	a := build(t, morning, demo.Options{NoPictures: true})
	b := build(t, morning, demo.Options{NoPictures: true})
	if x, y := all[journal.Bake](t, a), all[journal.Bake](t, b); !reflect.DeepEqual(x, y) {
		t.Error("bakes differ")
	}
	if x, y := all[journal.Reading](t, a), all[journal.Reading](t, b); !reflect.DeepEqual(x, y) {
		t.Error("readings differ")
	}
	if x, y := all[journal.Tasting](t, a), all[journal.Tasting](t, b); !reflect.DeepEqual(x, y) {
		t.Error("tastings differ")
	}
	c := build(t, morning, demo.Options{NoPictures: true, Seed: 9})
	if x, y := all[journal.Bake](t, a), all[journal.Bake](t, c); reflect.DeepEqual(x, y) {
		t.Error("another seed tells the same story")
	}
}

func TestBakesArePlausible(t *testing.T) {
	j := build(t, morning, demo.Options{NoPictures: true})
	summaries, err := j.BakeSummaries()
	if err != nil {
		t.Fatal(err)
	}
	states, unscored := map[journal.BakeState]int{}, 0
	for _, c := range summaries {
		states[c.State]++
		if h := c.Metric(shelf.Hydration); !(h >= 61.5 && h <= 84.5) {
			t.Errorf("%s of %v: hydration %.1f %%", c.Name, c.At, h)
		}
		if salt := c.Metric(shelf.Salt); !(salt >= 1.8 && salt <= 2.25) { // common practice: 1.8 to 2.2 %
			t.Errorf("%s of %v: salt %.2f %%", c.Name, c.At, salt)
		}
		if loss := c.Metric(shelf.Loss); loss < 8 || loss > 17 {
			t.Errorf("%s of %v: bake loss %.1f %%", c.Name, c.At, loss)
		}
		if dough := c.Metric(shelf.DoughTemp); dough < 18 || dough > 30 {
			t.Errorf("%s of %v: dough at %.1f °C", c.Name, c.At, dough)
		}
		if volume := c.Metric(shelf.Volume); volume < 1.5 || volume > 4.7 {
			t.Errorf("%s of %v: %.2f ml/g", c.Name, c.At, volume)
		}
		if c.State == journal.Finished && c.Score() == 0 {
			unscored++
		}
		if past := c.State == journal.Finished || c.State == journal.Recorded; past && c.At.After(morning) {
			t.Errorf("%s of %v is over before it has begun", c.Name, c.At)
		}
	}
	if len(summaries) < 55 || len(summaries) > 90 {
		t.Errorf("%d bakes", len(summaries))
	}
	if unscored != 1 || states[journal.Running] != 1 || states[journal.Planned] != 2 || states[journal.Recorded] == 0 {
		t.Errorf("%d wait to be scored, states %v", unscored, states)
	}
}

func TestATurnIsDueInTwelveMinutes(t *testing.T) {
	j := build(t, morning, demo.Options{NoPictures: true})
	for _, b := range all[journal.Bake](t, j) {
		if b.State != journal.Running {
			continue
		}
		day, ok := b.Day()
		if !ok {
			t.Fatal("the dough under way has no plan")
		}
		moments := day.Timeline(morning)
		next := moments[slices.IndexFunc(moments, func(m plan.Moment) bool { return m.State == plan.Pending })]
		if next.Title.String() != "Fold 3 of 5" || next.Left(morning) != 12*time.Minute {
			t.Errorf("next is %s in %v", next.Title, next.Left(morning))
		}
		return
	}
	t.Error("no dough is under way")
}

func TestTheTriangleIsOpenAndItsSealHolds(t *testing.T) {
	j := build(t, morning, demo.Options{NoPictures: true})
	var inputs []verdict.Input
	var planned int
	for _, tasting := range all[journal.Tasting](t, j) {
		o, known, err := tasting.Opened()
		if err != nil {
			t.Fatal(err)
		}
		if !known {
			planned++
			continue
		}
		right := 0
		for _, r := range o.Rounds {
			if o.Right(r, r.Answer) {
				right++
			}
		}
		if want := map[int]int{18: 12, 6: 4}[len(o.Rounds)]; o.Setting.Plan.Method != blind.Triangle || right != want {
			t.Errorf("%d of %d right", right, len(o.Rounds))
		}
		if !blind.Verifies(o.Text, tasting.Commitment) {
			t.Error("the commitment does not hold")
		}
		in, err := journal.VerdictInput(j, tasting)
		if err != nil {
			t.Fatal(err)
		}
		inputs = append(inputs, in)
		for _, d := range in.Differences {
			if !d.Settled() {
				t.Errorf("nothing was said to %s", d.Sentence(say.Of("the first"), say.Of("the second")))
			}
		}
		if len(o.Setting.Plan.Loaves[0].Allergens) == 0 {
			t.Error("no allergens are named")
		}
	}
	if len(inputs) != 2 || planned != 1 {
		t.Fatalf("%d tastings open, %d planned", len(inputs), planned)
	}
	sum, err := verdict.Pool(inputs, []bool{true, true})
	if err != nil || !sum.Replicates || sum.Tally.Agreeing != 16 || sum.Tally.Counted != 24 {
		t.Errorf("the two add up to %+v, %v", sum, err)
	}
}

func TestThePicturesAreThere(t *testing.T) {
	j := build(t, morning, demo.Options{})
	roles := map[journal.Role]int{}
	for _, p := range all[journal.Photo](t, j) {
		roles[p.Role]++
		if p.Slice != nil && (p.Slice.LengthMM < 80 || p.Slice.LengthMM > 320) {
			t.Errorf("a slice of %.0f mm", p.Slice.LengthMM)
		}
	}
	for _, r := range []journal.Role{journal.RoleCrumb, journal.RoleCrust, journal.RoleDough, journal.RoleJar} {
		if roles[r] == 0 {
			t.Errorf("no photo of the %s", r)
		}
	}
	report, err := j.Check(t.Context(), false)
	if err != nil || !report.Sound() {
		t.Errorf("%+v, %v", report, err)
	}
}

// What the file of each photo says by itself is what its record says.
func TestThePicturesAreDatedAsTheStoryHasIt(t *testing.T) {
	j := build(t, morning, demo.Options{})
	for _, p := range all[journal.Photo](t, j) {
		f, err := os.Open(filepath.Join(j.Dir(), "photos", p.Hash[:2], p.Hash+".jpg"))
		if err != nil {
			t.Fatal(err)
		}
		meta, err := photo.Inspect(p.Name, f, photo.Limits{})
		f.Close()
		if err != nil || !meta.Taken.Equal(p.Taken) || !meta.TakenZoneKnown || meta.Width != p.Width || meta.Height != p.Height {
			t.Errorf("the photo of %v: %+v, %v", p.Taken, meta, err)
		}
	}
}

// The culture stands in the picture of a jar as high as its reading says.
func TestJarsShowTheirReadings(t *testing.T) {
	n := 0
	for _, r := range all[journal.Reading](t, build(t, morning, demo.Options{NoPictures: true})) {
		if l := r.Lines; l != nil {
			n++
			if rise := (l.Bottom - l.Now) / (l.Bottom - l.Start); math.Abs(rise-*r.Rise) > 0.005 {
				t.Errorf("the lines measure %.3f, the reading says %.2f", rise, *r.Rise)
			}
		}
	}
	if n < 5 {
		t.Errorf("%d jars were photographed", n)
	}
}

func TestAJournalThatIsThereIsLeftAlone(t *testing.T) {
	dir := t.TempDir()
	opt := demo.Options{NoPictures: true}
	if err := demo.Build(t.Context(), dir, morning, opt); err != nil {
		t.Fatal(err)
	}
	if err := demo.Build(t.Context(), dir, morning, opt); !errors.Is(err, demo.ErrThere) {
		t.Errorf("built over a journal: %v", err)
	}
}

func TestACancelledBuildSaysSo(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	err := demo.Build(ctx, t.TempDir(), morning, demo.Options{})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

// Every plan of the demo, as it was made, lets its cook sleep; and its steps are of the
// kinds that plans and findings know.
func TestPlansRespectTheHoursOfSleep(t *testing.T) {
	j := build(t, morning, demo.Options{NoPictures: true})
	s, err := j.Settings()
	if err != nil {
		t.Fatal(err)
	}
	from, to := s.Sleep()
	night := plan.Night{From: plan.ClockTime(from.Minutes()), To: plan.ClockTime(to.Minutes())}
	kinds, plans := map[string]int{}, 0
	for _, b := range all[journal.Bake](t, j) {
		for _, st := range b.Steps {
			kinds[st.Kind]++
		}
		day, ok := b.Day()
		if !ok {
			continue
		}
		plans++
		day.Marks, day.Shifts = nil, nil
		for _, m := range day.AtNight(night, time.Time{}) {
			t.Errorf("%s of %v: %s at %v, when the cook sleeps", b.Name, b.At.Format("2 Jan"), m.Title, m.Due.Format("15:04"))
		}
	}
	if plans < 30 {
		t.Errorf("%d plans", plans)
	}
	for _, k := range []plan.Kind{plan.PreShape, plan.BenchRest, plan.Proof} {
		if kinds[string(k)] < 5 {
			t.Errorf("%d steps of the kind %s", kinds[string(k)], k)
		}
	}
	if kinds[string(plan.Other)] > 0 {
		t.Errorf("%d steps are of no kind", kinds[string(plan.Other)])
	}
}
