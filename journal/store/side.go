package store

import (
	"bytes"
	"fmt"

	bolt "go.etcd.io/bbolt"
)

// A Side is a bucket of envelopes beside the records, such as a store's own
// indexes and what was worked out. What is written to it is no step of the history.
type Side struct {
	name string
	b    *bolt.Bucket
}

// Side gives a bucket that the layout names.
func (t *Tx) Side(name string) Side { return Side{name, t.tx.Bucket([]byte(name))} }

// Has reports whether there is anything under a key, readable or not.
func (s Side) Has(key string) bool { return s.b.Get([]byte(key)) != nil }

// Get gives what is kept under a key; nil and no error where there is nothing. It
// is valid until the transaction ends or writes.
func (s Side) Get(key string) ([]byte, error) {
	v := s.b.Get([]byte(key))
	if v == nil {
		return nil, nil
	}
	body, err := Unwrap(s.name, key, v)
	if err != nil {
		return nil, fmt.Errorf("reading %s %s: %w", s.name, key, err)
	}
	return body, nil
}

// Put keeps body under a key.
func (s Side) Put(key string, body []byte) error {
	return s.b.Put([]byte(key), Wrap(s.name, key, body))
}

// Delete removes what is under a key, if anything.
func (s Side) Delete(key string) error { return s.b.Delete([]byte(key)) }

// Each calls fn with every value whose key begins with prefix, in the order of
// the keys, until fn fails. A value that cannot be read comes as an error that wraps
// [ErrDamaged] or [ErrNewer]. fn must write nothing.
func (s Side) Each(prefix string, fn func(key string, body []byte, damage error) error) error {
	c := s.b.Cursor()
	for k, v := c.Seek([]byte(prefix)); k != nil && bytes.HasPrefix(k, []byte(prefix)); k, v = c.Next() {
		body, damage := Unwrap(s.name, string(k), v)
		if err := fn(string(k), body, damage); err != nil {
			return err
		}
	}
	return nil
}

// Clear makes a side bucket empty.
func (t *Tx) Clear(name string) error {
	if err := t.tx.DeleteBucket([]byte(name)); err != nil {
		return err
	}
	_, err := t.tx.CreateBucket([]byte(name))
	return err
}
