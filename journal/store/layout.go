package store

import (
	"time"

	bolt "go.etcd.io/bbolt"
)

// A Layout says what a file is to hold. It stays the same while a program runs.
type Layout struct {
	// Is is what the file says it is.
	Is string
	// Schema is the version of the layout that this program writes, 1 or more.
	Schema uint64
	// Steps lists every migration, oldest first; the last leads to Schema.
	Steps []Step
	// Kinds are the kinds of record.
	Kinds []Spec
	// Sides name the buckets of envelopes beside the records: see [Side].
	Sides []string
	// Indexes are those of the Sides that can be made anew from the records, and
	// whose keys are the IDs of records of a kind.
	Indexes map[string]Kind
}

// A Spec is what the store is told of one kind of record.
type Spec struct {
	Kind Kind
	// Links reads from an envelope the owners of the record and the time under
	// which it is listed with them; nil for a kind that belongs to nobody. An
	// owner without an ID is left out. With an error, such as that a newer program
	// wrote it, those that it gives may not be all.
	Links func(id ID, envelope []byte) (owners []ID, at time.Time, err error)
}

// A Step brings a file from the schema before it to its own.
type Step struct {
	To  uint64
	Run func(tx *bolt.Tx) error
}

// The store's own buckets.
var (
	bucketMeta    = []byte("meta")
	bucketHistory = []byte("history")
	bucketLinks   = []byte("index links")
)

// buckets names every bucket of the layout.
func (l Layout) buckets() [][]byte {
	names := [][]byte{bucketMeta, bucketHistory, bucketLinks}
	for _, s := range l.Sides {
		names = append(names, []byte(s))
	}
	for _, k := range l.Kinds {
		names = append(names, []byte(k.Kind))
	}
	return names
}

func (l Layout) spec(kind Kind) (Spec, bool) {
	for _, s := range l.Kinds {
		if s.Kind == kind {
			return s, true
		}
	}
	return Spec{}, false
}
