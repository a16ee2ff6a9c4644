package journal

import (
	"context"
	"math/rand/v2"
	"os"
	"sync"
	"testing"
	"time"

	"pgregory.net/rapid"

	"twinloaf/journal/store"
)

// fakeClock is a clock that the test moves.
type fakeClock struct {
	mu  sync.Mutex // a backup is made while others write
	now time.Time
}

func (c *fakeClock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.now
}

func (c *fakeClock) Forward(d time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.now = c.now.Add(d)
}

func newClock() *fakeClock {
	return &fakeClock{now: time.Date(2026, 3, 4, 8, 54, 0, 0, time.UTC)}
}

// openTest opens a journal in dir under a fake clock and a fixed randomness.
// Typed edits wait until they are flushed.
func openTest(t testing.TB, dir string, clock *fakeClock) *Journal {
	t.Helper()
	j, err := Open(context.Background(), dir, Options{
		Clock: clock.Now, Random: rand.NewChaCha8([32]byte{7}), GatherFor: time.Hour,
	})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = j.Close() })
	return j
}

// newBake puts a bake of that name into the journal.
func newBake(t testing.TB, j *Journal, name string) ID {
	t.Helper()
	b := &Bake{Name: name, At: j.Now()}
	if err := j.Do("new bake", func(tx *Tx) error { return Put(tx, b) }); err != nil {
		t.Fatal(err)
	}
	return b.ID
}

// records gives every stored envelope, by kind and ID.
func records(t rapid.TB, j *Journal) store.Contents {
	t.Helper()
	var out store.Contents
	err := j.store.View(func(st *store.Tx) (err error) {
		var names []string
		for _, k := range Kinds() {
			names = append(names, string(k))
		}
		out, err = st.Contents(names...)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// mustBeSound fails the test unless every index equals a rebuild.
func mustBeSound(t testing.TB, j *Journal) {
	t.Helper()
	report, err := j.Check(context.Background(), false)
	if err != nil {
		t.Fatal(err)
	}
	if report.Indexes != 0 || len(report.Unreadable) != 0 || len(report.Seals) != 0 { // most photos of these tests have no file
		t.Fatalf("the journal is not sound: %+v", report)
	}
}

// mustTempDir makes a fresh folder below dir for one run of a property.
func mustTempDir(rt interface{ Fatal(...any) }, dir string) string {
	name, err := os.MkdirTemp(dir, "journal-")
	if err != nil {
		rt.Fatal(err)
	}
	return name
}

// onDisk gives the envelope of a record as it was committed last.
func onDisk(j *Journal, ref Ref) []byte {
	value, _ := j.committed(ref)
	return value
}
