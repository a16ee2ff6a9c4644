package carry_test

import (
	"math"
	"path/filepath"
	"testing"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/carry"
	"twinloaf/journal/jar/jartest"
)

// A row of pictures goes with its culture, its frames and its originals with it; the curve
// stays, and comes out the same from what has come.
func TestARowOfPicturesTravelsWithItsCulture(t *testing.T) {
	k := filled(t)
	scene := (&jartest.Scene{Seed: 5, Frames: 10, Every: 12 * time.Minute, Start: k.Now(), Peak: 2, ToPeak: 80 * time.Minute, Noise: 1}).Begin()
	paths, err := jartest.Folder{Dir: filepath.Join(t.TempDir(), "stack of books")}.Write(scene)
	if err != nil {
		t.Fatal(err)
	}
	var pictures []journal.Picture
	for _, p := range paths {
		pictures = append(pictures, journal.Picture{Name: filepath.Base(p), Path: p})
	}
	plan, err := k.PlanSeries(t.Context(), pictures)
	if err != nil {
		t.Fatal(err)
	}
	one := journal.SeriesJar{Culture: k.culture, Feeding: k.feeding}
	one.SetMarks(scene.Marks())
	id, err := k.BeginSeries(plan, false, one)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := k.TakeSeries(t.Context(), id, nil); err != nil {
		t.Fatal(err)
	}
	want, err := k.FollowSeries(t.Context(), id)
	if err != nil {
		t.Fatal(err)
	}
	s, err := journal.Get[journal.Series](k.Journal, id)
	if err != nil {
		t.Fatal(err)
	}
	frames, err := journal.Frames(k.Journal, s)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := k.FinishSeries(t.Context(), id, "originals", frames[:2]); err != nil {
		t.Fatal(err)
	}
	other := fresh(t)
	bring(t, other.Journal, take(t, k.Journal, journal.Ref{Kind: journal.KindCulture, ID: k.culture}), carry.TakeTheirs)
	if s, err = journal.Get[journal.Series](other.Journal, id); err != nil {
		t.Fatal(err)
	}
	if frames, err = journal.Frames(other.Journal, s); err != nil || len(frames) != 10 {
		t.Fatalf("%d frames came: %v", len(frames), err)
	}
	if originals, err := journal.OriginalsOf(other.Journal, frames); err != nil || len(originals) != 2 {
		t.Errorf("%d originals came: %v", len(originals), err)
	}
	if _, ok, err := journal.SeriesCurves(other.Journal, s); ok || err != nil {
		t.Errorf("a curve came along: %v", err)
	}
	if caught, err := other.CatchUpSeries(t.Context(), s); !caught || err != nil {
		t.Fatalf("nothing was worked out: %v", err)
	}
	got, ok, err := journal.SeriesCurves(other.Journal, s)
	if !ok || err != nil {
		t.Fatalf("nothing was kept: %v", err)
	}
	if caught, err := other.CatchUpSeries(t.Context(), s); caught || err != nil {
		t.Errorf("it was worked out again: %v", err)
	}
	for i, p := range got[0].Points {
		if math.Abs(p.Rise-want[0].Points[i].Rise) > 1e-9 {
			t.Errorf("picture %d: %.4f, was %.4f", i, p.Rise, want[0].Points[i].Rise)
		}
	}
}
