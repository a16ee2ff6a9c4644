// Package demo makes the demonstration journal: a throwaway journal with an
// invented story in it, so that every part of the program finds something to
// show.
//
// The story: a cook on an island ferry bakes for the crew. The rye culture
// Harbour is eleven months old; the wheat culture Gorse was begun from flour
// and water and is in its third week. There are about four months of bakes, a
// trial of one culture against the other with its tasting, and a day under way.
//
// Nobody and nothing in it is real. The pictures were drawn by cmd/demopictures.
package demo

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"time"

	"twinloaf/assets/demo/plates"
	"twinloaf/journal"
)

// Options say how the journal is made. The zero value is right for showing the
// program.
type Options struct {
	// Seed varies the story's chance; the same seed and time give the same records.
	Seed uint64
	// NoPictures leaves the photos out.
	NoPictures bool
}

// ErrThere is wrapped when the folder holds a journal already.
var ErrThere = errors.New("there is a journal already")

// Build makes the demonstration journal in the folder dir, as it would stand at
// now, in now's zone. The folder must not hold a journal yet. After a
// cancellation it is not complete and may be deleted.
func Build(ctx context.Context, dir string, now time.Time, opt Options) (err error) {
	if _, err := os.Stat(filepath.Join(dir, journal.FileName)); err == nil {
		return fmt.Errorf("making the demonstration journal in %s: %w", dir, ErrThere)
	}
	s := newStory(now.Truncate(time.Second), opt.Seed)
	if s.plates, err = plates.All(); err != nil {
		return err
	}
	j, err := journal.Open(ctx, dir, journal.Options{Clock: s.Now, Random: s.ids})
	if err != nil {
		return fmt.Errorf("making the demonstration journal: %w", err)
	}
	defer func() { err = errors.Join(err, j.Close()) }()
	s.j = j
	for _, tell := range s.chapters() {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := tell(); err != nil {
			return fmt.Errorf("making the demonstration journal: %w", err)
		}
	}
	if opt.NoPictures {
		return nil
	}
	if err := s.develop(dir); err != nil {
		return fmt.Errorf("adding the demonstration's pictures: %w", err)
	}
	return nil
}

// chapters are the parts of the story in their order. Each is one change, but
// for the tasting, which goes the way that every tasting goes.
func (s *story) chapters() []func() error {
	one := func(name string, tell func()) func() error {
		return func() error { return s.write(name, tell) }
	}
	return []func() error{
		one("settings", s.settings),
		one("larder", s.larder),
		one("cultures", s.cultures),
		one("formulas", s.formulas),
		one("Harbour", s.harbour),
		one("Gorse", s.gorse),
		one("bakes", s.bakes),
		one("trial", s.trial),
		s.tasting,
		one("today", s.today),
		s.secondTasting,
	}
}

// A story is what has been told so far. Its clock stands where the telling is,
// so that each record's ID carries the time at which it would have been made.
type story struct {
	now   time.Time
	clock time.Time
	rng   *rand.Rand
	ids   *rand.ChaCha8
	seed  uint64

	j   *journal.Journal
	tx  *journal.Tx
	err error // the first thing that went wrong in a chapter

	plates []plates.Plate
	shown  map[string]int // how often each plate was chosen
	wanted []shot

	harbourID, gorseID journal.ID
	formulaOf          map[string]journal.ID // by bread and version
	flours             map[string]*journal.Flour
	awayFrom, awayTo   []time.Time     // when nobody baked
	told               map[string]bool // notes that have been used
	tastingID          journal.ID
	trialBakes         [2]*journal.Bake
}

func newStory(now time.Time, seed uint64) *story {
	s := &story{
		now: now, clock: now, seed: seed,
		rng:       rand.New(rand.NewPCG(seed, 0xfe22)),
		formulaOf: map[string]journal.ID{}, flours: map[string]*journal.Flour{},
		told: map[string]bool{}, shown: map[string]int{},
	}
	var key [32]byte
	binary.LittleEndian.PutUint64(key[:], seed)
	copy(key[8:], "an island ferry")
	s.ids = rand.NewChaCha8(key)
	for _, away := range [][2]int{{99, 94}, {71, 66}, {43, 39}, {28, 25}} {
		s.awayFrom = append(s.awayFrom, s.day(away[0], 20))
		s.awayTo = append(s.awayTo, s.day(away[1], 9))
	}
	return s
}

// Now is the story's clock.
func (s *story) Now() time.Time { return s.clock }

// write tells one chapter as one change that leaves no step to undo.
func (s *story) write(name string, tell func()) error {
	return s.j.DoWithoutUndo(name, func(tx *journal.Tx) error {
		s.tx, s.err = tx, nil
		tell()
		s.tx = nil
		return s.err
	})
}

// put writes a record as made at a time, unless something went wrong before.
func put[T any, R journal.Record[T]](s *story, at time.Time, rec R) {
	if s.err != nil {
		return
	}
	s.clock = at
	s.err = journal.Put[T, R](s.tx, rec)
}

// fail keeps the first error of a chapter, if err is one; what is told after it
// is not written.
func (s *story) fail(err error) {
	if s.err == nil {
		s.err = err
	}
}

// id names a record or a line made at a time.
func (s *story) id(at time.Time) journal.ID {
	if s.err != nil {
		return ""
	}
	s.clock = at
	var id journal.ID
	id, s.err = s.j.NewID()
	return id
}

func (s *story) settings() {
	set, err := s.j.Settings()
	if err != nil {
		s.fail(err)
		return
	}
	set.Currency, set.Kitchen = "£", new(celsius(22))
	// The cook is up before the first sailing.
	set.SleepFrom, set.SleepTo = new(hours(22.5)), new(hours(5))
	put(s, s.day(122, 12), set)
}
