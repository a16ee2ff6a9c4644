package journal

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"time"

	bolt "go.etcd.io/bbolt"

	"twinloaf/journal/say"
)

// ErrNotFound is wrapped when a record is asked for that is not there.
var ErrNotFound = say.Wrong("that is no longer in the journal")

// A Reader is what records are read from: a [Journal] at any time, or a [Tx]
// within a change.
type Reader interface {
	// value gives the envelope of a record, valid until the reader changes;
	// nil if there is none.
	value(ref Ref) ([]byte, error)
	// view runs fn on the committed buckets.
	view(fn func(tx *bolt.Tx) error) error
}

// Get reads one record. The record is the caller's own copy.
func Get[T any, R Record[T]](r Reader, id ID) (R, error) {
	kind := R(new(T)).kind()
	v, err := r.value(Ref{kind, id})
	if err != nil {
		return nil, fmt.Errorf("reading %s %s: %w", kind, id, err)
	}
	if v == nil {
		return nil, fmt.Errorf("reading %s %s: %w", kind, id, ErrNotFound)
	}
	return decode[T, R](id, v)
}

// All reads every record of one kind, oldest ID first, the bin left out.
func All[T any, R Record[T]](r Reader) ([]R, error) {
	return collect[T, R](r, func(rec R) bool { return !rec.head().InBin() })
}

// Bin reads the records of one kind that are in the bin.
func Bin[T any, R Record[T]](r Reader) ([]R, error) {
	return collect[T, R](r, func(rec R) bool { return rec.head().InBin() })
}

func collect[T any, R Record[T]](r Reader, keep func(R) bool) ([]R, error) {
	kind := R(new(T)).kind()
	var ids []ID
	err := r.view(func(tx *bolt.Tx) error {
		return tx.Bucket([]byte(kind)).ForEach(func(k, _ []byte) error {
			ids = append(ids, ID(k))
			return nil
		})
	})
	if err != nil {
		return nil, fmt.Errorf("listing every %s: %w", kind, err)
	}
	return readAll(r, ids, keep)
}

// readAll reads the records with these IDs that keep lets through. One that
// has gone in the meantime is left out.
func readAll[T any, R Record[T]](r Reader, ids []ID, keep func(R) bool) ([]R, error) {
	out := make([]R, 0, len(ids))
	for _, id := range ids {
		rec, err := Get[T, R](r, id)
		if errors.Is(err, ErrNotFound) {
			continue
		}
		if err != nil {
			return nil, err
		}
		if keep(rec) {
			out = append(out, rec)
		}
	}
	return out, nil
}

// A Tx is one change while it is made. It is valid only within the function
// that [Journal.Do] calls.
type Tx struct {
	tx     *bolt.Tx
	j      *Journal
	before map[Ref][]byte // envelopes as they were; nil for one that was not there
	order  []Ref
	secret bool        // something was written past the records: see sealed.go
	recard map[ID]bool // bakes whose card changes with something beside the records
}

func (t *Tx) value(ref Ref) ([]byte, error) {
	return t.tx.Bucket([]byte(ref.Kind)).Get([]byte(ref.ID)), nil
}

func (t *Tx) view(fn func(tx *bolt.Tx) error) error { return fn(t.tx) }

// Put writes a record. One without an ID is given one.
func Put[T any, R Record[T]](t *Tx, rec R) error {
	h := rec.head()
	if h.ID == "" {
		id, err := t.j.NewID()
		if err != nil {
			return fmt.Errorf("naming a new %s: %w", rec.kind(), err)
		}
		h.ID = id
	}
	v, err := encode[T, R](rec)
	if err != nil {
		return fmt.Errorf("writing %s %s: %w", rec.kind(), h.ID, err)
	}
	return t.set(RefOf[T, R](rec), v)
}

// Change reads a record, lets fn alter it, and writes it.
func Change[T any, R Record[T]](t *Tx, id ID, fn func(R)) error {
	rec, err := Get[T, R](t, id)
	if err != nil {
		return err
	}
	fn(rec)
	return Put[T, R](t, rec)
}

// MoveToBin puts a record in the bin, from where [Restore] brings it back.
func MoveToBin[T any, R Record[T]](t *Tx, id ID) error {
	return Change[T, R](t, id, func(r R) { r.head().Binned = t.j.Now() })
}

// Restore takes a record out of the bin.
func Restore[T any, R Record[T]](t *Tx, id ID) error {
	return Change[T, R](t, id, func(r R) { r.head().Binned = time.Time{} })
}

// Remove takes a record away for good; undo still brings it back.
func (t *Tx) Remove(ref Ref) error { return t.set(ref, nil) }

// set writes or, with nil, removes an envelope, and keeps what was there.
func (t *Tx) set(ref Ref, value []byte) error {
	b := t.tx.Bucket([]byte(ref.Kind))
	if b == nil {
		return fmt.Errorf("writing %s %s: no such kind of record", ref.Kind, ref.ID)
	}
	old := b.Get([]byte(ref.ID))
	if old == nil && value == nil {
		return nil
	}
	if _, seen := t.before[ref]; !seen {
		t.before[ref] = slices.Clone(old)
		t.order = append(t.order, ref)
	}
	if err := reindexLinks(t.tx, ref, old, value); err != nil {
		return err
	}
	var err error
	if value == nil {
		err = b.Delete([]byte(ref.ID))
	} else {
		err = b.Put([]byte(ref.ID), value)
	}
	if err != nil {
		return fmt.Errorf("writing %s %s: %w", ref.Kind, ref.ID, err)
	}
	return nil
}

// edits lists what the change did, leaving out what ended as it began.
func (t *Tx) edits() []recordEdit {
	var out []recordEdit
	for _, ref := range t.order {
		after := slices.Clone(t.tx.Bucket([]byte(ref.Kind)).Get([]byte(ref.ID)))
		if before := t.before[ref]; !bytes.Equal(before, after) {
			out = append(out, recordEdit{Ref: ref, Before: before, After: after})
		}
	}
	return out
}
