package journal

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	bolt "go.etcd.io/bbolt"

	"twinloaf/journal/store"
)

// The test program inspects files for itself when it is called as a child, and lives
// in a journal until it is killed.
func TestMain(m *testing.M) {
	if len(os.Args) == 6 && os.Args[1] == "live" {
		if err := liveAndSay(os.Args[2:], os.Stdin, os.Stdout); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		return
	}
	if len(os.Args) == 3 && os.Args[1] == "inspect" {
		if err := InspectAndSay(context.Background(), os.Args[2], os.Stdout); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		return
	}
	os.Exit(m.Run())
}

func inspectInChild(t *testing.T) func(ctx context.Context, path string) error {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	return InspectIn(exe, "inspect")
}

// written makes a journal of a few hundred records and gives its file.
func written(t *testing.T, dir string) []byte {
	t.Helper()
	j := openTest(t, dir, newClock())
	err := j.Do("many", func(tx *Tx) error {
		for i := range 400 {
			if err := Put(tx, &Bake{Name: fmt.Sprintf("loaf %d", i), Notes: string(bytes.Repeat([]byte{'a'}, 300))}); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	file, err := os.ReadFile(filepath.Join(dir, FileName))
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// others gives a file that bbolt wrote for another program, without its first two pages.
func others(t *testing.T) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "other.db")
	db, err := bolt.Open(path, 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	err = db.Update(func(tx *bolt.Tx) error {
		b, err := tx.CreateBucket([]byte("things"))
		if err != nil {
			return err
		}
		return b.Put([]byte("a thing"), []byte("its worth"))
	})
	if err := errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	clear(file[:2*os.Getpagesize()])
	return file
}

func TestWhatIsNoJournalOrHoldsNothingIsRefusedAndLeftUntouched(t *testing.T) {
	whole := written(t, t.TempDir())
	page := os.Getpagesize()
	noise := func(n int) []byte {
		out := make([]byte, n)
		r := rand.NewChaCha8([32]byte{1})
		_, _ = r.Read(out)
		return out
	}
	zeroPages := func(from, n int) []byte {
		out := bytes.Clone(whole)
		clear(out[from*page : (from+n)*page])
		return out
	}
	cases := []struct {
		name string
		file []byte
		want error
	}{
		{"empty", nil, ErrDamaged},
		{"a few letters", []byte("Dear diary"), ErrNotJournal},
		{"a picture", append([]byte{0xFF, 0xD8, 0xFF, 0xE0}, noise(30000)...), ErrNotJournal},
		{"noise", noise(1 << 16), ErrNotJournal},
		{"cut to two pages", whole[:2*page], ErrDamaged},
		{"another program's, both first pages gone", others(t), ErrDamaged},
		{"pages in the middle gone", zeroPages(4, len(whole)/page-6), ErrDamaged},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, FileName)
			if err := os.WriteFile(path, c.file, 0o644); err != nil {
				t.Fatal(err)
			}
			j, err := Open(context.Background(), dir, Options{Inspect: inspectInChild(t)})
			if err == nil {
				_ = j.Close()
				t.Fatal("it was opened")
			}
			if !errors.Is(err, c.want) {
				t.Errorf("got %v, want %v", err, c.want)
			}
			now, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(now, c.file) {
				t.Error("the file was altered")
			}
		})
	}
}

func TestAnotherStoreIsNoJournal(t *testing.T) {
	dir := t.TempDir()
	db, err := bolt.Open(filepath.Join(dir, FileName), 0o644, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(context.Background(), dir, Options{Inspect: inspectInChild(t)}); !errors.Is(err, ErrNotJournal) {
		t.Errorf("got %v", err)
	}
}

func TestASecondProgramIsToldAtOnce(t *testing.T) {
	dir := t.TempDir()
	j := openTest(t, dir, newClock())
	newBake(t, j, "Ferry loaf")
	before := records(t, j)
	if _, err := Open(context.Background(), dir, Options{Inspect: inspectInChild(t)}); !errors.Is(err, ErrInUse) {
		t.Errorf("got %v", err)
	}
	if records(t, j).Differences(before) != 0 {
		t.Error("records changed")
	}
}

func TestANewerJournalIsRefused(t *testing.T) {
	dir := t.TempDir()
	written(t, dir)
	path := filepath.Join(dir, FileName)
	setSchema(t, path, schemaVersion+1)
	before, _ := os.ReadFile(path)
	if _, err := Open(context.Background(), dir, Options{Inspect: inspectInChild(t)}); !errors.Is(err, ErrNewer) {
		t.Errorf("got %v", err)
	}
	after, _ := os.ReadFile(path)
	if !bytes.Equal(before, after) {
		t.Error("the file was altered")
	}
}

func setSchema(t *testing.T, path string, n uint64) {
	t.Helper()
	db, err := bolt.Open(path, 0o644, nil)
	if err != nil {
		t.Fatal(err)
	}
	err = db.Update(func(tx *bolt.Tx) error {
		meta := tx.Bucket([]byte("meta"))
		if err := meta.Delete([]byte("sum")); err != nil { // which a newer program may make otherwise
			return err
		}
		return meta.Put([]byte("schema"), binary.BigEndian.AppendUint64(nil, n))
	})
	if err := errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
}

func TestCheckRepairsIndexes(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	id := newBake(t, j, "Ferry loaf")
	err := j.Do("photo", func(tx *Tx) error {
		return Put(tx, &Photo{Owner: Ref{Kind: KindBake, ID: id}, Hash: "aa", Role: RoleCrumb})
	})
	if err != nil {
		t.Fatal(err)
	}
	err = j.store.Bolt().Update(func(tx *bolt.Tx) error {
		return errors.Join(
			tx.Bucket([]byte(sideSummaries)).Put([]byte(id), []byte("nonsense")),
			tx.Bucket([]byte(store.BucketLinks)).Put([]byte("stray"), nil))
	})
	if err != nil {
		t.Fatal(err)
	}
	report, err := j.Check(context.Background(), true)
	if err != nil || report.Indexes != 2 || !report.Repaired {
		t.Fatalf("got %+v, %v", report, err)
	}
	mustBeSound(t, j)
	summaries, err := j.BakeSummaries()
	if err != nil || len(summaries) != 1 || summaries[0].Photos != 1 || !summaries[0].Crumb {
		t.Errorf("summaries %+v, %v", summaries, err)
	}
}

func FuzzDecodeRecord(f *testing.F) {
	f.Add([]byte(`{"id":"x","v":1,"at":"2026-03-04T08:54:00Z","steps":[{"planned":"30m0s"}]}`))
	f.Add([]byte(`{"v":2}`))
	f.Add([]byte(`{"outcome":{"doughG":-1e309}}`))
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, body []byte) {
		// Sound envelopes of any body, and the body as an envelope itself.
		for _, value := range [][]byte{store.Wrap(string(KindBake), "x", body), body} {
			b, err := decode[Bake]("x", value)
			if err != nil {
				continue
			}
			b.ID = "x"
			again, err := encode(b)
			if err != nil {
				t.Fatalf("what was read cannot be written: %v", err)
			}
			if _, err := decode[Bake]("x", again); err != nil {
				t.Fatalf("what was written cannot be read: %v", err)
			}
			summarize(b, nil, nil)
		}
	})
}
