package journal

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"time"

	bolt "go.etcd.io/bbolt"
)

// The index of links tells which records belong to a record: the feedings of a
// culture, the photos of a bake, the bakes of a trial. A key is
//
//	owner | 0 | kind | 0 | time | id
//
// with the time as eight big-endian bytes that sort, so that what belongs to
// an owner is read in the order in which it happened.

// linker is satisfied by a record that belongs to others.
type linker interface {
	// links gives the owners and the time under which it is listed.
	links() (owners []ID, at time.Time)
}

func (f *Feeding) links() ([]ID, time.Time) { return []ID{f.Culture}, f.At }
func (r *Reading) links() ([]ID, time.Time) { return []ID{r.Culture}, r.At }
func (m *Move) links() ([]ID, time.Time)    { return []ID{m.Culture}, m.At }
func (l *TempLog) links() ([]ID, time.Time) { return []ID{l.Culture}, l.From }
func (p *Photo) links() ([]ID, time.Time)   { return []ID{p.Owner.ID}, p.When() }
func (c *Culture) links() ([]ID, time.Time) { return []ID{c.Parent}, c.Born }
func (f *Formula) links() ([]ID, time.Time) { return []ID{f.Family}, time.Unix(int64(f.Number), 0) }
func (b *Bake) links() ([]ID, time.Time) {
	return []ID{b.Culture, b.Formula, b.Trial, b.From}, b.At
}
func (t *Tasting) links() ([]ID, time.Time) {
	return append([]ID{t.Trial}, t.Bakes...), t.At
}

// Linked reads the records of one kind that belong to owner, in the order in
// which they happened, the bin left out.
func Linked[T any, R Record[T]](r Reader, owner ID) ([]R, error) {
	kind := R(new(T)).kind()
	var ids []ID
	err := r.view(func(tx *bolt.Tx) error {
		prefix := linkPrefix(owner, kind)
		c := tx.Bucket(bucketLinks).Cursor()
		for k, _ := c.Seek(prefix); bytes.HasPrefix(k, prefix); k, _ = c.Next() {
			ids = append(ids, ID(k[len(prefix)+8:]))
		}
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("listing every %s of %s: %w", kind, owner, err)
	}
	return readAll(r, ids, func(rec R) bool { return !rec.head().InBin() })
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

func linkKeys(ref Ref, value []byte) ([][]byte, error) {
	if value == nil {
		return nil, nil
	}
	rec, err := decodeAny(ref, value)
	if err != nil {
		return nil, err
	}
	l, ok := rec.(linker)
	if !ok {
		return nil, nil
	}
	owners, at := l.links()
	var keys [][]byte
	for _, o := range owners {
		if o != "" {
			keys = append(keys, append(append(linkPrefix(o, ref.Kind), sortable(at)...), ref.ID...))
		}
	}
	return keys, nil
}

// reindexLinks brings the index of links from an old to a new value.
func reindexLinks(tx *bolt.Tx, ref Ref, old, value []byte) error {
	gone, err := linkKeys(ref, old)
	if err != nil {
		return err
	}
	come, err := linkKeys(ref, value)
	if err != nil {
		return err
	}
	b := tx.Bucket(bucketLinks)
	for _, k := range gone {
		if err := b.Delete(k); err != nil {
			return fmt.Errorf("indexing %s %s: %w", ref.Kind, ref.ID, err)
		}
	}
	for _, k := range come {
		if err := b.Put(k, nil); err != nil {
			return fmt.Errorf("indexing %s %s: %w", ref.Kind, ref.ID, err)
		}
	}
	return nil
}

// decodeAny decodes a record of any kind into its pointer type.
func decodeAny(ref Ref, value []byte) (any, error) {
	switch ref.Kind {
	case KindCulture:
		return decode[Culture](ref.ID, value)
	case KindFeeding:
		return decode[Feeding](ref.ID, value)
	case KindReading:
		return decode[Reading](ref.ID, value)
	case KindMove:
		return decode[Move](ref.ID, value)
	case KindTempLog:
		return decode[TempLog](ref.ID, value)
	case KindFlour:
		return decode[Flour](ref.ID, value)
	case KindFormula:
		return decode[Formula](ref.ID, value)
	case KindBake:
		return decode[Bake](ref.ID, value)
	case KindTrial:
		return decode[Trial](ref.ID, value)
	case KindTasting:
		return decode[Tasting](ref.ID, value)
	case KindPhoto:
		return decode[Photo](ref.ID, value)
	case KindView:
		return decode[View](ref.ID, value)
	case KindSettings:
		return decode[Settings](ref.ID, value)
	}
	return nil, fmt.Errorf("reading %s %s: no such kind of record", ref.Kind, ref.ID)
}
