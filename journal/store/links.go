package store

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"time"
)

// The index of links tells which records belong to a record: the feedings of a
// culture, the photos of a bake, the bakes of a trial. A key is
//
//	owner | 0 | kind | 0 | time | id
//
// with the time as eight big-endian bytes that sort, so that what belongs to
// an owner is read in the order in which it happened. The value is the checksum of
// the key.

// Linked lists the records of one kind that belong to owner, in the order in which
// they happened.
func (t *Tx) Linked(owner ID, kind Kind) []ID {
	var ids []ID
	prefix := linkPrefix(owner, kind)
	c := t.tx.Bucket(bucketLinks).Cursor()
	for k, _ := c.Seek(prefix); bytes.HasPrefix(k, prefix); k, _ = c.Next() {
		ids = append(ids, ID(k[len(prefix)+8:]))
	}
	return ids
}

func linkSum(key []byte) []byte {
	return binary.BigEndian.AppendUint32(nil, checksum(BucketLinks, string(key), nil))
}

func linkPrefix(owner ID, kind Kind) []byte {
	return append(append(append([]byte(owner), 0), string(kind)...), 0)
}

// sortable turns a time into eight bytes that sort as it does, from the year
// 1 on: seconds since then, and what bbolt's key order needs no more of than that
// is left to the ID that follows.
func sortable(at time.Time) []byte {
	return binary.BigEndian.AppendUint64(nil, uint64(at.Unix()-time.Time{}.Unix()))
}

func (s Spec) linkKeys(id ID, envelope []byte) ([][]byte, error) {
	if envelope == nil || s.Links == nil {
		return nil, nil
	}
	owners, at, err := s.Links(id, envelope)
	var keys [][]byte
	for _, o := range owners {
		if o != "" {
			keys = append(keys, append(append(linkPrefix(o, s.Kind), sortable(at)...), id...))
		}
	}
	return keys, err
}

// relink brings the index of links from an old to a new envelope.
func (t *Tx) relink(spec Spec, id ID, old, envelope []byte) error {
	// A record that cannot be read, or not by this program, keeps the links that it
	// has, and stops nobody from writing another.
	gone, err := spec.linkKeys(id, old)
	if err != nil {
		gone = nil
	}
	come, err := spec.linkKeys(id, envelope)
	if err != nil {
		come = nil
	}
	b := t.tx.Bucket(bucketLinks)
	for _, k := range gone {
		if err := b.Delete(k); err != nil {
			return fmt.Errorf("indexing %s %s: %w", spec.Kind, id, err)
		}
	}
	for _, k := range come {
		if err := b.Put(k, linkSum(k)); err != nil {
			return fmt.Errorf("indexing %s %s: %w", spec.Kind, id, err)
		}
	}
	return nil
}

// The names of the store's own buckets, for [Tx.Contents] and [Found].
const (
	BucketLinks   = "index links"
	BucketHistory = "history"
)

// RebuildLinks makes the index of links anew from the records, and counts them. A
// record that cannot be read, or not by this program, is told to unreadable, and keeps
// the links that it has.
func (t *Tx) RebuildLinks(ctx context.Context, unreadable func(Ref, error)) (records int, err error) {
	var keys [][]byte
	closed := map[Ref]bool{}
	for _, spec := range t.layout.Kinds {
		err := t.Each(spec.Kind, func(id ID, envelope []byte) error {
			records++
			_, err := Unwrap(string(spec.Kind), string(id), envelope)
			var own [][]byte
			if err == nil {
				own, err = spec.linkKeys(id, envelope)
			}
			if keys = append(keys, own...); err != nil {
				closed[Ref{spec.Kind, id}] = true
				unreadable(Ref{spec.Kind, id}, fmt.Errorf("reading %s %s: %w", spec.Kind, id, err))
			}
			return ctx.Err()
		})
		if err != nil {
			return records, err
		}
	}
	if len(closed) > 0 {
		err := t.tx.Bucket(bucketLinks).ForEach(func(k, v []byte) error {
			if ref, _, ok := linkOf(k); ok && closed[ref] && (len(v) == 0 || bytes.Equal(v, linkSum(k))) {
				keys = append(keys, bytes.Clone(k))
			}
			return ctx.Err()
		})
		if err != nil {
			return records, err
		}
	}
	if err := t.Clear(BucketLinks); err != nil {
		return records, err
	}
	b := t.tx.Bucket(bucketLinks)
	for _, k := range keys {
		if err := b.Put(k, linkSum(k)); err != nil {
			return records, fmt.Errorf("indexing the records: %w", err)
		}
	}
	return records, nil
}

// linkOf reads a key of the index: the record, and one that it belongs to.
func linkOf(key []byte) (ref Ref, owner ID, ok bool) {
	first, rest, ok := bytes.Cut(key, []byte{0})
	kind, rest, too := bytes.Cut(rest, []byte{0})
	if !ok || !too || len(rest) <= 8 {
		return Ref{}, "", false
	}
	return Ref{Kind(kind), ID(rest[8:])}, ID(first), true
}
