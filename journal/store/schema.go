package store

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	bolt "go.etcd.io/bbolt"

	"twinloaf/journal/say"
)

var (
	keyIs     = []byte("is")
	keySchema = []byte("schema")
	keySum    = []byte("sum") // see metaSum
)

// Errors of opening a journal.
var (
	ErrInUse      = say.NewError("the journal is open in another window or program")
	ErrNotJournal = say.NewError("the file is not a Twinloaf journal")
)

// Create makes an empty file of records at path, where there is none. bbolt is open to damage while it sets
// up a fresh file, so that is done aside, and the finished file is moved into place.
func Create(path string, layout Layout) (err error) {
	tmp, err := os.CreateTemp(filepath.Dir(path), ".begin-*.db")
	if err != nil {
		return err
	}
	name := tmp.Name()
	defer func() {
		if err != nil {
			_ = os.Remove(name)
		}
	}()
	if err := tmp.Close(); err != nil {
		return err
	}
	db, err := bolt.Open(name, 0o644, &bolt.Options{Timeout: lockTimeout})
	if err != nil {
		return err
	}
	if err := db.Update(layout.layOut); err != nil {
		return errors.Join(err, db.Close())
	}
	if err := db.Close(); err != nil {
		return err
	}
	// A link, unlike a rename, never replaces a journal that another program
	// has made in the meantime.
	if err := os.Link(name, path); err != nil {
		if errors.Is(err, os.ErrExist) {
			return ErrInUse
		}
		if err := os.Rename(name, path); err != nil { // a file system without links
			return err
		}
	} else if err := os.Remove(name); err != nil {
		return err
	}
	return syncDir(filepath.Dir(path))
}

// layOut makes every bucket and says what the file is.
func (l Layout) layOut(tx *bolt.Tx) error {
	for _, name := range l.buckets() {
		if _, err := tx.CreateBucketIfNotExists(name); err != nil {
			return err
		}
	}
	meta := tx.Bucket(bucketMeta)
	if err := meta.Put(keyIs, []byte(l.Is)); err != nil {
		return err
	}
	if err := meta.Put(keySchema, binary.BigEndian.AppendUint64(nil, l.Schema)); err != nil {
		return err
	}
	return sumMeta(meta)
}

// metaSum is the checksum of what a file says of itself. Files of the first
// programs have none.
func metaSum(is, schema, cursor []byte) []byte {
	return binary.BigEndian.AppendUint32(nil, checksum(string(is), string(schema), cursor))
}

// sumMeta keeps the checksum of what the meta bucket says now.
func sumMeta(meta *bolt.Bucket) error {
	return meta.Put(keySum, metaSum(meta.Get(keyIs), meta.Get(keySchema), meta.Get(keyCursor)))
}

// complete makes the buckets and checksums that an earlier program did not have.
func (l Layout) complete(db *bolt.DB) error {
	whole := true
	err := db.View(func(tx *bolt.Tx) error {
		for _, name := range l.buckets() {
			whole = whole && tx.Bucket(name) != nil
		}
		whole = whole && tx.Bucket(bucketMeta).Get(keySum) != nil
		return nil
	})
	if err != nil || whole {
		return err
	}
	return db.Update(func(tx *bolt.Tx) error {
		for _, name := range l.buckets() {
			if _, err := tx.CreateBucketIfNotExists(name); err != nil {
				return err
			}
		}
		t := (&Store{layout: l}).begin(tx)
		if _, err := t.RebuildLinks(context.Background(), func(Ref, error) {}); err != nil {
			return err
		}
		return sumMeta(tx.Bucket(bucketMeta))
	})
}

// schemaOf reads what a file says it is.
func (l Layout) schemaOf(tx *bolt.Tx) (uint64, error) {
	meta := tx.Bucket(bucketMeta)
	if meta == nil || string(meta.Get(keyIs)) != l.Is {
		return 0, ErrNotJournal
	}
	v := meta.Get(keySchema)
	if len(v) != 8 {
		return 0, ErrDamaged
	}
	return binary.BigEndian.Uint64(v), nil
}

// migrate brings the file to the schema of the layout, once backUp has
// made a backup, in one transaction.
func (l Layout) migrate(db *bolt.DB, path string, backUp func(t *Tx) error) error {
	var from uint64
	err := db.View(func(tx *bolt.Tx) (err error) {
		from, err = l.schemaOf(tx)
		return err
	})
	if err != nil {
		return fmt.Errorf("opening the journal %s: %w", path, err)
	}
	if from > l.Schema {
		return fmt.Errorf("opening the journal %s: %w", path, ErrNewer)
	}
	if from == l.Schema {
		return nil
	}
	if backUp != nil {
		if err := db.View(func(tx *bolt.Tx) error { return backUp((&Store{layout: l}).begin(tx)) }); err != nil {
			return fmt.Errorf("backing up the journal before bringing it up to date: %w", err)
		}
	}
	return db.Update(func(tx *bolt.Tx) error {
		for _, s := range l.Steps {
			if s.To <= from {
				continue
			}
			if err := s.Run(tx); err != nil {
				return fmt.Errorf("bringing the journal to schema %d: %w", s.To, err)
			}
			if err := tx.Bucket(bucketMeta).Put(keySchema, binary.BigEndian.AppendUint64(nil, s.To)); err != nil {
				return err
			}
		}
		return sumMeta(tx.Bucket(bucketMeta))
	})
}

// syncDir makes a rename within dir last through a power failure.
func syncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	// Not every file system can sync a folder; those that cannot say so, and
	// nothing better can be done there.
	_ = d.Sync()
	return d.Close()
}
