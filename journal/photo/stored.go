package photo

import (
	"bytes"
	"context"
	"crypto/sha256"
	"image"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"twinloaf/journal/plainfile"
)

// Stored is one photo of the store.
type Stored struct {
	Hash   Hash
	Format Format
	Size   int64 // in bytes
	// Modified is when it was put there.
	Modified time.Time
}

// Open opens a stored original to be read. The caller closes it. It does not
// check the content; Verify does.
func (f *Files) Open(h Hash) (io.ReadSeekCloser, Format, error) {
	path, format, err := f.find(h)
	if err != nil {
		return nil, Unknown, err
	}
	file, err := f.fs.Open(path)
	if err != nil {
		return nil, Unknown, refuseRead(h.String(), err)
	}
	return file, format, nil
}

// Verify reads a stored original and compares it with its hash. It gives
// ErrMissing or ErrAltered when it is gone or no longer the same.
func (f *Files) Verify(ctx context.Context, h Hash) error {
	r, _, err := f.Open(h)
	if err != nil {
		return err
	}
	defer r.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, plainfile.WithContext(ctx, r)); err != nil {
		return readFailure(ctx, h.String(), err)
	}
	if Hash(sum.Sum(nil)) != h {
		return refuse(h.String(), ErrAltered, nil)
	}
	return nil
}

// List gives every photo of the store in the order of their hashes. Files that
// the store did not name are passed over.
func (f *Files) List(ctx context.Context) ([]Stored, error) {
	shards, err := os.ReadDir(f.dir)
	if err != nil {
		return nil, refuseRead(f.dir, err)
	}
	var all []Stored
	for _, s := range shards {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if !s.IsDir() || len(s.Name()) != 2 {
			continue
		}
		entries, err := os.ReadDir(filepath.Join(f.dir, s.Name()))
		if err != nil {
			return nil, refuseRead(s.Name(), err)
		}
		for _, e := range entries {
			one, ok := storedName(s.Name(), e.Name())
			if !ok || !e.Type().IsRegular() {
				continue
			}
			info, err := e.Info()
			if err != nil {
				return nil, refuseRead(e.Name(), err)
			}
			one.Size, one.Modified = info.Size(), info.ModTime()
			all = append(all, one)
		}
	}
	slices.SortFunc(all, func(a, b Stored) int { return bytes.Compare(a.Hash[:], b.Hash[:]) })
	return all, nil
}

// storedName reads a file's name back into what it names.
func storedName(shard, name string) (Stored, bool) {
	ext := filepath.Ext(name)
	digits := strings.TrimSuffix(name, ext)
	h, err := ParseHash(digits)
	format, known := FormatOf(ext)
	return Stored{Hash: h, Format: format}, err == nil && known && h.String() == digits && digits[:2] == shard
}

// DecodeUpright gives a stored photo upright, its longer side at most maxSide
// pixels; maxSide <= 0 asks for its full size. It waits while others decode, and
// checks the original against its hash on the way.
func (f *Files) DecodeUpright(ctx context.Context, h Hash, maxSide int) (*image.RGBA, error) {
	var img *image.RGBA
	err := f.withPicture(ctx, h, func(p *Picture) { img = p.Fit(maxSide) })
	return img, err
}

// withPicture decodes a stored photo and hands it to do within the same turn, so
// that no more pictures are in memory than there are turns.
func (f *Files) withPicture(ctx context.Context, h Hash, do func(*Picture)) error {
	r, _, err := f.Open(h)
	if err != nil {
		return err
	}
	defer r.Close()
	meta, err := Inspect(h.String(), r, f.limits)
	if err != nil {
		return err
	}
	done, err := f.decoding(ctx, meta.Width*meta.Height)
	if err != nil {
		return err
	}
	defer done()
	if _, err := r.Seek(0, io.SeekStart); err != nil {
		return refuseRead(h.String(), err)
	}
	data, err := f.readAll(ctx, h.String(), r)
	if err != nil {
		return err
	}
	if sha256.Sum256(data) != h {
		return refuse(h.String(), ErrAltered, nil)
	}
	p, err := Decode(h.String(), data, f.limits)
	if err != nil {
		return err
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	do(p)
	return nil
}
