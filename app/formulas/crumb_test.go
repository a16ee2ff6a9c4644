package formulas

import (
	"fmt"
	"testing"

	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
)

// The crumb of the bakes that follow any version of a formula stands on its page, once there
// are two of them.
func TestCrumbOverTheWeeks(t *testing.T) {
	b := pagestest.New(t)
	f := &journal.Formula{Name: "Ferry loaf", Number: 1}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, f) })
	f.Family = f.ID
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, f) })
	bake := func(i int) {
		k := &journal.Bake{Name: fmt.Sprintf("Ferry loaf %d", i), At: b.Clock.AddDate(0, 0, 7*i-60), State: journal.Finished, Formula: f.ID}
		b.Put(func(tx *journal.Tx) error { return journal.Put(tx, k) })
		ph := &journal.Photo{Owner: journal.RefOf(k), Hash: fmt.Sprintf("%064x", i), Role: journal.RoleCrumb, Added: b.Clock}
		b.Put(func(tx *journal.Tx) error { return journal.Put(tx, ph) })
		s := crumb.Summary{Method: crumb.MethodVersion, LargeFrom: crumb.LargeFromMM, Figures: []crumb.Measurement{
			{ID: crumb.Porosity, Value: 0.3 + 0.02*float64(i), Off: 0.03, Trust: crumb.Trust(i % 2)}, {ID: crumb.CellDensity, Value: 20, Off: 3}}}
		if kept, err := b.Journal.KeepCrumb(ph, s); err != nil || !kept {
			t.Fatal(kept, err)
		}
	}
	bake(0)
	p := b.Show(openOne, pages.At(pages.Formula, f.ID)).(*page)
	b.Loop.Settle(b.Wait)
	if p.crumb.Object().Visible() {
		t.Error("one bake is drawn as a course")
	}
	bake(1)
	bake(2)
	p.reread()
	b.Loop.Settle(b.Wait)
	if !p.crumb.Object().Visible() {
		t.Error("three measured bakes are not drawn")
	}
	if p.nextVersion(); p.baked != 0 {
		t.Fatalf("a new version was baked %d times", p.baked)
	}
	b.Loop.Settle(b.Wait)
	if p.crumb.Object().Visible() {
		t.Error("a version that was never baked shows the crumb of those before it")
	}
	all, err := journal.Followed(b.Journal, f.ID)
	if err != nil {
		t.Fatal(err)
	}
	moments, err := pages.CrumbMoments(t.Context(), b.Journal, all)
	if err != nil || len(moments) != 3 || !moments[0].At.Before(moments[2].At) {
		t.Errorf("%d moments: %v", len(moments), err)
	}
}
