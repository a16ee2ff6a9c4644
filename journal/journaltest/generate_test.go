package journaltest_test

import (
	"reflect"
	"testing"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/journaltest"
	"twinloaf/journal/photo"
	"twinloaf/journal/shelf"
)

func generate(t *testing.T, spec journaltest.Spec) *journal.Journal {
	t.Helper()
	dir := t.TempDir()
	if err := journaltest.Generate(t.Context(), dir, spec); err != nil {
		t.Fatal(err)
	}
	j, _ := journaltest.OpenIn(t, dir, journal.Options{})
	return j
}

func TestAGeneratedJournalIsSoundAndFull(t *testing.T) {
	j := generate(t, journaltest.Spec{Bakes: 700, Photos: 1501, Seed: 3, Contents: 12})
	report, err := j.Check(t.Context(), false)
	if err != nil || !report.Sound() {
		t.Fatalf("%+v, %v", report, err)
	}
	summaries, err := j.BakeSummaries()
	if err != nil {
		t.Fatal(err)
	}
	photos, flours, covers := 0, map[string]bool{}, 0
	for _, c := range summaries {
		photos += c.Photos
		for _, f := range c.Flours {
			flours[f.Key] = true
		}
		if c.Cover != "" {
			covers++
		}
		if h := c.Metric(shelf.Hydration); !(h >= 50 && h <= 100) {
			t.Errorf("hydration %.1f %%", h)
		}
	}
	if len(summaries) != 700 || photos != 1501 || covers != 700 || len(flours) != 12 {
		t.Errorf("%d bakes, %d photos, %d covers, %d flours", len(summaries), photos, covers, len(flours))
	}
	if years := summaries[0].At.Sub(summaries[699].At).Hours() / 24 / 365; years < 9.5 || years > 10.1 {
		t.Errorf("it spans %.1f years", years)
	}
	if undo, _ := j.Steps(); undo != "" {
		t.Errorf("%q could be undone", undo)
	}
	thumb, err := j.Thumb(t.Context(), summaries[5].Cover, photo.Small)
	if err != nil || thumb.Rect.Dx() < 20 {
		t.Errorf("the thumbnail: %v", err)
	}
}

func TestOneSpecMakesOneJournal(t *testing.T) {
	spec := journaltest.Spec{Bakes: 60, Photos: 90, Seed: 5, Contents: 4}
	a, err := journal.All[journal.Bake](generate(t, spec))
	if err != nil {
		t.Fatal(err)
	}
	b, err := journal.All[journal.Bake](generate(t, spec))
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(a, b) {
		t.Error("the bakes differ")
	}
}

func TestTheClockIsTheTests(t *testing.T) {
	j, clock := journaltest.Open(t, journal.Options{})
	before := j.Now()
	clock.Forward(90 * time.Minute)
	if got := j.Now().Sub(before); got != 90*time.Minute {
		t.Errorf("the journal's clock moved by %v", got)
	}
}
