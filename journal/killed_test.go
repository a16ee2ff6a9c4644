package journal

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"pgregory.net/rapid"

	"twinloaf/journal/store"
)

// A journal whose program is killed, again and again, at any moment holds every change
// that was acknowledged, at most the one under way besides, and nothing half. Its
// indexes equal a rebuild, and every step back gives the earlier records byte for byte.
func TestAKilledJournalHoldsWhatWasAcknowledged(t *testing.T) {
	root := t.TempDir()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	empty := t.TempDir()
	if err := openTest(t, empty, newClock()).Close(); err != nil {
		t.Fatal(err)
	}
	kills := 0
	rapid.Check(t, func(rt *rapid.T) {
		k := &killing{exe: exe, dir: mustTempDir(rt, root), now: moment{steps: map[uint64]store.Contents{0: {}}}}
		copyJournal(rt, empty, k.dir)
		for n := range rapid.IntRange(1, 3).Draw(rt, "kills") {
			k.once(rt, n)
			kills++
		}
	})
	t.Logf("%d kills", kills)
}

// killing is one journal and what it must hold.
type killing struct {
	exe, dir string
	now      moment
}

// once has a child live in the journal, kills it, and holds what is left against a
// copy of the journal that lived the same life undisturbed.
func (k *killing) once(rt *rapid.T, n int) {
	seed := rapid.Uint64().Draw(rt, "seed")
	after := rapid.IntRange(0, 6).Draw(rt, "acknowledged before the kill")
	inside := rapid.IntRange(0, 2).Draw(rt, "within a transaction") == 0
	wait := time.Duration(rapid.IntRange(0, 3000).Draw(rt, "µs more")) * time.Microsecond
	twin := mustTempDir(rt, filepath.Dir(k.dir))
	copyJournal(rt, k.dir, twin)
	stopAt := 0
	if inside {
		stopAt = after + 1
	}
	did, within := k.kill(rt, seed, n, after, stopAt, wait)
	k.mustBeOneOf(rt, n, did, k.undisturbed(rt, twin, seed, n, did, within))
}

// mustBeOneOf opens what is left of the journal after its n-th life and holds it
// against the moments in which it may be.
func (k *killing) mustBeOneOf(rt *rapid.T, n, did int, moments []moment) {
	j, err := Open(context.Background(), k.dir, Options{Clock: (&fakeClock{now: startOfLife(n + 1)}).Now})
	if err != nil {
		rt.Fatalf("killed after step %d: %v", did, err)
	}
	defer j.Close()
	j.store.Bolt().NoSync = true // the child is the one that must be safe
	kept, found := everything(rt, j), -1
	for i, m := range moments {
		if kept.Differences(m.all) == 0 {
			found = i
		}
	}
	if found < 0 {
		rt.Fatalf("killed after step %d: the journal is like none of the %d moments since what was last acknowledged", did, len(moments))
	}
	k.now = moments[found]
	k.mustBeWhole(rt, j)
}

// kill starts a child and kills it after so many acknowledged steps, or as soon as it
// says that it is within one. did is the last step acknowledged; within is the step
// that it certainly was in the middle of, or 0.
func (k *killing) kill(rt *rapid.T, seed uint64, n, after, stopAt int, wait time.Duration) (did, within int) {
	child := exec.Command(k.exe, "live", k.dir, strconv.FormatUint(seed, 10), strconv.Itoa(n), strconv.Itoa(stopAt))
	var said bytes.Buffer
	child.Stderr = &said
	in, err := child.StdinPipe()
	if err != nil {
		rt.Fatal(err)
	}
	defer in.Close()
	out, err := child.StdoutPipe()
	if err != nil {
		rt.Fatal(err)
	}
	if err := child.Start(); err != nil {
		rt.Fatal(err)
	}
	killed := false
	end := func() {
		if !killed {
			time.Sleep(wait) // anywhere in the steps that follow
			killed = true
			_ = child.Process.Kill() // an error is that it has ended, which is told below
		}
	}
	if stopAt == 0 && after == 0 {
		end()
	}
	// What was written before the kill is still read after it.
	for lines := bufio.NewScanner(out); lines.Scan(); {
		if _, err := fmt.Sscanf(lines.Text(), "did %d", &did); err == nil {
			if stopAt == 0 && did >= after {
				end()
			}
			continue
		}
		if _, err := fmt.Sscanf(lines.Text(), "within %d", &within); err == nil {
			end()
		}
	}
	if err := child.Wait(); !killed || said.Len() > 0 {
		rt.Fatalf("the child ended by itself: %v: %s", err, said.String())
	}
	return did, within
}

// A moment is everything that a journal holds after a commit, and the records as the
// steps of its history left them.
type moment struct {
	all    store.Contents
	cursor uint64
	// steps are by their number; those up to the cursor can be gone back to. One is
	// missing where several steps were committed at once.
	steps map[uint64]store.Contents
}

// undisturbed lives in the twin of the killed journal, and gives the moments in which
// the killed one may be: from the last step acknowledged that lasts, to the end of the
// step under way, or to its beginning when it was killed within.
func (k *killing) undisturbed(rt *rapid.T, twin string, seed uint64, n, did, within int) []moment {
	l, err := beginLife(twin, seed, n)
	if err != nil {
		rt.Fatal(err)
	}
	defer l.j.Close()
	l.j.store.Bolt().NoSync = true
	now := k.now
	var out []moment
	keep := func() {
		now = now.then(rt, l.j)
		out = append(out, now)
	}
	l.before = func() error { // what a step that lasts commits first is a moment of its own
		if err := l.j.Flush(); err != nil {
			return err
		}
		keep()
		return nil
	}
	keep()
	for l.did < did {
		lasting, err := l.step()
		if err != nil {
			rt.Fatal(err)
		}
		if lasting {
			keep()
			out = out[len(out)-1:]
		}
	}
	if lasting, err := l.step(); err != nil {
		rt.Fatal(err)
	} else if lasting && within == 0 {
		keep()
	} else if lasting {
		out = out[len(out)-1:] // the typing before it went in, and no more
	}
	return out
}

// then gives the moment after the next commit.
func (m moment) then(rt *rapid.T, j *Journal) moment {
	next := moment{all: everything(rt, j), cursor: stepOf(j), steps: maps.Clone(m.steps)}
	for step := m.cursor + 1; step < next.cursor; step++ {
		delete(next.steps, step) // of a branch that was undone and cut off
	}
	next.steps[next.cursor] = records(rt, j)
	return next
}

// stepOf gives the number of the last step that is done.
func stepOf(j *Journal) (step uint64) {
	_ = j.store.View(func(st *store.Tx) error { step = st.Cursor(); return nil })
	return step
}

// mustBeWhole fails unless the indexes equal a rebuild, every photo has its file, and
// every step back, and forward again, gives the records that were there.
func (k *killing) mustBeWhole(rt *rapid.T, j *Journal) {
	mustHaveAll := func() {
		report, err := j.Check(rt.Context(), false)
		if err != nil || !report.Sound() {
			rt.Fatalf("the journal is not sound: %+v, %v", report, err)
		}
	}
	mustHaveAll()
	begun := everything(rt, j)
	back := 0
	for ; ; back++ {
		if back > store.HistoryKept {
			rt.Fatal("there is no end to going back")
		}
		if were, known := k.now.steps[stepOf(j)]; known {
			if diff := records(rt, j).Differences(were); diff != 0 {
				rt.Fatalf("%d steps back, %d records are not as they were", back, diff)
			}
		}
		if _, err := j.Undo(); errors.Is(err, ErrNothingToUndo) {
			break
		} else if err != nil {
			rt.Fatal(err)
		}
	}
	if left := records(rt, j); len(left) != 0 {
		rt.Fatalf("taking everything back left %d records", len(left))
	}
	mustHaveAll()
	for range back {
		if _, err := j.Redo(); err != nil {
			rt.Fatal(err)
		}
	}
	if diff := everything(rt, j).Differences(begun); diff != 0 {
		rt.Fatalf("there and back, %d entries differ", diff)
	}
}

// everything gives every key and value of a journal: records, history, indexes, all.
func everything(t rapid.TB, j *Journal) store.Contents {
	t.Helper()
	var out store.Contents
	err := j.store.View(func(st *store.Tx) (err error) {
		out, err = st.Contents()
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// copyJournal copies the file of records and the photos from one folder to another.
func copyJournal(t rapid.TB, from, to string) {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(from, FileName))
	if err == nil {
		err = os.WriteFile(filepath.Join(to, FileName), b, 0o644)
	}
	if photos := filepath.Join(from, "photos"); err == nil {
		if entries, _ := os.ReadDir(photos); len(entries) > 0 {
			err = os.CopyFS(filepath.Join(to, "photos"), os.DirFS(photos))
		}
	}
	if err != nil {
		t.Fatal(err)
	}
}
