package journal

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"twinloaf/journal/faultdisk"
	"twinloaf/journal/journaltest/race"
	"twinloaf/journal/store"
)

// A journal whose computer loses its power, again and again, at any moment, with a disk
// that keeps some of what was not synced in any order and tears one write, holds every
// change that was acknowledged, at most the one under way besides, and nothing half.
// See the test of kills; what was typed and not yet committed may be lost.
func TestAJournalOutlivesALossOfPower(t *testing.T) {
	root := t.TempDir()
	empty := t.TempDir()
	if err := openTest(t, empty, newClock()).Close(); err != nil {
		t.Fatal(err)
	}
	cuts, unfinished := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		k := &killing{dir: mustTempDir(rt, root), now: moment{steps: map[uint64]store.Contents{0: {}}}}
		copyJournal(rt, empty, k.dir)
		for n := range rapid.IntRange(1, 3).Draw(rt, "losses") {
			seed := rapid.Uint64().Draw(rt, "seed")
			twin := mustTempDir(rt, root)
			copyJournal(rt, k.dir, twin)
			did, loose := k.losePower(rt, seed, n)
			if cuts++; loose {
				unfinished++
			}
			k.mustBeOneOf(rt, n, did, k.undisturbed(rt, twin, seed, n, did, 0))
		}
	})
	t.Logf("%d losses of power, %d of them between a write and its sync", cuts, unfinished)
	if unfinished == 0 && !race.Enabled { // few losses are tried there
		t.Error("the power never failed before a sync")
	}
}

// losePower lives in the journal and leaves in its folder what is on the disk when the
// power fails at some moment. did is the last step acknowledged before that; loose says
// that something had not been synced.
func (k *killing) losePower(rt *rapid.T, seed uint64, n int) (did int, loose bool) {
	l, err := beginLife(k.dir, seed, n)
	if err != nil {
		rt.Fatal(err)
	}
	var d faultdisk.Disk
	db := l.j.store.Bolt()
	d.Under(db)
	before, err := d.File()
	if err != nil {
		rt.Fatal(err)
	}
	// The disk notes the syncs where bbolt makes them, as the test of failures shows:
	// a sync that fails there fails the change. Making them for real would only cost time.
	db.NoSync = true
	acknowledged := []int{d.Moment()}
	for range rapid.IntRange(1, 8).Draw(rt, "steps") {
		if _, err := l.step(); err != nil {
			rt.Fatal(err)
		}
		acknowledged = append(acknowledged, d.Moment())
	}
	at := rapid.IntRange(acknowledged[0], acknowledged[len(acknowledged)-1]).Draw(rt, "moment")
	for did+1 < len(acknowledged) && acknowledged[did+1] <= at {
		did++
	}
	chance := rand.New(rand.NewPCG(seed, uint64(at)))
	left := d.PowerCut(before, at, chance)
	if err := l.j.Discard(); err != nil {
		rt.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(k.dir, FileName), left, 0o644); err != nil {
		rt.Fatal(err)
	}
	return did, d.Unfinished(at)
}
