package journal

import (
	"context"
	"errors"
	"image"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"twinloaf/journal/jar"
	"twinloaf/journal/jar/jartest"
)

// rowOf is a made-up series in good light.
func rowOf(frames int) *jartest.Scene {
	return (&jartest.Scene{
		Seed: 5, Frames: frames, Every: 6 * time.Minute, Start: time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC), Peak: 2.1,
		ToPeak: time.Duration(frames) * 4 * time.Minute, Noise: 1.5,
	}).Begin()
}

// filesOf writes a series into a folder and gives it as files that were dropped.
func filesOf(t testing.TB, s *jartest.Scene, ahead time.Duration) []Picture {
	t.Helper()
	paths, err := jartest.Folder{Dir: filepath.Join(t.TempDir(), "stack of books"), Ahead: ahead}.Write(s)
	if err != nil {
		t.Fatal(err)
	}
	out := make([]Picture, len(paths))
	for i, p := range paths {
		out[i] = Picture{Name: filepath.Base(p), Path: p}
	}
	return out
}

// begun puts a culture with a feeding into the journal and begins a series of it.
func begun(t testing.TB, j *Journal, s *jartest.Scene, files []Picture) ID {
	t.Helper()
	c := &Culture{Name: "Ferry"}
	f := &Feeding{At: s.Start, Kept: 20, Flour: 40, Water: 40}
	err := j.Do("a feeding", func(tx *Tx) error {
		if err := Put(tx, c); err != nil {
			return err
		}
		f.Culture = c.ID
		return Put(tx, f)
	})
	if err != nil {
		t.Fatal(err)
	}
	plan, err := j.PlanSeries(t.Context(), files)
	if err != nil {
		t.Fatal(err)
	}
	one := SeriesJar{Culture: c.ID, Feeding: f.ID}
	one.SetMarks(s.Marks())
	id, err := j.BeginSeries(plan, false, one)
	if err != nil {
		t.Fatal(err)
	}
	return id
}

func take(t testing.TB, j *Journal, id ID) *Series {
	t.Helper()
	refused, err := j.TakeSeries(t.Context(), id, nil)
	if err != nil || len(refused) > 0 {
		t.Fatal(refused, err)
	}
	s, err := Get[Series](j, id)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// From files to a curve: pictures in the order of the camera's clock, less what it was
// ahead, small ones kept and few originals; and the curve is kept until what it rests on
// changes.
func TestASeriesFromFilesToItsCurve(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	scene := rowOf(18)
	ahead := 47 * time.Minute
	id := begun(t, j, scene, filesOf(t, scene, ahead))
	s := take(t, j, id)
	if !s.Reading() || s.Name != "stack of books" || !s.From.Equal(scene.Start.Add(ahead)) {
		t.Errorf("%+v", s)
	}
	if err := Edit(j, id, "clock", func(s *Series) { s.Ahead = ahead }); err != nil {
		t.Fatal(err)
	}
	curves, err := j.FollowSeries(t.Context(), id)
	if err != nil {
		t.Fatal(err)
	}
	if len(curves) != 1 || len(curves[0].Points) != 18 {
		t.Fatalf("%d curves", len(curves))
	}
	var errs []float64
	for i, p := range curves[0].Points {
		if !p.At.Equal(scene.At(i)) {
			t.Errorf("picture %d is of %v, want %v", i, p.At, scene.At(i))
		}
		errs = append(errs, math.Abs(p.Rise-scene.Rise(i)))
	}
	slices.Sort(errs)
	if errs[len(errs)/2] > 0.01 || errs[len(errs)-1] > 0.03 {
		t.Errorf("off by %.3f in the middle, %.3f at the most", errs[len(errs)/2], errs[len(errs)-1])
	}
	s, _ = Get[Series](j, id)
	kept, ok, err := SeriesCurves(j, s)
	if err != nil || !ok || len(kept[0].Points) != 18 {
		t.Fatalf("kept: %v, %v", ok, err)
	}
	frames, err := Frames(j, s)
	if err != nil {
		t.Fatal(err)
	}
	if refused, err := j.FinishSeries(t.Context(), id, "originals", []*Photo{frames[0], frames[12], frames[17]}); err != nil || len(refused) > 0 {
		t.Fatal(refused, err)
	}
	s, _ = Get[Series](j, id)
	originals, err := OriginalsOf(j, frames)
	if err != nil || s.Reading() || s.Folder != "" || len(originals) != 3 || originals[1].Owner.ID != frames[12].ID {
		t.Errorf("%d originals, still reading %v from %q: %v", len(originals), s.Reading(), s.Folder, err)
	}
	if _, ok, _ := SeriesCurves(j, s); !ok {
		t.Error("the originals took the curve away")
	}
	// A drawn height, the camera's clock and other lines are what it rests on.
	for name, change := range map[string]func(*Series){
		"a drawn height": func(s *Series) { s.Jars[0].Draw(frames[3].ID, 1.5) },
		"the clock":      func(s *Series) { s.Ahead += time.Minute },
		"a line":         func(s *Series) { s.Jars[0].Level += 0.01 },
	} {
		other := *s
		other.Jars = slices.Clone(s.Jars)
		change(&other)
		if _, ok, err := SeriesCurves(j, &other); ok || err != nil {
			t.Errorf("%s: the curve is still good: %v", name, err)
		}
	}
	if report, err := j.Check(t.Context(), false); err != nil || !report.Sound() {
		t.Errorf("%+v %v", report, err)
	}
}

// A series that was cut off goes on where it was, and says so when its folder is gone; what
// cannot be read, or is of another shape, is named and the others are in.
func TestASeriesGoesOnWhereItWasCutOff(t *testing.T) {
	dir := t.TempDir()
	clock := newClock()
	j := openTest(t, dir, clock)
	scene := rowOf(12)
	files := filesOf(t, scene, 0)
	id := begun(t, j, scene, files)
	ctx, cancel := context.WithCancel(t.Context())
	got := 0
	_, err := j.TakeSeries(ctx, id, func(*Photo, *image.RGBA) {
		if got++; got == 1 {
			cancel()
		}
	})
	if !errors.Is(err, context.Canceled) {
		t.Fatal(err)
	}
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	clock.Forward(time.Minute) // or names would be given twice by the fixed chance of tests
	j = openTest(t, dir, clock)
	s, err := Get[Series](j, id)
	if err != nil {
		t.Fatal(err)
	}
	if before, _ := Frames(j, s); len(before) == 0 || len(before) == 12 {
		t.Fatalf("%d pictures were kept", len(before))
	}
	folder := filepath.Dir(files[0].Path)
	if err := os.Rename(folder, folder+" away"); err != nil {
		t.Fatal(err)
	}
	if _, err := j.TakeSeries(t.Context(), id, nil); !errors.Is(err, ErrNoFolder) {
		t.Errorf("without its folder: %v", err)
	}
	if err := os.Rename(folder+" away", folder); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(files[7].Path, 900); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(files[9].Path, jpegBytes(t, 90, 90, image.White.C), 0o600); err != nil {
		t.Fatal(err)
	}
	refused, err := j.TakeSeries(t.Context(), id, nil)
	if err != nil || len(refused) != 2 {
		t.Fatalf("refused %v, %v", refused, err)
	}
	s, _ = Get[Series](j, id)
	frames, err := Frames(j, s)
	if err != nil || len(frames) != 10 || len(s.Refused) != 2 {
		t.Errorf("%d pictures, refused %v: %v", len(frames), s.Refused, err)
	}
	if again, err := j.TakeSeries(t.Context(), id, nil); err != nil || len(again) != 2 {
		t.Errorf("the third time: %v, %v", again, err)
	}
	if photos, _ := Photos(j, id); len(photos) != 10 {
		t.Errorf("%d photos: some were read twice", len(photos))
	}
}

// Of a picture that does not say when it was taken the file's time counts, whatever the
// camera's clock; and what goes in the bin meanwhile gets no more pictures.
func TestFileTimesStandIn(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	scene := rowOf(3)
	files := filesOf(t, scene, 0)
	if err := os.WriteFile(files[2].Path, jpegBytes(t, jartest.Width, jartest.Height, image.White.C), 0o600); err != nil {
		t.Fatal(err)
	}
	filed := scene.Start.Add(20 * time.Hour)
	if err := os.Chtimes(files[2].Path, filed, filed); err != nil {
		t.Fatal(err)
	}
	plan, err := j.PlanSeries(t.Context(), append(files, Picture{Name: "notes", Path: filepath.Join(t.TempDir(), "notes.txt")}))
	if err != nil || len(plan.Refused) != 1 {
		t.Fatal(plan.Refused, err)
	}
	id := begun(t, j, scene, files)
	s := take(t, j, id)
	s.Ahead = time.Hour
	frames, err := Frames(j, s)
	if err != nil || len(frames) != 3 {
		t.Fatal(len(frames), err)
	}
	if got := s.TakenAt(frames[2]); !got.Equal(filed) {
		t.Errorf("the file's time became %v", got)
	}
	if got := s.TakenAt(frames[0]); !got.Equal(scene.Start.Add(-time.Hour)) {
		t.Errorf("the camera's time became %v", got)
	}
}

// A series with a jar that was not marked says nothing, and says that.
func TestWithoutLinesThereIsNoCurve(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	scene := rowOf(2)
	id := begun(t, j, scene, filesOf(t, scene, 0))
	take(t, j, id)
	if err := j.Do("no lines", func(tx *Tx) error {
		return Change(tx, id, func(s *Series) { s.Jars[0].SetMarks(jar.Marks{}) })
	}); err != nil {
		t.Fatal(err)
	}
	if _, err := j.FollowSeries(t.Context(), id); !errors.Is(err, jar.ErrMarks) {
		t.Errorf("%v", err)
	}
}
