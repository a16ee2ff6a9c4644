package store

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"
)

// A Mending says how a damaged file is made whole.
type Mending struct {
	// Aside is the folder into which the damaged file goes, whole.
	Aside string
	// At is when that is, for its name.
	At time.Time
	// Verify looks at the new file before it takes the place of the old one.
	Verify func(ctx context.Context, path string) error
	// Finish brings the new file up to what was found, within its first change.
	Finish func(t *Tx, m Mended) error
}

// Mended is what became of a damaged file.
type Mended struct {
	// Kept is where the damaged file lies now.
	Kept string
	// Found are the values that were not as they had been written, or not there.
	Found []Found
	// Gone are the buckets of which keys may be missing that nothing names.
	Gone []string
	// Steps counts the steps of the history that are missing.
	Steps int
	// LastChange says that the last change may be missing.
	LastChange bool
	// Indexes are what could be read of the indexes as they were, by the names of
	// their buckets, without their envelopes: they tell of records that are gone.
	Indexes map[string]map[string][]byte
}

// A State is what became of a value.
type State int

// The states of a value in a damaged file.
const (
	// Whole is a value of which the damage could be taken back, to the letter.
	Whole State = iota
	// Earlier is a value that is back as it was at an earlier time.
	Earlier
	// Lost is a value that could not be brought back.
	Lost
)

// A Found is one value that was damaged, or that an index names and is not there.
type Found struct {
	Bucket, Key string
	State       State
	// Body is what can be read of it, damaged where it is [Lost]; it may be nil.
	Body []byte
	// Owner is one of the records that it belongs to, where the index of links
	// tells and it does not itself.
	Owner ID
}

// Mend makes a damaged file whole: what can be read of it goes into a new file,
// which takes its place; the damaged one is kept. It reads the file without trusting
// it. An error, which wraps [ErrDamaged] when nothing can be read, [ErrNotJournal] or
// [ErrNewer], leaves the file as and where it is.
func Mend(ctx context.Context, path string, layout Layout, how Mending) (m Mended, err error) {
	f, err := os.Open(path)
	if err != nil {
		return m, fmt.Errorf("mending the journal: %w", err)
	}
	defer f.Close()
	if err := lockFile(f, true); err != nil {
		return m, fmt.Errorf("mending the journal %s: %w", path, err)
	}
	data, err := readThrough(ctx, f)
	if err != nil {
		return m, fmt.Errorf("mending the journal %s: %w", path, err)
	}
	s, err := layout.survey(ctx, data)
	if err != nil {
		return m, fmt.Errorf("mending the journal %s: %w", path, err)
	}
	about, err := layout.about(s)
	if err != nil {
		return m, fmt.Errorf("mending the journal %s: %w", path, err)
	}
	r := newRecovery(ctx, s, layout, about)
	m = r.run()
	if r.empty() {
		return m, fmt.Errorf("mending the journal %s: %w", path, ErrDamaged)
	}
	fresh, err := r.write(path, how, m)
	if err != nil {
		return m, fmt.Errorf("mending the journal %s: %w", path, err)
	}
	if m.Kept, err = swap(path, fresh, how); err != nil {
		return m, fmt.Errorf("mending the journal %s: %w", path, errors.Join(err, os.Remove(fresh)))
	}
	return m, nil
}

// readThrough reads a file as far as the disk lets it: what cannot be read of it comes
// as zeros. Its end may be another than the disk says when it is cut short meanwhile.
func readThrough(ctx context.Context, f *os.File) ([]byte, error) {
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	data := make([]byte, info.Size())
	for at := 0; at < len(data); {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		part := data[at:min(at+1<<20, len(data))]
		n, err := f.ReadAt(part, int64(at))
		switch {
		case err == nil:
			at += len(part)
		case errors.Is(err, io.EOF):
			return data[:at+n], nil
		default: // go on behind the sector that failed, 512 bytes or a multiple of them
			at = (at+n)/512*512 + 512
		}
	}
	return data, nil
}

// write puts what was found into a new file beside path.
func (r *recovery) write(path string, how Mending, m Mended) (fresh string, err error) {
	dir, err := os.MkdirTemp(filepath.Dir(path), ".mend-*")
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	fresh = filepath.Join(dir, "fresh.db")
	if err := Create(fresh, r.layout); err != nil {
		return "", err
	}
	st, err := Open(fresh, r.layout, Options{})
	if err != nil {
		return "", err
	}
	err = st.Update(func(t *Tx) error {
		for name, values := range r.sound {
			b := t.tx.Bucket([]byte(name))
			for key, v := range values {
				if err := b.Put([]byte(key), v); err != nil {
					return err
				}
			}
		}
		// What only a newer program can read keeps its links, which are made anew for the rest.
		for _, p := range r.s.pairs[BucketLinks] {
			if bytes.Equal(p.value, linkSum(p.key)) {
				if err := t.tx.Bucket(bucketLinks).Put(p.key, p.value); err != nil {
					return err
				}
			}
		}
		meta := t.tx.Bucket(bucketMeta)
		if err := meta.Put(keySchema, binary.BigEndian.AppendUint64(nil, r.about.schema)); err != nil {
			return err
		}
		if err := t.setCursor(r.about.cursor); err != nil {
			return err
		}
		if _, err := t.RebuildLinks(r.ctx, func(Ref, error) {}); err != nil {
			return err
		}
		if how.Finish == nil {
			return nil
		}
		return how.Finish(t, m)
	})
	if err := errors.Join(err, st.Close()); err != nil {
		return "", err
	}
	if how.Verify != nil {
		if err := how.Verify(r.ctx, fresh); err != nil {
			return "", err
		}
	}
	whole := path + ".mended"
	return whole, os.Rename(fresh, whole)
}

// swap puts the new file in the place of the damaged one and keeps that. At every
// moment one of them lies at path.
func swap(path, fresh string, how Mending) (kept string, err error) {
	if err := os.MkdirAll(how.Aside, 0o755); err != nil {
		return "", err
	}
	stamp := how.At.Format("2006-01-02 150405")
	for n := 1; ; n++ {
		kept = filepath.Join(how.Aside, fmt.Sprintf("damaged %s.db", stamp))
		if n > 1 {
			kept = filepath.Join(how.Aside, fmt.Sprintf("damaged %s %d.db", stamp, n))
		}
		err = os.Link(path, kept)
		if !errors.Is(err, os.ErrExist) {
			break
		}
	}
	if err != nil { // a file system without links
		if err := copyFile(path, kept); err != nil {
			return "", err
		}
	}
	if err := syncDir(how.Aside); err != nil {
		return "", err
	}
	if err := os.Rename(fresh, path); err != nil {
		return "", err
	}
	return kept, syncDir(filepath.Dir(path))
}

func copyFile(from, to string) error {
	data, err := os.ReadFile(from)
	if err != nil {
		return err
	}
	f, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Sync(), f.Close())
}
