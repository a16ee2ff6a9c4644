package journal

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"twinloaf/journal/faultdisk"
	"twinloaf/journal/say"
	"twinloaf/journal/store"
)

// fullDisk has every write fail as on a full disk, until it is healed.
func fullDisk(d *faultdisk.Disk) {
	d.Fail(faultdisk.Write, 1, -1, &os.PathError{Op: "write", Path: "/somewhere", Err: syscall.ENOSPC})
}

func TestClosingOnAFullDiskKeepsTheJournalOpen(t *testing.T) {
	var d faultdisk.Disk
	dir, clock := t.TempDir(), newClock()
	j := openOn(t, &d, dir, clock, Options{})
	id := newBake(t, j, "Ferry loaf")
	if err := Edit(j, id, "notes", func(b *Bake) { b.Notes = "windy\nand wet" }); err != nil {
		t.Fatal(err)
	}
	fullDisk(&d)
	err := j.Close()
	l, _ := say.OfError(err)
	if want := "the disk is full. What you typed is kept in memory, and saved as soon as there is room"; l.String() != want {
		t.Fatalf("closing says %q, want %q", l, want)
	}
	if j.Trouble() == nil {
		t.Error("the journal knows of no trouble")
	}
	want := []Unsaved{{Ref: Ref{Kind: KindBake, ID: id}, Name: "Ferry loaf", At: clock.now, Labels: []string{"notes"},
		Values: []Value{{"notes", "windy\nand wet"}}}}
	if got := j.Unsaved(); fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("unsaved is\n%+v, want\n%+v", got, want)
	}
	if err := Edit(j, id, "name", func(b *Bake) { b.Name = "Ferry loaf 2" }); err != nil {
		t.Fatalf("typing on: %v", err)
	}
	err = j.Do("loaves", func(tx *Tx) error { return Change(tx, id, func(b *Bake) { b.Loaves = 2 }) })
	l, _ = say.OfError(err)
	if want := "the disk is full: that was not saved, and nothing was changed"; l.String() != want {
		t.Errorf("another change says %q, want %q", l, want)
	}
	d.Heal()
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	j = openTest(t, dir, clock)
	if b, err := Get[Bake](j, id); err != nil || b.Notes != "windy\nand wet" || b.Name != "Ferry loaf 2" || b.Loaves != 0 {
		t.Errorf("kept %+v, %v", b, err)
	}
}

func TestWhatWasTypedIsTriedAgainByItself(t *testing.T) {
	var d faultdisk.Disk
	j := openOn(t, &d, t.TempDir(), newClock(), Options{GatherFor: time.Millisecond})
	id := newBake(t, j, "Ferry loaf")
	told := make(chan Changed, 64)
	j.Listen(func(c Changed) { told <- c })
	fullDisk(&d)
	if err := Edit(j, id, "notes", func(b *Bake) { b.Notes = "windy" }); err != nil {
		t.Fatal(err)
	}
	for failed := 0; failed < 2; {
		if c := <-told; c.Err != nil {
			failed++
		}
	}
	d.Heal()
	for c := range told {
		if c.Saved {
			break
		}
	}
	if b, err := decode[Bake](id, onDisk(j, Ref{Kind: KindBake, ID: id})); err != nil || b.Notes != "windy" || j.Trouble() != nil {
		t.Errorf("on the disk: %v, %v; trouble: %v", b, err, j.Trouble())
	}
}

// No edit that was taken is lost, however it falls together with closing.
func TestClosingLosesNoEdit(t *testing.T) {
	dir, clock := t.TempDir(), newClock()
	j := openTest(t, dir, clock)
	var ids []ID
	for range 8 {
		ids = append(ids, newBake(t, j, ""))
	}
	taken := make([]string, len(ids))
	var typing sync.WaitGroup
	for i, id := range ids {
		typing.Go(func() {
			for n := 0; ; n++ {
				name := fmt.Sprint(n)
				if err := Edit(j, id, "name", func(b *Bake) { b.Name = name }); err != nil {
					if !errors.Is(err, ErrClosed) {
						t.Error(err)
					}
					return
				}
				taken[i] = name
			}
		})
	}
	time.Sleep(5 * time.Millisecond)
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	typing.Wait()
	j = openTest(t, dir, clock)
	for i, id := range ids {
		if b, err := Get[Bake](j, id); err != nil || b.Name != taken[i] {
			t.Errorf("typed up to %q, kept %v, %v", taken[i], b, err)
		}
	}
}

// A change that reads the journal while it is made waits for nothing: it reads what
// stood there before it, also when it is made again for the disk.
func TestAnEditMayReadTheJournal(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	other, id := newBake(t, j, "rye"), newBake(t, j, "")
	for _, name := range []string{"a", "b"} {
		if err := Edit(j, id, "name", func(b *Bake) {
			o, err := Get[Bake](j, other)
			if err != nil {
				t.Error(err)
				return
			}
			was, err := Get[Bake](j, id)
			if err != nil {
				t.Error(err)
				return
			}
			b.Name, b.Notes = name+" "+o.Name, "after "+was.Name
		}); err != nil {
			t.Fatal(err)
		}
	}
	if b, err := Get[Bake](j, id); err != nil || b.Name != "b rye" || b.Notes != "after a rye" {
		t.Errorf("%+v, %v", b, err)
	}
	if err := j.Flush(); err != nil {
		t.Fatal(err)
	}
	if b, err := Get[Bake](j, id); err != nil || b.Name != "b rye" {
		t.Errorf("on the disk %+v, %v", b, err)
	}
}

// An edit that can no longer be made on its record holds up no other change, and is
// not forgotten.
func TestAnEditThatIsStuckBlocksNothing(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	stuck, other := newBake(t, j, "stuck"), newBake(t, j, "other")
	ref := Ref{Kind: KindBake, ID: stuck}
	for _, id := range []ID{stuck, other} {
		if err := Edit(j, id, "notes", func(b *Bake) { b.Notes = "typed" }); err != nil {
			t.Fatal(err)
		}
	}
	newer := store.Wrap(string(KindBake), string(stuck), []byte(`{"id":"`+string(stuck)+`","v":99}`))
	err := j.store.Bolt().Update(func(tx *bolt.Tx) error { return tx.Bucket([]byte(KindBake)).Put([]byte(stuck), newer) })
	if err != nil {
		t.Fatal(err)
	}
	id := newBake(t, j, "third")
	for _, want := range []ID{other, id} {
		if onDisk(j, Ref{Kind: KindBake, ID: want}) == nil {
			t.Errorf("%s is not on the disk", want)
		}
	}
	if b, err := decode[Bake](other, onDisk(j, Ref{Kind: KindBake, ID: other})); err != nil || b.Notes != "typed" {
		t.Errorf("the other edit: %v, %v", b, err)
	}
	if err := j.Close(); !errors.Is(err, ErrNewer) {
		t.Errorf("closing gives %v", err)
	}
	if u := j.Unsaved(); len(u) != 1 || u[0].Ref != ref {
		t.Errorf("unsaved is %+v", u)
	}
	if err := j.Discard(); err != nil {
		t.Fatal(err)
	}
}

func TestAJournalThatLostItsPlaceIsNoticed(t *testing.T) {
	for _, tt := range []struct {
		name      string
		take, put func(dir, aside string) error
		want      error
	}{
		{"the folder is renamed",
			func(dir, aside string) error { return os.Rename(dir, aside) },
			func(dir, aside string) error { return os.Rename(aside, dir) }, ErrGone},
		{"another file is renamed over it",
			func(dir, aside string) error {
				path := filepath.Join(dir, FileName)
				return errors.Join(os.Link(path, aside), os.WriteFile(path+".new", []byte("another"), 0o644), os.Rename(path+".new", path))
			},
			func(dir, aside string) error { return os.Rename(aside, filepath.Join(dir, FileName)) }, ErrReplaced},
	} {
		t.Run(tt.name, func(t *testing.T) {
			dir, aside := filepath.Join(t.TempDir(), "journal"), filepath.Join(t.TempDir(), "aside")
			var d faultdisk.Disk
			j := openOn(t, &d, dir, newClock(), Options{LookEvery: time.Millisecond})
			id := newBake(t, j, "Ferry loaf")
			told := make(chan Changed, 64)
			j.Listen(func(c Changed) { told <- c })
			if err := tt.take(dir, aside); err != nil {
				t.Fatal(err)
			}
			for c := range told {
				if c.Err != nil {
					if !errors.Is(c.Err, tt.want) {
						t.Fatalf("told of %v", c.Err)
					}
					break
				}
			}
			if err := Edit(j, id, "notes", func(b *Bake) { b.Notes = "windy" }); err != nil {
				t.Fatal(err)
			}
			err := j.Do("loaves", func(tx *Tx) error { return Change(tx, id, func(b *Bake) { b.Loaves = 2 }) })
			if !errors.Is(err, tt.want) {
				t.Errorf("a change gives %v", err)
			}
			if err := j.Close(); !errors.Is(err, tt.want) || !strings.Contains(fmt.Sprint(j.Unsaved()), "windy") {
				t.Errorf("closing gives %v; unsaved: %v", err, j.Unsaved())
			}
			if err := tt.put(dir, aside); err != nil {
				t.Fatal(err)
			}
			for c := range told {
				if c.Saved {
					break
				}
			}
			if b, err := decode[Bake](id, onDisk(j, Ref{Kind: KindBake, ID: id})); err != nil || b.Notes != "windy" {
				t.Errorf("on the disk: %v, %v", b, err)
			}
		})
	}
}

// A file that is cut short under the window ends no program: what cannot be read says so.
func TestAFileCutShortUnderTheWindowIsToldAndNoCrash(t *testing.T) {
	dir := t.TempDir()
	j := openTest(t, dir, newClock())
	for range 40 {
		newBake(t, j, strings.Repeat("long ", 400))
	}
	if all, err := All[Bake](j); err != nil || len(all) != 40 {
		t.Fatalf("%d bakes, %v", len(all), err)
	}
	if err := os.Truncate(filepath.Join(dir, FileName), 4*int64(os.Getpagesize())); err != nil {
		t.Fatal(err)
	}
	if _, err := All[Bake](j); !errors.Is(err, store.ErrRead) {
		t.Errorf("reading gives %v", err)
	}
}

// The disk was unsure of what was typed, and the change for which it was written makes it
// last: that is told, and the trouble is over.
func TestWhatAnotherChangeMadeSureOfIsToldAsSaved(t *testing.T) {
	var d faultdisk.Disk
	j := openOn(t, &d, t.TempDir(), newClock(), Options{})
	id := newBake(t, j, "Ferry loaf")
	told := make(chan Changed, 64)
	j.Listen(func(c Changed) { told <- c })
	if err := Edit(j, id, "notes", func(b *Bake) { b.Notes = "windy" }); err != nil {
		t.Fatal(err)
	}
	d.Fail(faultdisk.Sync, 2, -1, nil) // the last of what was typed, and of making sure of it
	j.write.Lock()
	if _, err := j.flushLocked(); !errors.Is(err, store.ErrUnsure) { // as a change begins
		t.Errorf("writing what was typed gives %v", err)
	}
	d.Heal()
	_, err := j.commit(func(tx *Tx) error { return Change(tx, id, func(b *Bake) { b.Loaves = 2 }) })
	j.write.Unlock()
	if err != nil {
		t.Fatal(err)
	}
	for c := range told {
		if c.Saved {
			break
		}
	}
	if err := j.Trouble(); err != nil {
		t.Errorf("there is trouble still: %v", err)
	}
}
