package journal

import (
	"errors"
	"fmt"
	"time"

	"twinloaf/journal/store"
)

// A Reader is what records are read from: a [Journal] at any time, or a [Tx]
// within a change.
type Reader interface {
	// values hands fn the envelope of each of these records that there is, all as they are
	// at one moment, until fn fails. fn reads nothing else, and keeps nothing of an envelope.
	values(kind Kind, ids []ID, fn func(id ID, envelope []byte) error) error
	// view runs fn on what is committed, or being changed.
	view(fn func(st *store.Tx) error) error
}

// Get reads one record. The record is the caller's own copy.
func Get[T any, R Record[T]](r Reader, id ID) (R, error) {
	kind := R(new(T)).kind()
	var rec R
	err := one(r, Ref{Kind: kind, ID: id}, func(envelope []byte) (err error) {
		rec, err = decode[T, R](id, envelope)
		return err
	})
	return rec, err
}

// one hands read the envelope of one record, and gives its error as it is.
func one(r Reader, ref Ref, read func(envelope []byte) error) error {
	found, failed := false, error(nil)
	err := r.values(ref.Kind, []ID{ref.ID}, func(_ ID, envelope []byte) error {
		found, failed = true, read(envelope)
		return nil
	})
	if err == nil && !found {
		err = ErrNotFound
	}
	if err != nil {
		return fmt.Errorf("reading %s %s: %w", ref.Kind, ref.ID, err)
	}
	return failed
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
	err := r.view(func(st *store.Tx) (err error) {
		ids, err = st.IDs(kind)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("listing every %s: %w", kind, err)
	}
	return readAll(r, ids, keep)
}

// Linked reads the records of one kind that belong to owner, in the order in
// which they happened, the bin left out.
func Linked[T any, R Record[T]](r Reader, owner ID) ([]R, error) {
	kind := R(new(T)).kind()
	var ids []ID
	err := r.view(func(st *store.Tx) error {
		ids = st.Linked(owner, kind)
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("listing every %s of %s: %w", kind, owner, err)
	}
	return readAll(r, ids, func(rec R) bool { return !rec.head().InBin() })
}

// readAll reads the records with these IDs that keep lets through. One that
// has gone in the meantime is left out, and so is one that cannot be read, or only by
// a newer program: [Get] and [Journal.Check] tell of it.
func readAll[T any, R Record[T]](r Reader, ids []ID, keep func(R) bool) ([]R, error) {
	out := make([]R, 0, len(ids))
	err := r.values(R(new(T)).kind(), ids, func(id ID, envelope []byte) error {
		rec, err := decode[T, R](id, envelope)
		if errors.Is(err, ErrDamaged) || errors.Is(err, ErrNewer) {
			return nil
		}
		if err == nil && keep(rec) {
			out = append(out, rec)
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

// A Tx is one change while it is made. It is valid only within the function
// that [Journal.Do] calls.
type Tx struct {
	st      *store.Tx
	j       *Journal
	secret  bool        // something was written past the records: see sealed.go
	reindex map[ID]bool // bakes whose summary changes with something beside the records
	derived []Ref       // records of which something else was worked out
}

func (t *Tx) values(kind Kind, ids []ID, fn func(id ID, envelope []byte) error) error {
	return eachOf(t.st, kind, ids, nil, fn)
}

// eachOf hands fn the envelope of each record that there is; what is typed stands before
// what is stored.
func eachOf(st *store.Tx, kind Kind, ids []ID, typed map[Ref][]byte, fn func(id ID, envelope []byte) error) error {
	for _, id := range ids {
		ref := Ref{Kind: kind, ID: id}
		v, ok := typed[ref]
		if !ok {
			v = st.Get(ref)
		}
		if v == nil {
			continue
		}
		if err := fn(id, v); err != nil {
			return err
		}
	}
	return nil
}

func (t *Tx) view(fn func(st *store.Tx) error) error { return fn(t.st) }

// Put writes a record. One without an ID is given one. A record with a figure that
// cannot be, and that was not in it before, is refused with a [say.Error].
func Put[T any, R Record[T]](t *Tx, rec R) error {
	h := rec.head()
	if h.ID == "" {
		id, err := t.j.NewID()
		if err != nil {
			return fmt.Errorf("naming a new %s: %w", rec.kind(), err)
		}
		h.ID = id
	}
	if faults := mend(rec); len(faults) > 0 {
		var before []fault
		if old, err := Get[T, R](t, h.ID); err == nil {
			before = mend(old)
		}
		if err := refuseNew(faults, before); err != nil {
			return err
		}
	}
	v, err := encode[T, R](rec)
	if err != nil {
		return fmt.Errorf("writing %s %s: %w", rec.kind(), h.ID, err)
	}
	return t.st.Set(RefOf[T, R](rec), v)
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
func (t *Tx) Remove(ref Ref) error { return t.st.Set(ref, nil) }
