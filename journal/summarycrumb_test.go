package journal

import (
	"context"
	"maps"
	"math"
	"testing"

	bolt "go.etcd.io/bbolt"

	"twinloaf/journal/crumb"
	"twinloaf/journal/shelf"
	"twinloaf/journal/store"
)

// newCrumbPhotos puts n crumb photos of a bake into the journal.
func newCrumbPhotos(t *testing.T, j *Journal, bake ID, n int) []*Photo {
	t.Helper()
	photos := make([]*Photo, n)
	for i := range photos {
		photos[i] = &Photo{Owner: Ref{Kind: KindBake, ID: bake}, Hash: string(rune('a' + i)), Role: RoleCrumb, Added: j.Now()}
		if err := j.Do("photo", func(tx *Tx) error { return Put(tx, photos[i]) }); err != nil {
			t.Fatal(err)
		}
	}
	return photos
}

// measured is a summary with an open share and a mean area that are good, and one
// doubtful figure; and one of sure voids, which stands beside no other.
func measured(open, area float64) crumb.Summary {
	return crumb.Summary{Method: crumb.MethodVersion, LargeFrom: crumb.LargeFromMM, Figures: []crumb.Measurement{
		{ID: crumb.Porosity, Value: open}, {ID: crumb.MeanArea, Value: area}, {ID: crumb.Elongation, Value: 2, Trust: crumb.Doubtful}, {ID: crumb.SureVoids, Value: open / 2},
	}}
}

func keepCrumb(t *testing.T, j *Journal, p *Photo, s crumb.Summary) {
	t.Helper()
	now, err := Get[Photo](j, p.ID)
	if err != nil {
		t.Fatal(err)
	}
	if kept, err := j.KeepCrumb(now, s); err != nil || !kept {
		t.Fatalf("kept %v, %v", kept, err)
	}
}

func theSummary(t *testing.T, j *Journal) *BakeSummary {
	t.Helper()
	summaries, err := j.BakeSummaries()
	if err != nil || len(summaries) != 1 {
		t.Fatalf("%d summaries, %v", len(summaries), err)
	}
	return summaries[0]
}

// What was measured reaches the summary with the change that keeps it, survives a
// rebuild of the indexes, leaves retakes of a slice and doubtful figures out, and
// is no step of the history.
func TestCrumbInTheSummary(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	bake := newBake(t, j, "Ferry loaf")
	photos := newCrumbPhotos(t, j, bake, 3)
	if err := j.Do("retake", func(tx *Tx) error {
		return Change(tx, photos[2].ID, func(p *Photo) { p.Slice = &Slice{Same: photos[0].ID} })
	}); err != nil {
		t.Fatal(err)
	}
	var told []Ref
	defer j.Listen(func(c Changed) { told = append(told, c.Refs...) })()
	theSummary(t, j) // so that the summaries are in memory before they change
	undo, _ := j.Steps()
	keepCrumb(t, j, photos[0], measured(0.2, 3))
	keepCrumb(t, j, photos[1], crumb.Summary{Method: crumb.MethodVersion, Figures: []crumb.Measurement{{ID: crumb.Porosity, Value: 0.3}}})
	keepCrumb(t, j, photos[2], measured(0.99, 99))
	want := map[string]float64{"porosity": 0.25, "mean_cell_area": 3}
	if got := structureOn(theSummary(t, j)); !maps.Equal(got, want) {
		t.Errorf("structure %v, want %v", got, want)
	}
	if !(Changed{Refs: told}).Touches(bake) {
		t.Error("nobody was told that the bake's summary changed")
	}
	if after, _ := j.Steps(); after != undo {
		t.Errorf("measuring became the step %q of the history", after)
	}
	mustBeSound(t, j)
}

// Figures fall away with what they rest on, and come back with it.
func TestCrumbFiguresFollowTheSlice(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	p := newCrumbPhotos(t, j, newBake(t, j, "Ferry loaf"), 1)[0]
	keepCrumb(t, j, p, measured(0.2, 3))
	before, err := Get[Photo](j, p.ID)
	if err != nil {
		t.Fatal(err)
	}
	if err := Edit(j, p.ID, "sensitivity", func(p *Photo) { p.Slice = &Slice{Sensitivity: 0.1} }); err != nil {
		t.Fatal(err)
	}
	edited, err := Get[Photo](j, p.ID)
	if err != nil {
		t.Fatal(err)
	}
	if _, ok, err := CrumbMeasures(j, edited); ok || err != nil {
		t.Errorf("figures of another sensitivity are given (%v)", err)
	}
	if err := j.Flush(); err != nil {
		t.Fatal(err)
	}
	if got := structureOn(theSummary(t, j)); got != nil {
		t.Errorf("the summary keeps %v of another sensitivity", got)
	}
	mustBeSound(t, j)
	if kept, err := j.KeepCrumb(before, measured(0.4, 4)); kept || err != nil {
		t.Errorf("what was measured before the change was kept after it: %v, %v", kept, err)
	}
	if _, err := j.Undo(); err != nil {
		t.Fatal(err)
	}
	if got := theSummary(t, j).Metric(shelf.CrumbOf("porosity")); got != 0.2 {
		t.Errorf("after undo the open share is %v, want 0.2", got)
	}
	mustBeSound(t, j)
}

// A newer method makes nothing of what an older one measured, also on the summaries,
// from the first opening on.
func TestCrumbOfAnOlderMethod(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	p := newCrumbPhotos(t, j, newBake(t, j, "Ferry loaf"), 1)[0]
	keepCrumb(t, j, p, measured(0.2, 3))
	old := measured(0.2, 3)
	old.Method--
	if err := j.store.Update(func(st *store.Tx) error {
		basis, err := crumbBasis(p)
		if err != nil {
			return err
		}
		return keepDerived(st, crumbPrefix+string(p.ID), derived[crumb.Summary]{Method: old.Method, Basis: basis, Value: old})
	}); err != nil {
		t.Fatal(err)
	}
	if _, ok, err := CrumbMeasures(j, p); ok || err != nil {
		t.Errorf("figures of an older method are given (%v)", err)
	}
	if err := invalidateCrumb(j.store, crumb.MethodVersion+1); err != nil {
		t.Fatal(err)
	}
	j.summaries = nil // as in a program that has just opened the journal
	if got := structureOn(theSummary(t, j)); got != nil {
		t.Errorf("the summary keeps %v of an older method", got)
	}
	mustBeSound(t, j)
}

// A damaged value is as good as none; Check finds it and takes it away.
func TestDamagedDerivedValue(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	p := newCrumbPhotos(t, j, newBake(t, j, "Ferry loaf"), 1)[0]
	keepCrumb(t, j, p, measured(0.2, 3))
	if err := j.store.Bolt().Update(func(tx *bolt.Tx) error {
		b := tx.Bucket([]byte(sideDerived))
		v := append([]byte{}, b.Get([]byte(crumbPrefix+string(p.ID)))...)
		v[len(v)/2] ^= 1
		return b.Put([]byte(crumbPrefix+string(p.ID)), v)
	}); err != nil {
		t.Fatal(err)
	}
	if _, ok, err := CrumbMeasures(j, p); ok || err != nil {
		t.Errorf("damaged figures are given (%v)", err)
	}
	if r, err := j.Check(context.Background(), true); err != nil || r.Indexes == 0 || !r.Repaired {
		t.Errorf("check says %+v, %v", r, err)
	}
	mustBeSound(t, j)
	keepCrumb(t, j, p, measured(0.3, 3))
	if got := theSummary(t, j).Metric(shelf.CrumbOf("porosity")); got != 0.3 {
		t.Errorf("measured again, the summary has %v, want 0.3", got)
	}
}

func TestOnShelf(t *testing.T) {
	all := crumb.Summary{Method: crumb.MethodVersion, LargeFrom: crumb.LargeFromMM}
	for _, d := range crumb.Definitions() {
		all.Figures = append(all.Figures, crumb.Measurement{ID: d.ID, Value: 1})
	}
	with := func(change func(*crumb.Summary)) map[string]float64 {
		s := all
		change(&s)
		return onShelf(s)
	}
	if got := with(func(*crumb.Summary) {}); len(got) != len(all.Figures)-2 || got["main_direction"] != 0 || got[string(crumb.SureVoids)] != 0 {
		t.Errorf("of a good photo: %v", got)
	}
	if got := with(func(s *crumb.Summary) { s.Sensitivity = 0.2 }); got != nil {
		t.Errorf("at another sensitivity: %v", got)
	}
	relative := with(func(s *crumb.Summary) { s.Relative = true })
	if _, ok := relative["mean_cell_area"]; ok || relative["porosity"] != 1 || relative["elongation"] != 1 {
		t.Errorf("without a true length: %v", relative)
	}
	if _, ok := with(func(s *crumb.Summary) { s.LargeFrom = 8 })["large_cell_share"]; ok {
		t.Error("with another size called large the share is on the shelf")
	}
}

func TestCrumbRetakes(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	photos := newCrumbPhotos(t, j, newBake(t, j, "Ferry loaf"), 6)
	same := func(photo, of int) {
		t.Helper()
		if err := j.Do("retake", func(tx *Tx) error {
			return Change(tx, photos[photo].ID, func(p *Photo) { p.Slice = &Slice{Same: photos[of].ID} })
		}); err != nil {
			t.Fatal(err)
		}
	}
	same(1, 0)
	same(2, 1) // a retake of a retake
	same(3, 4)
	same(4, 3) // a ring
	for i, p := range photos[:5] {
		keepCrumb(t, j, p, measured(float64(i)/10, 1))
	}
	groups, err := CrumbRetakes(j)
	if err != nil {
		t.Fatal(err)
	}
	if len(groups) != 2 || len(groups[0])+len(groups[1]) != 5 {
		t.Fatalf("%d groups: %v", len(groups), groups)
	}
	for _, g := range groups {
		sum := 0.0
		for _, s := range g {
			sum += s.Measured(crumb.Porosity).Value
		}
		if want := map[int]float64{3: 0 + 0.1 + 0.2, 2: 0.3 + 0.4}[len(g)]; math.Abs(sum-want) > 1e-9 {
			t.Errorf("a group of %d with open shares that sum to %v, want %v", len(g), sum, want)
		}
	}
}

// structureOn is what a summary has of the bake's crumb, by the names of the measures.
func structureOn(c *BakeSummary) map[string]float64 {
	var out map[string]float64
	for _, v := range c.Metrics {
		if measure, ok := v.Figure.Crumb(); ok {
			if out == nil {
				out = map[string]float64{}
			}
			out[measure] = v.Value
		}
	}
	return out
}
