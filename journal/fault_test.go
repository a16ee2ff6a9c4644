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

	"twinloaf/journal/backup"
	"twinloaf/journal/faultdisk"
	"twinloaf/journal/journaltest/race"
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
	planned      ID // a tasting that can be sealed
	tasted       ID // one that can be unsealed
	// plated is what is about to be sealed. It outlives a disk that is full.
	plated *Plating
	disk   *faultdisk.Disk
}

// aPicture is what is added.
var aPicture = phototest.PNG(phototest.Scene(60, 40))

// add adds the picture to the bake.
func (l little) add(j *Journal) error {
	open := func() (io.ReadCloser, error) { return l.disk.Reader(bytes.NewReader(aPicture)), nil }
	_, refused, err := j.AddPictures(context.Background(), "photos", Ref{Kind: KindBake, ID: l.bake}, RoleCrumb, []Picture{{Name: "crumb.png", Open: open}}, nil)
	return errors.Join(append(refused, err)...)
}

// aLittleJournal makes a journal in dir with something of each sort in it, and some
// changes undone.
func aLittleJournal(t *testing.T, dir string) (l little) {
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
	l.planned = plannedTasting(t, j, triangle(1, "Ada"))
	l.tasted = plannedTasting(t, j, triangle(1, "Ada"))
	mustPlate(t, j, l.tasted)
	mustTaste(t, j, l.tasted)
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
		return j.DoWithoutUndo("score", func(tx *Tx) error { return Change(tx, l.tasting, func(x *Tasting) { x.Notes = "scored" }) })
	}},
	{"a photo", func(j *Journal, l little) error { return l.add(j) }},
	{"sealing", func(_ *Journal, l little) error { return l.plated.Seal() }},
	{"unsealing", func(j *Journal, l little) error { return j.Unseal(l.tasted, "") }},
	{"a backup", func(j *Journal, l little) error {
		_, err := j.BackUp(context.Background(), backup.Daily)
		return err
	}},
	{"a check", func(j *Journal, _ little) error {
		_, err := j.Check(context.Background(), true)
		return err
	}},
	{"closing", func(j *Journal, l little) error {
		if err := Edit(j, l.bake, "notes", func(b *Bake) { b.Notes = "rainy" }); err != nil {
			return err
		}
		return j.Close()
	}},
}

// Every write, sync, growth, rename and read of a photo of every kind of change fails in
// turn, once and then again and again. Each time a sentence says so, the journal holds
// what it held before or what was asked for and nothing between, what was typed is still
// there, and once the disk works again the same change and others can be made. Reads of
// the records: see [TestEveryPageThatCannotBeReadIsSurvived].
func TestEveryFailureOfTheDiskIsSurvived(t *testing.T) {
	ops := []faultdisk.Op{faultdisk.Write, faultdisk.Sync, faultdisk.Grow, faultdisk.Mkdir,
		faultdisk.Create, faultdisk.Close, faultdisk.Rename, faultdisk.SyncDir, faultdisk.Read}
	begun := t.TempDir()
	l := aLittleJournal(t, begun)
	injected := map[faultdisk.Op]int{}
	for _, c := range everyChange {
		for _, op := range ops {
			if op == faultdisk.Grow && (c.name == "closing" || c.name == "a backup") {
				continue // bbolt would close, or copy, the wrong file
			}
			for _, times := range race.Few([]int{1, -1}, 1) {
				for nth := 1; ; nth += race.Cases(1, 5) {
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
	t.Logf("%d failures of %d kinds of change: %v", total, len(everyChange), injected)
}

// failOnce makes a change on a fresh copy of a journal while something fails, and tells
// whether anything did.
func failOnce(t *testing.T, begun string, l little, c aChange, op faultdisk.Op, nth, times int) (failed int) {
	t.Helper()
	var d faultdisk.Disk
	try := newTry(t, fmt.Sprintf("%s, %s %d failing %d times", c.name, op, nth, times), begun, l, c, &d)
	d.Fail(op, nth, times, &os.PathError{Op: string(op), Path: begun, Err: syscall.ENOSPC})
	return try.run(t, func(err error) int {
		failed := d.Heal()
		if op == faultdisk.Grow && err != nil {
			return 1
		}
		return failed
	})
}

// A try is a change on a journal that will fail to be made.
type try struct {
	at    string
	dir   string
	clock *fakeClock
	j     *Journal
	l     little
	c     aChange
	was   store.Contents
}

func newTry(t *testing.T, at, begun string, l little, c aChange, d *faultdisk.Disk) *try {
	t.Helper()
	try := &try{at: at, dir: t.TempDir(), clock: newClock(), l: l, c: c}
	copyJournal(t, begun, try.dir)
	try.j = openOn(t, d, try.dir, try.clock, Options{})
	try.l.disk = d
	if c.name == "sealing" {
		var err error
		if try.l.plated, err = try.j.Plate(l.planned); err != nil {
			t.Fatal(err)
		}
		if _, err = try.l.plated.Card(); err != nil {
			t.Fatal(err)
		}
	}
	try.was = secretsToo(t, try.j)
	return try
}

// secretsToo gives the records and what is sealed.
func secretsToo(t *testing.T, j *Journal) store.Contents {
	t.Helper()
	names := []string{sideVault}
	for _, k := range Kinds() {
		names = append(names, string(k))
	}
	var out store.Contents
	if err := j.store.View(func(st *store.Tx) (err error) { out, err = st.Contents(names...); return err }); err != nil {
		t.Fatal(err)
	}
	return out
}

// run makes the change and then, with everything healed, looks what is left of it. heal
// tells how often something failed.
func (r *try) run(t *testing.T, heal func(error) int) (failed int) {
	t.Helper()
	err := r.c.do(r.j, r.l)
	shut := r.j.Closed()
	if failed = heal(err); failed == 0 {
		if err != nil {
			t.Fatalf("%s: nothing failed, and yet %v", r.at, err)
		}
		return 0
	}
	if err != nil {
		mustBeSaid(t, r.at, err)
	}
	typed := strings.HasPrefix(r.c.name, "typing") || r.c.name == "closing"
	if !shut {
		r.goOn(t, err, typed)
	}
	left := store.Contents{}
	if !r.j.Closed() {
		left = secretsToo(t, r.j)
	}
	if e := r.j.Close(); e != nil {
		t.Errorf("%s: closing: %v", r.at, e)
	}
	again := openTest(t, r.dir, r.clock)
	mustBeSound(t, again)
	if now := secretsToo(t, again); len(left) > 0 && now.Differences(left) != 0 {
		t.Errorf("%s: %d records differ after opening again", r.at, now.Differences(left))
	}
	if r.c.name == "closing" {
		r.mustRead(t, again)
	}
	if e := again.Close(); e != nil {
		t.Error(e)
	}
	return failed
}

// goOn uses the journal after a change to it gave err.
func (r *try) goOn(t *testing.T, err error, typed bool) {
	t.Helper()
	// What was typed reads as it was typed, and goes to the disk now. Only a letter of
	// which it was said at once that it was not taken is typed once more.
	if typed && len(r.j.Unsaved()) == 0 && err != nil && !errors.Is(err, store.ErrUnsure) {
		r.j.look()
		if e := r.c.do(r.j, r.l); e != nil {
			t.Errorf("%s: typed once more: %v", r.at, e)
		}
	}
	if typed && !r.j.Closed() {
		r.mustRead(t, r.j)
	}
	if r.j.Closed() {
		return
	}
	if e := r.j.Flush(); e != nil {
		t.Errorf("%s: after it: %v", r.at, e)
	}
	if err != nil && !errors.Is(err, store.ErrUnsure) && !typed {
		if n := secretsToo(t, r.j).Differences(r.was); n != 0 {
			t.Errorf("%s: %d records were changed, and yet %v", r.at, n, err)
		}
	}
	mustBeSound(t, r.j)
	if e := r.c.do(r.j, r.l); err != nil && !errors.Is(err, store.ErrUnsure) && e != nil {
		t.Errorf("%s: once more: %v", r.at, e)
	}
	if !r.j.Closed() {
		newBake(t, r.j, "after it")
		mustBeSound(t, r.j)
	}
}

// mustRead fails the test unless the notes are those that were typed.
func (r *try) mustRead(t *testing.T, j *Journal) {
	t.Helper()
	if b, e := Get[Bake](j, r.l.bake); e != nil || b.Notes != "rainy" {
		t.Errorf("%s: the notes are %v, %v", r.at, b, e)
	}
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
