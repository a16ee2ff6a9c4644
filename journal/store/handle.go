package store

import (
	"errors"
	"os"
	"runtime/debug"
	"sync"
	"sync/atomic"

	bolt "go.etcd.io/bbolt"

	"twinloaf/journal/say"
)

// A handle is the file as bbolt has it open.
type handle struct {
	db   *bolt.DB
	file *os.File
	page int64 // how long a page is
	// jammed says that reading failed while a transaction was begun, so that bbolt
	// holds a lock that nobody lets go of.
	jammed atomic.Bool
	gone   sync.Once // it was abandoned
}

// open opens the file at the store's path.
func (s *Store) open() (*handle, error) {
	h := new(handle)
	open := func(name string, flag int, perm os.FileMode) (*os.File, error) {
		f, err := s.opt.OpenFile(name, flag, perm)
		if h.file == nil {
			h.file = f // later ones are for copies of the file
		}
		return f, err
	}
	err := guarded(func() (err error) {
		h.db, err = bolt.Open(s.path, 0o644, &bolt.Options{Timeout: lockTimeout, OpenFile: open})
		return err
	})
	if err != nil {
		return nil, err
	}
	h.page = int64(h.db.Info().PageSize)
	return h, nil
}

// renew opens the file anew after reading it has failed in the middle of something. One
// that has taken its place is not opened: nobody has looked at it.
func (s *Store) renew() error {
	if err := s.Moved(); err != nil {
		return err
	}
	old := s.now.Load()
	old.abandon()
	h, err := s.open()
	if err != nil {
		return say.Caused(ErrRead, err)
	}
	s.now.Store(h)
	s.sick.Store(false)
	return nil
}

// abandon lets another handle have the file. What still reads in this one may end
// first, and in a jammed one nothing does: nobody waits for it.
func (h *handle) abandon() {
	h.gone.Do(func() {
		unlockFile(h.file)
		go func() { _ = h.db.Close() }()
	})
}

// read begins a transaction that reads.
func (h *handle) read() (tx *bolt.Tx, err error) {
	if err := h.readable(); err != nil {
		return nil, err
	}
	begun := false
	defer func() {
		if !begun {
			h.jammed.Store(true)
		}
	}()
	tx, err = h.db.Begin(false)
	begun = true
	return tx, err
}

// readable reads the pages that every transaction begins with, past the mapping: to
// find out there that they cannot be read would jam the handle.
func (h *handle) readable() error {
	if h.jammed.Load() {
		return ErrRead
	}
	var head [2 * pageHeader]byte
	for page := range int64(2) {
		_, err := h.file.ReadAt(head[:], page*h.page)
		if err != nil && !errors.Is(err, os.ErrClosed) {
			return say.Caused(ErrRead, err)
		}
	}
	return nil
}

// ErrRead is wrapped when the open file can no longer be read.
var ErrRead = say.NewError("part of the journal's file cannot be read any more: it was cut short, or the disk reported a fault")

// guarded runs fn, and gives [ErrRead] when the processor faults in it on a page of
// the mapped file.
func guarded(fn func() error) (err error) {
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
	return fn()
}

// giveUp ends a transaction that was not committed, whatever state it is in.
func giveUp(tx *bolt.Tx) {
	defer func() { _ = recover() }()
	_ = tx.Rollback()
}
