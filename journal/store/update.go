package store

import (
	"errors"
	"os"

	bolt "go.etcd.io/bbolt"

	"twinloaf/journal/say"
)

// ErrUnsure is wrapped when a change was made and can be read, and the disk then
// failed to say that it will last: a power failure may take it back. The next
// change that is on the disk makes it last, too.
var ErrUnsure = say.Wrong("the disk reported a fault while saving: the change is there, but a power failure may take it back")

// Update makes one change, which is on the disk when Update returns without an
// error; with one, nothing has changed, unless it wraps [ErrUnsure].
func (s *Store) Update(fn func(t *Tx) error) error {
	if err := s.Moved(); err != nil {
		return err
	}
	if err := s.makeSure(); err != nil {
		return err
	}
	var id int
	err := s.db.Update(func(tx *bolt.Tx) error {
		if err := fn(s.begin(tx)); err != nil {
			return err
		}
		id = tx.ID()
		return nil
	})
	if err == nil || id == 0 || !s.holds(id) {
		return err
	}
	// The page that makes the change count is in the file: only the sync after it
	// has failed. A second commit writes the other such page and syncs both.
	if s.unsure = true; s.makeSure() == nil {
		return nil
	}
	return say.Caused(ErrUnsure, err)
}

// holds tells whether the file, as it can be read now, holds a transaction.
func (s *Store) holds(id int) (held bool) {
	_ = s.db.View(func(tx *bolt.Tx) error { held = tx.ID() >= id; return nil })
	return held
}

// makeSure makes a commit last that the disk was unsure of.
func (s *Store) makeSure() error {
	if !s.unsure {
		return nil
	}
	err := s.db.Update(func(tx *bolt.Tx) error {
		return tx.Bucket(bucketMeta).Put(keyIs, []byte(s.layout.Is))
	})
	s.unsure = err != nil
	return err
}

// Errors of a file that is no longer where it was opened.
var (
	ErrGone     = say.Wrong("the journal's file is no longer in its folder")
	ErrReplaced = say.Wrong("another file has taken the journal's place in its folder")
)

// Moved tells whether the open file is no longer what its path leads to: nil
// while it is, [ErrGone] when nothing is there, [ErrReplaced] when another file
// is. What is written to a file without a name is lost with it, so nothing is
// written then.
func (s *Store) Moved() error {
	now, err := os.Stat(s.path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return ErrGone
	case err != nil:
		return say.Caused(ErrGone, err)
	case !os.SameFile(now, s.is):
		return ErrReplaced
	}
	return nil
}
