package store

import (
	"encoding/binary"
	"fmt"
	"io"
)

// WriteTo writes a copy of the whole file as the transaction sees it, while others go
// on reading and, unless the file must grow for it, writing. The copy is a file that
// can be opened.
func (t *Tx) WriteTo(w io.Writer) (int64, error) {
	n, err := t.tx.WriteTo(w)
	if err != nil {
		return n, fmt.Errorf("copying the records: %w", err)
	}
	return n, nil
}

// EachEntry calls fn with every step of the history, those too that were taken back,
// until fn fails. Of one that cannot be read it tells the damage.
func (t *Tx) EachEntry(fn func(e *Entry, damage error) error) error {
	return t.tx.Bucket(bucketHistory).ForEach(func(k, _ []byte) error {
		if len(k) != 8 {
			return fn(nil, ErrDamaged)
		}
		e, err := t.entry(binary.BigEndian.Uint64(k))
		return fn(e, err)
	})
}
