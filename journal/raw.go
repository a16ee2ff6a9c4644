package journal

import (
	"bytes"
	"fmt"

	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/store"
)

// A Raw is a record of any kind as it is stored: with what this program does not
// know of it, for whoever carries records from one journal to another.
type Raw struct {
	Ref
	Body jsontext.Value
}

// EachRaw calls fn with every record of a kind, oldest ID first, those in the bin
// among them, until fn fails. One that cannot be read comes without a body and with
// an error that wraps [ErrDamaged] or [ErrNewer]. What is being typed and is not yet
// committed does not show: see [Journal.Flush]. fn must change nothing.
func EachRaw(r Reader, kind Kind, fn func(raw Raw, damage error) error) error {
	return r.view(func(st *store.Tx) error {
		return st.Each(kind, func(id ID, envelope []byte) error {
			raw, err := rawOf(Ref{Kind: kind, ID: id}, envelope)
			return fn(raw, err)
		})
	})
}

// GetRaw reads one record as it is stored.
func GetRaw(r Reader, ref Ref) (Raw, error) {
	raw := Raw{Ref: ref}
	err := one(r, ref, func(envelope []byte) (err error) {
		raw, err = rawOf(ref, envelope)
		return err
	})
	return raw, err
}

func rawOf(ref Ref, envelope []byte) (Raw, error) {
	raw := Raw{Ref: ref}
	body, err := store.Unwrap(string(ref.Kind), string(ref.ID), envelope)
	if err != nil {
		return raw, fmt.Errorf("reading %s %s: %w", ref.Kind, ref.ID, err)
	}
	raw.Body = bytes.Clone(body)
	return raw, nil
}

// CheckRaw tells why a record may not be put into a journal; nil when it may. The
// error wraps [ErrNewer] when a newer program wrote it.
func CheckRaw(raw Raw) error {
	r, ok := registered(raw.Kind)
	if !ok {
		return fmt.Errorf("reading %s %s: no such kind of record", raw.Kind, raw.ID)
	}
	if !raw.ID.Valid() {
		return fmt.Errorf("reading a %s: %q names no record", raw.Kind, raw.ID)
	}
	return r.check(raw.ID, raw.Body)
}

// CheckFigures tells in a sentence which figure of a record cannot be; nil for none. One
// that was, the journal's own version, has already is let be; was may be without a body.
func CheckFigures(raw, was Raw) error {
	r, ok := registered(raw.Kind)
	if !ok {
		return nil
	}
	var before []fault
	if was.Body != nil {
		before = r.faults(was.ID, was.Body)
	}
	return refuseNew(r.faults(raw.ID, raw.Body), before)
}

// PutRaw writes a record as it is, in place of one of the same kind and ID, once
// [CheckRaw] and [CheckFigures] have nothing against it.
func PutRaw(t *Tx, raw Raw) error {
	if err := CheckRaw(raw); err != nil {
		return err
	}
	was, err := GetRaw(t, raw.Ref)
	if err != nil {
		was.Body = nil
	}
	if err := CheckFigures(raw, was); err != nil {
		return err
	}
	return t.st.Set(raw.Ref, store.Wrap(string(raw.Kind), string(raw.ID), raw.Body))
}
