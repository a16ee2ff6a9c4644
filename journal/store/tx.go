package store

import (
	"bytes"
	"fmt"
	"slices"

	bolt "go.etcd.io/bbolt"
)

// A Tx is one transaction, within [Store.View] or [Store.Update]. It is valid
// only within the function that it was given to.
type Tx struct {
	tx     *bolt.Tx
	layout Layout
	before map[Ref][]byte // envelopes as they were; nil for one that was not there
	order  []Ref
}

func (s *Store) begin(tx *bolt.Tx) *Tx {
	return &Tx{tx: tx, layout: s.layout, before: map[Ref][]byte{}}
}

// Get gives the envelope of a record, nil if there is none. It is valid until the
// transaction ends or writes.
func (t *Tx) Get(ref Ref) []byte {
	b := t.tx.Bucket([]byte(ref.Kind))
	if b == nil {
		return nil
	}
	return b.Get([]byte(ref.ID))
}

// Each calls fn with every record of a kind, oldest ID first, until fn fails. fn
// must write nothing.
func (t *Tx) Each(kind Kind, fn func(id ID, envelope []byte) error) error {
	b := t.tx.Bucket([]byte(kind))
	if b == nil {
		return fmt.Errorf("reading every %s: no such kind of record", kind)
	}
	return b.ForEach(func(k, v []byte) error { return fn(ID(k), v) })
}

// IDs lists the records of a kind, oldest ID first.
func (t *Tx) IDs(kind Kind) ([]ID, error) {
	var ids []ID
	err := t.Each(kind, func(id ID, _ []byte) error {
		ids = append(ids, id)
		return nil
	})
	return ids, err
}

// Set writes or, with nil, removes an envelope, and keeps what was there for
// [Tx.Edits].
func (t *Tx) Set(ref Ref, envelope []byte) error {
	spec, known := t.layout.spec(ref.Kind)
	if !known {
		return fmt.Errorf("writing %s %s: no such kind of record", ref.Kind, ref.ID)
	}
	b := t.tx.Bucket([]byte(ref.Kind))
	old := b.Get([]byte(ref.ID))
	if old == nil && envelope == nil {
		return nil
	}
	if _, seen := t.before[ref]; !seen {
		t.before[ref] = slices.Clone(old)
		t.order = append(t.order, ref)
	}
	if err := t.relink(spec, ref.ID, old, envelope); err != nil {
		return err
	}
	var err error
	if envelope == nil {
		err = b.Delete([]byte(ref.ID))
	} else {
		err = b.Put([]byte(ref.ID), envelope)
	}
	if err != nil {
		return fmt.Errorf("writing %s %s: %w", ref.Kind, ref.ID, err)
	}
	return nil
}

// An Edit is what a transaction did to one record: its envelope before and after,
// nil where there was or is none.
type Edit struct {
	Ref    Ref    `json:"ref"`
	Before []byte `json:"before,omitempty"`
	After  []byte `json:"after,omitempty"`
}

// Edits lists what the transaction did so far, leaving out what is as it was.
func (t *Tx) Edits() []Edit {
	var out []Edit
	for _, ref := range t.order {
		after := slices.Clone(t.Get(ref))
		if before := t.before[ref]; !bytes.Equal(before, after) {
			out = append(out, Edit{Ref: ref, Before: before, After: after})
		}
	}
	return out
}

// Meta gives what was noted of the whole file under a key, nil for nothing.
func (t *Tx) Meta(key string) []byte { return t.tx.Bucket(bucketMeta).Get([]byte(key)) }

// SetMeta notes something of the whole file.
func (t *Tx) SetMeta(key string, value []byte) error {
	return t.tx.Bucket(bucketMeta).Put([]byte(key), value)
}

// Contents are the keys and values of some buckets, in memory: each key is the
// name of its bucket, a zero byte and the key in it.
type Contents map[string][]byte

// Contents reads whole buckets; without a name, all of them.
func (t *Tx) Contents(names ...string) (Contents, error) {
	if len(names) == 0 {
		err := t.tx.ForEach(func(name []byte, _ *bolt.Bucket) error {
			names = append(names, string(name))
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	out := Contents{}
	for _, name := range names {
		b := t.tx.Bucket([]byte(name))
		if b == nil {
			continue
		}
		err := b.ForEach(func(k, v []byte) error {
			out[name+"\x00"+string(k)] = bytes.Clone(v)
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// Differences counts the keys at which two contents differ.
func (c Contents) Differences(other Contents) int {
	n := 0
	for k, v := range c {
		if w, ok := other[k]; !ok || !bytes.Equal(v, w) {
			n++
		}
	}
	for k := range other {
		if _, ok := c[k]; !ok {
			n++
		}
	}
	return n
}
