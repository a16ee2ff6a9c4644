package store

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"time"

	bolt "go.etcd.io/bbolt"

	"twinloaf/journal/say"
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
	db     *bolt.DB
	path   string
	is     os.FileInfo // of the open file, which may lose its name

	// unsure says that the last commit is in the file, but that the disk failed
	// to make it last.
	unsure bool
}

// Open opens an existing file that was looked at by [Inspect], and brings it up
// to the layout.
func Open(path string, layout Layout, opt Options) (*Store, error) {
	if opt.OpenFile == nil {
		opt.OpenFile = os.OpenFile
	}
	s := &Store{layout: layout, path: path}
	open := func(name string, flag int, perm os.FileMode) (*os.File, error) {
		f, err := opt.OpenFile(name, flag, perm)
		if err == nil && s.is == nil {
			s.is, err = f.Stat()
		}
		return f, err
	}
	var err error
	s.db, err = bolt.Open(path, 0o644, &bolt.Options{Timeout: lockTimeout, OpenFile: open})
	if err != nil {
		return nil, openError(path, err)
	}
	if err := layout.migrate(s.db, path, opt.Migrating); err != nil {
		return nil, errors.Join(err, s.db.Close())
	}
	if err := layout.complete(s.db); err != nil {
		return nil, errors.Join(err, s.db.Close())
	}
	return s, nil
}

// Close lets go of the file. It waits for transactions that are still open.
func (s *Store) Close() error { return s.db.Close() }

// View runs fn on what was committed last; what others write meanwhile does not
// show in it.
//
// The file is mapped into memory: where the disk cannot read it, or where it was cut
// short by another program, the processor faults. That is given as [ErrRead].
func (s *Store) View(fn func(t *Tx) error) (err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		p := recover()
		if p == nil {
			return
		}
		if _, fault := p.(interface{ Addr() uintptr }); !fault {
			panic(p)
		}
		err = ErrRead
	}()
	return s.db.View(func(tx *bolt.Tx) error { return fn(s.begin(tx)) })
}

// ErrRead is wrapped when the open file can no longer be read.
var ErrRead = say.Wrong("part of the journal's file cannot be read any more: it was cut short, or the disk reported a fault")

// WriteTo writes a copy of the whole file as it was committed last, while others
// go on reading and writing. The copy is a file that can be opened.
func (s *Store) WriteTo(w io.Writer) (n int64, err error) {
	err = s.db.View(func(tx *bolt.Tx) error {
		n, err = tx.WriteTo(w)
		return err
	})
	if err != nil {
		return n, fmt.Errorf("copying the records: %w", err)
	}
	return n, nil
}

// Bolt is the file beneath, for tests that damage it.
func (s *Store) Bolt() *bolt.DB { return s.db }
