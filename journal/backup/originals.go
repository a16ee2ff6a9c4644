package backup

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"sync/atomic"

	"twinloaf/journal/photo"
	"twinloaf/journal/plainfile"
)

// A tally tells how many bytes of how many are copied; it may be asked while they are.
type tally struct{ done, all atomic.Int64 }

func (t *tally) reset() {
	t.done.Store(0)
	t.all.Store(0)
}

// Write counts what is written.
func (t *tally) Write(p []byte) (int, error) {
	t.done.Add(int64(len(p)))
	return len(p), nil
}

// putOriginals gives each original a place below to, from its place below from: a
// second name on the same disk, a copy held against its hash on another. Where a disk
// knows no second names, stays leaves an original where it lies on it; else it is copied.
// Nothing is ever put over one that is there with as many bytes. What is put is on the
// disk when it returns; missing are those that could not be had from anywhere.
func putOriginals(ctx context.Context, fs FS, from, to string, all []Original, stays bool, t *tally) (missing []Original, err error) {
	var wanted []Original
	var bytes int64
	for _, o := range all {
		if err := ctx.Err(); err != nil {
			return missing, err
		}
		src, err := os.Stat(filepath.Join(from, o.name()))
		dst, there := os.Stat(filepath.Join(to, o.name()))
		switch {
		case there == nil && (err != nil || src.Size() == dst.Size()):
		case err != nil:
			missing = append(missing, o)
		default:
			wanted = append(wanted, o)
			bytes += src.Size()
		}
	}
	shards := map[string]bool{}
	copying := false
	for _, o := range wanted {
		if err := ctx.Err(); err != nil {
			return missing, err
		}
		src, dst := filepath.Join(from, o.name()), filepath.Join(to, o.name())
		if err := fs.MkdirAll(filepath.Dir(dst)); err != nil {
			return missing, err
		}
		shards[filepath.Dir(dst)] = true
		if !copying {
			err := link(fs, src, dst)
			if err == nil {
				continue
			}
			if stays && !otherDisk(err) {
				continue
			}
			copying = true
			if err := room(fs, to, bytes); err != nil {
				return missing, err
			}
			t.all.Add(bytes)
		}
		switch err := copyOriginal(ctx, fs, o.Hash, src, dst, t); {
		case errors.Is(err, photo.ErrAltered), errors.Is(err, os.ErrNotExist):
			missing = append(missing, o)
		case err != nil:
			return missing, err
		}
	}
	for shard := range shards {
		if err := fs.SyncDir(shard); err != nil {
			return missing, err
		}
	}
	if len(shards) > 0 {
		return missing, fs.SyncDir(to)
	}
	return missing, nil
}

// link gives a file a second name in one step, in place of what has it.
func link(fs FS, src, dst string) error {
	err := fs.Link(src, dst)
	if !errors.Is(err, os.ErrExist) {
		return err
	}
	aside := filepath.Join(filepath.Dir(dst), partPrefix+filepath.Base(dst))
	_ = fs.Remove(aside)
	if err := fs.Link(src, aside); err != nil {
		return err
	}
	return fs.Rename(aside, dst)
}

// copyOriginal copies an original that must have the hash h.
func copyOriginal(ctx context.Context, fs FS, h photo.Hash, src, dst string, t *tally) error {
	r, err := os.Open(src)
	if err != nil {
		return err
	}
	defer r.Close()
	return place(fs, dst, func(w io.Writer) error {
		sum := sha256.New()
		if _, err := io.Copy(io.MultiWriter(w, sum, t), plainfile.WithContext(ctx, r)); err != nil {
			return err
		}
		if photo.Hash(sum.Sum(nil)) != h {
			return fmt.Errorf("copying the original %s: %w", h, photo.ErrAltered)
		}
		return nil
	})
}

// room reports whether a disk has need bytes left, with some to spare for others.
func room(fs FS, dir string, need int64) error {
	const spare = 16 << 20
	left, err := fs.Free(dir)
	if err != nil {
		return err
	}
	if left < need+spare {
		return noRoom(dir, need+spare, left)
	}
	return nil
}

// contextWriter stops writing when its context ends.
type contextWriter struct {
	ctx context.Context
	w   io.Writer
}

// Write implements io.Writer.
func (c contextWriter) Write(p []byte) (int, error) {
	if err := c.ctx.Err(); err != nil {
		return 0, err
	}
	return c.w.Write(p)
}
