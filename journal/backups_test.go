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
	"sync"
	"testing"
	"time"

	"pgregory.net/rapid"

	"twinloaf/journal/backup"
	"twinloaf/journal/journaltest/race"
	"twinloaf/journal/photo"
	"twinloaf/journal/photo/phototest"
	"twinloaf/journal/store"
)

// addPicture adds a small picture, different for each n, to a bake.
func addPicture(t rapid.TB, j *Journal, bake ID, n int) ID {
	t.Helper()
	file := smallPicture(n)
	added, refused, err := j.AddPictures(context.Background(), "photo", Ref{Kind: KindBake, ID: bake}, RoleCrumb, []Picture{{
		Name: fmt.Sprintf("crumb %d.jpg", n), Open: func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(file)), nil },
	}}, nil)
	if err != nil || len(added) != 1 {
		t.Fatalf("adding a picture: %v, %v", refused, err)
	}
	return added[0]
}

// smallPicture is a small one, different for each n.
func smallPicture(n int) []byte {
	return phototest.WithEXIF(blankPicture(), phototest.EXIF{Taken: fmt.Sprintf("2026:03:04 07:%02d:%02d", n/60, n%60)}.Block())
}

var blankPicture = sync.OnceValue(func() []byte { return phototest.JPEG(phototest.Scene(64, 48), phototest.EXIF{}) })

// hashOf gives the original of a photo.
func hashOf(t rapid.TB, j *Journal, id ID) photo.Hash {
	t.Helper()
	p, err := Get[Photo](j, id)
	if err != nil {
		t.Fatal(err)
	}
	h, err := photo.ParseHash(p.Hash)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

func TestAJournalGoesBackToABackup(t *testing.T) {
	dir, clock := t.TempDir(), newClock()
	j := openTest(t, dir, clock)
	bake := newBake(t, j, "Ferry loaf")
	kept := hashOf(t, j, addPicture(t, j, bake, 1))
	b, err := j.BackUp(t.Context(), backup.Asked)
	if err != nil || b.Bakes != 1 || b.Photos != 1 || b.Records != 2 {
		t.Fatalf("%+v, %v", b, err)
	}
	clock.Forward(time.Hour)
	later := newBake(t, j, "Dark tin")
	lost := hashOf(t, j, addPicture(t, j, later, 2))
	if err := Edit(j, later, "name", func(b *Bake) { b.Name = "Darker tin" }); err != nil {
		t.Fatal(err)
	}
	if missing, err := j.PrepareRestore(t.Context(), b); err != nil || len(missing) > 0 {
		t.Fatal(missing, err)
	}
	aside, err := j.Restore(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	j = openTest(t, dir, clock)
	if bakes, err := All[Bake](j); err != nil || len(bakes) != 1 || bakes[0].Name != "Ferry loaf" {
		t.Errorf("%+v, %v", bakes, err)
	}
	if report, err := j.Check(t.Context(), false); err != nil || !report.Sound() {
		t.Errorf("%+v, %v", report, err)
	}
	// What it was an hour later is kept with what was only typed, and comes back.
	if _, err := j.PrepareRestore(t.Context(), aside); err != nil {
		t.Fatal(err)
	}
	if _, err := j.Restore(t.Context()); err != nil {
		t.Fatal(err)
	}
	j = openTest(t, dir, clock)
	if got, err := Get[Bake](j, later); err != nil || got.Name != "Darker tin" {
		t.Errorf("%+v, %v", got, err)
	}
	for _, h := range []photo.Hash{kept, lost} {
		if err := j.files.Verify(t.Context(), h); err != nil {
			t.Error(err)
		}
	}
}

func TestAPictureThatNoBackupHasIsToldByName(t *testing.T) {
	dir, clock := t.TempDir(), newClock()
	j := openTest(t, dir, clock)
	id := addPicture(t, j, newBake(t, j, "Ferry loaf"), 1)
	hash := hashOf(t, j, id)
	b, err := j.BackUp(t.Context(), backup.Asked)
	if err != nil {
		t.Fatal(err)
	}
	for _, root := range []string{"photos", "backups/originals"} {
		if err := os.Remove(filepath.Join(dir, filepath.FromSlash(root), hash.String()[:2], hash.String()+".jpg")); err != nil {
			t.Fatal(err)
		}
	}
	missing, err := j.PrepareRestore(t.Context(), b)
	if err != nil || len(missing) != 1 || missing[0].Hash != hash {
		t.Fatal(missing, err)
	}
	if _, err := j.Restore(t.Context()); err != nil {
		t.Fatal(err)
	}
	j = openTest(t, dir, clock)
	gone, err := j.MissingPhotos(t.Context())
	if err != nil || len(gone) != 1 || gone[0].ID != id || gone[0].Name != "crumb 1.jpg" {
		t.Errorf("%+v, %v", gone, err)
	}
}

// A backup that is made while changes are written is one state of the journal: of each
// pair of records that are written together it has both or neither.
func TestABackupOfAnEditedJournalIsOneMoment(t *testing.T) {
	dir, clock := t.TempDir(), newClock()
	j := openTest(t, dir, clock)
	stop := make(chan struct{})
	var writing sync.WaitGroup
	writing.Go(func() {
		for n := 0; ; n++ {
			select {
			case <-stop:
				return
			default:
			}
			err := j.Do("two", func(tx *Tx) error {
				return errors.Join(Put(tx, &Bake{Name: "a"}), Put(tx, &Bake{Name: "b"}))
			})
			if err != nil {
				t.Error(err)
				return
			}
		}
	})
	var made []backup.Backup
	for range 6 {
		clock.Forward(time.Minute)
		b, err := j.BackUp(t.Context(), backup.Asked)
		if err != nil {
			t.Fatal(err)
		}
		made = append(made, b)
	}
	close(stop)
	writing.Wait()
	for _, b := range made {
		copied := t.TempDir()
		data, err := os.ReadFile(b.File())
		if err == nil {
			err = os.WriteFile(filepath.Join(copied, FileName), data, 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
		c := openTest(t, copied, clock)
		bakes, err := All[Bake](c)
		if err != nil || len(bakes)%2 != 0 || len(bakes) != b.Bakes {
			t.Errorf("%d bakes, said to be %d, %v", len(bakes), b.Bakes, err)
		}
		if report, err := c.Check(t.Context(), false); err != nil || !report.Sound() {
			t.Errorf("%+v, %v", report, err)
		}
	}
}

func TestWhatNothingNeedsIsSwept(t *testing.T) {
	dir, clock := t.TempDir(), newClock()
	clock.now = time.Now() // files carry the computer's time
	j := openTest(t, dir, clock)
	bake := newBake(t, j, "Ferry loaf")
	unneeded := func(want int) {
		t.Helper()
		u, err := j.UnneededOriginals(t.Context())
		if err != nil || u.Pictures != want || (u.Bytes > 0) != (want > 0) {
			t.Errorf("%+v, %v; want %d", u, err, want)
		}
	}
	recorded, binned, undone := addPicture(t, j, bake, 1), addPicture(t, j, bake, 2), addPicture(t, j, bake, 3)
	if err := j.Do("bin", func(tx *Tx) error { return MoveToBin[Photo](tx, binned) }); err != nil {
		t.Fatal(err)
	}
	if _, err := j.BackUp(t.Context(), backup.Asked); err != nil {
		t.Fatal(err)
	}
	fourth := addPicture(t, j, bake, 4)
	lost := hashOf(t, j, fourth)
	for _, id := range []ID{undone, fourth} {
		if err := j.Do("remove", func(tx *Tx) error { return tx.Remove(Ref{Kind: KindPhoto, ID: id}) }); err != nil {
			t.Fatal(err)
		}
	}
	clock.Forward(25 * time.Hour)
	unneeded(0) // undo brings it back
	for n := range store.HistoryKept + 1 {
		if err := j.Do("rename", func(tx *Tx) error { return Change(tx, bake, func(b *Bake) { b.Name = fmt.Sprint(n) }) }); err != nil {
			t.Fatal(err)
		}
	}
	unneeded(1) // the third is in the backup
	j.adding.RLock()
	if _, err := j.SweepOriginals(t.Context()); !errors.Is(err, ErrAdding) {
		t.Errorf("while pictures are added: %v", err)
	}
	j.adding.RUnlock()
	if u, err := j.SweepOriginals(t.Context()); err != nil || u.Pictures != 1 {
		t.Errorf("%+v, %v", u, err)
	}
	if err := j.files.Verify(t.Context(), lost); !errors.Is(err, photo.ErrMissing) {
		t.Errorf("it is still there: %v", err)
	}
	for _, id := range []ID{recorded, binned} {
		if err := j.files.Verify(t.Context(), hashOf(t, j, id)); err != nil {
			t.Error(err)
		}
	}
	unneeded(0)
}

// Whatever is added, removed, taken back, backed up and swept, in any order: what a
// record, an undo or a backup names is there, and a sweep cut short at any file leaves
// it there, too.
func TestASweepNeverTakesWhatIsNamed(t *testing.T) {
	root, swept := t.TempDir(), 0
	defer func() {
		if swept == 0 && !race.Enabled { // few ways are gone there
			t.Error("nothing was ever swept")
		}
	}()
	rapid.Check(t, func(rt *rapid.T) {
		dir, clock := mustTempDir(rt, root), newClock()
		clock.now = time.Now().Add(25 * time.Hour)
		fs := &stopping{FS: photo.Disk{}}
		j, err := Open(context.Background(), dir, Options{Clock: clock.Now, GatherFor: time.Hour, Photos: fs})
		if err != nil {
			rt.Fatal(err)
		}
		defer func() { _ = j.Close() }()
		b := &Bake{Name: "Ferry loaf"}
		if err := j.DoWithoutUndo("bake", func(tx *Tx) error { return Put(tx, b) }); err != nil {
			rt.Fatal(err)
		}
		for n := range rapid.IntRange(1, 12).Draw(rt, "steps") {
			switch rapid.SampledFrom([]string{"add", "remove", "forget", "stray", "stray", "undo", "redo", "back up", "sweep", "sweep"}).Draw(rt, "step") {
			case "add":
				addPicture(rt, j, b.ID, rapid.IntRange(0, 3).Draw(rt, "which"))
			case "stray": // the power failed before its record was committed
				data := smallPicture(rapid.IntRange(0, 3).Draw(rt, "which"))
				if _, err := j.files.Add(context.Background(), "stray.jpg", bytes.NewReader(data)); err != nil {
					rt.Fatal(err)
				}
			case "remove", "forget":
				photos, err := All[Photo](j)
				if err != nil {
					rt.Fatal(err)
				}
				if len(photos) == 0 {
					continue
				}
				id := rapid.SampledFrom(photos).Draw(rt, "photo").ID
				do := j.Do
				if n%2 == 0 {
					do = j.DoWithoutUndo // nothing takes it back
				}
				if err := do("remove", func(tx *Tx) error { return tx.Remove(Ref{Kind: KindPhoto, ID: id}) }); err != nil {
					rt.Fatal(err)
				}
			case "undo":
				_, _ = j.Undo()
			case "redo":
				_, _ = j.Redo()
			case "back up":
				clock.Forward(time.Minute)
				if _, err := j.BackUp(context.Background(), backup.Asked); err != nil {
					rt.Fatal(err)
				}
			case "sweep":
				fs.after = rapid.IntRange(0, 3).Draw(rt, "files until the power fails")
				u, err := j.SweepOriginals(context.Background())
				swept += u.Pictures
				if err != nil && fs.after != 1 {
					rt.Fatalf("%+v, %v", u, err)
				}
				fs.after = 0
			}
			named, err := j.namedOriginals(context.Background())
			if err != nil {
				rt.Fatal(err)
			}
			for h := range named {
				if err := j.files.Verify(context.Background(), h); err != nil {
					rt.Fatalf("a named picture is gone: %v", err)
				}
			}
		}
	})
}

// stopping fails to delete the file of that number and those after it, unless after
// is 0.
type stopping struct {
	photo.FS
	after int
}

func (s *stopping) Remove(path string) error {
	if s.after == 1 && !strings.Contains(path, "incoming") {
		return errors.New("the power failed")
	}
	if s.after > 1 && !strings.Contains(path, "incoming") {
		s.after--
	}
	return s.FS.Remove(path)
}

// A journal that cannot be told of what it needs is never swept.
func TestAnUnreadableBackupKeepsEverything(t *testing.T) {
	dir, clock := t.TempDir(), newClock()
	clock.now = time.Now().Add(48 * time.Hour)
	j := openTest(t, dir, clock)
	id := addPicture(t, j, newBake(t, j, "Ferry loaf"), 1)
	if err := j.DoWithoutUndo("remove", func(tx *Tx) error { return tx.Remove(Ref{Kind: KindPhoto, ID: id}) }); err != nil {
		t.Fatal(err)
	}
	b, err := j.BackUp(t.Context(), backup.Asked)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(filepath.Join(b.Path, "SHA256SUMS")); err != nil {
		t.Fatal(err)
	}
	if u, err := j.SweepOriginals(t.Context()); err == nil {
		t.Errorf("it swept %+v", u)
	}
}

// A journal in which nothing can be read any more gives way to its backup, and is kept
// byte for byte.
func TestARefusedJournalGivesWayToItsBackup(t *testing.T) {
	dir, clock := t.TempDir(), newClock()
	j := openTest(t, dir, clock)
	newBake(t, j, "Ferry loaf")
	if _, err := j.BackUp(t.Context(), backup.Asked); err != nil {
		t.Fatal(err)
	}
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	wreck := bytes.Repeat([]byte{0}, 1<<16)
	copy(wreck[16:], []byte{0xED, 0xDA, 0x0C, 0xED}) // a first page that still says what it is
	if err := os.WriteFile(filepath.Join(dir, FileName), wreck, 0o644); err != nil {
		t.Fatal(err)
	}
	clock.Forward(time.Hour)
	_, err := Open(t.Context(), dir, Options{Clock: clock.Now})
	refused, ok := errors.AsType[*Refused](err)
	if !ok || !errors.Is(err, ErrDamaged) {
		t.Fatalf("opening it gave %v", err)
	}
	all, err := refused.Backups(t.Context())
	if err != nil || len(all) != 1 {
		t.Fatal(all, err)
	}
	aside, err := refused.Restore(t.Context(), all[0])
	if err != nil {
		t.Fatal(err)
	}
	if kept, err := os.ReadFile(aside.File()); err != nil || !bytes.Equal(kept, wreck) {
		t.Errorf("the damaged file was not kept: %v", err)
	}
	j = openTest(t, dir, clock)
	if bakes, err := All[Bake](j); err != nil || len(bakes) != 1 {
		t.Errorf("%d bakes, %v", len(bakes), err)
	}
	// Nobody knows which pictures it needs: none is swept.
	if u, err := j.SweepOriginals(t.Context()); !errors.Is(err, backup.ErrUnlisted) {
		t.Errorf("%+v, %v", u, err)
	}
}

// A journal whose file was taken from under it neither makes its folder anew for a
// backup nor gives way to one, and stays open.
func TestAMovedJournalIsNotBackedUpOrReplaced(t *testing.T) {
	dir, clock := filepath.Join(t.TempDir(), "journal"), newClock()
	j := openTest(t, dir, clock)
	newBake(t, j, "Ferry loaf")
	b, err := j.BackUp(t.Context(), backup.Asked)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := j.PrepareRestore(t.Context(), b); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(dir, dir+" elsewhere"); err != nil {
		t.Fatal(err)
	}
	if _, err := j.BackUp(t.Context(), backup.Daily); !errors.Is(err, ErrGone) {
		t.Errorf("backing up gave %v", err)
	}
	if _, err := j.Restore(t.Context()); !errors.Is(err, ErrGone) || j.Closed() {
		t.Errorf("going back gave %v; closed: %v", err, j.Closed())
	}
	if _, err := os.Stat(dir); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the folder was made anew: %v", err)
	}
	if err := os.Rename(dir+" elsewhere", dir); err != nil {
		t.Fatal(err)
	}
	if _, err := j.Restore(t.Context()); err != nil {
		t.Errorf("once it is back: %v", err)
	}
}
