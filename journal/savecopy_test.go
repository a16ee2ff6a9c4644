package journal

import (
	"os"
	"path/filepath"
	"testing"
)

// One photo that cannot be read does not cost the copy: the others are in it, and which one
// is not is told.
func TestACopyHoldsWhatCanBeRead(t *testing.T) {
	dir := t.TempDir()
	j := openTest(t, dir, newClock())
	bake := newBake(t, j, "Ferry loaf")
	shard := filepath.Join(dir, "photos", "ab")
	if err := os.MkdirAll(shard, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(shard, "there"), []byte("a picture"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("nowhere", filepath.Join(shard, "gone")); err != nil {
		t.Fatal(err)
	}
	saved, err := j.SaveCopy(t.Context(), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	if len(saved.Left) != 1 {
		t.Errorf("left out: %v", saved.Left)
	}
	if got, err := os.ReadFile(filepath.Join(saved.Dir, "photos", "ab", "there")); err != nil || string(got) != "a picture" {
		t.Errorf("the photo is %q, %v", got, err)
	}
	if _, err := os.Lstat(filepath.Join(saved.Dir, "photos", "ab", "gone")); err == nil {
		t.Error("something stands for what could not be read")
	}
	if b, err := Get[Bake](openTest(t, saved.Dir, newClock()), bake); err != nil || b.Name != "Ferry loaf" {
		t.Errorf("the copy's bake: %+v, %v", b, err)
	}
}
