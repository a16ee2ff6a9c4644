package store

import (
	"errors"
	"fmt"
	"io"
	"os"
	"sync/atomic"
	"time"

	bolt "go.etcd.io/bbolt"
)

// lockTimeout is how long opening waits for another program to let go of the
// file: just long enough for one that is closing.
const lockTimeout = 300 * time.Millisecond

// Options are the seams of a store. The zero value is right for a program.
type Options struct {
	// OpenFile opens the file; nil means os.OpenFile.
	OpenFile func(name string, flag int, perm os.FileMode) (*os.File, error)
	// Migrating is called with the file as it is before it is brought to a newer
	// layout, to back it up: its error keeps the file as it is. Nil makes no backup.
	Migrating func(t *Tx) error
}

// A Store is an open file of records. Its methods may be called from any
// goroutine, but a transaction must not be begun within another.
type Store struct {
	layout Layout
	opt    Options
	path   string
	is     os.FileInfo // of the open file, which may lose its name
	now    atomic.Pointer[handle]

	// unsure says that the last commit is in the file, but that the disk failed
	// to make it last.
	unsure bool
	// sick says that reading failed in the middle of a change: what bbolt has in
	// memory may be half done, and the file is opened anew before the next.
	sick atomic.Bool
}

// Open opens an existing file that was looked at by [Inspect], and brings it up
// to the layout.
func Open(path string, layout Layout, opt Options) (*Store, error) {
	if opt.OpenFile == nil {
		opt.OpenFile = os.OpenFile
	}
	s := &Store{layout: layout, opt: opt, path: path}
	h, err := s.open()
	if err != nil {
		return nil, openError(path, err)
	}
	if s.is, err = h.file.Stat(); err != nil {
		return nil, errors.Join(openError(path, err), h.db.Close())
	}
	s.now.Store(h)
	err = guarded(func() error {
		if err := layout.migrate(h.db, path, opt.Migrating); err != nil {
			return err
		}
		return layout.complete(h.db)
	})
	if err != nil {
		return nil, errors.Join(err, s.Close())
	}
	return s, nil
}

// Close lets go of the file. It waits for transactions that are still open.
func (s *Store) Close() error {
	h := s.now.Load()
	if s.Stale() {
		h.abandon()
		return nil
	}
	return h.db.Close()
}

// View runs fn on what was committed last; what others write meanwhile does not
// show in it.
//
// The file is mapped into memory: where the disk cannot read it, or where it was cut
// short by another program, the processor faults. That is given as [ErrRead].
func (s *Store) View(fn func(t *Tx) error) error {
	return guarded(func() error {
		tx, err := s.now.Load().read()
		if err != nil {
			return err
		}
		defer giveUp(tx)
		return fn(s.begin(tx))
	})
}

// WriteTo writes a copy of the whole file as it was committed last, while others
// go on reading and writing. The copy is a file that can be opened.
func (s *Store) WriteTo(w io.Writer) (n int64, err error) {
	err = s.View(func(t *Tx) error {
		n, err = t.tx.WriteTo(w)
		return err
	})
	if err != nil {
		return n, fmt.Errorf("copying the records: %w", err)
	}
	return n, nil
}

// Bolt is the file beneath, for tests that damage it.
func (s *Store) Bolt() *bolt.DB { return s.now.Load().db }
