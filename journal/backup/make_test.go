package backup

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"twinloaf/journal/photo"
)

func TestABackupIsWholeAndOnItsDiskOnce(t *testing.T) {
	for _, other := range []bool{false, true} {
		w := newWorld(t)
		w.disk.other = other
		a, b := w.picture("a loaf"), w.picture("a jar")
		if other {
			usb := filepath.Join(t.TempDir(), "usb")
			if err := errors.Join(os.Mkdir(usb, 0o755), w.keeper.Choose(usb)); err != nil {
				t.Fatal(err)
			}
		}
		made := w.make(Asked)
		if err := w.whole(made); err != nil {
			t.Errorf("other disk %v: %v", other, err)
		}
		if made.Photos != 2 || made.Missing != 0 || made.Bakes != 1 || made.Checked.IsZero() {
			t.Errorf("%+v", made)
		}
		for _, o := range []Original{a, b} {
			mine, err := os.Stat(filepath.Join(w.dir, photosFolder, o.name()))
			theirs, err2 := os.Stat(filepath.Join(filepath.Dir(made.Path), originalsDir, o.name()))
			if err := errors.Join(err, err2); err != nil {
				t.Fatal(err)
			}
			if os.SameFile(mine, theirs) == other {
				t.Errorf("other disk %v: the same file %v", other, !other)
			}
		}
		// A second backup takes no picture again.
		w.now = w.now.Add(time.Hour)
		w.write("more records")
		steps := w.disk.steps
		w.make(Asked)
		if n := len(w.list()); n != 2 {
			t.Errorf("%d backups", n)
		}
		if w.disk.steps-steps > 40 {
			t.Errorf("a second backup of the same pictures takes %d steps", w.disk.steps-steps)
		}
	}
}

// The checksums are in the form of sha256sum of the GNU core utilities.
func TestSha256sumChecksABackup(t *testing.T) {
	tool, err := exec.LookPath("sha256sum")
	if err != nil {
		t.Logf("no sha256sum here: %v", err)
		return
	}
	w := newWorld(t)
	w.picture("a loaf")
	made := w.make(Asked)
	cmd := exec.Command(tool, "-c", sumsName)
	cmd.Dir = made.Path
	out, err := cmd.CombinedOutput()
	if err != nil || strings.Count(string(out), ": OK") != 2 {
		t.Errorf("%v\n%s", err, out)
	}
}

// A year of use under a clock of its own: a backup on each day on which the program
// is used and something has changed, and never more than the rule keeps.
func TestAYearOfUse(t *testing.T) {
	t.Parallel()
	w := newWorld(t)
	start := w.now
	made := 0
	for d := range 365 {
		w.now = start.AddDate(0, 0, d)
		if d%7 == 3 {
			continue // not used
		}
		w.start()
		if d%5 != 0 {
			w.write(fmt.Sprintf("the records of day %d", d))
			w.picture(fmt.Sprintf("a picture of day %d", d))
		}
		for range 3 { // it is looked three times a day
			if !w.keeper.Due() {
				continue
			}
			b := w.make(Daily)
			if d%5 == 0 && b.Made.Equal(w.now) && made > 0 {
				t.Errorf("day %d: a backup of what had not changed", d)
			}
			made++
		}
		if w.keeper.Due() {
			t.Fatalf("day %d: one is still due", d)
		}
		w.now = w.now.Add(2 * time.Hour)
	}
	all := w.list()
	if len(all) < 19 || len(all) > 7+4+12 {
		t.Errorf("%d backups stay", len(all))
	}
	needed := map[string]bool{}
	for _, b := range all {
		if err := w.whole(b); err != nil {
			t.Errorf("%s: %v", b.Path, err)
		}
		originals, err := b.Originals()
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range originals {
			needed[o.name()] = true
		}
	}
	kept, err := filepath.Glob(filepath.Join(w.dir, ownFolder, originalsDir, "*", "*"))
	if err != nil || len(kept) != len(needed) {
		t.Errorf("%d originals kept for %d needed (%v)", len(kept), len(needed), err)
	}
	if got, ok := latest(t.Context(), w.keeper.own(), "J"); !ok || got.Photos != len(w.originals) {
		t.Errorf("the latest has %d pictures of %d", got.Photos, len(w.originals))
	}
}

// A try that fails says why, leaves nothing, and is neglected after a week.
func TestAFailedBackupIsTold(t *testing.T) {
	usb := filepath.Join(t.TempDir(), "usb")
	for _, tt := range []struct {
		what  string
		wreck func(w *world)
		is    error
		says  string
	}{
		{"a full disk", func(w *world) { w.disk.left = 3 << 20 }, ErrNoRoom, "has 3 MB left and a backup needs 17 MB"},
		{"a disk that fills up meanwhile", func(w *world) { w.disk.full = true }, ErrNoRoom, "the disk is full"},
		{"an unplugged disk", func(w *world) {
			if err := errors.Join(os.MkdirAll(usb, 0o755), w.keeper.Choose(usb), os.RemoveAll(usb)); err != nil {
				t.Fatal(err)
			}
		}, ErrGone, "is not there"},
		{"an unplugged disk whose empty folder stays", func(w *world) {
			if err := errors.Join(os.MkdirAll(usb, 0o755), w.keeper.Choose(usb), os.RemoveAll(usb), os.MkdirAll(usb, 0o755)); err != nil {
				t.Fatal(err)
			}
		}, ErrGone, "is not there"},
		{"a step that fails", func(w *world) { w.disk.killed = w.disk.steps + 8 }, errDead, "killed"},
	} {
		w := newWorld(t)
		w.make(Asked)
		good := w.now
		for d := range 9 {
			w.now = good.AddDate(0, 0, d)
			w.write(fmt.Sprint("records of day ", d))
			if d == 1 {
				tt.wreck(w)
			}
			if d == 0 {
				continue
			}
			if tt.is == errDead {
				w.disk.killed = w.disk.steps + 8
			}
			_, err := w.keeper.Make(t.Context(), w, Daily)
			if !errors.Is(err, tt.is) || !strings.Contains(err.Error(), tt.says) {
				t.Fatalf("%s: %v", tt.what, err)
			}
			s := w.keeper.Status()
			if s.Neglected(w.now) != (d >= 7) || !s.Good.Equal(good) || s.Problem == nil {
				t.Errorf("%s, day %d: %+v", tt.what, d, s)
			}
		}
		all, err := w.keeper.List(t.Context())
		if err != nil && tt.is != ErrGone || len(all) != 1 {
			t.Errorf("%s: %d backups, %v", tt.what, len(all), err)
		}
	}
}

func TestABackupCanBeStopped(t *testing.T) {
	w := newWorld(t)
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if _, err := w.keeper.Make(ctx, w, Daily); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
	if s := w.keeper.Status(); s.Problem != nil || s.Running {
		t.Errorf("%+v", s)
	}
	left, err := filepath.Glob(filepath.Join(w.dir, ownFolder, ".*"))
	if err != nil || len(left) > 0 {
		t.Errorf("it leaves %v", left)
	}
}

// Killed at any step, a backup leaves the ones before it whole and nothing half in the
// list, and the next one works.
func TestABackupKilledAtEachStep(t *testing.T) {
	t.Parallel()
	for _, other := range []bool{false, true} {
		days := 8 // so that something is thinned out
		if other {
			days = 1
		}
		for n := 1; ; n++ {
			w := newWorld(t)
			w.disk.other = other
			if other {
				if err := w.keeper.Choose(t.TempDir()); err != nil {
					t.Fatal(err)
				}
			}
			w.picture("a loaf")
			for d := range days {
				w.now = w.now.AddDate(0, 0, 1)
				w.write(fmt.Sprint("records ", d))
				w.make(Daily)
			}
			w.now = w.now.AddDate(0, 0, 1)
			w.write("the last records")
			w.picture("a jar")
			w.disk.steps, w.disk.killed = 0, n
			_, err := w.keeper.Make(t.Context(), w, Daily)
			w.disk.killed = 0
			w.start()
			for _, b := range w.list() {
				if b.Damage != nil || w.whole(b) != nil {
					t.Fatalf("killed at step %d: %s: %v, %v", n, b.Path, b.Damage, w.whole(b))
				}
			}
			w.now = w.now.AddDate(0, 0, 1)
			w.write("the very last records")
			if b := w.make(Daily); w.whole(b) != nil || b.Photos != 2 {
				t.Fatalf("after a kill at step %d: %+v: %v", n, b, w.whole(b))
			}
			if err == nil {
				t.Logf("other disk %v: killed at %d steps", other, n-1)
				break
			}
		}
	}
}

// While originals are copied it can be asked how far that is, and at the end all is told.
func TestHowFarABackupIs(t *testing.T) {
	var told tally
	told.all.Store(10)
	from, to := t.TempDir(), t.TempDir()
	data := []byte("an original")
	sum := sha256.Sum256(data)
	o := Original{Hash: photo.Hash(sum[:])}
	src := filepath.Join(from, o.name())
	if err := errors.Join(os.MkdirAll(filepath.Dir(src), 0o755), os.WriteFile(src, data, 0o644)); err != nil {
		t.Fatal(err)
	}
	if err := copyOriginal(t.Context(), disk{}, o.Hash, src, filepath.Join(to, "copy"), &told); err != nil {
		t.Fatal(err)
	}
	if told.done.Load() != int64(len(data)) {
		t.Errorf("%d bytes are told of %d", told.done.Load(), len(data))
	}
}
