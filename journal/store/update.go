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
var ErrUnsure = say.NewError("the disk reported a fault while saving: the change is there, but a power failure may take it back")

// Update makes one change, which is on the disk when Update returns without an
// error; with one, nothing has changed, unless it wraps [ErrUnsure].
func (s *Store) Update(fn func(t *Tx) error) error {
	if err := s.Moved(); err != nil {
		return err
	}
	if err := s.MakeSure(); err != nil {
		return err
	}
	id, err := s.change(func(tx *bolt.Tx) error { return fn(s.begin(tx)) })
	switch {
	case err == nil || id == 0 || errors.Is(err, ErrRead):
		return err
	case !s.holds(id):
		return &WriteError{err}
	}
	// The page that makes the change count is in the file: only the sync after it
	// has failed. A second commit writes the other such page and syncs both.
	if s.unsure = true; s.MakeSure() == nil {
		return nil
	}
	return say.Caused(ErrUnsure, err)
}

// change makes one transaction. id is its number once fn is through, and 0 before.
func (s *Store) change(fn func(tx *bolt.Tx) error) (id int, err error) {
	err = guarded(func() error {
		h := s.now.Load()
		if err := h.readable(); err != nil {
			return err
		}
		whole := false // what bbolt has in memory is as before the change, or as after it
		defer func() {
			if !whole {
				s.sick.Store(true)
			}
		}()
		tx, err := h.db.Begin(true)
		whole = err != nil
		if err != nil {
			return err
		}
		defer giveUp(tx)
		whole = true
		if err := fn(tx); err != nil {
			return err
		}
		id = tx.ID()
		whole = false
		err = tx.Commit()
		whole = true
		return err
	})
	return id, err
}

// A WriteError is a change that the disk did not take. Nothing was changed.
type WriteError struct{ Err error }

// Error is the sentence in English, and what the system said.
func (e *WriteError) Error() string { return e.Line().String() + ": " + e.Err.Error() }

// Unwrap gives what the system said.
func (e *WriteError) Unwrap() error { return e.Err }

// Line is the sentence.
func (e *WriteError) Line() say.Line {
	return say.Of("{{.Why}}: that was not saved, and nothing was changed", say.With{"Why": Why(e.Err)})
}

// Why tells in plain words why something could not be written.
func Why(err error) say.Line {
	if w, ok := errors.AsType[*WriteError](err); ok {
		err = w.Err
	}
	if l, ok := say.OfError(err); ok {
		return l
	}
	if t := say.TroubleOf(err); t != say.NoTrouble {
		return t.Line()
	}
	return say.Of("the disk could not be written to ({{.What}})", say.With{"What": err.Error()})
}

// holds tells whether the file, as it can be read now, holds a transaction.
func (s *Store) holds(id int) (held bool) {
	_ = s.View(func(t *Tx) error { held = t.tx.ID() >= id; return nil })
	return held
}

// Unsure tells whether the last change may not outlast a power failure, see
// [ErrUnsure], or whether the store is stale.
func (s *Store) Unsure() bool { return s.unsure || s.Stale() }

// Stale tells whether the file must be opened anew since reading it has failed, see
// [ErrRead]. It may be called from any goroutine.
func (s *Store) Stale() bool { return s.sick.Load() || s.now.Load().jammed.Load() }

// MakeSure makes a change last that the disk was unsure of, and opens the file anew
// where reading it failed. Like [Store.Unsure] and [Store.Update], it is for one
// goroutine at a time.
func (s *Store) MakeSure() error {
	if s.Stale() {
		if err := s.renew(); err != nil {
			return err
		}
	}
	if !s.unsure {
		return nil
	}
	_, err := s.change(func(tx *bolt.Tx) error {
		return tx.Bucket(bucketMeta).Put(keyIs, []byte(s.layout.Is))
	})
	if s.unsure = err != nil; s.unsure {
		return &WriteError{err}
	}
	return nil
}

// Errors of a file that is no longer where it was opened.
var (
	ErrGone     = say.NewError("the journal's file is no longer in its folder")
	ErrReplaced = say.NewError("another file has taken the journal's place in its folder")
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
