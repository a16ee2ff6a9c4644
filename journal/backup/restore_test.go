package backup

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// restore puts a backup back as the journal does.
func (w *world) restore(b Backup) (Backup, error) {
	if _, err := w.keeper.Prepare(w.t.Context(), b); err != nil {
		return Backup{}, err
	}
	return w.keeper.Swap(w.t.Context(), w.content())
}

func TestABackupIsPutBackAndTodaysIsKept(t *testing.T) {
	w := newWorld(t)
	gone := w.picture("a loaf")
	old := w.make(Asked)
	w.now = w.now.Add(time.Hour)
	w.write("today's records")
	if err := os.Remove(filepath.Join(w.dir, photosFolder, gone.name())); err != nil {
		t.Fatal(err)
	}
	aside, err := w.restore(old)
	if err != nil {
		t.Fatal(err)
	}
	if got := w.read(); got != "the first records" {
		t.Errorf("the journal holds %q", got)
	}
	if b, err := os.ReadFile(aside.File()); err != nil || string(b) != "today's records" {
		t.Errorf("set aside is %q, %v", b, err)
	}
	if _, err := os.Stat(filepath.Join(w.dir, photosFolder, gone.name())); err != nil {
		t.Errorf("the picture is not back: %v", err)
	}
	// What was set aside can be put back in turn.
	w.now = w.now.Add(time.Hour)
	if _, err := w.restore(w.list()[0]); err != nil || w.read() != "today's records" {
		t.Errorf("it holds %q, %v", w.read(), err)
	}
	for _, b := range w.list() {
		if err := w.whole(b); err != nil {
			t.Errorf("%s: %v", b.Path, err)
		}
	}
}

func TestAMissingPictureIsTold(t *testing.T) {
	w := newWorld(t)
	w.disk.other = true
	o := w.picture("a loaf")
	usb := t.TempDir()
	if err := w.keeper.Choose(usb); err != nil {
		t.Fatal(err)
	}
	b := w.make(Asked)
	for _, path := range []string{filepath.Join(w.dir, photosFolder, o.name()), filepath.Join(usb, originalsDir, o.name())} {
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
	}
	missing, err := w.keeper.Prepare(t.Context(), b)
	if err != nil || len(missing) != 1 || missing[0] != o {
		t.Errorf("missing %v, %v", missing, err)
	}
}

func TestADamagedBackupIsNotPutBack(t *testing.T) {
	w := newWorld(t)
	b := w.make(Asked)
	if err := os.WriteFile(b.File(), []byte("the First records"), 0o644); err != nil {
		t.Fatal(err)
	}
	w.write("today's records")
	if _, err := w.restore(b); !errors.Is(err, ErrDamaged) {
		t.Errorf("%v", err)
	}
	if w.read() != "today's records" {
		t.Errorf("it holds %q", w.read())
	}
	if err := os.Truncate(b.File(), 3); err != nil {
		t.Fatal(err)
	}
	if got := w.list()[0].Damage; !errors.Is(got, ErrDamaged) {
		t.Errorf("the list tells %v", got)
	}
}

// Killed at any step, putting a backup back leaves, once the journal is opened again,
// either today's records in place, or the backup's with today's kept in the list.
func TestPuttingBackKilledAtEachStep(t *testing.T) {
	t.Parallel()
	before, after := 0, 0
	for n := 1; ; n++ {
		w := newWorld(t)
		w.picture("a loaf")
		old := w.make(Asked)
		w.now = w.now.Add(time.Hour)
		w.write("today's records")
		w.disk.steps, w.disk.killed = 0, n
		_, err := w.restore(old)
		w.disk.killed = 0
		// The opening that follows may be killed, too.
		w.disk.steps, w.disk.killed = 0, 1+n%5
		_ = Recover(w.disk, w.dir)
		w.disk.killed = 0
		if err := Recover(w.disk, w.dir); err != nil {
			t.Fatalf("killed at step %d: %v", n, err)
		}
		w.start()
		switch w.read() {
		case "today's records":
			before++
		case "the first records":
			after++
			b, err := os.ReadFile(w.list()[0].File())
			if err != nil || string(b) != "today's records" || w.list()[0].Reason != Aside {
				t.Fatalf("killed at step %d: set aside is %q, %v", n, b, err)
			}
		default:
			t.Fatalf("killed at step %d: the journal holds %q", n, w.read())
		}
		if b, err := os.ReadFile(old.File()); err != nil || string(b) != "the first records" {
			t.Fatalf("killed at step %d: the backup holds %q, %v", n, b, err)
		}
		w.now = w.now.Add(time.Hour)
		w.write("tomorrow's records")
		if b := w.make(Asked); w.whole(b) != nil {
			t.Fatalf("killed at step %d: the next backup: %v", n, w.whole(b))
		}
		for _, b := range w.list() {
			if err := w.whole(b); err != nil {
				t.Fatalf("killed at step %d: %s: %v", n, b.Path, err)
			}
		}
		if err == nil {
			break
		}
	}
	if before == 0 || after < 2 {
		t.Errorf("today's in place after %d kills, the backup's after %d", before, after)
	}
	t.Logf("today's in place after %d kills, the backup's after %d", before, after)
}

// One step that fails, on a disk that works again at once: an error, and everything as
// before.
func TestPuttingBackFailsAtEachStep(t *testing.T) {
	t.Parallel()
	for n := 1; ; n++ {
		w := newWorld(t)
		old := w.make(Asked)
		w.now = w.now.Add(time.Hour)
		w.write("today's records")
		w.disk.steps, w.disk.failing = 0, n
		_, err := w.restore(old)
		reached := w.disk.steps >= n
		w.disk.failing = 0
		if err := Recover(w.disk, w.dir); err != nil {
			t.Fatalf("a failure at step %d: %v", n, err)
		}
		want := "today's records"
		if err == nil || w.read() != want && len(w.list()) == 2 { // its last word may be lost, not its work
			want = "the first records"
		}
		if got := w.read(); got != want {
			t.Fatalf("a failure at step %d (%v): it holds %q", n, err, got)
		}
		if !reached {
			break
		}
	}
}

func TestWhatWasCutOffIsTidiedUp(t *testing.T) {
	w := newWorld(t)
	o := w.picture("a loaf")
	b := w.make(Asked)
	if _, err := w.keeper.Prepare(t.Context(), b); err != nil { // and never put back
		t.Fatal(err)
	}
	shard := filepath.Join(w.dir, photosFolder, o.Hash.String()[:2])
	for _, path := range []string{filepath.Join(w.dir, ".part-1"), filepath.Join(shard, ".part-2")} {
		if err := os.WriteFile(path, nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	w.keeper.Tidy()
	for dir, want := range map[string]int{w.dir: 4, shard: 1} { // records, settings, photos, backups; the picture
		entries, err := os.ReadDir(dir)
		if err != nil || len(entries) != want {
			t.Errorf("%v, %v", entries, err)
		}
	}
	if w.read() != "the first records" || w.whole(b) != nil {
		t.Errorf("it holds %q, %v", w.read(), w.whole(b))
	}
}

// A journal that was carried with its backups to a disk without second names gets its
// pictures back all the same.
func TestAPictureComesBackWhereThereAreNoSecondNames(t *testing.T) {
	w := newWorld(t)
	gone := w.picture("a loaf")
	old := w.make(Asked)
	place := filepath.Join(w.dir, photosFolder, gone.name())
	if err := os.Remove(place); err != nil {
		t.Fatal(err)
	}
	w.disk.plain = true
	missing, err := w.keeper.Prepare(t.Context(), old)
	if err != nil || len(missing) != 0 {
		t.Fatalf("missing %v, %v", missing, err)
	}
	if b, err := os.ReadFile(place); err != nil || string(b) != "a loaf" {
		t.Errorf("the picture is %q, %v", b, err)
	}
}
