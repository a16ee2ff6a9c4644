package journal

import (
	"os"
	"path/filepath"
	"testing"
)

// Once a row is read, any original can still be kept while its file is there: the space is known
// beforehand, each is kept once, one that is gone is told, and undoing takes them away again. The
// record itself no longer says where the files are.
func TestAnyOriginalIsKept(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	scene := rowOf(6)
	files := filesOf(t, scene, 0)
	id := begun(t, j, scene, files)
	s := take(t, j, id)
	frames, err := Frames(j, s)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := j.FinishSeries(t.Context(), id, "originals", []*Photo{frames[0]}); err != nil {
		t.Fatal(err)
	}
	if s, err = Get[Series](j, id); err != nil || s.Folder != "" {
		t.Fatalf("the record says %q, %v", s.Folder, err)
	}
	if folder, err := FilesOf(j, s); err != nil || folder != filepath.Dir(files[0].Path) {
		t.Errorf("the files are in %q, %v", folder, err)
	}
	left := func(want ...int) {
		t.Helper()
		got, err := j.OriginalsLeft(t.Context(), s, frames)
		if err != nil || len(got) != len(want) {
			t.Fatalf("left are %v, %v", got, err)
		}
		for _, i := range want {
			info, err := os.Stat(files[i].Path)
			if err != nil || got[frames[i].ID] != info.Size() {
				t.Errorf("original %d takes %d bytes, %v", i, got[frames[i].ID], err)
			}
		}
	}
	left(1, 2, 3, 4, 5)
	for range 2 { // the second time nothing is left to do
		if refused, err := j.KeepOriginals(t.Context(), s, "originals", frames[2:4]); err != nil || len(refused) > 0 {
			t.Fatal(refused, err)
		}
	}
	left(1, 4, 5)
	if err := os.Remove(files[4].Path); err != nil {
		t.Fatal(err)
	}
	left(1, 5)
	if refused, err := j.KeepOriginals(t.Context(), s, "originals", frames); err != nil || len(refused) != 1 {
		t.Errorf("refused %v, %v", refused, err)
	}
	if all, err := OriginalsOf(j, frames); err != nil || len(all) != 5 {
		t.Errorf("%d originals, %v", len(all), err)
	}
	if _, err := j.Undo(); err != nil {
		t.Fatal(err)
	}
	left(1, 5)
}

// A known height gives the level in millimetres; a line that lies below the bottom gives none.
func TestAKnownHeight(t *testing.T) {
	one := SeriesJar{Left: 0.3, Right: 0.7, Bottom: 0.9, Level: 0.7, Top: 0.1}
	if mm, ok := one.LevelMM(); ok {
		t.Errorf("without a known height it is %g mm", mm)
	}
	one.Known, one.KnownMM = 0.2, new(140.0)
	if mm, ok := one.LevelMM(); !ok || mm < 39.999 || mm > 40.001 {
		t.Errorf("the level is at %g mm, %v, want 40", mm, ok)
	}
	one.Known = 0.95
	if mm, ok := one.LevelMM(); ok {
		t.Errorf("with its line below the bottom it is %g mm", mm)
	}
}
