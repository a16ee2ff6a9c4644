package store

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"

	bolt "go.etcd.io/bbolt"
	berrors "go.etcd.io/bbolt/errors"
)

// Inspect looks at a file of records without altering it, and tells why it
// should not be opened: it is no journal, is in use, is newer, or is damaged.
// A damaged file can end the process that looks at it; see [InspectIn].
func Inspect(ctx context.Context, path string, layout Layout) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = damaged(path, fmt.Sprint(p))
		}
	}()
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	if err := looksLikeStore(path); err != nil {
		return err
	}
	db, err := bolt.Open(path, 0o644, &bolt.Options{ReadOnly: true, Timeout: lockTimeout})
	if err != nil {
		return openError(path, err)
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	return db.View(func(tx *bolt.Tx) error {
		schema, err := layout.schemaOf(tx)
		if err != nil {
			return fmt.Errorf("opening the journal %s: %w", path, err)
		}
		if schema > layout.Schema {
			return fmt.Errorf("opening the journal %s: %w", path, ErrNewer)
		}
		for err := range tx.Check() {
			return damaged(path, err.Error())
		}
		for _, kind := range layout.Kinds {
			if err := inspectKind(ctx, tx, kind.Kind); err != nil {
				return damaged(path, err.Error())
			}
		}
		return nil
	})
}

// inspectKind reads the checksum of every record of a kind.
func inspectKind(ctx context.Context, tx *bolt.Tx, kind Kind) error {
	b := tx.Bucket([]byte(kind))
	if b == nil {
		return fmt.Errorf("the records of kind %s are gone", kind)
	}
	return b.ForEach(func(k, v []byte) error {
		if err := ctx.Err(); err != nil {
			return err
		}
		if _, err := Unwrap(string(kind), string(k), v); err != nil {
			return fmt.Errorf("%s %s: %w", kind, k, err)
		}
		return nil
	})
}

// looksLikeStore turns away, by its first bytes and size alone, what bbolt
// would make a new store of or trip over.
func looksLikeStore(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return fmt.Errorf("opening the journal: %w", err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return fmt.Errorf("opening the journal: %w", err)
	}
	if info.IsDir() {
		return fmt.Errorf("opening the journal %s: it is a folder: %w", path, ErrNotJournal)
	}
	if info.Size() == 0 {
		return damaged(path, "the file is empty")
	}
	// Both meta pages carry bbolt's magic number, 0xED0CDAED, behind a page
	// header of 16 bytes, in the byte order of the machine.
	head := make([]byte, 20)
	if _, err := io.ReadFull(f, head); err != nil {
		return fmt.Errorf("opening the journal %s: %w", path, ErrNotJournal)
	}
	magic := []byte{0xED, 0xDA, 0x0C, 0xED}
	if !bytes.Equal(head[16:20], magic) && !bytes.Equal(head[16:20], []byte{0xED, 0x0C, 0xDA, 0xED}) {
		// The first page may be the one that was lost.
		second := make([]byte, 4)
		if _, err := f.ReadAt(second, int64(os.Getpagesize())+16); err == nil && bytes.Equal(second, magic) {
			return damaged(path, "its first page is damaged")
		}
		return fmt.Errorf("opening the journal %s: %w", path, ErrNotJournal)
	}
	if info.Size() < 4*int64(os.Getpagesize()) {
		return damaged(path, "the file is cut short")
	}
	return nil
}

func damaged(path, why string) error {
	return fmt.Errorf("opening the journal %s: %s: %w", path, why, ErrDamaged)
}

// openError words an error of bbolt's for the baker.
func openError(path string, err error) error {
	switch {
	case errors.Is(err, berrors.ErrTimeout):
		return fmt.Errorf("opening the journal %s: %w", path, ErrInUse)
	case errors.Is(err, berrors.ErrInvalid), errors.Is(err, berrors.ErrChecksum), errors.Is(err, berrors.ErrVersionMismatch):
		return damaged(path, err.Error())
	}
	return fmt.Errorf("opening the journal %s: %w", path, err)
}
