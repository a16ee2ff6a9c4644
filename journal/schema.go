package journal

import (
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	bolt "go.etcd.io/bbolt"

	"twinloaf/journal/say"
)

// lockTimeout is how long opening waits for another program to let go of the
// journal: just long enough for one that is closing.
const lockTimeout = 300 * time.Millisecond

// The buckets beside those of the kinds.
var (
	bucketMeta    = []byte("meta")
	bucketHistory = []byte("history")
	bucketLinks   = []byte("index links")
	bucketCards   = []byte("index cards")
	bucketVault   = []byte("vault")
	bucketDerived = []byte("derived")

	keyIs     = []byte("is")
	keySchema = []byte("schema")
)

// isJournal is what the meta bucket of every journal says it is.
const isJournal = "Twinloaf journal"

// schemaVersion is the layout that this program writes.
const schemaVersion = 1

// A step brings a journal from the schema before it to its own.
type step struct {
	to  uint64
	run func(tx *bolt.Tx) error
}

// steps lists every migration, oldest first.
var steps []step

// Errors of opening a journal.
var (
	ErrInUse      = say.Wrong("the journal is open in another window or program")
	ErrNotJournal = say.Wrong("the file is not a Twinloaf journal")
)

// create makes an empty journal at path. bbolt is open to damage while it sets
// up a fresh file, so that is done aside, and the finished file is moved into place.
func create(path string) (err error) {
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
	if err := db.Update(layOut); err != nil {
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
func layOut(tx *bolt.Tx) error {
	for _, name := range bucketNames() {
		if _, err := tx.CreateBucketIfNotExists(name); err != nil {
			return err
		}
	}
	meta := tx.Bucket(bucketMeta)
	if err := meta.Put(keyIs, []byte(isJournal)); err != nil {
		return err
	}
	return meta.Put(keySchema, binary.BigEndian.AppendUint64(nil, schemaVersion))
}

func bucketNames() [][]byte {
	names := [][]byte{bucketMeta, bucketHistory, bucketLinks, bucketCards, bucketVault, bucketDerived}
	for _, k := range Kinds() {
		names = append(names, []byte(k))
	}
	return names
}

// schemaOf reads what a file says it is.
func schemaOf(tx *bolt.Tx) (uint64, error) {
	meta := tx.Bucket(bucketMeta)
	if meta == nil || string(meta.Get(keyIs)) != isJournal {
		return 0, ErrNotJournal
	}
	v := meta.Get(keySchema)
	if len(v) != 8 {
		return 0, ErrDamaged
	}
	return binary.BigEndian.Uint64(v), nil
}

// migrate brings the journal to the newest schema that steps lead to, after a
// backup, in one transaction.
func migrate(db *bolt.DB, path string, steps []step) error {
	var from uint64
	err := db.View(func(tx *bolt.Tx) (err error) {
		from, err = schemaOf(tx)
		return err
	})
	if err != nil {
		return fmt.Errorf("opening the journal %s: %w", path, err)
	}
	newest := uint64(schemaVersion)
	if n := len(steps); n > 0 {
		newest = steps[n-1].to
	}
	if from > newest {
		return fmt.Errorf("opening the journal %s: %w", path, ErrNewer)
	}
	if from == newest {
		return nil
	}
	if err := backUp(db, path, fmt.Sprintf("before-schema-%d", newest)); err != nil {
		return fmt.Errorf("backing up the journal before bringing it up to date: %w", err)
	}
	return db.Update(func(tx *bolt.Tx) error {
		for _, s := range steps {
			if s.to <= from {
				continue
			}
			if err := s.run(tx); err != nil {
				return fmt.Errorf("bringing the journal to schema %d: %w", s.to, err)
			}
			if err := tx.Bucket(bucketMeta).Put(keySchema, binary.BigEndian.AppendUint64(nil, s.to)); err != nil {
				return err
			}
		}
		return nil
	})
}

// backUp writes a consistent copy of the records beside them.
func backUp(db *bolt.DB, path, name string) error {
	dir := filepath.Join(filepath.Dir(path), "backups")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	tmp, err := os.CreateTemp(dir, ".copy-*.db")
	if err != nil {
		return err
	}
	err = db.View(func(tx *bolt.Tx) error {
		_, err := tx.WriteTo(tmp)
		return err
	})
	err = errors.Join(err, tmp.Sync(), tmp.Close())
	if err == nil {
		err = os.Rename(tmp.Name(), filepath.Join(dir, name+".db"))
	}
	if err != nil {
		return errors.Join(err, os.Remove(tmp.Name()))
	}
	return syncDir(dir)
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
