package journal

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"twinloaf/journal/faultdisk"
	"twinloaf/journal/photo/phototest"
	"twinloaf/journal/say"
	"twinloaf/journal/store"
)

// openOn opens a journal on a disk that can fail.
func openOn(t testing.TB, d *faultdisk.Disk, dir string, clock *fakeClock, opt Options) *Journal {
	t.Helper()
	opt.Clock, opt.Photos = clock.Now, d.Photos()
	if opt.GatherFor == 0 {
		opt.GatherFor = 1 << 40 // until it is flushed
	}
	j, err := Open(context.Background(), dir, opt)
	if err != nil {
		t.Fatal(err)
	}
	d.Under(j.store.Bolt())
	t.Cleanup(func() { _ = j.Discard() })
	return j
}

// aChange is one kind of change to the journal that [aLittleJournal] makes.
type aChange struct {
	name string
	do   func(j *Journal, l little) error
}

// little is what a little journal holds.
type little struct {
	bake, binned ID
	tasting      ID
}

// aLittleJournal makes a journal in dir with something of each sort in it, and some
// changes undone.
func aLittleJournal(t testing.TB, dir string) (l little) {
	t.Helper()
	j := openTest(t, dir, newClock())
	l.bake, l.binned = newBake(t, j, "Ferry loaf"), newBake(t, j, "Old loaf")
	ta := &Tasting{Name: "two loaves"}
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	must(j.Do("bin", func(tx *Tx) error { return MoveToBin[Bake](tx, l.binned) }))
	must(j.Do("plan", func(tx *Tx) error { return Put(tx, ta) }))
	l.tasting = ta.ID
	must(j.Do("name", func(tx *Tx) error { return Change(tx, l.bake, func(b *Bake) { b.Loaves = 2 }) }))
	must(j.Do("notes", func(tx *Tx) error { return Change(tx, l.bake, func(b *Bake) { b.Notes = "windy" }) }))
	if _, err := j.Undo(); err != nil {
		t.Fatal(err)
	}
	must(j.Close())
	return l
}

var everyChange = []aChange{
	{"a new record", func(j *Journal, _ little) error {
		return j.Do("new bake", func(tx *Tx) error { return Put(tx, &Bake{Name: "Third loaf", At: j.Now()}) })
	}},
	{"many new records", func(j *Journal, _ little) error { // more pages than one, and a file that grows
		return j.Do("many", func(tx *Tx) error {
			for range 40 {
				if err := Put(tx, &Bake{Name: strings.Repeat("long ", 300), At: j.Now()}); err != nil {
					return err
				}
			}
			return nil
		})
	}},
	{"a change of a record", func(j *Journal, l little) error {
		return j.Do("loaves", func(tx *Tx) error { return Change(tx, l.bake, func(b *Bake) { b.Loaves = 3 }) })
	}},
	{"typing", func(j *Journal, l little) error {
		return errors.Join(Edit(j, l.bake, "notes", func(b *Bake) { b.Notes = "rainy" }), j.Flush())
	}},
	{"typing before a change", func(j *Journal, l little) error {
		if err := Edit(j, l.bake, "notes", func(b *Bake) { b.Notes = "rainy" }); err != nil {
			return err
		}
		return j.Do("loaves", func(tx *Tx) error { return Change(tx, l.bake, func(b *Bake) { b.Loaves = 4 }) })
	}},
	{"the bin", func(j *Journal, l little) error {
		return j.Do("bin", func(tx *Tx) error { return MoveToBin[Bake](tx, l.bake) })
	}},
	{"out of the bin", func(j *Journal, l little) error {
		return j.Do("restore", func(tx *Tx) error { return Restore[Bake](tx, l.binned) })
	}},
	{"taking away", func(j *Journal, l little) error {
		return j.Do("empty the bin", func(tx *Tx) error { return tx.Remove(Ref{Kind: KindBake, ID: l.binned}) })
	}},
	{"undo", func(j *Journal, _ little) error { _, err := j.Undo(); return err }},
	{"redo", func(j *Journal, _ little) error { _, err := j.Redo(); return err }},
	{"a score", func(j *Journal, l little) error {
		return j.DoOnce("score", func(tx *Tx) error { return Change(tx, l.tasting, func(x *Tasting) { x.Notes = "scored" }) })
	}},
	{"a photo", func(j *Journal, l little) error {
		picture := phototest.PNG(phototest.Scene(60, 40))
		open := func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(picture)), nil }
		_, refused, err := j.AddPictures(context.Background(), "photos", Ref{Kind: KindBake, ID: l.bake}, RoleCrumb, []Picture{{Name: "crumb.png", Open: open}}, nil)
		return errors.Join(append(refused, err)...)
	}},
	{"a check", func(j *Journal, _ little) error {
		_, err := j.Check(context.Background(), true)
		return err
	}},
	{"closing", func(j *Journal, l little) error {
		return errors.Join(Edit(j, l.bake, "notes", func(b *Bake) { b.Notes = "rainy" }), j.Close())
	}},
}

// Every write, sync, growth and rename of every kind of change fails in turn, once and
// then again and again. Each time a sentence says so, the journal holds what it held
// before or what was asked for and nothing between, what was typed is still there, and
// once the disk works again the same change and others can be made.
func TestEveryFailureOfTheDiskIsSurvived(t *testing.T) {
	ops := []faultdisk.Op{faultdisk.Write, faultdisk.Sync, faultdisk.Grow, faultdisk.Mkdir,
		faultdisk.Create, faultdisk.Close, faultdisk.Rename, faultdisk.SyncDir}
	begun := t.TempDir()
	l := aLittleJournal(t, begun)
	injected := map[faultdisk.Op]int{}
	for _, c := range everyChange {
		for _, op := range ops {
			if op == faultdisk.Grow && c.name == "closing" {
				continue // bbolt would close the wrong file
			}
			for _, times := range []int{1, -1} {
				for nth := 1; ; nth++ {
					if failed := failOnce(t, begun, l, c, op, nth, times); failed == 0 {
						break
					}
					injected[op]++
					if op == faultdisk.Grow {
						break // it fails at each, or at none
					}
				}
			}
		}
	}
	total := 0
	for _, op := range ops {
		if total += injected[op]; injected[op] == 0 {
			t.Errorf("no %s failed", op)
		}
	}
	t.Logf("%d failures: %v", total, injected)
}

// failOnce makes a change on a fresh copy of a journal while something fails, and tells
// whether anything did.
func failOnce(t *testing.T, begun string, l little, c aChange, op faultdisk.Op, nth, times int) (failed int) {
	t.Helper()
	at := fmt.Sprintf("%s, %s %d failing %d times", c.name, op, nth, times)
	dir := t.TempDir()
	copyJournal(t, begun, dir)
	var d faultdisk.Disk
	clock := newClock()
	j := openOn(t, &d, dir, clock, Options{})
	before := records(t, j)
	d.Fail(op, nth, times, &os.PathError{Op: string(op), Path: dir, Err: syscall.ENOSPC})
	err := c.do(j, l)
	shut := j.isClosed()
	if failed = d.Heal(); op == faultdisk.Grow && err != nil {
		failed = 1
	}
	if failed == 0 {
		if err != nil {
			t.Fatalf("%s: nothing failed, and yet %v", at, err)
		}
		return 0
	}
	if err != nil {
		mustBeSaid(t, at, err)
	}
	if !shut {
		// What was typed reads as it was typed, and goes to the disk now.
		if strings.HasPrefix(c.name, "typing") || c.name == "closing" {
			if b, e := Get[Bake](j, l.bake); e != nil || b.Notes != "rainy" {
				t.Errorf("%s: the notes read %v, %v", at, b, e)
			}
		}
		if e := j.Flush(); e != nil {
			t.Errorf("%s: after it: %v", at, e)
		}
		if err != nil && !errors.Is(err, store.ErrUnsure) && !strings.HasPrefix(c.name, "typing") && c.name != "closing" {
			if n := records(t, j).Differences(before); n != 0 {
				t.Errorf("%s: %d records were changed, and yet %v", at, n, err)
			}
		}
		mustBeSound(t, j)
		if e := c.do(j, l); err != nil && !errors.Is(err, store.ErrUnsure) && e != nil {
			t.Errorf("%s: once more: %v", at, e)
		}
		if !j.isClosed() {
			newBake(t, j, "after it")
			mustBeSound(t, j)
		}
	}
	kept := store.Contents{}
	if !j.isClosed() {
		kept = records(t, j)
	}
	if e := j.Close(); e != nil {
		t.Errorf("%s: closing: %v", at, e)
	}
	again := openTest(t, dir, clock)
	mustBeSound(t, again)
	if now := records(t, again); len(kept) > 0 && now.Differences(kept) != 0 {
		t.Errorf("%s: %d records differ after opening again", at, now.Differences(kept))
	}
	if c.name == "closing" {
		if b, e := Get[Bake](again, l.bake); e != nil || b.Notes != "rainy" {
			t.Errorf("%s: after opening again the notes are %v, %v", at, b, e)
		}
	}
	if e := again.Close(); e != nil {
		t.Error(e)
	}
	return failed
}

// mustBeSaid fails the test unless an error has a sentence for the baker.
func mustBeSaid(t *testing.T, at string, err error) {
	t.Helper()
	l, said := say.OfError(err)
	if !said {
		l = say.TroubleOf(err).Line()
	}
	if s := l.String(); len(s) < 12 || strings.Contains(s, string(filepath.Separator)) {
		t.Errorf("%s: %v is told as %q", at, err, s)
	}
}
