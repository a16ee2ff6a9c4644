package journal

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"strings"

	bolt "go.etcd.io/bbolt"
	berrors "go.etcd.io/bbolt/errors"
)

// Inspect looks at a file of records without altering it, and tells why it
// should not be opened: it is no journal, is in use, is newer, or is damaged.
// A damaged file can end the process that looks at it; see [InspectIn].
func Inspect(ctx context.Context, path string) (err error) {
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
		schema, err := schemaOf(tx)
		if err != nil {
			return fmt.Errorf("opening the journal %s: %w", path, err)
		}
		if schema > schemaVersion {
			return fmt.Errorf("opening the journal %s: %w", path, ErrNewer)
		}
		for err := range tx.Check() {
			return damaged(path, err.Error())
		}
		for _, kind := range Kinds() {
			if err := inspectKind(ctx, tx, kind); err != nil {
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
		if _, err := unwrap(string(kind), string(k), v); err != nil {
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

// What a child that inspects prints first, so that its parent can tell what it
// found from how it ended.
const (
	saysSound      = "sound"
	saysInUse      = "in use"
	saysNotJournal = "not a journal"
	saysNewer      = "newer"
	saysDamaged    = "damaged"
)

// InspectAndSay inspects path and writes the finding to w, for [InspectIn].
func InspectAndSay(ctx context.Context, path string, w io.Writer) error {
	err := Inspect(ctx, path)
	says := saysDamaged
	switch {
	case err == nil:
		_, werr := fmt.Fprintln(w, saysSound)
		return werr
	case errors.Is(err, ErrInUse):
		says = saysInUse
	case errors.Is(err, ErrNotJournal):
		says = saysNotJournal
	case errors.Is(err, ErrNewer):
		says = saysNewer
	}
	_, werr := fmt.Fprintf(w, "%s\n%s\n", says, err)
	return werr
}

// InspectIn has a child process, the program exe with the arguments args and
// the path behind them, call [InspectAndSay]: what takes that process down
// leaves this one standing.
func InspectIn(exe string, args ...string) func(ctx context.Context, path string) error {
	return func(ctx context.Context, path string) error {
		if err := looksLikeStore(path); err != nil {
			return err
		}
		out, err := exec.CommandContext(ctx, exe, append(args, path)...).Output()
		if ctx.Err() != nil {
			return fmt.Errorf("looking at the journal %s: %w", path, ctx.Err())
		}
		finding, why, _ := strings.Cut(string(out), "\n")
		why = strings.TrimSpace(why)
		switch finding {
		case saysSound:
			return nil
		case saysInUse:
			return fmt.Errorf("opening the journal %s: %w", path, ErrInUse)
		case saysNotJournal:
			return fmt.Errorf("opening the journal %s: %w", path, ErrNotJournal)
		case saysNewer:
			return fmt.Errorf("opening the journal %s: %w", path, ErrNewer)
		case saysDamaged:
			why = strings.TrimPrefix(why, "opening the journal "+path+": ")
			return damaged(path, strings.TrimSuffix(why, ": "+ErrDamaged.Error()))
		}
		if _, ok := errors.AsType[*exec.ExitError](err); ok || err == nil {
			return damaged(path, "looking at it ended the program that looked")
		}
		return fmt.Errorf("looking at the journal %s: %w", filepath.Base(path), err)
	}
}
