package journal

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"
	"time"

	"twinloaf/journal/formula"
	"twinloaf/journal/store"
)

// A life is a run of random changes to a journal. What is done follows from the seed
// and from what the journal holds alone, so that the same life on two copies of a
// journal leaves the same bytes in both.
type life struct {
	j     *Journal
	clock *fakeClock
	rng   *rand.Rand
	did   int
	// within is called in the middle of a transaction, after its first write, with
	// the number of the step.
	within func(step int)
	// before is called before a step that commits what was typed earlier.
	before func() error
}

// startOfLife is when the n-th life of a journal begins. No two lives share a moment,
// so no two records a name.
func startOfLife(n int) time.Time { return newClock().now.AddDate(0, 0, n) }

// beginLife opens the journal in dir for a life. Nothing is committed by a timer.
func beginLife(dir string, seed uint64, n int) (*life, error) {
	clock := &fakeClock{now: startOfLife(n)}
	key := func(stream byte) (k [32]byte) {
		binary.BigEndian.PutUint64(k[:], seed)
		binary.BigEndian.PutUint64(k[8:], uint64(n))
		k[31] = stream
		return k
	}
	j, err := Open(context.Background(), dir, Options{Clock: clock.Now, Random: rand.NewChaCha8(key(0)), GatherFor: time.Hour})
	if err != nil {
		return nil, err
	}
	return &life{
		j: j, clock: clock, rng: rand.New(rand.NewChaCha8(key(1))),
		within: func(int) {}, before: func() error { return nil },
	}, nil
}

// step does the next thing. What it did is on disk once it returns with lasting; what
// was only typed waits for the next step that lasts.
func (l *life) step() (lasting bool, err error) {
	l.did++
	l.clock.Forward(time.Duration(l.rng.IntN(9)) * time.Second)
	bakes, err := l.bakes()
	if err != nil {
		return false, err
	}
	what := l.rng.IntN(12)
	if len(bakes) == 0 && what < 10 {
		what = 0
	}
	if what == 2 || what == 3 {
		return false, l.typeInto(bakes[l.rng.IntN(len(bakes))], what)
	}
	if err := l.before(); err != nil {
		return false, err
	}
	return true, l.commit(what, bakes)
}

// bakes lists every bake, those in the bin too.
func (l *life) bakes() ([]*Bake, error) {
	return collect[Bake](l.j, func(*Bake) bool { return true })
}

// typeInto types into a field of a bake.
func (l *life) typeInto(b *Bake, what int) error {
	if what == 2 {
		name := b.Name + string(rune('a'+l.rng.IntN(26)))
		return Edit(l.j, b.ID, "name", func(b *Bake) { b.Name = name })
	}
	line := Ingredient{ID: "f", Name: "Spelt", Role: formula.Flour, Grams: formula.Grams(l.rng.IntN(900))}
	return Edit(l.j, b.ID, "flour", func(b *Bake) { b.Ingredients = []Ingredient{line} })
}

// commit makes a change that is on disk when it returns.
func (l *life) commit(what int, bakes []*Bake) error {
	if what < 2 {
		b := &Bake{Name: "Loaf " + strconv.Itoa(l.did), At: l.clock.now}
		return l.do("new bake", func(tx *Tx) error { return Put(tx, b) }, nil)
	}
	switch what {
	case 9:
		return l.j.Flush()
	case 10:
		_, err := l.j.Undo()
		return unless(err, ErrNothingToUndo)
	case 11:
		_, err := l.j.Redo()
		return unless(err, ErrNothingToRedo)
	}
	b := bakes[l.rng.IntN(len(bakes))]
	switch what {
	case 4:
		return l.do("two at once",
			func(tx *Tx) error { return Change(tx, b.ID, func(b *Bake) { b.Notes += "." }) },
			func(tx *Tx) error { return Put(tx, &Feeding{Culture: "c", At: l.clock.now, Flour: 60}) })
	case 5:
		if b.InBin() {
			return l.do("out of the bin", func(tx *Tx) error { return Restore[Bake](tx, b.ID) }, nil)
		}
		return l.do("bin", func(tx *Tx) error { return MoveToBin[Bake](tx, b.ID) }, nil)
	case 6:
		return l.remove(b)
	case 7:
		return l.picture(b)
	}
	return l.do("notes", func(tx *Tx) error { return Change(tx, b.ID, func(b *Bake) { b.Loaves++ }) }, nil)
}

// do makes one change in one or two writes.
func (l *life) do(label string, first, second func(*Tx) error) error {
	return l.j.Do(label, func(tx *Tx) error {
		if err := first(tx); err != nil {
			return err
		}
		l.within(l.did)
		if second == nil {
			return nil
		}
		return second(tx)
	})
}

// remove takes a bake away for good, with its photos.
func (l *life) remove(b *Bake) error {
	photos, err := Photos(l.j, b.ID)
	if err != nil {
		return err
	}
	return l.do("removing a bake", func(tx *Tx) error { return tx.Remove(RefOf(b)) }, func(tx *Tx) error {
		for _, p := range photos {
			if err := tx.Remove(RefOf(p)); err != nil {
				return err
			}
		}
		return nil
	})
}

// picture adds a small picture of the crumb, often one that is there already.
func (l *life) picture(b *Bake) error {
	shade := uint8(l.rng.IntN(6) * 40)
	open := func() (io.ReadCloser, error) {
		img := image.NewGray(image.Rect(0, 0, 6, 4))
		img.SetGray(1, 1, color.Gray{Y: shade})
		var out bytes.Buffer
		err := png.Encode(&out, img)
		return io.NopCloser(&out), err
	}
	_, refused, err := l.j.AddPictures(context.Background(), "photos", RefOf(b), RoleCrumb, []Picture{{Name: "crumb.png", Open: open}}, nil)
	return errors.Join(append(slices.Clone(refused), err)...)
}

func unless(err, fine error) error {
	if errors.Is(err, fine) {
		return nil
	}
	return err
}

// liveAndSay is the test program as the child that is killed: it lives in the journal
// folder that the arguments name, and writes the number of each step once it is done.
// At the step of which it is to stop in the middle it says so and waits for its end.
func liveAndSay(args []string, in io.Reader, out io.Writer) error {
	var seed uint64
	var n, stopAt int
	if _, err := fmt.Sscan(args[1]+" "+args[2]+" "+args[3], &seed, &n, &stopAt); err != nil {
		return fmt.Errorf("reading what life to live: %w", err)
	}
	l, err := beginLife(args[0], seed, n)
	if err != nil {
		return err
	}
	l.within = func(step int) {
		if stopAt > 0 && step >= stopAt {
			fmt.Fprintln(out, "within", step)
			_, _ = in.Read(make([]byte, 1)) // until the parent is gone
		}
	}
	for {
		if _, err := l.step(); err != nil {
			return fmt.Errorf("step %d: %w", l.did, err)
		}
		if _, err := fmt.Fprintln(out, "did", l.did); err != nil {
			return err
		}
	}
}

// The same life lived twice leaves the same bytes: the test of kills rests on it.
func TestALifeFollowsFromItsSeed(t *testing.T) {
	var ends []store.Contents
	for range 2 {
		l, err := beginLife(t.TempDir(), 11, 3)
		if err != nil {
			t.Fatal(err)
		}
		l.j.store.Bolt().NoSync = true
		for range 60 {
			if _, err := l.step(); err != nil {
				t.Fatal(err)
			}
		}
		if err := l.j.Flush(); err != nil {
			t.Fatal(err)
		}
		ends = append(ends, everything(t, l.j))
		if err := l.j.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if len(ends[0]) < 20 || ends[0].Differences(ends[1]) != 0 {
		t.Errorf("%d entries, of which %d differ", len(ends[0]), ends[0].Differences(ends[1]))
	}
}
